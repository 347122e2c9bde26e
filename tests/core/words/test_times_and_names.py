"""Times and dates as a person at the site reads them."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from core.sky.bodies import Body
from core.words.dates import date_text, weekday_text
from core.words.directions import altitude_text, azimuth_text, compass_letters, compass_text, where_text
from core.words.names import listed, opening
from core.words.site_clock import SiteClock

BERLIN = SiteClock(zone=ZoneInfo("Europe/Berlin"))


@pytest.mark.parametrize(
    ("moment", "shown_24", "shown_12"),
    [
        (datetime(2026, 12, 5, 17, 40, tzinfo=UTC), "18:40", "6:40 pm"),
        (datetime(2026, 12, 5, 23, 0, tzinfo=UTC), "00:00", "12:00 am"),
        (datetime(2026, 12, 5, 11, 0, 29, tzinfo=UTC), "12:00", "12:00 pm"),
        (datetime(2026, 12, 5, 11, 0, 30, tzinfo=UTC), "12:01", "12:01 pm"),
    ],
)
def test_the_time_of_day(moment: datetime, shown_24: str, shown_12: str) -> None:
    assert BERLIN.time(moment) == shown_24
    assert SiteClock(zone=BERLIN.zone, hours=12).time(moment) == shown_12


def test_the_hour_that_comes_twice_is_told_with_its_zone() -> None:
    # Clocks in Berlin went back from 03:00 CEST to 02:00 CET at 01:00 UTC on 25 October 2026.
    assert BERLIN.time(datetime(2026, 10, 25, 0, 30, tzinfo=UTC)) == "02:30 CEST"
    assert BERLIN.time(datetime(2026, 10, 25, 1, 30, tzinfo=UTC)) == "02:30 CET"
    assert BERLIN.time(datetime(2026, 10, 25, 2, 30, tzinfo=UTC)) == "03:30"


def test_a_span_over_a_change_of_the_clocks_names_both_zones() -> None:
    start, end = datetime(2026, 10, 24, 20, 0, tzinfo=UTC), datetime(2026, 10, 25, 4, 0, tzinfo=UTC)

    assert BERLIN.span(start, end) == "22:00 CEST–05:00 CET"
    assert BERLIN.span(start, datetime(2026, 10, 24, 23, 0, tzinfo=UTC)) == "22:00–01:00"


@pytest.mark.parametrize(
    ("start_s", "length_s", "words"),
    [
        (0, 20, "06:48 (under a minute)"),
        (20, 20, "06:48 (under a minute)"),
        (0, 59, "06:48 (under a minute)"),
        (0, 60, "06:48–06:49"),
        (29, 60, "06:48–06:49"),
        (30, 60, "06:49–06:50"),
    ],
)
def test_a_span_is_never_from_a_minute_to_the_same(start_s: int, length_s: int, words: str) -> None:
    start = datetime(2026, 12, 5, 5, 48, tzinfo=UTC) + timedelta(seconds=start_s)

    assert BERLIN.span(start, start + timedelta(seconds=length_s)) == words


def test_a_zone_without_a_short_name_is_told_by_its_offset() -> None:
    # Chatham clocks went back at 14:45 UTC on 4 April 2026, from UTC+13:45 to UTC+12:45.
    chatham = SiteClock(zone=ZoneInfo("Pacific/Chatham"))

    assert chatham.time(datetime(2026, 4, 4, 13, 55, tzinfo=UTC)) == "03:40 UTC+13:45"
    assert chatham.time(datetime(2026, 4, 4, 14, 15, tzinfo=UTC)) == "03:00 UTC+12:45"


def test_dates() -> None:
    assert date_text(date(2027, 3, 12)) == "12 March 2027"
    assert date_text(date(2027, 3, 12), beside=date(2027, 1, 1)) == "12 March"
    assert date_text(date(2027, 3, 12), beside=date(2026, 12, 31)) == "12 March 2027"
    # 5 December 2026 is a Saturday.
    assert weekday_text(date(2026, 12, 5)) == "Sat 5 December 2026"


def test_an_altitude_under_a_bound_is_never_told_as_the_bound() -> None:
    assert altitude_text(29.97, under_deg=30) == "29°"
    assert altitude_text(29.2, under_deg=30) == "29°"
    assert altitude_text(30.0, under_deg=30) == "30°"
    assert altitude_text(29.97) == "30°"
    # Halves round up.
    assert (altitude_text(28.5), altitude_text(29.5)) == ("29°", "30°")


def test_a_hair_below_the_horizon_is_told_without_a_sign() -> None:
    assert (altitude_text(-0.3), altitude_text(-0.7), altitude_text(0.3)) == ("0°", "−1°", "0°")


@pytest.mark.parametrize(
    ("azimuth_deg", "name"), [(0, "north"), (359, "north"), (46, "north-east"), (180, "south"), (292, "west")]
)
def test_compass_points(azimuth_deg: float, name: str) -> None:
    assert compass_text(azimuth_deg) == name


@pytest.mark.parametrize(
    ("altitude_deg", "words"),
    [
        (10, "south, low"),
        (17, "south, low"),
        (18, "south, a quarter of the way up"),
        (26, "south, a quarter of the way up"),
        (27, "south, a third of the way up"),
        (37, "south, a third of the way up"),
        (38, "south, half way up"),
        (52, "south, half way up"),
        (53, "south, two thirds of the way up"),
        (66, "south, two thirds of the way up"),
        (67, "south, high up"),
        (79, "south, high up"),
        (80, "nearly overhead"),
    ],
)
def test_a_height_is_told_as_the_nearest_share_of_the_way_up(altitude_deg: float, words: str) -> None:
    """A quarter, a third, a half and two thirds of 90 degrees are 22.5, 30, 45 and 60; between by eye."""
    assert where_text(altitude_deg, 180.0) == f"{words}: {altitude_deg}°"


def test_a_direction_in_letters_and_in_degrees() -> None:
    assert (compass_letters(224.0), azimuth_text(224.5)) == ("SW", "225°")
    assert (compass_letters(359.6), azimuth_text(359.6)) == ("N", "0°")


def test_names_in_a_sentence() -> None:
    assert opening(Body.MOON) == "The Moon"
    assert opening(Body.SATURN) == "Saturn"
    assert listed(["a"]) == "a"
    assert listed(["a", "b", "c"]) == "a, b and c"
