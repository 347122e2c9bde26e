"""The blur of telescope and air against other makers' point spreads, and what must never change."""

import attrs
import numpy as np
import pytest
from astropy.modeling.functional_models import AiryDisk2D
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.special import j1, jv

from core.arrays import Floats, Values
from core.looks.picture.blur import Blurring, air_transfer, aperture_transfer, blurred
from core.looks.picture.stillness import MOTION_FOLLOWED
from tests.core.looks.measured import star_picture

PIXEL_ARCSEC = 0.025
SIZE = 801
RADIANS = np.pi / 180.0 / 3600.0
WAVELENGTH_MM = 550e-6


def profile(picture: Values) -> Floats:
    return np.asarray(picture[SIZE // 2, SIZE // 2 :], dtype=float)


def width(picture: Values) -> float:
    """Full width at half maximum, arcsec."""
    falling = profile(picture) / picture.max()
    return 2.0 * PIXEL_ARCSEC * float(np.interp(-0.5, -falling, np.arange(falling.size)))


def encircled(picture: Values, radius_arcsec: float) -> float:
    rows, columns = np.indices(picture.shape) - SIZE // 2
    distance = np.hypot(rows, columns) * PIXEL_ARCSEC
    # A pixel that the circle cuts counts for the part inside.
    share = np.clip(0.5 + (radius_arcsec - distance) / PIXEL_ARCSEC, 0.0, 1.0)
    return float((picture * share).sum() / picture.sum())


def airy(angle_arcsec: float, aperture_mm: float, hidden: float) -> float:
    """Amplitude of a round aperture less that of its obstruction, squared (Born and Wolf, ch. 8.6)."""
    x = np.pi * aperture_mm * angle_arcsec * RADIANS / WAVELENGTH_MM
    if x < 1e-9:
        return 1.0
    amplitude = 2.0 * j1(x) / x
    if hidden:
        amplitude = (amplitude - hidden**2 * 2.0 * j1(hidden * x) / (hidden * x)) / (1.0 - hidden**2)
    return float(amplitude**2)


@pytest.mark.parametrize("aperture_mm", [60.0, 100.0, 150.0])
def test_a_clear_aperture_gives_astropy_s_airy_disc(aperture_mm: float) -> None:
    first_dark_arcsec = 1.2196698912665045 * WAVELENGTH_MM / aperture_mm / RADIANS
    model = AiryDisk2D(amplitude=1.0, x_0=0.0, y_0=0.0, radius=first_dark_arcsec)
    ours = star_picture(SIZE, PIXEL_ARCSEC, Blurring(aperture_mm=aperture_mm))
    offsets = np.arange(0.0, 2.5 * first_dark_arcsec, PIXEL_ARCSEC)

    theirs = model(offsets, np.zeros_like(offsets))

    np.testing.assert_allclose(profile(ours)[: offsets.size] / ours.max(), theirs, atol=0.004)
    assert width(ours) == pytest.approx(2.0 * brentq(lambda r: model(r, 0.0) - 0.5, 0.01, 5.0), rel=0.02)


@pytest.mark.parametrize(
    ("aperture_mm", "hidden"), [(100.0, 0.0), (150.0, 0.25), (200.0, 0.33), (125.0, 0.5)]
)
def test_width_and_light_within_a_circle_with_an_obstruction(aperture_mm: float, hidden: float) -> None:
    ours = star_picture(SIZE, PIXEL_ARCSEC, Blurring(aperture_mm=aperture_mm, obstruction_ratio=hidden))
    airy_radius = 1.22 * WAVELENGTH_MM / aperture_mm / RADIANS
    # All the light: a clear aperture's picture holds area / wavelength squared; no need to go to infinity.
    area = np.pi / 4.0 * aperture_mm**2 * (1.0 - hidden**2)
    whole = WAVELENGTH_MM**2 / area / RADIANS**2

    assert width(ours) == pytest.approx(
        2.0 * brentq(lambda r: airy(r, aperture_mm, hidden) - 0.5, 0.01, airy_radius), rel=0.02
    )
    for radius in (0.6 * airy_radius, 1.0 * airy_radius, 2.0 * airy_radius):
        inside, _ = quad(lambda r: airy(r, aperture_mm, hidden) * 2.0 * np.pi * r, 0.0, radius)
        assert encircled(ours, radius) == pytest.approx(inside / whole, rel=0.02)


def test_air_alone_gives_the_width_that_it_is_told_by() -> None:
    # Through a wide aperture hardly anything but the air is left.
    ours = star_picture(SIZE, PIXEL_ARCSEC, Blurring(aperture_mm=2000, air_arcsec=2.0))

    assert width(ours) == pytest.approx(2.0, rel=0.02)


def test_the_eye_alone_gives_the_width_that_it_is_told_by() -> None:
    ours = star_picture(SIZE, PIXEL_ARCSEC, Blurring(aperture_mm=2000, eye_arcsec=1.5))

    assert width(ours) == pytest.approx(1.5, rel=0.02)


@pytest.mark.parametrize("air_arcsec", [0.8, 1.45, 3.0])
def test_light_within_a_circle_follows_kolmogorov_s_long_exposure(air_arcsec: float) -> None:
    """The Hankel transform of Fried's transfer function, integrated by scipy.

    The 2 m aperture that it is seen through adds its own: Goodman, Introduction to Fourier Optics, 6.3.
    """
    ours = star_picture(SIZE, PIXEL_ARCSEC, Blurring(aperture_mm=2000, air_arcsec=air_arcsec))

    def light_within(radius_arcsec: float) -> float:
        def density(frequency: float) -> float:
            shift = frequency * WAVELENGTH_MM / 2000.0 / RADIANS
            aperture = 2.0 / np.pi * (np.arccos(shift) - shift * np.sqrt(1.0 - shift**2))
            passed = aperture * np.exp(-3.44 * (frequency * air_arcsec / 0.9759) ** (5.0 / 3.0))
            return float(passed * j1(2.0 * np.pi * frequency * radius_arcsec) * 2.0 * np.pi * radius_arcsec)

        return quad(density, 0.0, 3.0 / air_arcsec, limit=200)[0]

    for radius in (0.5 * air_arcsec, air_arcsec):
        assert encircled(ours, radius) == pytest.approx(light_within(radius), rel=0.02)


def test_colours_spread_along_the_zenith_only() -> None:
    sharp = Blurring(aperture_mm=400, air_arcsec=0.3)
    plain = star_picture(SIZE, PIXEL_ARCSEC, sharp)
    spread = star_picture(SIZE, PIXEL_ARCSEC, attrs.evolve(sharp, spread_arcsec=2.0))

    def half_width(line: Values) -> float:
        return PIXEL_ARCSEC * float((line > line.max() / 2.0).sum())

    # Upwards is the usual direction: there a point becomes a line of 2 arcsec.
    assert half_width(spread.sum(axis=1)) == pytest.approx(2.0, rel=0.03)
    assert half_width(spread.sum(axis=0)) == pytest.approx(
        half_width(plain.sum(axis=0)), abs=2 * PIXEL_ARCSEC
    )


def test_a_slanting_spread_slants_the_way_it_is_told() -> None:
    slanting = Blurring(aperture_mm=400, air_arcsec=0.3, spread_arcsec=2.0, spread_direction=(0.6, 0.8))

    picture = star_picture(SIZE, PIXEL_ARCSEC, slanting)

    middle = SIZE // 2
    upper_right, upper_left = picture[:middle, middle + 1 :].sum(), picture[:middle, :middle].sum()
    assert upper_right > 3.0 * upper_left


@settings(max_examples=30, deadline=None)
@given(
    aperture_mm=st.floats(20, 2000),
    obstruction_ratio=st.floats(0, 0.6),
    air_arcsec=st.floats(0, 8),
    pixel_arcsec=st.floats(0.05, 10),
)
@example(aperture_mm=20.0, obstruction_ratio=0.0, air_arcsec=5e-324, pixel_arcsec=1.0)
def test_no_light_is_lost_or_made(
    aperture_mm: float, obstruction_ratio: float, air_arcsec: float, pixel_arcsec: float
) -> None:
    picture = np.zeros((96, 96), dtype=np.float32)
    picture[40:56, 44:52] = 1.0

    spread = blurred(
        picture,
        pixel_arcsec,
        Blurring(aperture_mm=aperture_mm, obstruction_ratio=obstruction_ratio, air_arcsec=air_arcsec),
    )

    assert spread.sum() == pytest.approx(picture.sum(), rel=0.005)
    assert spread.max() <= picture.max() * 1.2  # hardly any ringing where pixels are coarse


def test_more_air_is_never_sharper() -> None:
    peaks = [
        star_picture(SIZE, PIXEL_ARCSEC, Blurring(aperture_mm=200, air_arcsec=air)).max()
        for air in (0.0, 0.5, 1.0, 2.0, 4.0)
    ]

    assert peaks == sorted(peaks, reverse=True)


def tilt_variance(lengths_across: float) -> float:
    """Return the variance of the one-axis tilt term over a round aperture, radians squared of phase.

    Integrated here from Kolmogorov's spectrum, filtered by the tilt term (Noll 1976, J. Opt. Soc. Am. 66,
    207, eqs. 8 and 22); ``lengths_across`` is the aperture over Fried's length.
    """

    def density(k: float) -> float:  # k in cycles per aperture radius
        filtered = np.sqrt(2.0) * jv(2, 2.0 * np.pi * k) / (np.pi * k)
        return float(0.023 * k ** (-11.0 / 3.0) * 2.0 * np.pi * k * filtered**2)

    near, _ = quad(density, 1e-9, 1.0, limit=500)
    far, _ = quad(density, 1.0, 60.0, limit=2000)
    return float((lengths_across / 2.0) ** (5.0 / 3.0) * (near + far))


def test_the_spectrum_gives_noll_s_tilt() -> None:
    """Noll 1976, table IV: removing one tilt lowers the residual from 1.0299 to 0.582."""
    assert tilt_variance(1.0) == pytest.approx(1.0299 - 0.582, rel=0.02)


@pytest.mark.parametrize("lengths_across", [1.0, 2.0, 3.5])
@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 0.7])
@pytest.mark.parametrize("followed", [0.5, 1.0])
def test_a_short_exposure_lacks_the_motion_of_the_whole_image(
    lengths_across: float, share: float, followed: float
) -> None:
    """Fried's short exposure against tilt taken out of the long one's structure function.

    A tilt of coefficient a moves the phase between points so far apart, along it, by 4 a times their
    distance over the aperture. Fried holds tilt and the rest independent, which costs 4 %.
    """
    air_arcsec, aperture_mm = 1.0, lengths_across * 0.9759 * WAVELENGTH_MM / RADIANS
    frequency = np.array([share * aperture_mm / WAVELENGTH_MM * RADIANS])
    moved = 16.0 * tilt_variance(lengths_across) * share**2
    whole = 6.88 * (share * lengths_across) ** (5.0 / 3.0)

    passed = air_transfer(frequency, air_arcsec, aperture_mm=aperture_mm, motion_followed=followed)

    assert -2.0 * np.log(passed[0]) == pytest.approx(whole - followed * moved, abs=0.05 * moved)


@settings(max_examples=200, deadline=None)
@given(
    frequency=st.floats(0.01, 3.0),
    aperture_mm=st.floats(20, 1000),
    wider=st.floats(1.0, 2.0),
    air_arcsec=st.floats(0.1, 8.0),
    worse=st.floats(1.0, 3.0),
)
def test_a_wider_aperture_or_better_air_never_shows_less(
    frequency: float, aperture_mm: float, wider: float, air_arcsec: float, worse: float
) -> None:
    def passed(aperture_mm: float, air_arcsec: float) -> float:
        at = np.array([frequency])
        air = air_transfer(at, air_arcsec, aperture_mm=aperture_mm, motion_followed=MOTION_FOLLOWED)
        return float((aperture_transfer(at, aperture_mm=aperture_mm) * air)[0])

    here = passed(aperture_mm, air_arcsec)
    assert passed(aperture_mm * wider, air_arcsec) >= here * 0.995 - 1e-9
    assert passed(aperture_mm, air_arcsec * worse) <= here + 1e-9
