"""The picture in the eyepiece: its scale, its light, which way round it lies, and what is drawn in it."""

from datetime import UTC, datetime

import attrs
import numpy as np
import pytest

from core.arrays import Values
from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.looks.picture.paint import Grid, painted
from core.looks.picture.sight import Sight, window_for
from core.looks.picture.stillness import Stillness
from core.looks.picture.subject import Subject, subject_at
from core.looks.picture.turn import Turn, Turning
from core.sky.bodies import Body
from core.sky.moons import Moon
from core.words.eyepiece import PICTURE_LIMITS
from tests.core.looks.measured import window

REFLECTOR = Telescope(
    name="six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200, obstruction_mm=35
)
REFRACTOR = Telescope(
    name="small", kind=TelescopeKind.REFRACTOR, aperture_mm=80, focal_length_mm=900, diagonal=Diagonal.STAR
)


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@pytest.fixture(scope="module")
def jupiter() -> Subject:
    # Io's shadow is on the disc, Io itself to the east of it.
    return subject_at(Body.JUPITER, utc("2026-11-24T03:00:00"), red_spot_longitude_deg=330.0)


@pytest.fixture(scope="module")
def saturn() -> Subject:
    return subject_at(Body.SATURN, utc("2029-11-24T03:00:00"))


@pytest.fixture(scope="module")
def venus() -> Subject:
    # A crescent in the evening sky: the Sun is to the west of it.
    return subject_at(Body.VENUS, utc("2026-09-24T18:00:00"))


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


def bright_side(picture: Values) -> tuple[float, float]:
    """Rightward and upward from the middle to the balance point of the light."""
    rows, columns = np.indices(picture.shape) - (picture.shape[0] - 1) / 2.0
    return float((picture * columns).sum()), float(-(picture * rows).sum())


@pytest.mark.parametrize(
    ("turning", "right_is_lit"),
    [(Turning.ERECT, True), (Turning.UPSIDE_DOWN, False), (Turning.MIRRORED, False)],
)
def test_the_crescent_of_an_evening_venus_points_as_observers_see_it(
    venus: Subject, turning: Turning, right_is_lit: bool
) -> None:
    """To the naked eye, north up, west and with it the Sun are to the right."""
    picture = painted(venus, Grid(pixel_arcsec=0.3, turn=Turn(turning=turning)))

    right, _ = bright_side(picture)

    assert (right > 0.0) is right_is_lit


def test_the_lit_part_of_a_disc_is_what_the_phase_says(venus: Subject) -> None:
    picture = painted(venus, Grid(pixel_arcsec=0.15))
    lit_arcsec2 = float((picture > 0.0).sum()) * 0.15**2
    disc_arcsec2 = np.pi / 4.0 * venus.disc.equatorial_diameter_arcsec**2

    assert lit_arcsec2 / disc_arcsec2 == pytest.approx(venus.disc.illuminated_fraction, abs=0.02)


def test_the_shadow_of_a_moon_is_a_dark_dot_where_it_was_computed(jupiter: Subject) -> None:
    shadow = next(moon for moon in jupiter.moons if moon.shadow_x_radii is not None)
    radius_px = jupiter.disc.equatorial_diameter_arcsec / 2.0 / 0.15
    grid = Grid(pixel_arcsec=0.15, turn=Turn(up_angle_deg=jupiter.disc.pole_angle_deg))

    picture = painted(jupiter, grid)

    assert shadow.shadow_x_radii is not None
    assert shadow.shadow_y_radii is not None
    # Pole up and erect: west is to the right, north on top.
    column = round(199.5 + shadow.shadow_x_radii * radius_px)
    row = round(199.5 - shadow.shadow_y_radii * radius_px)
    assert picture[row, column] < 0.01
    assert picture[row, column + 12] > 0.3


def test_moons_stand_beside_the_planet_as_computed(jupiter: Subject) -> None:
    sight = Sight(subject=jupiter, scope=REFRACTOR, power=100, air_arcsec=1.0)
    places = {moon: (right, up) for moon, right, up in sight.moon_places_arcsec()}
    io = next(moon for moon in jupiter.moons if moon.moon is Moon.IO)
    distance = np.hypot(io.x_radii, io.y_radii) * jupiter.disc.equatorial_diameter_arcsec / 2.0

    right, up = places["Io"]

    assert np.hypot(right, up) == pytest.approx(distance, rel=1e-6)
    # Io is to the east, which a star diagonal shows to the right.
    assert io.x_radii < 0.0
    assert right > 0.0


