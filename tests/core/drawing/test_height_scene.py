"""What the height chart shows of a night, before anything is drawn."""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import numpy as np
import pytest

from core.drawing.height_scene import Curve, HeightScene, PieceKind, Sky, height_scene
from core.sky.bodies import Body
from core.sky.night import Night
from tests.core.drawing.examples import PORTO, TROMSO, night_at, site_at

PORTO_NIGHT = night_at(PORTO, date(2026, 12, 5))
POLAR_NIGHT = night_at(TROMSO, date(2026, 12, 20))
MIDNIGHT_SUN = night_at(TROMSO, date(2026, 6, 20))


def curve_of(scene: HeightScene, body: Body) -> Curve:
    return next(curve for curve in scene.curves if curve.body is body)


def test_the_chart_runs_from_before_sunset_to_after_sunrise() -> None:
    scene, sun = height_scene(PORTO_NIGHT), PORTO_NIGHT.sun

    assert sun.set is not None
    assert sun.rise is not None
    assert timedelta(minutes=30) <= sun.set - scene.start <= timedelta(hours=1)
    assert timedelta(minutes=30) <= scene.end - sun.rise <= timedelta(hours=1)


def test_what_is_on_the_strip_lies_on_the_chart() -> None:
    early = datetime(2026, 12, 5, 14, 0, tzinfo=UTC)

    scene = height_scene(PORTO_NIGHT, [(early, early + timedelta(hours=1))])

    assert scene.start < early


def test_the_chart_never_leaves_the_evening() -> None:
    scene = height_scene(PORTO_NIGHT, [(PORTO_NIGHT.start, PORTO_NIGHT.end)])

    assert (scene.start, scene.end) == (PORTO_NIGHT.start, PORTO_NIGHT.end)


@pytest.mark.parametrize("night", [POLAR_NIGHT, MIDNIGHT_SUN], ids=["polar night", "midnight sun"])
def test_without_sunset_or_sunrise_the_whole_evening_is_shown(night: Night) -> None:
    scene = height_scene(night)

    assert (scene.start, scene.end) == (night.start, night.end)


def test_a_short_summer_night_keeps_some_hours_of_daylight_around_it() -> None:
    scene = height_scene(night_at(site_at(65.0, 25.0, "Europe/Helsinki"), date(2026, 6, 15)))

    assert scene.end - scene.start == timedelta(hours=8)


def test_the_sky_goes_through_every_twilight_and_back() -> None:
    skies = [step.sky for step in height_scene(PORTO_NIGHT).skies]
    down = [Sky.DAYLIGHT, Sky.CIVIL, Sky.NAUTICAL, Sky.ASTRONOMICAL]

    assert skies == [*down, Sky.NIGHT, *reversed(down)]


def test_the_sky_changes_when_the_events_of_the_sun_say() -> None:
    sun = PORTO_NIGHT.sun
    events = [sun.set, sun.civil_dusk, sun.nautical_dusk, sun.astronomical_dusk]
    events += [sun.astronomical_dawn, sun.nautical_dawn, sun.civil_dawn, sun.rise]

    for (early, late), event in zip(pairwise(height_scene(PORTO_NIGHT).skies), events, strict=True):
        assert event is not None
        assert early.end == late.start
        assert abs(early.end - event) < timedelta(seconds=5)


def test_the_polar_night_has_twilight_at_noon_and_no_daylight() -> None:
    # Tromso at midwinter: noon Sun at 90 - 69.65 - 23.44, 3 degrees under the horizon.
    skies = [step.sky for step in height_scene(POLAR_NIGHT).skies]

    assert skies[0] is skies[-1] is Sky.CIVIL
    assert Sky.NIGHT in skies
    assert Sky.DAYLIGHT not in skies


def test_the_midnight_sun_leaves_daylight_only() -> None:
    assert [step.sky for step in height_scene(MIDNIGHT_SUN).skies] == [Sky.DAYLIGHT]


def test_curves_are_cut_at_the_horizon() -> None:
    for curve in height_scene(PORTO_NIGHT).curves:
        for piece in curve.pieces:
            assert piece.altitude_deg.min() >= 0.0


def test_a_rising_body_begins_at_the_horizon_itself() -> None:
    jupiter = curve_of(height_scene(PORTO_NIGHT), Body.JUPITER)

    assert jupiter.pieces[0].altitude_deg[0] == pytest.approx(0.0, abs=0.02)


def test_pieces_follow_one_another_without_a_hole() -> None:
    for curve in height_scene(PORTO_NIGHT).curves:
        for early, late in pairwise(curve.pieces):
            sets_and_rises = early.altitude_deg[-1] < 0.02 and late.altitude_deg[0] < 0.02
            assert early.unix_s[-1] == late.unix_s[0] or sets_and_rises


def test_blocked_and_warm_pieces_last_as_long_as_the_night_says() -> None:
    scene = height_scene(PORTO_NIGHT)
    saturn, drawn = PORTO_NIGHT.of(Body.SATURN), curve_of(scene, Body.SATURN)
    for kind, spans in (
        (PieceKind.BLOCKED, saturn.blocked),
        (PieceKind.WARM, [window for window in saturn.windows if window.warm_air]),
    ):
        seconds = sum(
            float(piece.unix_s[-1] - piece.unix_s[0]) for piece in drawn.pieces if piece.kind is kind
        )
        told = sum((span.end - span.start).total_seconds() for span in spans)

        assert told > 600, "the example should have some of it"
        assert seconds == pytest.approx(told, abs=2.0)


def test_pieces_carry_the_names_of_what_is_in_the_way() -> None:
    saturn = curve_of(height_scene(PORTO_NIGHT), Body.SATURN)

    assert {piece.what for piece in saturn.pieces if piece.kind is PieceKind.BLOCKED} == {"roof ridge"}
    assert {piece.what for piece in saturn.pieces if piece.kind is PieceKind.WARM} == {
        "roof ridge",
        "chimney",
    }


def test_bodies_under_the_horizon_all_evening_are_told() -> None:
    # Venus and Mars stay under the horizon of Tromso on 28 November 2027: their declinations, under -24
    # degrees by Skyfield, put them below -4 degrees at best.
    scene = height_scene(night_at(TROMSO, date(2027, 11, 28)))

    assert {Body.VENUS, Body.MARS} <= set(scene.absent)
    assert {Body.VENUS, Body.MARS}.isdisjoint(curve.body for curve in scene.curves)


def test_a_curve_through_north_does_not_jump() -> None:
    # From Sydney, Jupiter transits due north, where its azimuth goes from 360 to 0; nothing climbs faster
    # than the sky turns, 15.041 arcsec a second.
    sydney = site_at(-33.87, 151.21, "Australia/Sydney")
    jupiter = curve_of(height_scene(night_at(sydney, date(2026, 1, 10))), Body.JUPITER)

    for piece in jupiter.pieces:
        assert np.abs(np.diff(piece.altitude_deg) / np.diff(piece.unix_s)).max() < 15.1 / 3600


def test_the_transit_is_the_top_of_its_curve() -> None:
    saturn = curve_of(height_scene(PORTO_NIGHT), Body.SATURN)
    (when, altitude_deg), *others = saturn.transits
    highest = max(float(piece.altitude_deg.max()) for piece in saturn.pieces)

    assert others == []
    assert altitude_deg == pytest.approx(highest, abs=0.01)
    assert saturn.pieces[0].unix_s[0] < when < saturn.pieces[-1].unix_s[-1]
