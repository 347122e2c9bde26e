"""The one state in time: the clock, the moment and the evening that are looked at."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import pytest

from core.problems import ProblemsError
from core.record.observer import Profile
from core.situation.situation import Situation
from core.sky.site import Site
from gui.state import AppState
from tests.gui.conftest import HandClock
from tests.gui.differing import differing

# Evenings and the clock.


def test_the_moment_follows_the_clock_by_the_minute(state: AppState, clock: HandClock) -> None:
    clock.move(timedelta(seconds=30))
    assert differing(state, state.beat) == {Situation.now}
    clock.move(timedelta(seconds=31))
    assert {Situation.now, Situation.time} <= differing(state, state.beat)
    assert state.situation.time == datetime(2026, 12, 5, 21, 43, tzinfo=UTC)


def test_a_chosen_moment_stays_while_the_clock_goes_on(state: AppState, clock: HandClock) -> None:
    chosen = datetime(2026, 12, 5, 23, 0, tzinfo=UTC)
    state.set_time(chosen)
    clock.move(timedelta(minutes=5))
    assert differing(state, state.beat) == {Situation.now}
    assert state.situation.time == chosen
    state.show_tonight()
    assert state.situation.time == datetime(2026, 12, 5, 21, 47, tzinfo=UTC)


def test_a_moment_outside_the_evening_is_held_at_its_ends(state: AppState) -> None:
    state.set_time(datetime(2026, 12, 9, tzinfo=UTC))
    # Noon of 6 December in Lisbon is noon UTC; the evening ends before it.
    assert state.situation.time == datetime(2026, 12, 6, 11, 59, tzinfo=UTC)
    state.set_time(datetime(2026, 12, 1, tzinfo=UTC))
    assert state.situation.time == datetime(2026, 12, 5, 12, 0, tzinfo=UTC)


def test_another_evening_is_looked_at_in_the_planet_s_best_moment(state: AppState) -> None:
    state.set_evening(date(2027, 1, 10))
    assert not state.situation.follows_tonight
    assert not state.situation.following_now
    assert state.situation.time == state.situation.aim.at.replace(second=0, microsecond=0)  # type: ignore[union-attr]
    state.show_tonight()
    assert state.situation.evening == date(2026, 12, 5)
    assert state.situation.following_now


def test_tonight_moves_on_after_sunrise(state: AppState, clock: HandClock) -> None:
    state.set_usual_air(400)
    # The Sun rises in Porto at about 7:45 in early December.
    clock.now = datetime(2026, 12, 6, 7, 0, tzinfo=UTC)
    state.beat()
    assert state.situation.evening == date(2026, 12, 5)
    clock.now = datetime(2026, 12, 6, 8, 30, tzinfo=UTC)
    state.beat()
    assert state.situation.evening == date(2026, 12, 6)
    assert state.situation.usual_air == 300  # a lift is for one night


def test_an_evening_outside_the_tables_is_refused_and_the_old_one_stays(state: AppState) -> None:
    with pytest.raises(ProblemsError, match="2060"):
        state.set_evening(date(2060, 1, 1))
    assert state.situation.evening == date(2026, 12, 5)
    assert state.situation.night is not None


def test_a_date_that_the_site_skipped_is_stepped_over(make_state: Callable[..., AppState]) -> None:
    # Samoa had no 30 December 2011: it crossed the date line (IANA time zone data).
    apia = Site(name="Apia", latitude_deg=-13.8, longitude_deg=-171.8, time_zone="Pacific/Apia")
    state = make_state(Profile(sites=(apia,)))
    told: list[str] = []
    state.told.connect(told.append)
    state.set_evening(date(2011, 12, 29))
    state.step_evening(1)
    assert state.situation.evening == date(2011, 12, 31)
    assert "2011-12-30" in told[0]


def test_a_clock_beyond_the_tables_is_told_and_breaks_nothing(
    make_state: Callable[..., AppState], clock: HandClock
) -> None:
    clock.now = datetime(2061, 1, 1, tzinfo=UTC)
    state = make_state()
    assert state.situation.night is None
    assert "2053" in state.situation.night_problem
    assert state.situation.answer is None


def test_another_site_brings_its_own_evening(state: AppState) -> None:
    # 21:42 UTC on 5 December is the morning of the 6th in New Zealand, after sunrise.
    state.set_site(state.profile.sites[1].id)
    assert state.situation.evening == date(2026, 12, 6)
    assert state.situation.night is not None
    assert state.situation.night.site.name == "Southern hill"
