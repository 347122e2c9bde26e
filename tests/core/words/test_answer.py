"""The answer's own sentences: what is over, what never comes, what comes next, and other hours."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from attrs import evolve

from core.moments.best_minutes import BestMinutes
from core.moments.elsewhen import Elsewhen
from core.moments.hours import HoursOut
from core.moments.last_call import LastCall
from core.moments.targets import TargetTime
from core.sky.bodies import Body
from core.sky.site import Site
from core.sky.windows import Grade, Window
from core.tonight.answer import Answer
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect
from core.words.answer import detail_sentences, headline
from core.words.site_clock import SiteClock
from tests.core.evenings import BEHIND_ROOF, GOOD, LISBON, TROMSO, night, place

CLOCK = SiteClock(zone=LISBON.zone)  # on winter's UTC
NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)
NO_TELESCOPE = "Add a telescope in Gear to see how far you can climb."


def minutes(start: datetime, end: datetime, *, in_hours: bool = True) -> BestMinutes:
    window = Window(start=start, end=end, grade=Grade.BEST, warm_air=None)
    return BestMinutes(windows=(window,), rank=5, in_hours=in_hours)


BEST = minutes(NINE - HOUR, NINE + HOUR)


def answer(
    *,
    planet: Body = Body.SATURN,
    site: Site = LISBON,
    evening: date = GOOD,
    limiter: Limiter = Limiter.NOTHING,
    last_call: LastCall | None = None,
    **known: Any,  # noqa: ANN401 - the fields of a prospect
) -> Answer:
    of = night(site, evening)
    prospect = Prospect(night=of, body=of.of(planet), position=of.position(planet, NINE), **known)
    return Answer(prospect=prospect, limiter=limiter, last_call=last_call)


@pytest.mark.parametrize(
    ("limiter", "why"),
    [
        (Limiter.BLOCKED, "behind blocked sky since 01:22"),
        (Limiter.TOO_LOW, "under 10° since 01:22"),
        (Limiter.NO_DARK_SKY, "the sky has been too bright since 01:22"),
    ],
)
def test_a_planet_that_is_over_is_told_with_its_best_minutes(limiter: Limiter, why: str) -> None:
    """Saturn's last window ended at 01:22."""
    hours = HoursOut(start=NINE - 3 * HOUR, end=NINE, assumed=False)
    over = f"Saturn is done for this evening: {why}. Its best minutes were 20:00–22:00."

    assert headline(answer(over=BEST, limiter=limiter), CLOCK) == over
    # Hours that are over are told as that.
    late = answer(over=BEST, limiter=limiter, hours=hours, now=NINE + HOUR)
    assert headline(late, CLOCK) == f"Your hours, 18:00–21:00, are over. {over}"
    in_time = answer(over=BEST, limiter=limiter, hours=hours, now=NINE - HOUR)
    assert headline(in_time, CLOCK) == over


@pytest.mark.parametrize(
    ("site", "evening", "planet", "words"),
    [
        (
            BEHIND_ROOF,
            GOOD,
            Body.SATURN,
            (
                "On this evening Saturn is behind blocked sky (roof ridge) whenever it is above 10° in a "
                "dark sky."
            ),
        ),
        (
            TROMSO,
            date(2026, 6, 21),
            Body.SATURN,
            "On this evening the Sun stays up, and the sky never gets dark enough for Saturn.",
        ),
        (
            place("Oslo", 60.0, 11.0, "Europe/Oslo"),
            date(2026, 6, 21),
            Body.URANUS,
            "On this evening the sky never gets dark enough for Uranus.",
        ),
        # It has a window, in which nothing is offered.
        (
            LISBON,
            GOOD,
            Body.VENUS,
            ("On this evening Venus has only the last minutes before sunrise, too close to the Sun's light."),
        ),
    ],
)
def test_a_planet_that_never_comes_is_told_why(site: Site, evening: date, planet: Body, words: str) -> None:
    assert headline(answer(site=site, evening=evening, planet=planet), CLOCK) == words


def test_without_a_site_and_in_the_last_minutes_there_is_one_thing_to_say() -> None:
    call = LastCall(now=NINE, stop=NINE + HOUR / 6, sunrise=NINE + HOUR / 3)

    assert headline(None, None) == (
        "Add a site in Gear, and the evening's best planet and its hours appear here."
    )
    assert detail_sentences(None, None) == ""
    last = answer(best=BEST, last_call=call)
    assert headline(last, CLOCK) == (
        "Off the planet and cap the telescope by 21:10: 10 min left. The Sun rises at 21:20."
    )
    assert detail_sentences(last, CLOCK) == ""


def after_climb(found: Answer, *, later: str | None = None) -> str:
    """Return what is told after how far to climb, for which a telescope is lacking here."""
    words = detail_sentences(found, CLOCK, later=later)
    assert NO_TELESCOPE in words
    return words.split(NO_TELESCOPE)[1].strip()


