"""Evenings by the site's clock: changes of the clocks, skipped dates, and what "tonight" means."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.problems import ProblemsError
from core.sky.civil import evening_span, site_time, tonight
from core.sky.site import Site


def site(time_zone: str, latitude_deg: float = 40.0, longitude_deg: float = 0.0) -> Site:
    return Site(name="Here", latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone=time_zone)


BERLIN = site("Europe/Berlin", 52.5, 13.4)
APIA = site("Pacific/Apia", -13.83, -171.77)


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def local(where: Site, text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=where.zone)


@pytest.mark.parametrize(
    ("where", "evening", "hours"),
    [
        (BERLIN, date(2026, 12, 5), 24.0),
        (BERLIN, date(2026, 10, 24), 25.0),
        (BERLIN, date(2027, 3, 27), 23.0),
        (site("Australia/Lord_Howe"), date(2026, 4, 4), 24.5),
        (site("Asia/Kathmandu"), date(2026, 1, 1), 24.0),
    ],
)
def test_an_evening_is_as_long_as_the_clocks_make_it(where: Site, evening: date, hours: float) -> None:
    start, end = evening_span(where, evening)

    assert start.astimezone(where.zone).strftime("%Y-%m-%d %H:%M") == f"{evening} 12:00"
    assert end.astimezone(where.zone).strftime("%Y-%m-%d %H:%M") == f"{evening + timedelta(days=1)} 12:00"
    assert end - start == timedelta(hours=hours)
    assert start.tzinfo is UTC


def test_a_date_that_the_zone_skipped_is_refused_by_name() -> None:
    # Samoa left out 30 December 2011 when it moved across the date line.
    with pytest.raises(ProblemsError, match=r"2011-12-30 does not exist in Pacific/Apia"):
        evening_span(APIA, date(2011, 12, 30))


def test_the_evening_before_a_skipped_date_ends_at_the_next_noon_there_was() -> None:
    assert evening_span(APIA, date(2011, 12, 29)) == (utc("2011-12-29T22:00"), utc("2011-12-30T22:00"))
    assert evening_span(APIA, date(2011, 12, 31))[0] == utc("2011-12-30T22:00")


@pytest.mark.parametrize("zone", ["Pacific/Kiritimati", "Etc/GMT+12"])
def test_the_end_of_the_calendar_is_refused_kindly(zone: str) -> None:
    with pytest.raises(ProblemsError, match="9999-12-31"):
        evening_span(site(zone), date.max)


@given(
    st.dates(date(1980, 1, 1), date(2040, 1, 1)),
    st.sampled_from(["Europe/Berlin", "Australia/Lord_Howe", "America/St_Johns", "Pacific/Auckland", "UTC"]),
)
def test_evenings_follow_each_other_without_gap(evening: date, zone: str) -> None:
    where = site(zone)

    assert evening_span(where, evening)[1] == evening_span(where, evening + timedelta(days=1))[0]


@pytest.mark.parametrize(
    ("now", "evening"),
    [
        ("2020-11-29T00:30", date(2020, 11, 28)),
        ("2020-11-29T08:16", date(2020, 11, 28)),
        ("2020-11-29T08:18", date(2020, 11, 29)),
        ("2020-11-29T11:59", date(2020, 11, 29)),
        ("2020-11-29T12:00", date(2020, 11, 29)),
        ("2020-11-29T23:59", date(2020, 11, 29)),
    ],
)
def test_tonight_changes_at_sunrise(now: str, evening: date) -> None:
    # Sunrise in Madrid that day: 08:16:53 CET.
    madrid = site("Europe/Madrid", 40.42, -3.70)

    assert tonight(madrid, local(madrid, now)) == evening


@pytest.mark.parametrize("day", ["2026-06-21", "2026-12-21"])
def test_noon_divides_where_the_sun_neither_rises_nor_sets(day: str) -> None:
    svalbard = site("Arctic/Longyearbyen", 78.22, 15.65)
    today = date.fromisoformat(day)

    assert tonight(svalbard, local(svalbard, f"{day}T11:59")) == today - timedelta(days=1)
    assert tonight(svalbard, local(svalbard, f"{day}T12:00")) == today


def test_a_sun_that_rises_after_noon_does_not_end_the_night_before() -> None:
    # Kept on the time of a zone 5 hours ahead of its Sun, this place sees the Sun rise in the afternoon.
    odd = site("Europe/Moscow", 60.0, -60.0)

    assert tonight(odd, local(odd, "2026-12-21T11:00")) == date(2026, 12, 20)
    assert tonight(odd, local(odd, "2026-12-21T13:00")) == date(2026, 12, 21)


def test_tonight_after_a_skipped_date_is_the_last_evening_there_was() -> None:
    assert tonight(APIA, local(APIA, "2011-12-31T02:00")) == date(2011, 12, 29)


@given(st.integers(0, 50 * 365 * 1440), st.floats(-66, 66))
def test_tonight_has_not_ended_yet_and_starts_within_half_a_day(minutes: int, latitude_deg: float) -> None:
    now = utc("1990-01-01") + timedelta(minutes=minutes)
    where = site("Europe/London", latitude_deg, 0.0)
    start, end = evening_span(where, tonight(where, now))

    assert now < end
    assert start - now < timedelta(hours=12)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2026-12-05T21:30", "2026-12-05T20:30"),
        ("2026-12-05 21:30:15", "2026-12-05T20:30:15"),
        ("2026-12-05T21:30+05:45", "2026-12-05T15:45"),
        ("2026-12-05T21:30Z", "2026-12-05T21:30"),
        ("2026-10-25T02:30", "2026-10-25T00:30"),  # comes twice: the first, still summer time
        ("2026-10-25T02:30+01:00", "2026-10-25T01:30"),
    ],
)
def test_times_are_the_sites_unless_they_say_otherwise(text: str, expected: str) -> None:
    assert site_time(BERLIN, text) == utc(expected)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("2027-03-28T02:30", "does not exist in Europe/Berlin"),
        ("2026-12-05", "no time of day"),
        ("tomorrow", "is not a time"),
        ("2026-13-05T10:00", "is not a time"),
        ("9999-12-31T23:59-12:00", "outside the calendar"),
        ("", "is not a time"),
    ],
)
def test_other_texts_are_refused_with_the_form_to_use(text: str, words: str) -> None:
    with pytest.raises(ProblemsError, match=words):
        site_time(BERLIN, text)
