"""The picture in the eyepiece: its scale, its light, its colours, and which way round it lies."""

import attrs
import numpy as np
import pytest

from core.arrays import Values
from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.looks.picture.paint import Grid, painted
from core.looks.picture.sight import Sight, window_for
from core.looks.picture.stillness import Stillness
from core.looks.picture.subject import Subject, subject_at
from core.looks.picture.turn import Turn
from core.sky.bodies import Body
from core.words.eyepiece import PICTURE_LIMITS
from tests.core.looks.measured import window
from tests.core.looks.picture.kits import REFLECTOR, REFRACTOR, utc


def extent_px(picture: Values, axis: int) -> float:
    """Return the width of what stands out from the sky along an axis, pixels half lit and more."""
    line = picture.max(axis=axis)
    lit = np.flatnonzero(line > 0.15 * line.max())
    return float(lit[-1] - lit[0] + 1)


@pytest.mark.parametrize("pixel_arcsec", [0.1, 0.25, 1.0, 4.0])
def test_the_disc_is_to_scale_within_a_pixel(pixel_arcsec: float) -> None:
    subject = subject_at(Body.MARS, utc("2027-02-19T00:00:00"))
    disc = subject.disc
    # Turned so that the pole is on top: width and height are then the two diameters.
    grid = Grid(pixel_arcsec=pixel_arcsec, turn=Turn(up_angle_deg=disc.pole_angle_deg))

    picture = painted(subject, grid)

    assert abs(extent_px(picture, 0) - disc.equatorial_diameter_arcsec / pixel_arcsec) <= 1.0
    assert abs(extent_px(picture, 1) - disc.polar_diameter_arcsec / pixel_arcsec) <= 1.0


def test_a_full_disc_covers_the_area_of_its_ellipse() -> None:
    subject = subject_at(Body.URANUS, utc("2026-11-24T00:00:00"))
    disc = subject.disc
    area = np.pi / 4.0 * disc.equatorial_diameter_arcsec * disc.polar_diameter_arcsec
    across = []
    for pixel_arcsec in (0.02, 0.1, 0.5):
        picture = painted(subject, Grid(pixel_arcsec=pixel_arcsec))
        half = picture > 0.15 * picture.max()
        across.append(2.0 * np.sqrt(half.sum() * pixel_arcsec**2 / np.pi) / pixel_arcsec)
        assert abs(across[-1] - 2.0 * np.sqrt(area / np.pi) / pixel_arcsec) <= 1.5


@pytest.mark.parametrize("power", [24.0, 48.0, 150.0, 300.0])
def test_light_is_the_same_at_every_scale(jupiter: Subject, power: float) -> None:
    subject = attrs.evolve(jupiter, moons=())
    fine = painted(subject, Grid(pixel_arcsec=0.15))
    pixel_arcsec = 52.0 * 3600.0 / power / 400

    coarse = painted(subject, Grid(pixel_arcsec=pixel_arcsec))

    assert coarse.sum() * pixel_arcsec**2 == pytest.approx(fine.sum() * 0.15**2, rel=0.005)


@pytest.mark.parametrize("air_arcsec", [0.8, 1.45, 3.0])
def test_the_blur_keeps_the_planet_s_light(jupiter: Subject, air_arcsec: float) -> None:
    subject = attrs.evolve(jupiter, moons=())
    sight = Sight(subject=subject, scope=REFLECTOR, power=60, air_arcsec=air_arcsec)
    window_deg = 8.0
    sharp = painted(subject, Grid(pixel_arcsec=window_deg * 3600 / 60 / 400, turn=sight.turn))

    picture = window(sight, window_deg)

    assert picture.sum() == pytest.approx(sharp.sum(), rel=0.005)


def test_at_low_power_the_eye_is_the_limit_and_saturn_in_binoculars_is_a_longish_blur() -> None:
    """20x80 in April 2009: the ring, 2.9 arcsec across its width, cannot be told from the globe."""
    saturn = subject_at(Body.SATURN, utc("2009-04-15T21:00:00"))
    binoculars = Telescope(name="20x80", kind=TelescopeKind.FIXED, aperture_mm=80, power=20)
    large = Telescope(name="large", kind=TelescopeKind.REFLECTOR, aperture_mm=300, focal_length_mm=1500)

    def has_dark_space(scope: Telescope, power: float) -> bool:
        sight = Sight(
            subject=saturn,
            scope=scope,
            power=power,
            air_arcsec=0.8,
            zenith_angle_deg=saturn.disc.pole_angle_deg,
        )
        along = window(sight, 1.3 * sight.apparent_extent_deg, with_eye=True)[199:201].mean(axis=0)
        # From the middle outwards, the brightness falls all the way, or falls and rises again.
        return bool((np.diff(along[200:]) > 1e-3).any())

    assert not has_dark_space(binoculars, 20)
    assert has_dark_space(large, 250)


def test_more_power_is_bigger_but_softer(jupiter: Subject) -> None:
    low, high = (
        window(Sight(subject=jupiter, scope=REFLECTOR, power=power, air_arcsec=1.45), 4.0)
        for power in (60, 180)
    )

    def steepest(picture: Values) -> float:
        return float(np.abs(np.diff(picture[200])).max())

    assert (high > 0.1).sum() > 6 * (low > 0.1).sum()
    assert steepest(high) < 0.5 * steepest(low)


