"""What is drawn in the eyepiece: phases, moons, shadows, the red spot, the ring."""

import attrs
import numpy as np
import pytest

from core.arrays import Values
from core.looks.picture.paint import Grid, painted
from core.looks.picture.sight import Sight
from core.looks.picture.subject import Subject, subject_at
from core.looks.picture.turn import Turn, Turning
from core.sky.bodies import Body
from core.sky.moons import Moon
from tests.core.looks.measured import window
from tests.core.looks.picture.kits import REFLECTOR, REFRACTOR, utc


@pytest.fixture(scope="module")
def venus() -> Subject:
    # A crescent in the evening sky: the Sun is to the west of it.
    return subject_at(Body.VENUS, utc("2026-09-24T18:00:00"))


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
