"""What is painted before any blur: where light, shadows, caps, plains and moons lie on a disc."""

import math
from datetime import UTC, datetime

import attrs
import numpy as np
import pytest

from core.arrays import Values
from core.looks.picture.globe import Globe
from core.looks.picture.paint import Grid, painted
from core.looks.picture.subject import Subject, subject_at
from core.looks.picture.turn import Turn, Turning
from core.sky.bodies import Body
from core.sky.moons import Moon

PIXEL_ARCSEC = 0.15


def at(body: Body, text: str) -> Subject:
    return subject_at(body, datetime.fromisoformat(text).replace(tzinfo=UTC))


def upright(subject: Subject, pixel_arcsec: float = PIXEL_ARCSEC) -> Grid:
    """Return the grid that shows a body erect with its north pole on top: west is to the right."""
    return Grid(pixel_arcsec=pixel_arcsec, turn=Turn(up_angle_deg=subject.disc.pole_angle_deg))


def balance(picture: Values) -> tuple[float, float]:
    """Return rightward and upward, in pixels from the middle, of the balance point of the light."""
    rows, columns = np.indices(picture.shape) - (picture.shape[0] - 1) / 2.0
    whole = float(picture.sum())
    return float((picture * columns).sum()) / whole, -float((picture * rows).sum()) / whole


@pytest.mark.parametrize("day", ["2026-06-10", "2026-09-24", "2026-11-15"])
def test_light_leans_to_the_bright_limb(day: str) -> None:
    venus = at(Body.VENUS, day)

    right, up = balance(painted(venus, Grid(pixel_arcsec=0.2)))

    # Erect with north up, east is to the left.
    found_deg = math.degrees(math.atan2(-right, up)) % 360.0
    assert abs((found_deg - venus.disc.bright_limb_angle_deg + 180.0) % 360.0 - 180.0) < 1.0


def test_a_tilted_flattened_globe_has_its_pole_and_equator_in_place() -> None:
    """An ellipsoid's pole lies at its polar radius along the axis, its equator on a circle across it."""
    saturn = at(Body.SATURN, "2029-11-24T21:00:00")
    globe = Globe.of(saturn)
    tilt = math.radians(saturn.disc.sub_earth_latitude_planetocentric_deg)
    flat = 54_364 / 60_268
    # The southern pole tilts towards us, and so does the equator's near point, north of the middle.
    places = np.array(
        [[0.0, -flat * math.cos(tilt)], [0.0, -math.sin(tilt)]],
        dtype=np.float32,
    )

    depth = globe.depth(places[:, 0], places[:, 1])

    assert depth[0] == pytest.approx(-flat * math.sin(tilt), abs=1e-4)
    assert depth[1] == pytest.approx(math.cos(tilt), abs=1e-4)


def test_the_far_side_of_the_ring_passes_behind_the_globe() -> None:
    saturn = at(Body.SATURN, "2029-11-24T21:00:00")
    assert saturn.ring is not None
    assert saturn.ring.opening_deg < 0.0

    changed = np.abs(
        painted(saturn, upright(saturn)) - painted(attrs.evolve(saturn, ring=None), upright(saturn))
    )
    half_height = round(0.45 * saturn.disc.polar_diameter_arcsec / PIXEL_ARCSEC)
    north, south = changed[200 - half_height : 200, 195:205], changed[200 : 200 + half_height, 195:205]

    # We look from the south: the ring's near side, and its shadow, cross the northern half alone.
    assert north.sum() > 20.0 * south.sum()


def test_the_unlit_side_of_the_ring_is_dim() -> None:
    unlit = at(Body.SATURN, "2025-04-20T04:00:00")
    assert unlit.ring is not None
    assert not unlit.ring.lit_side_seen
    lit = attrs.evolve(unlit, ring=attrs.evolve(unlit.ring, sun_latitude_deg=unlit.ring.opening_deg))
    beside = slice(0, int(200 - 0.55 * unlit.disc.equatorial_diameter_arcsec / PIXEL_ARCSEC))

    dim, bright = (painted(subject, upright(subject))[:, beside].sum() for subject in (unlit, lit))

    assert 0.0 < dim < 0.3 * bright


def test_the_globe_s_shadow_falls_on_the_ring_away_from_the_sun() -> None:
    # Near quadrature, with the ring well open.
    saturn = at(Body.SATURN, "2029-08-01T04:00:00")
    opposite = attrs.evolve(saturn, disc=attrs.evolve(saturn.disc, phase_angle_deg=0.0))
    radius_px = saturn.disc.equatorial_diameter_arcsec / 2.0 / PIXEL_ARCSEC

    darkened = painted(opposite, upright(saturn)) - painted(saturn, upright(saturn))
    rows, columns = np.indices(darkened.shape) - 199.5
    beside = np.hypot(
        columns, rows / (saturn.disc.polar_diameter_arcsec / saturn.disc.equatorial_diameter_arcsec)
    )
    off_globe = np.where(beside > 1.03 * radius_px, np.maximum(darkened, 0.0), 0.0)

    right, _ = balance(off_globe)
    sun_is_right = (
        math.sin(math.radians(saturn.disc.bright_limb_angle_deg - saturn.disc.pole_angle_deg)) < 0.0
    )
    assert saturn.disc.phase_angle_deg > 4.0
    assert off_globe.sum() > 20.0
    assert (right > 0.5 * radius_px) is not sun_is_right
    assert (right < -0.5 * radius_px) is sun_is_right