def test_a_moon_behind_jupiter_is_not_drawn() -> None:
    # Io was behind Jupiter from 19:40 on (IMCCE's predictions have it reappear on 2016-01-10 at 15:24).
    hidden = subject_at(Body.JUPITER, utc("2016-01-10T14:00:00"))
    io = next(moon for moon in hidden.moons if moon.moon is Moon.IO)

    assert not io.is_visible
    assert "Io" not in {
        moon
        for moon, _, _ in Sight(
            subject=hidden, scope=REFLECTOR, power=100, air_arcsec=1.0
        ).moon_places_arcsec()
    }


def test_the_red_spot_is_drawn_where_its_longitude_puts_it(jupiter: Subject) -> None:
    middle = jupiter.disc.central_meridian_deg("II")
    assert middle is not None
    grid = Grid(pixel_arcsec=0.15, turn=Turn(up_angle_deg=jupiter.disc.pole_angle_deg))
    plain = painted(attrs.evolve(jupiter, red_spot_longitude_deg=None, moons=()), grid)

    def dip(longitude_deg: float) -> float:
        spotted = painted(attrs.evolve(jupiter, red_spot_longitude_deg=longitude_deg % 360.0, moons=()), grid)
        columns = np.flatnonzero((np.abs(spotted - plain) > 0.02).any(axis=0))
        return float(columns.mean()) - 199.5 if columns.size else float("nan")

    assert abs(dip(middle)) < 3.0
    # What has passed the middle has gone on to the west, the right; its longitude is the smaller one.
    assert dip(middle - 30.0) > 40.0
    assert dip(middle + 30.0) < -40.0
    assert np.isnan(dip(middle + 180.0))


def test_the_near_side_of_the_ring_passes_before_the_globe(saturn: Subject) -> None:
    assert saturn.ring is not None
    grid = Grid(pixel_arcsec=0.15, turn=Turn(up_angle_deg=saturn.disc.pole_angle_deg))

    bare = painted(attrs.evolve(saturn, ring=None), grid)
    ringed = painted(saturn, grid)
    changed = np.abs(ringed - bare)[:, 195:205].sum(axis=1)
    north, south = changed[:200].sum(), changed[200:].sum()

    # The side that tilts towards us is opposite to the pole that does: the ring's shadow and its near side
    # cross the globe there.
    assert bool(north > south) is (saturn.ring.opening_deg < 0.0)


def test_an_edge_on_ring_shows_no_gap_and_hardly_a_ring() -> None:
    edge_on = subject_at(Body.SATURN, utc("2025-03-23T18:00:00"))
    assert edge_on.ring is not None

    picture = painted(edge_on, Grid(pixel_arcsec=0.2, turn=Turn(up_angle_deg=edge_on.disc.pole_angle_deg)))

    beyond = picture[:, : int(200 - 1.1 * edge_on.disc.equatorial_diameter_arcsec / 2.0 / 0.2)]
    assert beyond.max() < 0.05


def test_the_gap_between_the_rings_is_dark(saturn: Subject) -> None:
    assert saturn.ring is not None
    pixel_arcsec = 0.1
    grid = Grid(pixel_arcsec=pixel_arcsec, turn=Turn(up_angle_deg=saturn.disc.pole_angle_deg))

    along = painted(attrs.evolve(saturn), attrs.evolve(grid, size=600))[299]

    # From the middle outwards along the tip: B ring, gap, A ring, in km of the published edges.
    outer_px = saturn.ring.major_axis_arcsec / 2.0 / pixel_arcsec
    b_ring, gap, a_ring = (
        along[round(299.5 + outer_px * km / 136_770)] for km in (110_000, 119_800, 129_000)
    )
    assert gap < 0.2 * a_ring < 0.2 * b_ring


def test_a_moon_wider_than_the_window_is_looked_at_where_day_meets_night() -> None:
    moon = subject_at(Body.MOON, utc("2026-11-18T03:00:00"))

    picture = window(Sight(subject=moon, scope=REFLECTOR, power=150, air_arcsec=1.0), 6.0)

    assert picture.min() < 0.01
    assert picture.max() > 0.1


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
