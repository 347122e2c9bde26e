"""Each state of evening, kit and air is limited by the first thing that bites."""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from core.air.readiness import readiness_in_still_air
from core.gear.owned import Stand, Telescope, TelescopeKind
from core.sky.bodies import TARGETS, Body
from core.sky.night import compute_night
from core.sky.site import Site
from core.sky.windows import Grade
from core.tonight.limiter import Limiter
from tests.core.air.falling import readiness_in_falling_air
from tests.core.evenings import (
    BEHIND_ROOF,
    BOILING,
    DOUBLE,
    FAIR,
    FAIRBANKS,
    GOOD,
    HEATED_WALL,
    IN_THE_NIGHT,
    KIT,
    LISBON,
    MELBOURNE,
    MID_UK,
    OVER_CHIMNEY,
    SCOTLAND,
    SIX,
    SOUTH_40,
    STEADY,
    THREE_INCH,
    TROMSO,
    TWELVE_INCH,
    VERY_STEADY,
    WALLED,
    check_words,
    eyepieces,
    night,
    place,
    reflector,
    refractor,
)
from tests.core.telling import answer

ON_BALCONY = evolve(SIX, stands_on=Stand.BALCONY)
SIX_READY = readiness_in_still_air(SIX)


@pytest.mark.parametrize(
    ("site", "evening", "planet", "given", "limiter"),
    [
        # Never up: both planets were lower than -4 degrees at their highest (skyfield, DE421).
        (TROMSO, date(2027, 11, 28), Body.VENUS, KIT, Limiter.NEVER_UP),
        (TROMSO, date(2027, 11, 28), Body.MARS, {}, Limiter.NEVER_UP),
        # No dark sky: midnight Sun, or a Sun that gets 10 degrees down where Uranus needs 12.
        (TROMSO, date(2026, 6, 21), Body.JUPITER, KIT, Limiter.NO_DARK_SKY),
        (TROMSO, date(2026, 6, 21), Body.SATURN, {}, Limiter.NO_DARK_SKY),
        (SCOTLAND, date(2026, 6, 21), Body.URANUS, KIT, Limiter.NO_DARK_SKY),
        # Up with the Sun only: set before it though 27 degrees away (Fairbanks), 6 degrees from it (London).
        (FAIRBANKS, date(2016, 8, 16), Body.MERCURY, KIT, Limiter.NO_DARK_SKY),
        (
            place("London", 51.5, 0.0, "Europe/London"),
            date(2010, 10, 29),
            Body.VENUS,
            KIT,
            Limiter.NO_DARK_SKY,
        ),
        # Hidden: all the sky, or the part of it that Jupiter crosses.
        (WALLED, GOOD, Body.JUPITER, KIT, Limiter.BLOCKED),
        (BEHIND_ROOF, GOOD, Body.JUPITER, {}, Limiter.BLOCKED),
        # Too low: 6.9 degrees at sunset from 40 south; 5.8 degrees at sunset from Scotland; 9.5 from the Sun.
        (SOUTH_40, date(2013, 2, 16), Body.MERCURY, KIT, Limiter.TOO_LOW),
        (SCOTLAND, date(2021, 9, 1), Body.VENUS, KIT, Limiter.TOO_LOW),
        (MELBOURNE, date(2009, 2, 5), Body.JUPITER, KIT, Limiter.TOO_LOW),
        # Mirror: carried out minutes ago, or in air that falls faster than a closed tube follows.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {
                **KIT,
                "now": IN_THE_NIGHT,
                "readiness": SIX_READY,
                "outside_since": IN_THE_NIGHT - timedelta(minutes=5),
            },
            Limiter.MIRROR_WARM,
        ),
        # From the very minute on that it is told as ready it limits nothing.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {
                **KIT,
                "now": IN_THE_NIGHT,
                "readiness": SIX_READY,
                "outside_since": IN_THE_NIGHT - timedelta(minutes=SIX_READY.usable.likely_minutes),
            },
            Limiter.TONIGHT_AIR,
        ),
        (
            OVER_CHIMNEY,
            GOOD,
            Body.JUPITER,
            {**KIT, "readiness": readiness_in_falling_air(SIX, warmer_by_c=17, falling_c_per_h=8)},
            Limiter.MIRROR_WARM,
        ),
        # Warm air before height and before the air of the night; a heated wall warms ten degrees above it.
        (OVER_CHIMNEY, GOOD, Body.JUPITER, {**KIT, "blur": BOILING}, Limiter.WARM_AIR),
        (OVER_CHIMNEY, GOOD, Body.JUPITER, {}, Limiter.WARM_AIR),
        (HEATED_WALL, GOOD, Body.NEPTUNE, KIT, Limiter.WARM_AIR),
        # Height: 11.5 degrees at transit (Mars 2018, mid-UK), 20 degrees (Jupiter 2021, Scotland).
        (MID_UK, date(2018, 7, 27), Body.MARS, KIT, Limiter.HEIGHT),
        (SCOTLAND, date(2021, 8, 19), Body.JUPITER, {**KIT, "blur": BOILING}, Limiter.HEIGHT),
        (SCOTLAND, date(2021, 8, 19), Body.SATURN, {}, Limiter.HEIGHT),
        # A balcony is taken to shake until its owner has timed it; on the ground it is what was timed.
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": ON_BALCONY}, Limiter.SHAKES),
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": evolve(ON_BALCONY, settles_s=1)}, Limiter.TONIGHT_AIR),
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": evolve(SIX, settles_s=6)}, Limiter.SHAKES),
        # Height is told before it, and at 48x nobody minds it.
        (SCOTLAND, date(2021, 8, 19), Body.JUPITER, {**KIT, "scope": ON_BALCONY}, Limiter.HEIGHT),
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": ON_BALCONY, "eyepieces": eyepieces(25)},
            Limiter.NO_RUNG_NEAR,
        ),
        # Tonight's air: a 12-inch in average air, a 3-inch in boiling air, and nothing said about the air.
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": TWELVE_INCH, "blur": FAIR}, Limiter.TONIGHT_AIR),
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": THREE_INCH, "blur": BOILING}, Limiter.TONIGHT_AIR),
        (LISBON, GOOD, Body.SATURN, KIT, Limiter.TONIGHT_AIR),
        # Usual air: the air of the night would bear more than 300x, the aperture too.
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": TWELVE_INCH, "blur": VERY_STEADY}, Limiter.USUAL_AIR),
        # Aperture: a 3-inch on a steady night; 60 mm with nothing longer than 6 mm (150x, limit 120x).
        (LISBON, GOOD, Body.JUPITER, {**KIT, "scope": THREE_INCH, "blur": STEADY}, Limiter.APERTURE),
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": refractor(60, 900), "eyepieces": eyepieces(6), "barlows": DOUBLE, "blur": STEADY},
            Limiter.APERTURE,
        ),
        # 150 mm lifted to 400x: its aperture limit of 300x still holds.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {**KIT, "blur": VERY_STEADY, "usual_air": 400.0},
            Limiter.APERTURE,
        ),
        # Exit pupil: the only power is 225x on 60 mm, 0.27 mm wide, far past its 120x.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": refractor(60, 900), "eyepieces": eyepieces(4), "blur": STEADY},
            Limiter.EXIT_PUPIL,
        ),
        # No rung near: one low eyepiece on a steady night; one short one on a boiling night; ten times only.
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": SIX, "eyepieces": eyepieces(25), "blur": STEADY},
            Limiter.NO_RUNG_NEAR,
        ),
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": reflector(254, 1200), "eyepieces": eyepieces(4), "blur": BOILING},
            Limiter.NO_RUNG_NEAR,
        ),
        (
            LISBON,
            GOOD,
            Body.JUPITER,
            {"scope": Telescope(name="binocular", kind=TelescopeKind.FIXED, aperture_mm=50, power=10)},
            Limiter.NO_RUNG_NEAR,
        ),
        (LISBON, GOOD, Body.JUPITER, {"scope": SIX}, Limiter.NO_RUNG_NEAR),
        # Nothing is known to limit while there is no telescope.
        (LISBON, GOOD, Body.JUPITER, {}, Limiter.NOTHING),
    ],
)
def test_each_state_is_limited_by_what_bites_first(
    site: Site, evening: date, planet: Body, given: Mapping[str, Any], limiter: Limiter
) -> None:
    told = answer(night(site, evening), planet=planet, **given)

    assert told.limiter is limiter
    assert told.planet is planet
    check_words(told)


