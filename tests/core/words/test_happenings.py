"""What goes on beside Jupiter, or comes next, as it is told at a moment."""

from datetime import UTC, date, datetime, timedelta

import pytest
from attrs import evolve

from core.looks.happenings import Happenings
from core.sky.bodies import Body
from core.sky.moons import Moon, MoonEvent, MoonEventKind
from core.sky.red_spot import RedSpotPasses
from core.words.happenings import happening_words, next_words
from core.words.site_clock import SiteClock
from tests.core.evenings import LISBON

NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
CLOCK = SiteClock(zone=LISBON.zone, hours=24)


def event(moon: Moon, kind: MoonEventKind, minutes: tuple[float, float]) -> MoonEvent:
    start, end = (NINE + timedelta(minutes=each) for each in minutes)
    return MoonEvent(moon=moon, kind=kind, start=start, end=end, start_seen=True, end_seen=True)


IO = event(Moon.IO, MoonEventKind.TRANSIT, (0, 130))
EUROPA = event(Moon.EUROPA, MoonEventKind.SHADOW_TRANSIT, (60, 200))
GANYMEDE = event(Moon.GANYMEDE, MoonEventKind.ECLIPSE, (300, 400))


@pytest.mark.parametrize(
    ("minutes", "named"),
    [
        (-10, ["Io"]),  # nothing yet, so the next one
        (0, ["Io", "Europa"]),
        (30, ["Io", "Europa"]),
        (60, ["Io", "Europa", "Ganymede"]),
        (130, ["Europa", "Ganymede"]),
        (250, ["Ganymede"]),
        (400, []),
    ],
)
def test_what_goes_on_and_the_one_that_comes_next(minutes: float, named: list[str]) -> None:
    found = Happenings(events_to_see=(IO, EUROPA, GANYMEDE))

    told = list(next_words(found, NINE + timedelta(minutes=minutes), CLOCK))

    assert [words.split("'")[0].split()[0] for words in told] == named


SPOT = RedSpotPasses(
    longitude_deg=70.0,
    measured_on=date(2026, 11, 1),
    times=(NINE, NINE + timedelta(hours=10)),
    days_from_measured=34,
)


@pytest.mark.parametrize(("minutes", "time"), [(-100, "21:00"), (49, "21:00"), (51, "07:00"), (651, None)])
def test_the_red_spot_counts_as_there_until_fifty_minutes_after_the_middle(
    minutes: float, time: str | None
) -> None:
    """From 50 minutes before the middle of the disc to 50 after it is well placed (common practice)."""
    told = list(next_words(Happenings(red_spot=SPOT), NINE + timedelta(minutes=minutes), CLOCK))

    assert [time in words for words in told if time is not None] == ([] if time is None else [True])
    old = list(next_words(Happenings(red_spot=evolve(SPOT, days_from_measured=3650)), NINE, CLOCK))
    assert old != list(next_words(Happenings(red_spot=SPOT), NINE, CLOCK))
    assert list(next_words(Happenings(), NINE, CLOCK)) == []


@pytest.mark.parametrize(
    ("kind", "words", "brief"),
    [
        (MoonEventKind.TRANSIT, "Io: crosses the disc", "Io on the disc"),
        (MoonEventKind.SHADOW_TRANSIT, "Io: its shadow crosses the disc", "Io's shadow on the disc"),
        (MoonEventKind.OCCULTATION, "Io: is behind Jupiter", "Io behind"),
        (MoonEventKind.ECLIPSE, "Io: is in Jupiter's shadow", "Io in shadow"),
    ],
)
def test_each_passage_of_a_moon_in_a_line_and_in_few_words(
    kind: MoonEventKind, words: str, brief: str
) -> None:
    passage = Happenings(events_to_see=(event(Moon.IO, kind, (0, 60)),))

    assert list(happening_words(Body.JUPITER, passage, CLOCK)) == [f"21:00–22:00  {words}"]
    assert list(next_words(passage, NINE, CLOCK)) == [f"{brief} 21:00–22:00"]


@pytest.mark.parametrize(
    ("start_seen", "end_seen", "note"),
    [
        (True, True, ""),
        (False, True, " (its start cannot be seen)"),
        (True, False, " (its end cannot be seen)"),
        (False, False, " (its start and end cannot be seen)"),
    ],
)
def test_an_end_that_cannot_be_seen_is_told(start_seen: bool, end_seen: bool, note: str) -> None:
    passage = evolve(IO, start_seen=start_seen, end_seen=end_seen)

    assert list(happening_words(Body.JUPITER, Happenings(events_to_see=(passage,)), CLOCK)) == [
        f"21:00–23:10  Io: crosses the disc{note}"
    ]


def test_an_evening_without_a_passage_says_so_and_an_old_longitude_is_marked() -> None:
    assert list(happening_words(Body.JUPITER, Happenings(), CLOCK)) == [
        "No moon crosses the disc, goes behind it or is eclipsed while Jupiter is well placed."
    ]
    assert list(happening_words(Body.SATURN, Happenings(events_to_see=(IO,)), CLOCK)) == []
    old = evolve(SPOT, days_from_measured=3650)
    assert list(next_words(Happenings(red_spot=SPOT), NINE, CLOCK)) == ["red spot in the middle 21:00"]
    assert list(next_words(Happenings(red_spot=old), NINE, CLOCK)) == [
        "red spot in the middle 21:00 (old longitude)"
    ]
