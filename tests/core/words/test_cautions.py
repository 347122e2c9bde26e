"""Words of safety: what must be said wherever optics and daylight meet."""

from datetime import UTC, date, datetime

import pytest

from core.sky.bodies import Body
from core.sky.sunlight import Daylight
from core.words import cautions
from core.words.cautions import (
    beside_the_sun,
    daylight_caution,
    filter_caution,
    inferior_conjunction_caution,
    side_of_the_sun,
)
from core.words.evening_cautions import near_the_sun_cautions
from tests.core.evenings import GOOD, LISBON, night

BLINDS = "Sunlight through any optics blinds at once."
SHADOW = "stand in the shadow of something solid, never sweep, and cap the telescope when you step away."


@pytest.mark.parametrize("east", [False, True])
def test_nobody_looks_for_anything_so_near_the_sun(east: bool) -> None:
    near = Daylight(body=Body.MERCURY, from_sun_deg=14.9, east_of_sun=east)

    assert daylight_caution(near) == f"Do not look for Mercury so near the Sun. {BLINDS}"


def test_by_day_it_is_told_on_which_side_the_sun_is() -> None:
    """East of the Sun is where it goes on to in its daily course last: it sets first."""
    east, west = (Daylight(body=Body.MOON, from_sun_deg=40.0, east_of_sun=east) for east in (True, False))

    assert daylight_caution(east) == (
        f"The Moon stands 40° east of the Sun, which is up and goes ahead of it: {SHADOW} {BLINDS}"
    )
    assert daylight_caution(west) == (
        f"The Moon stands 40° west of the Sun, which is up and follows it across the sky: {SHADOW} {BLINDS}"
    )
    mercury = daylight_caution(Daylight(body=Body.MERCURY, from_sun_deg=15.0, east_of_sun=True))
    assert mercury.endswith(f"{BLINDS} Mercury by day is very hard to find, and not worth a risk.")


def test_the_side_of_the_sun() -> None:
    """Venus was a morning star in December 2026, west of the Sun (published tables)."""
    assert [side_of_the_sun(6.2, east=east) for east in (True, False)] == [
        "6° east of the Sun",
        "6° west of the Sun",
    ]
    assert beside_the_sun(Body.VENUS, 43.0, datetime(2026, 12, 5, tzinfo=UTC)) == "43° west of the Sun"


def test_days_between_the_sun_and_us_and_filters() -> None:
    assert inferior_conjunction_caution(Body.VENUS, "24 October 2026") == (
        "Venus stands beside the Sun around its inferior conjunction, on 24 October 2026: do not look for it "
        f"then. {BLINDS}"
    )
    assert filter_caution(is_dark=False) == "No filter here makes the Sun safe to look at."
    assert filter_caution(is_dark=True) == (
        "No filter here makes the Sun safe to look at, not even a neutral or a dark one: it dims a planet, "
        "but lets enough sunlight through to blind."
    )


def test_an_evening_warns_of_one_or_of_several_that_stand_near_the_sun() -> None:
    """Venus comes to its superior conjunction on 12 August 2027, from the west (published tables)."""
    assert near_the_sun_cautions(night(LISBON, GOOD)) == (
        f"Mercury 14° west of the Sun: never search for it while any of the Sun is up. {BLINDS}",
    )
    assert near_the_sun_cautions(night(LISBON, date(2027, 8, 12))) == (
        (
            "Mercury 2° east of the Sun, Venus 1° east of the Sun and Jupiter 14° east of the Sun: never "
            f"search for them while any of the Sun is up. {BLINDS}"
        ),
    )
    assert near_the_sun_cautions(night(LISBON, date(2027, 2, 1))) == ()


@pytest.mark.parametrize(
    ("caution", "words"),
    [
        (
            cautions.SUN_IS_UP,
            "The Sun is up: keep the telescope capped, and never point it near the Sun.",
        ),
        (
            cautions.SUNRISE_IS_NEAR,
            "The Sun rises within minutes: off the planet, and cap the telescope and its finder.",
        ),
        (
            cautions.CAP_BEFORE_SUNRISE,
            "Off the sky before sunrise: cap telescope and finder, and leave them capped by day.",
        ),
        (
            cautions.TELESCOPE_AND_SUN,
            (
                "Never point a telescope or its finder at the Sun or near it: that blinds at once. Cap both "
                "when they stand out by day."
            ),
        ),
        (
            cautions.MERCURY_AND_SUN,
            (
                "Mercury never stands far from the Sun: look for it only while all of the Sun is below the "
                "horizon, and cap the telescope and its finder before sunrise."
            ),
        ),
        (
            cautions.FILTER_BY_DAY,
            (
                "For use by day: never sweep near the Sun; stand in the shadow of something solid, and cap "
                "the scope when you step away."
            ),
        ),
        (
            cautions.HEATERS,
            "On wet grass follow the heater's instructions and the local electrical rules.",
        ),
    ],
)
def test_words_of_safety_that_are_always_the_same(caution: str, words: str) -> None:
    assert caution == words
