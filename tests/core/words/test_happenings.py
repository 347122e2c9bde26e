"""What goes on beside Jupiter, or comes next, as it is told at a moment."""

from datetime import UTC, date, datetime, timedelta

import pytest
from attrs import evolve

from core.looks.happenings import Happenings
from core.sky.moons import Moon, MoonEvent, MoonEventKind
from core.sky.red_spot import RedSpotPasses
from core.words.happenings import next_words
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
