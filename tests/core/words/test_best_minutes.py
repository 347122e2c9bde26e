"""When a planet is best and where to look: the sentence that each state of the evening has of its own."""

from datetime import UTC, datetime
from typing import Any

import pytest

from core.moments.best_minutes import BestMinutes
from core.moments.hours import HoursOut
from core.sky.bodies import Body
from core.sky.windows import Grade, Window
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect, Served, Standing
from core.words.best_minutes import best_words
from core.words.site_clock import SiteClock
from tests.core.evenings import GOOD, LISBON, night

CLOCK = SiteClock(zone=LISBON.zone)  # on winter's UTC
NOTHING, WARM, LOW = None, Limiter.WARM_AIR, Limiter.HEIGHT
# Saturn at nine: half way up, and just past the south.
LOOK = "Look south, half way up: 50°."
LOOK_FOR = "Look for Saturn south, half way up: 50°."


def at(clock: str) -> datetime:
    hour, minute = map(int, clock.split(":"))
    return datetime(2026, 12, 5 if hour >= 12 else 6, hour, minute, tzinfo=UTC)


def minutes(
    start: str = "20:00",
    end: str = "22:00",
    *,
    low_from: str | None = None,
    behind: str | None = None,
    warm: str | None = None,
    in_hours: bool = True,
) -> BestMinutes:
    spans = [(start, end, Grade.BEST)]
    if low_from is not None:
        spans = [(start, low_from, Grade.FAIR), (low_from, end, Grade.LOW)]
    windows = tuple(
        Window(start=at(first), end=at(last), grade=grade, warm_air=warm) for first, last, grade in spans
    )
    return BestMinutes(windows=windows, rank=5, then_behind=behind, in_hours=in_hours)


def words(limiter: Limiter | None = None, *, behind: str | None = None, **known: Any) -> str:  # noqa: ANN401
    """Return what is told of Saturn, its best minutes from 20:00 to 22:00 unless others are given."""
    evening = night(LISBON, GOOD)
    best = known.pop("best", minutes(behind=behind, warm="chimney" if limiter is WARM else None))
    prospect = Prospect(
        night=evening,
        body=evening.of(Body.SATURN),
        position=evening.position(Body.SATURN, at("21:00")),
        best=best,
        **known,
    )
    return best_words(prospect, limiter or Limiter.NOTHING, CLOCK)


JUPITER = Served(body=Body.JUPITER, best=minutes("22:30", "23:00"))


@pytest.mark.parametrize(
    ("limiter", "told", "then"),
    [
        (NOTHING, "Saturn is best 20:00–22:00", ", then behind blocked sky (roof)"),
        (
            WARM,
            "Saturn is best 20:00–22:00, though only through warm air (chimney)",
            ", then behind blocked sky (roof)",
        ),
        (
            LOW,
            "Saturn is best 20:00–22:00, though low, in thick air",
            ", then behind blocked sky (roof)",
        ),
    ],
)
def test_best_minutes_that_are_to_come(limiter: Limiter | None, told: str, then: str) -> None:
    assert words(limiter) == f"{told}. {LOOK}"
    assert words(limiter, behind="roof") == f"{told}{then}. {LOOK}"
    # The same where now is earlier than they.
    assert words(limiter, now=at("19:00")) == f"{told}. {LOOK}"


@pytest.mark.parametrize(
    ("limiter", "standing", "told"),
    [
        (NOTHING, Standing.HIGH, "Saturn is at its best now, until 22:00"),
        (NOTHING, Standing.RISING, "Saturn stands well now, and is still rising"),
        (NOTHING, Standing.SINKING, "Saturn still stands well now, until 22:00"),
        (
            WARM,
            Standing.HIGH,
            "Saturn is at its best now, until 22:00, though only through warm air (chimney)",
        ),
        (
            WARM,
            Standing.RISING,
            "Saturn is seen through warm air (chimney) now, and is still rising",
        ),
        (LOW, Standing.HIGH, "Saturn is at its best now, until 22:00, though low, in thick air"),
        (LOW, Standing.RISING, "Saturn is low now, in thick air, but rising"),
        (LOW, Standing.SINKING, "Saturn is low now, in thick air, and sinking, in sight until 22:00"),
    ],
)
def test_now_is_told_by_how_high_it_stands(limiter: Limiter | None, standing: Standing, told: str) -> None:
    assert words(limiter, now=at("21:00"), standing=standing) == f"{told}. {LOOK}"
    assert words(limiter, now=at("21:00"), standing=standing, served=JUPITER) == (
        f"{told}; better still is Jupiter, 22:30–23:00. {LOOK_FOR}"
    )