ELEVEN = NINE + 2 * HOUR
JUPITER = TargetTime(body=Body.JUPITER, minutes=minutes(ELEVEN, ELEVEN + HOUR))
SATURN = TargetTime(body=Body.SATURN, minutes=BEST)


@pytest.mark.parametrize(
    ("known", "words"),
    [
        # Saturn stands over the roofs at nine, and its own minutes end at ten.
        ({"following": JUPITER, "now": NINE}, "Go over to Jupiter at 23:00."),
        ({"following": JUPITER, "now": NINE, "targets": (SATURN,)}, "Next comes Jupiter, from 23:00."),
        # With less than twenty minutes between there is nothing to wait for.
        (
            {
                "following": JUPITER,
                "now": NINE,
                "targets": (evolve(SATURN, minutes=minutes(NINE - HOUR, ELEVEN - HOUR / 4)),),
            },
            "Go over to Jupiter at 23:00.",
        ),
        # Before dusk there is nothing in sight to go over from.
        ({"following": JUPITER, "now": NINE - 6 * HOUR}, "Begin with Jupiter at 23:00."),
        (
            {"following": JUPITER, "now": NINE + 6 * HOUR, "targets": (SATURN,)},
            "Next comes Jupiter, from 23:00.",
        ),
        ({"following": JUPITER}, ""),
        ({"first": JUPITER}, "Begin with Jupiter at 23:00."),
        ({"nothing_before": NINE}, "No planet is worth a look before 21:00."),
        (
            {"turn": TargetTime(body=Body.URANUS, minutes=minutes(NINE, ELEVEN)), "now": NINE},
            "When you have seen enough of Saturn, Uranus is next, until 23:00: east, half way up: 51°.",
        ),
    ],
)
def test_what_comes_next(known: dict[str, Any], words: str) -> None:
    assert after_climb(answer(best=BEST, **known)) == words


def test_until_it_is_better_what_stands_higher_is_told_first() -> None:
    waiting = answer(best=BEST, meanwhile=Body.URANUS, now=NINE)

    assert detail_sentences(waiting, CLOCK) == (
        f"Until then Uranus stands higher: east, half way up: 51°. {NO_TELESCOPE}"
    )


STAY = Elsewhen(body=Body.JUPITER, start=ELEVEN, end=ELEVEN + HOUR, is_earlier=False)


@pytest.mark.parametrize(
    ("when", "how"),
    [
        ({}, "If you stay up,"),
        ({"is_before_dawn": True}, "Before dawn, if you get up early,"),
        ({"is_earlier": True}, "If you go out earlier,"),
    ],
)
def test_what_another_hour_would_give(when: dict[str, Any], how: str) -> None:
    found = evolve(STAY, **when)
    itself = evolve(found, body=Body.SATURN)

    assert after_climb(answer(best=BEST, elsewhen=found)) == f"{how} Jupiter from 23:00."
    assert after_climb(answer(best=BEST, elsewhen=itself)) == f"{how} it stands better from 23:00."
    # There is something of it in the hours already.
    assert after_climb(answer(best=BEST, elsewhen=found, targets=(JUPITER,))) == (
        f"{how} Jupiter stands better from 23:00."
    )
    spoken_of = answer(best=BEST, elsewhen=found, following=JUPITER, now=NINE)
    assert after_climb(spoken_of) == f"Go over to Jupiter at 23:00. {how} it stands better from 23:00."
    outside = answer(best=BEST, elsewhen=found, limiter=Limiter.OUTSIDE_HOURS, hours=None)
    assert after_climb(outside) == ""


@pytest.mark.parametrize(
    ("is_before_dawn", "how"), [(False, "If you stay up,"), (True, "Before dawn, if you get up early,")]
)
def test_one_that_still_rises_is_told_with_the_height_that_it_gains(is_before_dawn: bool, how: str) -> None:
    higher = night(LISBON, GOOD).of(Body.SATURN).highest
    itself = evolve(STAY, body=Body.SATURN, higher=higher, is_before_dawn=is_before_dawn)

    assert after_climb(answer(best=BEST, elsewhen=itself)) == f"{how} it stands higher: 52° at 23:00."
    named = answer(best=BEST, elsewhen=itself, first=JUPITER)
    assert after_climb(named) == (f"Begin with Jupiter at 23:00. {how} Saturn stands higher: 52° at 23:00.")


def test_its_own_better_hour_is_not_told_twice() -> None:
    itself = evolve(STAY, body=Body.SATURN)

    assert after_climb(answer(best=BEST, elsewhen=itself, better_later=JUPITER.minutes)) == ""
    assert after_climb(answer(best=BEST, elsewhen=evolve(itself, start=BEST.start))) == ""


def test_another_date_comes_before_another_hour() -> None:
    told = after_climb(answer(best=BEST, elsewhen=STAY), later="It is best in June.")

    assert told == "It is best in June. If you stay up, Jupiter from 23:00."
