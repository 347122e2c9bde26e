"""Where the telescope points, in words: why nothing is offered there, and when an aim holds."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve

from core.ladder.aim import Aim, Refusal, aim_altitude, aim_overhead
from core.sky.bodies import Body
from core.sky.sunlight import Daylight
from core.sky.why_not import NoWindow, WhyNot
from core.words.aim import aim_detail, aim_heading, aim_notices, aim_when, aim_words, no_ceiling_words
from core.words.site_clock import SiteClock

CLOCK = SiteClock(zone=ZoneInfo("Europe/Lisbon"))  # on winter's UTC
NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
SATURN = evolve(aim_altitude(50.0), planet=Body.SATURN, at=NINE)
NOWHERE = Aim(
    planet=Body.SATURN,
    at=None,
    altitude_deg=None,
    apparent_altitude_deg=None,
    path=None,
    declination_deg=None,
    refusal=Refusal.NO_WINDOW,
    why_not=NoWindow(kind=WhyNot.SUN_UP, highest_deg=40.0, sun_lowest_deg=-20.0, sun_below_deg=-4.0),
)
BESIDE_THE_SUN = Daylight(body=Body.VENUS, from_sun_deg=9.0, east_of_sun=False)


@pytest.mark.parametrize(
    ("aim", "words"),
    [
        (SATURN, None),
        (
            evolve(SATURN, planet=Body.VENUS, refusal=Refusal.TOO_NEAR_THE_SUN, daylight=BESIDE_THE_SUN),
            "Venus stands 9° west of the Sun, which is up: nothing is offered so near it",
        ),
        (evolve(SATURN, refusal=Refusal.NOT_BY_DAY), "Saturn is not to be seen by day: the Sun is up"),
        (
            evolve(SATURN, refusal=Refusal.SKY_TOO_BRIGHT),
            "the sky is not dark enough for Saturn then",
        ),
        (NOWHERE, "Saturn is up only while the Sun is up too or the sky is still too bright"),
        (
            evolve(SATURN, refusal=Refusal.ONLY_BEFORE_SUNRISE),
            "Saturn has only the last minutes before sunrise, too close to the Sun's light",
        ),
        # Refraction lifts 3 degrees by a quarter of a degree (published tables: 14 minutes of arc).
        (
            evolve(aim_altitude(3.0), planet=Body.SATURN),
            "Saturn is seen 3.2° high: no air path is given below 5°",
        ),
        (aim_altitude(3.0), "A body at this height is seen 3.2° high: no air path is given below 5°"),
        (
            evolve(aim_altitude(-3.0), planet=Body.SATURN),
            "Saturn is below the horizon: no air path is given below 5°",
        ),
    ],
)
def test_why_no_ceiling_is_given(aim: Aim, words: str | None) -> None:
    assert no_ceiling_words(aim) == words


def test_a_body_that_touches_the_horizon_is_not_below_it() -> None:
    touching = evolve(aim_altitude(0.0), apparent_altitude_deg=0.0)

    assert no_ceiling_words(touching) == (
        "A body at this height is seen 0.0° high: no air path is given below 5°"
    )


def test_words_of_safety_come_before_what_stands_in_the_way() -> None:
    assert aim_notices(evolve(SATURN, sunrise_is_near=True, through="chimney")) == (
        "The Sun rises within minutes: off the planet, and cap the telescope and its finder.",
        "Saturn is then seen through warm air (chimney).",
    )
    assert aim_notices(evolve(SATURN, behind="roof")) == ("Saturn is then behind blocked sky (roof).",)
    assert aim_notices(evolve(aim_altitude(50.0), behind="roof")) == ()
    assert aim_notices(SATURN) == ()


def test_where_the_telescope_points_as_a_part_of_a_sentence() -> None:
    assert [aim_words(aim) for aim in (aim_overhead(), NOWHERE, aim_altitude(50.0), SATURN)] == [
        "straight overhead",
        "at no moment of this evening",
        "at 50°",
        "for Saturn at 50°",
    ]


@pytest.mark.parametrize(
    ("aim", "clock", "is_now", "is_moment", "heading", "when"),
    [
        (SATURN, CLOCK, True, False, "Saturn now, 21:00", "now, 21:00"),
        (SATURN, CLOCK, True, True, "Saturn now, 21:00", "now, 21:00"),
        (SATURN, CLOCK, False, True, "Saturn at 21:00", "at 21:00"),
        (SATURN, CLOCK, False, False, "Saturn at its best, 21:00", "at its best, 21:00"),
        (evolve(SATURN, planet=Body.MOON), CLOCK, False, True, "Moon at 21:00", "at 21:00"),
        (NOWHERE, CLOCK, True, False, "Saturn: nothing to offer this evening", ""),
        (SATURN, None, True, False, "Straight overhead", ""),
        (evolve(SATURN, planet=None), CLOCK, True, False, "Straight overhead", ""),
    ],
)
def test_what_it_points_at_and_when(
    aim: Aim, clock: SiteClock | None, is_now: bool, is_moment: bool, heading: str, when: str
) -> None:
    assert aim_heading(aim, clock, is_now=is_now, is_moment=is_moment) == heading
    assert aim_when(aim, clock, is_now=is_now, is_moment=is_moment) == when


def test_height_and_air_path_and_what_stands_in_the_way() -> None:
    """At 50 degrees the path is 1 over the sine of that, 1.3 times the path overhead."""
    behind = evolve(SATURN, behind="roof")

    assert aim_detail(SATURN) == "50° high, air path 1.3"
    assert aim_detail(behind) == "50° high, air path 1.3. Saturn is then behind blocked sky (roof)."
    assert aim_detail(behind, with_sight=False) == "50° high, air path 1.3"
    assert aim_detail(evolve(aim_altitude(3.0), planet=Body.SATURN)) == "3° high"
    assert aim_detail(aim_altitude(-0.7)) == "below the horizon"
    # On the horizon it is not below it.
    assert aim_detail(aim_altitude(0.0)) == "0° high"
    assert aim_detail(NOWHERE) == ""
    assert aim_detail(aim_overhead()) == (
        "No site or planet yet, so the air is taken as it is straight overhead."
    )


def test_one_that_still_rises_as_the_hours_end_is_at_its_highest_in_them() -> None:
    for now, moment in ((True, False), (False, True)):
        told = aim_heading(SATURN, CLOCK, is_now=now, is_moment=moment, rises_on=True)
        assert told == aim_heading(SATURN, CLOCK, is_now=now, is_moment=moment)
    assert aim_heading(SATURN, CLOCK, is_now=False, is_moment=False, rises_on=True) == (
        "Saturn at its highest in your hours, 21:00"
    )
    assert aim_when(SATURN, CLOCK, is_now=False, is_moment=False, rises_on=True) == (
        "at its highest in your hours, 21:00"
    )


def test_by_day_the_caution_comes_first() -> None:
    by_day = evolve(SATURN, planet=Body.VENUS, daylight=evolve(BESIDE_THE_SUN, from_sun_deg=40.0))

    assert aim_notices(evolve(by_day, through="chimney")) == (
        (
            "Venus stands 40° west of the Sun, which is up and follows it across the sky: stand in the "
            "shadow of something solid, never sweep, and cap the telescope when you step away. Sunlight "
            "through any optics blinds at once."
        ),
        "Venus is then seen through warm air (chimney).",
    )