@pytest.mark.parametrize(
    ("limiter", "until", "soon"),
    [
        (NOTHING, "Saturn is at its best now, until 22:00", "Saturn now"),
        (
            WARM,
            "Saturn is at its best now, until 22:00, though only through warm air (chimney)",
            "Saturn now, through warm air (chimney)",
        ),
        (
            LOW,
            "Saturn is at its best now, until 22:00, though low, in thick air",
            "Saturn now, low, in thick air",
        ),
    ],
)
def test_what_hides_it_soon_is_told_in_minutes_in_the_last_quarter_of_an_hour(
    limiter: Limiter | None, until: str, soon: str
) -> None:
    told = [words(limiter, behind="roof", now=at(time)) for time in ("21:44", "21:45", "21:59")]

    assert told == [
        f"{until}, then behind blocked sky (roof). {LOOK}",
        f"{soon}: in 15 min behind blocked sky (roof). {LOOK}",
        f"{soon}: in 1 min behind blocked sky (roof). {LOOK}",
    ]


@pytest.mark.parametrize(
    ("limiter", "in_passing", "told", "and_later"),
    [
        (
            NOTHING,
            False,
            "Saturn has been past its best since 20:30, and is above 30° until 22:00",
            "Saturn has been past its best since 20:30",
        ),
        (
            WARM,
            False,
            "Saturn has been past its best since 20:30, and is now seen through warm air (chimney)",
            "Saturn is past its best, seen through warm air (chimney)",
        ),
        (
            LOW,
            False,
            "Saturn has been past its best since 20:30, and is low, in thick air",
            "Saturn is past its best and low, in thick air",
        ),
        (
            NOTHING,
            True,
            "Saturn still stands well, above 30° until 22:00",
            "Saturn still stands well, above 30° until 22:00",
        ),
        (
            LOW,
            True,
            "Saturn has been past its best since 20:30, and is low, in thick air",
            "Saturn is low now, in thick air, and sinking",
        ),
    ],
)
def test_past_its_best(limiter: Limiter | None, in_passing: bool, told: str, and_later: str) -> None:
    known: dict[str, Any] = {"now": at("21:00"), "past_best_since": at("20:30"), "in_passing": in_passing}

    assert words(limiter, **known) == f"{told}. {LOOK}"
    assert words(limiter, served=JUPITER, **known) == (
        f"{and_later}; better still is Jupiter, 22:30–23:00. {LOOK_FOR}"
    )


def test_past_its_best_it_is_above_thirty_degrees_until_it_sinks_under_them() -> None:
    sinking = minutes(low_from="21:30")
    past = words(best=sinking, now=at("21:00"), past_best_since=at("20:30"))

    assert "above 30° until 21:30" in past
    assert "until 22:00" in words(best=sinking, now=at("21:00"))


@pytest.mark.parametrize(
    ("limiter", "told"),
    [
        (NOTHING, "Saturn is up now, and better from 21:40"),
        (WARM, "Saturn is seen through warm air (chimney) now, and better from 21:40"),
        (LOW, "Saturn is low now, in thick air, and better from 21:40"),
    ],
)
def test_up_now_and_better_later(limiter: Limiter | None, told: str) -> None:
    known: dict[str, Any] = {"now": at("21:00"), "better_later": minutes("21:40", "22:00")}

    assert words(limiter, **known) == f"{told}. {LOOK}"
    assert words(limiter, served=JUPITER, **known) == (
        f"{told}; best of all is Jupiter, 22:30–23:00. {LOOK_FOR}"
    )


@pytest.mark.parametrize(("end", "stays_up"), [("22:01", False), ("22:00", True), ("21:00", True)])
def test_whoever_has_gone_in_by_then_must_stay_up_for_it(end: str, stays_up: bool) -> None:
    """Better from 22:00: in the hours, just after them, and for whoever looks after them already."""
    hours = HoursOut(start=at("18:00"), end=at(end), assumed=False)
    told = words(now=at("21:00"), better_later=minutes("22:00", "23:00"), hours=hours)

    assert ("better from 22:00 if you stay up." in told) is stays_up
    assert "better from 22:00" in told


@pytest.mark.parametrize(
    ("limiter", "told"),
    [
        (NOTHING, "still rising"),
        (WARM, "still rising, though only through warm air (chimney)"),
        (LOW, "still rising, though low, in thick air"),
    ],
)
def test_hours_that_end_while_it_rises_have_but_their_own_best(limiter: Limiter | None, told: str) -> None:
    higher = night(LISBON, GOOD).position(Body.SATURN, at("20:00"))

    assert words(limiter, rising_on=higher) == f"In your hours Saturn is best 20:00–22:00, {told}. {LOOK}"