def test_what_shakes_is_told_with_one_thing_to_try_and_locks_nothing() -> None:
    firm = answer(night(LISBON, GOOD), planet=Body.JUPITER, **KIT)
    shaky = answer(night(LISBON, GOOD), planet=Body.JUPITER, **{**KIT, "scope": ON_BALCONY})
    timed = answer(night(LISBON, GOOD), planet=Body.JUPITER, **{**KIT, "scope": evolve(SIX, settles_s=6)})

    assert "A balcony shakes with every step on it." in shaky.sentence
    assert any("try the telescope on the ground" in reason for reason in shaky.reasons)
    assert any("Tap the tube" in reason for reason in shaky.reasons)
    assert "The mount trembles: the view takes about 6 s to rest after a tap." in timed.sentence
    assert not any("Tap the tube" in reason for reason in timed.reasons)
    assert firm.ladder is not None
    assert shaky.ladder is not None
    assert shaky.ladder.climb_to == firm.ladder.climb_to


@given(
    latitude_deg=st.floats(-89, 89),
    longitude_deg=st.floats(-180, 180),
    evening=st.dates(date(2024, 1, 1), date(2030, 12, 31)),
    planet=st.sampled_from(TARGETS),
    hours_in=st.floats(-3, 27),
)
@settings(max_examples=25, deadline=None)
def test_the_answer_holds_wherever_and_whenever(
    latitude_deg: float, longitude_deg: float, evening: date, planet: Body, hours_in: float
) -> None:
    found = compute_night(
        Site(name="x", latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone="UTC"), evening
    )
    now = found.start + timedelta(minutes=round(60 * hours_in))
    body = found.of(planet)

    told = answer(found, planet=planet, now=now, **KIT)

    check_words(told)
    if not body.windows:
        assert told.limiter in (Limiter.NEVER_UP, Limiter.NO_DARK_SKY, Limiter.BLOCKED, Limiter.TOO_LOW)
    if told.best is not None:
        inside = found.start <= now < found.end
        assert not inside or told.best.start >= now
        for part in told.best.windows:
            assert any(window.start <= part.start < part.end <= window.end for window in body.windows)
        if told.limiter is Limiter.HEIGHT and not inside:
            assert {window.grade for window in told.best.windows} == {Grade.LOW}
