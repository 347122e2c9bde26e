"""Outlines to draw in, against published figures and astropy."""

from datetime import UTC, datetime

import numpy as np
import pytest
from astropy import units as u
from astropy.coordinates import get_body
from astropy.time import Time
from astropy.utils import iers

from core.looks.outline import Line, Outline, outline_of
from core.looks.picture.subject import subject_at
from core.looks.picture.turn import UNTURNED, Turn, Turning
from core.sky.bodies import Body

# With celestial north up and east to the left, as to the naked eye.
ERECT = UNTURNED

# The globe's radii: 60,268 and 54,364 km (WGCCRE 2015); the outer edge of the ring as in core.sky.ring.
SATURN_FLATTENING = 1.0 - 54_364 / 60_268
JUPITER_FLATTENING = 0.06487  # Astronomical Almanac


def at(year: int, month: int, day: int, hour: int = 0) -> datetime:
    return datetime(year, month, day, hour, tzinfo=UTC)


def outline(body: Body, time: datetime, turn: Turn = ERECT) -> Outline:
    return outline_of(subject_at(body, time), turn)


def points(which: Outline) -> Line:
    return np.concatenate(which.solid)


def area(*lines: Line) -> float:
    """Return the area that lines, one after another, go round."""
    x, y = np.concatenate(lines).T
    return abs(float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)))) / 2.0


def seen_by_astropy(body: Body, time: datetime) -> tuple[float, float]:
    """Return the illuminated fraction, and the position angle of the bright limb in degrees."""
    with iers.conf.set_temp("auto_download", False):
        moment = Time(time)
        planet, sun = get_body(body.value, moment), get_body("sun", moment)
        elongation, far, own = planet.separation(sun).rad, sun.distance.au, planet.distance.au
        phase = np.arctan2(far * np.sin(elongation), own - far * np.cos(elongation))
        angle = planet.position_angle(sun).to_value(u.deg)
    return float((1.0 + np.cos(phase)) / 2.0), float(angle)


@pytest.mark.parametrize(
    ("body", "time"),
    [
        (Body.VENUS, at(2026, 9, 20)),
        (Body.VENUS, at(2026, 12, 5)),
        (Body.MERCURY, at(2026, 11, 20)),
        (Body.MOON, at(2026, 12, 17, 18)),
        (Body.MOON, at(2026, 12, 3, 5)),
        (Body.MARS, at(2026, 11, 10)),
    ],
)
def test_the_lit_part_is_as_large_and_lies_as_the_sun_does(body: Body, time: datetime) -> None:
    drawn = outline(body, time)
    (bright, terminator), (dark,) = drawn.solid, drawn.faint
    fraction, towards_deg = seen_by_astropy(body, time)

    lit = area(bright, terminator[::-1])
    right, up = bright[len(bright) // 2]
    away = abs((np.degrees(np.arctan2(-right, up)) - towards_deg + 180.0) % 360.0 - 180.0)

    assert lit / area(bright, dark[::-1]) == pytest.approx(fraction, abs=0.004)
    assert away < 0.5


def test_the_waxing_moon_is_lit_on_the_right_for_the_north() -> None:
    # First quarter on 17 December 2026 (Astronomical Almanac, from memory).
    bright = outline(Body.MOON, at(2026, 12, 17, 6)).solid[0]

    assert bright[len(bright) // 2, 0] > 0.85 * np.abs(bright).max()


def test_a_star_diagonal_has_it_lit_on_the_left() -> None:
    bright = outline(Body.MOON, at(2026, 12, 17, 6), Turn(turning=Turning.MIRRORED)).solid[0]

    assert bright[len(bright) // 2, 0] < -0.85 * np.abs(bright).max()


def test_jupiter_is_flattened_along_its_pole() -> None:
    drawn = outline(Body.JUPITER, at(2027, 2, 10))
    (limb,) = drawn.solid
    pole = np.array(drawn.pole)
    along, across = limb @ pole, limb @ np.array([-pole[1], pole[0]])

    # Its pole leans by at most 3 degrees, which takes next to nothing of that.
    assert 1.0 - np.ptp(along) / np.ptp(across) == pytest.approx(JUPITER_FLATTENING, abs=0.0005)


def test_neptune_and_uranus_are_whole() -> None:
    for body in (Body.URANUS, Body.NEPTUNE):
        drawn = outline(body, at(2026, 12, 5))
        assert len(drawn.solid) == 1
        assert drawn.faint == ()


# Latitude of the Earth above the ring: Nicholson 1994, as in tests/published/data; for October 2017
# 26.98 degrees, the widest of that cycle (almanacs; from memory).
@pytest.mark.parametrize(("time", "opening_deg"), [(at(1995, 11, 17), 2.673), (at(2017, 10, 16), 26.98)])
def test_the_ring_is_as_open_as_published(time: datetime, opening_deg: float) -> None:
    drawn = outline(Body.SATURN, time)
    pole = np.array(drawn.pole)
    along, across = points(drawn) @ pole, points(drawn) @ np.array([-pole[1], pole[0]])
    far_out = np.abs(across) < 0.2  # the ring in the middle of its near half
    near = np.abs(along[far_out])

    width = np.ptp(across)
    assert np.min(np.abs(near - width / 2.0 * np.sin(np.radians(opening_deg)))) < 0.02 * width


def test_the_near_half_of_the_ring_passes_before_the_globe() -> None:
    # In 2017 the north pole leaned towards us: the ring crossed the southern half of the globe and hid its
    # edge there, and beyond the northern edge only its outermost part was seen (any photograph of that year).
    drawn = outline(Body.SATURN, at(2017, 10, 16))
    pole = np.array(drawn.pole)
    lines = [np.column_stack((line @ np.array([-pole[1], pole[0]]), line @ pole)) for line in drawn.solid]
    whole = np.concatenate(lines)
    middle = whole[np.abs(whole[:, 0]) < 0.1, 1]
    radius = subject_at(Body.SATURN, at(2017, 10, 16)).disc.polar_diameter_arcsec / 2.0

    before = sorted({round(-y, 1) for y in middle if y < 0.0})
    beyond = sorted({round(y, 1) for y in middle if y > 0.0})
    assert len(before) == 4
    assert before[0] < radius < before[-1]
    assert beyond[0] == pytest.approx(radius, abs=0.1)
    assert len(beyond) == 2


def test_saturn_globe_is_flattened() -> None:
    # Edge on in 1995: the globe's whole flattening shows, for the Earth stands in the plane of its equator.
    limbs = [line for line in outline(Body.SATURN, at(1995, 5, 22, 6)).solid if len(line) > 100]
    drawn = np.concatenate(limbs)
    pole = np.array(outline(Body.SATURN, at(1995, 5, 22, 6)).pole)
    along = drawn @ pole
    disc = subject_at(Body.SATURN, at(1995, 5, 22, 6)).disc

    assert np.ptp(along) / disc.equatorial_diameter_arcsec == pytest.approx(1 - SATURN_FLATTENING, abs=0.001)


def test_it_drifts_west() -> None:
    right, up = outline(Body.JUPITER, at(2026, 12, 5)).drift

    assert (right, up) == pytest.approx((1.0, 0.0), abs=1e-9)  # west is right, with north up