def test_what_is_better_near_dawn_is_for_whoever_gets_up() -> None:
    hours = HoursOut(start=at("18:00"), end=at("22:00"), assumed=False)
    told = words(now=at("21:00"), better_later=minutes("05:10", "06:00"), hours=hours)

    assert "better before dawn, from 05:10, if you get up early. Look" in told


def test_what_still_rises_is_told_to_until_something_comes_between() -> None:
    known: dict[str, Any] = {"now": at("21:00"), "standing": Standing.RISING, "behind": "roof"}
    until = f"until 22:00, then behind blocked sky (roof). {LOOK}"

    assert words(NOTHING, **known) == f"Saturn stands well now, still rising, {until}"
    assert words(LOW, **known) == f"Saturn is low now, in thick air, but rising, {until}"
    assert words(WARM, **known) == f"Saturn is seen through warm air (chimney) now, still rising, {until}"


EVENING = HoursOut(start=at("18:00"), end=at("19:30"), assumed=False)
NIGHT = HoursOut(start=at("22:00"), end=at("23:30"), assumed=False)
OUTSIDE, DAWN = minutes(in_hours=False), minutes("04:00", "06:00", in_hours=False)
IN_HOURS = Served(body=Body.JUPITER, best=minutes("18:30", "19:00"))


@pytest.mark.parametrize(
    ("best", "hours", "alone", "beside_another"),
    [
        (
            OUTSIDE,
            EVENING,
            "Nothing good in your hours, 18:00–19:30; Saturn 20:00–22:00 if you stay up.",
            "Saturn is good only outside your hours, 18:00–19:30: 20:00–22:00 if you stay up.",
        ),
        (
            DAWN,
            EVENING,
            "Nothing good in your hours, 18:00–19:30; Saturn before dawn, 04:00–06:00, if you get up early.",
            (
                "Saturn is good only outside your hours, 18:00–19:30: before dawn, 04:00–06:00, if you get "
                "up early."
            ),
        ),
        (
            OUTSIDE,
            NIGHT,
            "Nothing good in your hours, 22:00–23:30; Saturn 20:00–22:00 if you go out earlier.",
            "Saturn is good only outside your hours, 22:00–23:30: 20:00–22:00 if you go out earlier.",
        ),
    ],
)
def test_what_is_good_outside_the_hours_alone(
    best: BestMinutes, hours: HoursOut, alone: str, beside_another: str
) -> None:
    itself = Served(body=Body.SATURN, best=best)
    also_outside = Served(body=Body.JUPITER, best=minutes("22:30", "23:00", in_hours=False))

    for served in (None, itself, also_outside):
        told = words(Limiter.OUTSIDE_HOURS, best=best, hours=hours, served=served)
        assert told == f"{alone} {LOOK}"
    told = words(Limiter.OUTSIDE_HOURS, best=best, hours=hours, served=IN_HOURS)
    assert told == f"{beside_another} {LOOK}"


@pytest.mark.parametrize(
    ("now", "best", "told"),
    [
        ("17:59", OUTSIDE, "Nothing good in your hours, 18:00–19:30; Saturn 20:00–22:00 if you stay up."),
        (
            "18:00",
            OUTSIDE,
            "Nothing good is left in your hours, 18:00–19:30; Saturn 20:00–22:00 if you stay up.",
        ),
        (
            "18:30",
            DAWN,
            (
                "Nothing good is left in your hours, 18:00–19:30; Saturn before dawn, 04:00–06:00, if you "
                "get up early."
            ),
        ),
        ("19:30", OUTSIDE, "Your hours, 18:00–19:30, are over; Saturn 20:00–22:00 if you stay up."),
        (
            "19:40",
            DAWN,
            "Your hours, 18:00–19:30, are over; Saturn before dawn, 04:00–06:00, if you get up early.",
        ),
    ],
)
def test_hours_that_have_begun_and_hours_that_are_over(now: str, best: BestMinutes, told: str) -> None:
    assert words(Limiter.OUTSIDE_HOURS, best=best, hours=EVENING, now=at(now)) == f"{told} {LOOK}"


def test_what_was_earlier_is_not_told_as_left() -> None:
    told = words(Limiter.OUTSIDE_HOURS, best=OUTSIDE, hours=NIGHT, now=at("22:30"))

    assert told.startswith(
        "Nothing good in your hours, 22:00–23:30; Saturn 20:00–22:00 if you go out earlier."
    )


def test_nobody_is_asked_to_stay_up_for_less_than_twenty_minutes() -> None:
    short, enough = (
        words(Limiter.OUTSIDE_HOURS, best=minutes("20:00", end, in_hours=False), hours=EVENING)
        for end in ("20:19", "20:20")
    )

    assert short == (
        "Saturn is up only outside your hours, 18:00–19:30, and for too short to stay up for: 20:00–20:19."
    )
    assert "if you stay up" in enough
