"""Lines of the log and what they have taught, as a person reads them, however little is known."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from core.air.usual_air import BlurDistribution
from core.gear.owned import Eyepiece
from core.ladder.experience import GroupedBy, PowerRecord, UsualAir
from core.record.log_entry import LogEntry, UsedGear, Verdict
from core.sky.bodies import Body
from core.words.experience import count_text, group_text, record_text, uses_text, usual_air_text
from core.words.log import (
    entry_clock,
    gear_text,
    imported_text,
    line_text,
    no_lines_text,
    verdict_text,
    where_text,
)
from core.words.site_clock import SiteClock
from tests.core.record import log_lines

AT = datetime(2026, 12, 5, 21, 30, tzinfo=UTC)


def line(**told: object) -> LogEntry:
    return LogEntry(at=AT, evening=date(2026, 12, 5), note="clear", **told)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("verdict", "from_power", "words"),
    [
        (Verdict.MORE, 96, "120x: more detail than 96x"),
        (Verdict.NO_CHANGE, 96, "120x: no change from 96x"),
        (Verdict.LESS, 96, "120x: less detail than 96x"),
        (Verdict.CANNOT_TELL, 96, "120x: cannot tell it from 96x"),
        (Verdict.LESS, None, "120x: less detail"),
    ],
)
def test_a_verdict_with_the_power_before_or_alone(
    verdict: Verdict, from_power: float | None, words: str
) -> None:
    assert verdict_text(line(power=120, from_power=from_power, verdict=verdict)) == words


def test_a_note_says_nothing_of_a_step() -> None:
    assert verdict_text(line()) == verdict_text(line(power=120)) == ""


def test_where_and_through_what_as_far_as_they_are_known() -> None:
    barlow, blue = (UsedGear(name="2x"),), (UsedGear(name="82A"),)

    assert where_text(line(planet=Body.SATURN, altitude_deg=50)) == "Saturn 50°"
    assert where_text(line(planet=Body.SATURN)) == "Saturn"
    assert where_text(line(altitude_deg=50)) == ""
    assert (
        gear_text(line(scope_name="Six-inch", eyepiece_name="10 mm", barlows=barlow, filters=blue))
        == "Six-inch: 10 mm, 2x, 82A"
    )
    assert gear_text(line(eyepiece_name="10 mm", barlows=barlow)) == "10 mm, 2x"
    assert gear_text(line(scope_name="Six-inch")) == "Six-inch"


@pytest.mark.parametrize(
    ("zone", "time"),
    [("Europe/Athens", "23:30"), ("Nowhere/Atlantis", "21:30"), ("../etc", "21:30"), ("", "21:30")],
)
def test_the_time_is_that_of_the_place_or_utc_where_its_zone_is_not_known(zone: str, time: str) -> None:
    # Athens is two hours east of Greenwich in winter.
    assert entry_clock(line(time_zone=zone), hours=24).time(AT) == time


def test_headings_of_what_is_counted_together() -> None:
    assert [
        group_text("low", GroupedBy.HEIGHT),
        group_text("fair", GroupedBy.HEIGHT),
        group_text("best", GroupedBy.HEIGHT),
        group_text("12", GroupedBy.MONTH),
        group_text("saturn", GroupedBy.PLANET),
        group_text("", GroupedBy.ALL),
    ] == ["below 30°", "30° to 45°", "above 45°", "December", "Saturn", ""]


@pytest.mark.parametrize(
    ("count", "words"),
    [
        (0, "No step has been judged here yet. Each verdict on the ladder is counted here."),
        (1, "Only one verdict so far: read it as an anecdote."),
        (4, "Only 4 verdicts so far: read it as an anecdote."),
        (5, "5 verdicts on going up to a power, or back from it."),
    ],
)
def test_how_much_so_few_verdicts_are_worth(count: int, words: str) -> None:
    records = [PowerRecord(power=120, more=count, no_change=0, less=0)] if count else []

    assert count_text(records) == words


def test_how_often_a_power_worked_and_what_is_used() -> None:
    ten, six = (Eyepiece(name=f"{each} mm", focal_length_mm=each) for each in (10, 6))

    assert (
        record_text(PowerRecord(power=120, more=3, no_change=2, less=1))
        == "120x: more detail 3, no change 2, less detail 1"
    )
    assert uses_text([(ten, 3), (six, 1)]) == "Most used: 10 mm, 3 lines."
    assert uses_text([(ten, 1), (six, 1)]) == "Most used: 10 mm, one line."
    assert uses_text([(ten, 1), (six, 0)]) == "Most used: 10 mm, one line. Never used so far: 6 mm."
    assert uses_text([(ten, 3), (six, 0)]) == "Most used: 10 mm, 3 lines. Never used so far: 6 mm."
    assert uses_text([(ten, 0), (six, 0)]) == uses_text([]) == ""


def test_the_usual_air_is_told_from_the_fifth_night_on() -> None:
    assert usual_air_text(None) == "After verdicts of 5 nights the usual air of this site is told here."
    known = UsualAir(site_id="s", blur=BlurDistribution(median_arcsec=1.46, spread=0.2), nights=7)
    assert usual_air_text(known) == (
        "The usual air here is 1.5″ overhead, by the verdicts of 7 nights: the first guess of a new night."
    )


def test_a_whole_line_tells_when_what_through_what_and_the_note_under_it() -> None:
    entry = log_lines.line(note="calm\n\n  \nthen wind")
    clock = SiteClock(zone=ZoneInfo("Europe/Lisbon"), hours=24)

    first, *note = line_text(entry, clock).splitlines()

    assert first.startswith("5 Dec 21:04  ")
    assert first.split("  ", 1)[1].split("  ·  ") == [
        "Saturn 50°",
        "240x: more detail than 150x",
        "Six-inch reflector: 10 mm, 2x",
    ]
    assert note == ["calm", "then wind"]
    assert line_text(line(), clock) == "5 Dec 21:30\nclear"


def test_why_there_are_no_lines_and_how_many_an_import_brought() -> None:
    assert no_lines_text(searched=True) == "No line has all of these words."
    assert no_lines_text(searched=False) == (
        "The log is empty. Verdicts on the ladder are written here by themselves, and lines of your own."
    )
    assert [imported_text(count) for count in (0, 1, 2, 40)] == [
        "Nothing new: every line of the file is in the log already.",
        "1 line was added to the log.",
        "2 lines were added to the log.",
        "40 lines were added to the log.",
    ]


def test_a_note_without_words_leaves_no_line_and_a_bare_line_no_blank() -> None:
    clock = SiteClock(zone=ZoneInfo("UTC"))

    assert line_text(LogEntry(at=AT, evening=date(2026, 12, 5), note="calm\n \nwind"), clock) == (
        "5 Dec 21:30\ncalm\nwind"
    )
