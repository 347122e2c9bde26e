"""Hours under a chart, across clock changes too."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from core.drawing.ticks import axis_words, hour_ticks, stretches
from core.words.dates import short_weekday_text
from core.words.time_axis import hour_words, offset_label


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).astimezone(UTC)


# The changes below are those of the IANA time zone database; Berlin 2026: back on 25 October at 01:00 UTC,
# forward on 29 March at 01:00 UTC (Directive 2000/84/EC: last Sundays of March and October, 01:00 UTC).
BERLIN = ZoneInfo("Europe/Berlin")
AUTUMN = (utc("2026-10-24T22:30+00:00"), utc("2026-10-25T03:30+00:00"))
SPRING = (utc("2026-03-28T22:30+00:00"), utc("2026-03-29T03:30+00:00"))


def test_the_repeated_hour_is_there_twice_with_its_zone() -> None:
    ticks = hour_ticks(*AUTUMN, BERLIN)

    assert [(tick.hour, tick.zone) for tick in ticks] == [
        (1, None),
        (2, "CEST"),
        (2, "CET"),
        (3, None),
        (4, None),
    ]


def test_the_repeated_hours_are_one_hour_apart() -> None:
    times = [tick.time for tick in hour_ticks(*AUTUMN, BERLIN)]

    assert {late - early for early, late in pairwise(times)} == {timedelta(hours=1)}


def test_the_missing_hour_is_not_there() -> None:
    ticks = hour_ticks(*SPRING, BERLIN)

    assert [(tick.hour, tick.zone) for tick in ticks] == [
        (0, None),
        (1, "CET"),
        (3, "CEST"),
        (4, None),
        (5, None),
    ]


def test_the_night_of_the_autumn_change_lasts_15_hours_from_18_to_8() -> None:
    start, end = utc("2026-10-24T18:00+02:00"), utc("2026-10-25T08:00+01:00")

    assert len(hour_ticks(start, end, BERLIN)) == 16


def test_hours_of_a_clock_off_by_a_quarter_are_full_hours_of_that_clock() -> None:
    ticks = hour_ticks(
        utc("2026-10-03T12:00+00:00"), utc("2026-10-03T15:00+00:00"), ZoneInfo("Asia/Kathmandu")
    )

    assert [(tick.hour, tick.time.minute) for tick in ticks] == [(18, 15), (19, 15), (20, 15)]


def test_a_change_of_half_an_hour_keeps_both_sides_right() -> None:
    # Lord Howe Island goes back by 30 minutes on 5 April 2026 at 15:00 UTC on the 4th.
    ticks = hour_ticks(
        utc("2026-04-04T13:00+00:00"), utc("2026-04-04T17:00+00:00"), ZoneInfo("Australia/Lord_Howe")
    )

    assert [(tick.time.hour, tick.time.minute, tick.hour) for tick in ticks] == [
        (13, 0, 0),
        (14, 0, 1),
        (15, 30, 2),
        (16, 30, 3),
    ]


def test_the_two_sides_of_half_an_hour_are_told_apart() -> None:
    ticks = hour_ticks(
        utc("2026-04-04T13:00+00:00"), utc("2026-04-04T17:00+00:00"), ZoneInfo("Australia/Lord_Howe")
    )

    assert [tick.zone for tick in ticks] == [None, "UTC+11", "UTC+10:30", None]


def test_midnight_carries_the_new_date() -> None:
    ticks = hour_ticks(utc("2026-12-05T22:00+00:00"), utc("2026-12-06T02:00+00:00"), ZoneInfo("UTC"))

    assert [short_weekday_text(tick.day) for tick in ticks if tick.day] == ["Sun 6 Dec"]


def test_every_third_hour_still_shows_both_sides_of_a_change() -> None:
    hours = [tick.hour for tick in hour_ticks(*AUTUMN, BERLIN, every=3)]

    assert hours == [2, 2, 3]


@pytest.mark.parametrize(
    ("hours", "label"),
    [(0, "UTC"), (1, "UTC+1"), (-3.5, "UTC−3:30"), (5.75, "UTC+5:45"), (14, "UTC+14")],
)
def test_an_offset_in_words(hours: float, label: str) -> None:
    assert offset_label(timedelta(hours=hours)) == label


def test_the_axis_names_the_zone() -> None:
    start, end = utc("2026-12-05T17:00+00:00"), utc("2026-12-06T07:00+00:00")

    assert axis_words(start, end, BERLIN) == ("Site time, hours: CET (UTC+1)", "Site time, hours: CET")


def test_the_axis_names_both_times_of_a_change() -> None:
    assert axis_words(*AUTUMN, BERLIN)[0] == "Site time, hours: CEST (UTC+2), then CET (UTC+1)"


def test_a_zone_without_a_name_is_told_by_its_offset() -> None:
    start, end = utc("2026-12-05T17:00+00:00"), utc("2026-12-06T07:00+00:00")

    assert axis_words(start, end, ZoneInfo("America/Sao_Paulo"))[0] == "Site time, hours: UTC−3"


def test_the_change_itself_is_found_to_the_second() -> None:
    first, second = stretches(*AUTUMN, BERLIN)

    assert first.end == second.start == utc("2026-10-25T01:00:00+00:00")


@pytest.mark.parametrize(
    ("hour", "clock", "words"),
    [(0, 24, "00"), (21, 24, "21"), (0, 12, "12 am"), (12, 12, "12 pm"), (21, 12, "9 pm")],
)
def test_hours_on_both_clocks(hour: int, clock: int, words: str) -> None:
    assert hour_words(hour, clock=clock) == words
