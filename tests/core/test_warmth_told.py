"""What is told of a warm mirror, of dew and of times that never end."""

from datetime import UTC, datetime, timedelta

import pytest
from attrs import evolve

from core.air.temperatures import Temperatures
from core.gear.owned import Telescope, TelescopeKind
from core.record.observer import Preferences, TemperatureUnit
from core.situation.situation import Situation
from core.tonight.steps import CarryOutItem, SettledItem
from core.words.answer import answer_words
from core.words.cooling import time_outside_text
from core.words.evening import item_words
from core.words.limits import all_limits_sentence
from core.words.site_clock import clock_of
from core.words.warmth import warmth_sentences
from tests.core.warm_evenings import AFTERNOON, FALLING, LENS, SIX, situation


def test_dew_comes_to_a_bare_lens_first_and_to_a_mirror_last() -> None:
    damp = evolve(FALLING, humidity_pct=70.0)
    lens, mirror = (situation(damp, scope=scope).dew for scope in (LENS, SIX))
    assert lens is not None
    assert mirror is not None

    assert lens.wet_at is not None
    assert lens.shielded_wet_at is not None
    assert lens.damp_at is not None
    assert lens.wet_at < lens.shielded_wet_at < lens.damp_at
    assert mirror.wet_at == mirror.damp_at == lens.damp_at
    # Psychrometric tables (from memory): 11 °C at 70 % has its dew point at 5.7 °C, and the air is over
    # 98 % damp within 0.3 °C of it; it falls from 9 °C at 17:05 by 10 °C until 07:45, 0.68 °C an hour.
    assert lens.damp_at == pytest.approx(datetime(2026, 12, 5, 21, 30, tzinfo=UTC), abs=timedelta(minutes=30))


def test_no_telescope_is_ever_readier_in_a_colder_night() -> None:
    for closed in (False, True):
        scope = Telescope(
            id="big",
            name="Big",
            kind=TelescopeKind.REFLECTOR,
            aperture_mm=254,
            focal_length_mm=1200,
            closed_tube=closed,
        )
        lags = []
        for lowest_c in (8.0, 0.0, -10.0, -30.0):
            course = situation(evolve(FALLING, lowest_c=lowest_c), scope=scope).mirror_course
            assert course is not None
            lags.append(course.excess_c(course.end))
        assert lags == sorted(lags)


def test_a_large_closed_tube_in_a_freezing_evening_gets_no_finishing_time() -> None:
    """A 10-inch closed tube from 10 °C; -1.1 °C outside and 5.6 °C colder within three hours, all night."""
    closed = Telescope(
        id="ten", name="Ten", kind=TelescopeKind.CATADIOPTRIC, aperture_mm=254, focal_length_mm=3000
    )
    told = Temperatures(indoor_c=10.0, now_c=-1.1, lowest_c=-30.0)
    found = situation(told, scope=closed, out_since=AFTERNOON, now=AFTERNOON)

    assert found.readiness is not None
    assert found.readiness.never
    assert found.ready_at is None
    told_words = " ".join((answer_words(found), *warmth_sentences(found)))
    assert "never comes within 1 °C" in told_words
    assert "minutes" not in told_words


def test_nothing_is_said_of_a_mirror_that_has_settled_before_it_is_usable() -> None:
    """In air warmer than the glass nothing of it blurs."""
    found = situation(Temperatures(indoor_c=4.0, now_c=9.0), out_since=AFTERNOON)

    assert found.mirror_arcsec(SIX, AFTERNOON) == 0
    assert not any("settled" in sentence for sentence in warmth_sentences(found))


def test_the_climb_is_told_as_far_as_the_owner_stays_out() -> None:
    now = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)
    big = evolve(SIX, aperture_mm=406.0, focal_length_mm=1800.0)
    found = situation(scope=big, now=now, out_since=now)
    assert found.mirror_climb is not None
    assert found.hours is not None

    assert now < found.mirror_climb.later < found.hours.end


def test_a_mirror_that_is_worse_than_the_air_is_named_as_the_limit() -> None:
    moment = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)
    fresh = situation(now=moment, out_since=moment - timedelta(minutes=20))
    later = situation(now=moment + timedelta(hours=3), out_since=moment)
    cold = situation(None, now=moment, out_since=moment)

    for found, told in (
        (fresh, "the warm mirror 1"),
        (later, "tonight's air (seeing) with the warm mirror 1"),
    ):
        assert found.ladder is not None
        assert told in all_limits_sentence(found.ladder)
    assert cold.ladder is not None
    assert "mirror" not in all_limits_sentence(cold.ladder)


def test_when_it_settles_is_told_alike_at_the_head_of_the_step_and_in_its_words() -> None:
    for minute in range(0, 10, 3):
        found = situation(out_since=datetime(2026, 12, 5, 18, minute, tzinfo=UTC))
        clock = clock_of(found)
        assert clock is not None
        (settled,) = [item for item in found.evening_steps if isinstance(item, SettledItem)]
        words = item_words(settled, clock, unit=found.preferences.temperature)
        assert f"likely by {clock.time(settled.start)}" in words
        assert f"between {clock.time(settled.soonest)} and {clock.time(settled.latest)}" in words
        assert settled.soonest < settled.start < settled.latest
        assert "nothing" not in words
        # Why says the same again.
        assert found.readiness is not None
        assert found.outside_since is not None
        outside = time_outside_text(found.readiness, found.outside_since, clock)
        assert f"likely by {clock.time(settled.start)} (an estimate)" in outside


def test_a_mirror_that_nobody_said_to_be_out_is_reckoned_as_planned_and_that_is_told() -> None:
    """It stayed warm, carried out anew each minute, while the steps had it out at the planned time."""
    before, later = (situation(now=AFTERNOON + timedelta(hours=hours)) for hours in (0, 6))

    assert before.taken_out_at is None
    (carry,) = (item for item in later.evening_steps if isinstance(item, CarryOutItem))
    assert later.taken_out_at == carry.start
    clock = clock_of(later)
    assert clock is not None
    told = warmth_sentences(later)
    planned = f"carried out at {clock.time(carry.start)}, as planned, for nobody has said so."
    assert planned in told[0]
    assert told[1].startswith(f"The telescope has been outside since {clock.time(carry.start)}: usable for")
    # Six hours out it blurs less than the air, as one does that was said to be out since then.
    assert later.mirror_arcsec(SIX) < 0.6
    assert later.mirror_arcsec(SIX) == situation(now=later.now, out_since=carry.start).mirror_arcsec(SIX)


def test_who_reads_fahrenheit_is_told_in_fahrenheit_how_near_the_air_is() -> None:
    near = situation(Temperatures(indoor_c=5.5, now_c=5.0, lowest_c=4.8))
    choices = evolve(
        near.choices,
        profile=evolve(near.profile, preferences=Preferences(temperature=TemperatureUnit.FAHRENHEIT)),
    )

    assert any("within 1 °C of the air already" in words for words in warmth_sentences(near))
    in_fahrenheit = " ".join(warmth_sentences(Situation(choices, near.now)))
    assert "within 2 °F of the air already" in in_fahrenheit
    assert "°C" not in in_fahrenheit