def test_thicker_air_blurs_the_belts_away(jupiter: Subject) -> None:
    def contrast(air_arcsec: float) -> float:
        picture = window(Sight(subject=jupiter, scope=REFLECTOR, power=150, air_arcsec=air_arcsec), 2.6)
        middle = picture[120:280, 190:210].mean(axis=1)
        return float(middle.max() - middle.min())

    assert contrast(0.6) > contrast(2.0) > contrast(6.0)


def test_an_obstruction_costs_contrast(jupiter: Subject) -> None:
    hidden = attrs.evolve(REFLECTOR, obstruction_mm=75)
    clear, dimmed = (
        window(Sight(subject=jupiter, scope=scope, power=150, air_arcsec=0.2), 2.6)
        for scope in (REFLECTOR, hidden)
    )

    assert np.std(np.diff(clear[100:300, 200])) > np.std(np.diff(dimmed[100:300, 200]))


def test_a_window_has_room_for_the_ring(saturn: Subject) -> None:
    sight = Sight(subject=saturn, scope=REFLECTOR, power=150, air_arcsec=1.0)

    assert window_for(saturn, 150) > sight.apparent_extent_deg
    # The widest window is the Moon's, of which only a part is shown.
    assert window_for(subject_at(Body.MOON, utc("2026-11-18T03:00:00")), 300) == 12.0


def test_the_zenith_s_side_of_the_colours_is_used_only_where_it_is_known(jupiter: Subject) -> None:
    known = Sight(
        subject=jupiter, scope=REFLECTOR, power=100, air_arcsec=1.0, spread_arcsec=2.0, zenith_angle_deg=30.0
    )
    unknown = attrs.evolve(known, zenith_angle_deg=None)

    assert known.blurring.spread_arcsec == 2.0
    # Upside down, the zenith is at the bottom.
    assert known.blurring.spread_direction == pytest.approx((0.0, -1.0), abs=1e-12)
    assert unknown.blurring.spread_arcsec == 0.0


def test_the_colours_stand_apart_along_the_vertical(jupiter: Subject) -> None:
    """Air bends blue light more, so that a low planet, seen erect, has a blue edge on top."""
    naked_eye = attrs.evolve(REFRACTOR, diagonal=Diagonal.ERECT)
    sight = Sight(
        subject=attrs.evolve(jupiter, moons=()),
        scope=naked_eye,
        power=150,
        air_arcsec=1.0,
        spread_arcsec=3.0,
        zenith_angle_deg=0.0,
    )
    width_deg = 1.3 * sight.apparent_extent_deg
    pixel_arcsec = width_deg * 3600 / 150 / 400

    coloured = sight.coloured_window(width_deg)

    places = np.arange(400)
    whole = coloured.sum(axis=(0, 1))
    red, green, blue = -(coloured * places[:, None, None]).sum(axis=(0, 1)) / whole * pixel_arcsec
    # The middles of the outer thirds, 617 and 483 nm, are 0.64 of the whole spread apart by the index of air
    # in Filippenko 1982 (PASP 94, 715, eq. 1), worked out by hand: 279.43 - 276.73 of 280.53 - 276.31.
    assert blue - red == pytest.approx(0.64 * 3.0, abs=0.1)
    assert blue - green > green - red
    across = (coloured * places[None, :, None]).sum(axis=(0, 1)) / whole * pixel_arcsec
    assert np.ptp(across) < 0.02
    assert window(sight, width_deg).sum() == pytest.approx(coloured.sum() / 3.0, rel=0.001)


def test_without_a_spread_there_are_no_colours(jupiter: Subject) -> None:
    picture = Sight(subject=jupiter, scope=REFRACTOR, power=100, air_arcsec=1.0).coloured_window(3.0)

    assert np.ptp(picture, axis=2).max() == 0.0


def test_a_calm_moment_shows_more(jupiter: Subject) -> None:
    mostly = Sight(subject=jupiter, scope=REFLECTOR, power=150, air_arcsec=2.0)
    calm = attrs.evolve(mostly, stillness=Stillness.CALM)

    def unevenness(sight: Sight) -> float:
        return float(np.abs(np.diff(window(sight, 2.6)[150:250, 190:210].mean(axis=1), n=2)).sum())

    assert unevenness(calm) > 1.1 * unevenness(mostly)


def test_the_enlarged_picture_leaves_the_eye_s_own_blur_out(jupiter: Subject) -> None:
    sight = Sight(subject=jupiter, scope=REFLECTOR, power=48, air_arcsec=0.5)

    enlarged, as_seen = window(sight, 1.0), window(sight, 1.0, with_eye=True)

    assert np.abs(np.diff(enlarged, axis=0)).max() > 2.0 * np.abs(np.diff(as_seen, axis=0)).max()


def test_a_mask_counts_as_the_aperture_and_hides_nothing(jupiter: Subject) -> None:
    masked = attrs.evolve(REFLECTOR, mask_mm=60)
    blurring = Sight(subject=jupiter, scope=masked, power=100, air_arcsec=1.0).blurring

    assert (blurring.aperture_mm, blurring.obstruction_ratio) == (60, 0.0)


def test_pictures_are_kept_and_cannot_be_changed(jupiter: Subject) -> None:
    sight = Sight(subject=jupiter, scope=REFLECTOR, power=100, air_arcsec=1.0)

    first = sight.coloured_window(3.0)

    assert sight.coloured_window(3.0) is first
    assert not first.flags.writeable


def test_the_limits_of_the_picture_are_said() -> None:
    words = " ".join(PICTURE_LIMITS)

    for named in ("motion", "calm moment", "dim", "rule of thumb", "Your own eye", "45 cm"):
        assert named in words