def test_the_brightest_place_on_mars_is_the_cap_that_faces_us() -> None:
    mars = at(Body.MARS, "2027-02-19T00:00:00")

    picture = painted(mars, upright(mars, 0.05))

    row, _ = np.unravel_index(int(picture.argmax()), picture.shape)
    assert 199.5 - row > 0.6 * mars.disc.polar_diameter_arcsec / 2.0 / 0.05


def test_the_full_moon_has_its_plains_where_everybody_sees_them() -> None:
    """To the naked eye in the north the dark plains lie to the left and on top; the south is bright."""
    moon = at(Body.MOON, "2026-11-24T15:00:00")

    picture = painted(moon, upright(moon, 6.0))

    lit = picture > 0.0
    left, right = picture[:, :200][lit[:, :200]].mean(), picture[:, 200:][lit[:, 200:]].mean()
    north, south = picture[:200][lit[:200]].mean(), picture[200:][lit[200:]].mean()
    assert left < right
    assert north < south


@pytest.mark.parametrize("turning", list(Turning))
@pytest.mark.parametrize("moon", [Moon.EUROPA, Moon.CALLISTO])
def test_a_moon_is_painted_at_its_place_and_in_its_size(turning: Turning, moon: Moon) -> None:
    jupiter = at(Body.JUPITER, "2026-11-18T03:00:00")
    place = next(found for found in jupiter.moons if found.moon is moon)
    assert place.is_visible
    pixel_arcsec = 0.5
    turn = Turn(turning=turning, up_angle_deg=40.0)
    grid = Grid(size=2200, pixel_arcsec=pixel_arcsec, turn=turn)

    alone = painted(attrs.evolve(jupiter, moons=(place,)), grid) - painted(
        attrs.evolve(jupiter, moons=()), grid
    )

    right, up = balance(alone)
    radius_px = jupiter.disc.equatorial_diameter_arcsec / 2.0 / pixel_arcsec
    west, north = (turn.direction(jupiter.disc.pole_angle_deg + turned) for turned in (-90.0, 0.0))
    assert right == pytest.approx(radius_px * (place.x_radii * west[0] + place.y_radii * north[0]), abs=0.1)
    assert up == pytest.approx(radius_px * (place.x_radii * west[1] + place.y_radii * north[1]), abs=0.1)
    # Albedo times the area of its disc: radii of WGCCRE 2015 over Jupiter's.
    albedo, radius_km = {Moon.EUROPA: (0.67, 1560.8), Moon.CALLISTO: (0.17, 2410.3)}[moon]
    assert alone.sum() == pytest.approx(albedo * math.pi * (radius_px * radius_km / 71_492) ** 2, rel=0.02)


def test_the_main_belts_are_as_dark_as_the_eye_finds_them() -> None:
    """A visual contrast of 0.15 to 0.20 between Jupiter's main belts and the bright zone (ours, by eye)."""
    jupiter = attrs.evolve(at(Body.JUPITER, "2026-11-18T03:00:00"), moons=())
    line = painted(jupiter, upright(jupiter))[:, 195:205].mean(axis=1)
    radius_px = jupiter.disc.polar_diameter_arcsec / 2.0 / PIXEL_ARCSEC

    def row(latitude_deg: float) -> int:
        return round(199.5 - radius_px * math.sin(math.radians(latitude_deg)))

    zone = line[row(4.0) : row(-4.0)].max()
    for edges in ((19.0, 8.0), (-8.0, -20.0)):
        belt = line[row(edges[0]) : row(edges[1])].min()
        # The slant of the light darkens a belt by a few per cent more.
        assert 0.15 <= 1.0 - belt / zone <= 0.24


def test_the_moon_s_terminator_is_uneven_and_its_limb_is_not() -> None:
    moon = at(Body.MOON, "2026-11-17T19:00:00")

    picture = painted(moon, upright(moon, 6.0))

    # Lit to the right of the terminator in each row; its place jumps where mountains and craters lie.
    rows = range(100, 300)
    lit = [np.flatnonzero(picture[row] > 0.05) for row in rows]
    terminator = np.array([columns[0] for columns in lit])
    limb = np.array([columns[-1] for columns in lit])
    assert np.abs(np.diff(terminator)).max() >= 4
    assert np.abs(np.diff(limb)).max() <= 2
