"""Hours out: dusk to half past eleven unless said, never too short, never backwards."""

from datetime import UTC, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from core.moments.hours import Dusks, HoursOut, Twilight, hours_out, typed_hours
from core.problems import ProblemsError

BERLIN = ZoneInfo("Europe/Berlin")


def at(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


WINTER = Dusks(
    noon=at("2026-12-05T11:00"), zone=BERLIN, sunset=at("2026-12-05T15:00"), sunrise=at("2026-12-06T07:00")
)


def test_from_dusk_to_half_past_eleven_unless_said() -> None:
    found = hours_out(WINTER)

    assert (found.start, found.end, found.assumed) == (at("2026-12-05T15:20"), at("2026-12-05T22:30"), True)
    assert found.holds(found.start)
    assert not found.holds(found.end)


def test_dawn_is_the_stop_line_and_hours_before_noon_are_of_the_next_date() -> None:
    found = typed_hours(WINTER, start=time(2, 30), end=Twilight.DAWN)

    assert (found.start, found.end, found.assumed) == (at("2026-12-06T01:30"), at("2026-12-06T06:50"), False)


def test_noon_itself_is_of_the_evening_s_own_date() -> None:
    assert WINTER.at(time(12)) == at("2026-12-05T11:00")
    assert WINTER.at(time(11, 59)) == at("2026-12-06T10:59")


def test_without_a_sunset_or_a_sunrise() -> None:
    polar = Dusks(noon=at("2026-12-21T11:00"), zone=BERLIN, sunset=None, sunrise=None)

    found = hours_out(polar, end=Twilight.DAWN)

    assert (found.start, found.end) == (at("2026-12-21T17:00"), at("2026-12-22T05:00"))


def test_a_light_summer_lengthens_assumed_hours_to_ninety_minutes() -> None:
    summer = Dusks(
        noon=at("2026-06-21T10:00"),
        zone=BERLIN,
        sunset=at("2026-06-21T20:30"),
        sunrise=at("2026-06-22T02:30"),
    )

    found = hours_out(summer)

    # Dusk 22:50, 40 minutes before half past eleven.
    assert found.start == at("2026-06-21T20:50")
    assert found.end - found.start == timedelta(minutes=90)


def test_dusk_after_half_past_eleven_lengthens_too_but_not_past_the_stop_line() -> None:
    white = Dusks(
        noon=at("2026-06-21T10:00"),
        zone=BERLIN,
        sunset=at("2026-06-21T22:30"),
        sunrise=at("2026-06-22T00:20"),
    )

    found = hours_out(white)

    assert (found.start, found.end) == (at("2026-06-21T22:50"), at("2026-06-22T00:10"))


def test_an_hour_of_assumed_time_is_enough() -> None:
    evening = Dusks(
        noon=at("2026-06-01T10:00"),
        zone=BERLIN,
        sunset=at("2026-06-01T20:10"),
        sunrise=at("2026-06-02T03:00"),
    )

    assert hours_out(evening).end == at("2026-06-01T21:30")


@pytest.mark.parametrize(("start", "end"), [(time(22), time(22)), (time(23), time(21)), (time(3), time(23))])
def test_typed_hours_that_do_not_end_after_they_start_are_refused(start: time, end: time) -> None:
    with pytest.raises(ProblemsError, match="end after they start"):
        typed_hours(WINTER, start=start, end=end)


def test_usual_hours_of_a_profile_that_begin_too_late_in_summer_are_lengthened_and_not_refused() -> None:
    summer = Dusks(
        noon=at("2026-06-21T10:00"),
        zone=BERLIN,
        sunset=at("2026-06-21T20:30"),
        sunrise=at("2026-06-22T02:30"),
    )

    found = hours_out(summer, start=Twilight.DUSK, end=time(22))

    assert found.end - found.start == timedelta(minutes=90)
    assert not found.assumed


def test_hours_over_a_change_of_the_clocks() -> None:
    autumn = Dusks(
        noon=at("2026-10-24T10:00"),
        zone=BERLIN,
        sunset=at("2026-10-24T16:00"),
        sunrise=at("2026-10-25T05:45"),
    )

    # 02:30 comes twice; the first is meant.
    assert autumn.at(time(2, 30)) == at("2026-10-25T00:30")
    assert autumn.at(time(3)) == at("2026-10-25T02:00")


def test_usual_hours_of_the_clock_stand_as_they_are_however_short() -> None:
    found = hours_out(WINTER, start=time(21), end=time(21, 30))

    assert (found.start, found.end) == (at("2026-12-05T20:00"), at("2026-12-05T20:30"))


def test_whoever_is_outside_at_the_end_of_the_hours_stays_half_an_hour() -> None:
    hours = HoursOut(start=at("2026-12-05T17:00"), end=at("2026-12-05T22:30"), assumed=True)

    assert hours.held_open(at("2026-12-05T16:00")) == hours
    assert hours.held_open(at("2026-12-05T20:00")) == hours
    assert hours.held_open(at("2026-12-05T22:20")).end == at("2026-12-05T22:50")
    assert hours.held_open(at("2026-12-06T01:00")).end == at("2026-12-06T01:30")
