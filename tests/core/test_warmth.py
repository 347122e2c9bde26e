"""The evening's temperatures in a situation: what a warm mirror costs, and what is told without them."""

from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest
from attrs import evolve
from scipy.integrate import solve_ivp

from core.air.temperatures import Temperatures
from core.gear.owned import Telescope, TelescopeKind
from core.ladder.contenders import Pick
from core.record.observer import Preferences, Profile, TemperatureUnit
from core.situation.choices import Choices, EveningTemperatures, ScopeOutside
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import Site
from core.tonight.steps import CarryOutItem, SettledItem
from core.words.answer import answer_words
from core.words.cooling import time_outside_text
from core.words.evening import item_words
from core.words.limits import all_limits_sentence, limit_lines
from core.words.site_clock import clock_of
from core.words.warmth import warmth_sentences
from tests.core.gear.examples import eyepiece, refractor, telescope

PORTO = Site(id="porto", name="Porto", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon")
EVENING = date(2026, 12, 5)
AFTERNOON = datetime(2026, 12, 5, 16, 0, tzinfo=UTC)
SIX = telescope(id="six", name="Six")
LENS = evolve(refractor("Lens", 100, 900), id="lens")
FALLING = Temperatures(indoor_c=20.0, now_c=11.0, dusk_c=9.0, lowest_c=-1.0, humidity_pct=80.0)


def situation(
    temperatures: Temperatures | None = FALLING,
    *,
    scope: Telescope = SIX,
    now: datetime = AFTERNOON,
    out_since: datetime | None = None,
    warmer_by_c: float | None = None,
    planet: Body = Body.SATURN,
    **chosen: object,
) -> Situation:
    choices = Choices(
        profile=Profile(
            sites=(PORTO,),
            telescopes=(scope, LENS) if scope is not LENS else (LENS,),
            eyepieces=(eyepiece(25), eyepiece(10), eyepiece(6)),
        ),
        evening=EVENING,
        planet=planet,
        **chosen,  # type: ignore[arg-type]  # passed on as they are
    )
    if temperatures is not None:
        told = EveningTemperatures(
            evening=EVENING, site_id="porto", told_at=AFTERNOON, temperatures=temperatures
        )
        choices = choices.with_temperatures(EVENING, "porto", told)
    if out_since is not None:
        spot = (EVENING, "porto", scope.id)
        note = ScopeOutside(
            evening=EVENING, site_id="porto", scope_id=scope.id, since=out_since, warmer_by_c=warmer_by_c
        )
        choices = choices.with_outside(spot, note)
    return Situation(choices, now)


def ceiling(found: Situation) -> float:
    assert found.ladder is not None
    assert found.ladder.ceiling.power is not None
    return found.ladder.ceiling.power


def test_a_warm_mirror_counts_as_tonight_s_air() -> None:
    moment = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)
    out = moment - timedelta(minutes=20)
    cold = situation(None, now=moment, out_since=out)
    warm = situation(now=moment, out_since=out)

    assert cold.ladder is not None
    assert warm.ladder is not None
    assert cold.ladder.limits.mirror_arcsec == 0
    assert warm.ladder.limits.mirror_arcsec > 1
    assert ceiling(warm) < 0.8 * ceiling(cold)
    assert cold.ladder.limits.tonight_air is not None
    assert warm.ladder.limits.tonight_air is not None
    assert warm.ladder.limits.tonight_air < 0.8 * cold.ladder.limits.tonight_air
    assert warm.ladder.limits.aperture == cold.ladder.limits.aperture
    assert "warm mirror" not in limit_lines(cold.ladder)[-1].why
    # By hand: 12 °C too warm, after 20 of 65 minutes 8.8 °C; 0.40 x 8.8^1.2 / (1 + 8.8 / 5).
    assert limit_lines(warm.ladder)[-1].why.endswith("; warm mirror 2.0″")


def test_the_mirror_follows_what_was_told_of_the_air() -> None:
    """An independent integrator on the straight pieces: now, dusk, the lowest at sunrise."""
    out = datetime(2026, 12, 5, 16, 30, tzinfo=UTC)
    found = situation(out_since=out)
    night, course = found.night, found.mirror_course
    assert night is not None
    assert night.sun.set is not None
    assert night.sun.rise is not None
    assert course is not None
    knots_s = [time.timestamp() for time in (AFTERNOON, night.sun.set, night.sun.rise)]
    # 25 mm of glass, assumed for 150 mm, at 2.6 min per mm.
    constant_s = 65 * 60
    moments = [out + timedelta(minutes=minutes) for minutes in (5, 45, 120, 300, 700)]
    glass = solve_ivp(
        lambda time_s, glass_c: (np.interp(time_s, knots_s, [11.0, 9.0, -1.0]) - glass_c) / constant_s,
        (out.timestamp(), knots_s[-1]),
        [20.0],
        t_eval=[moment.timestamp() for moment in moments],
        rtol=1e-9,
        max_step=60.0,
    )

    for moment, glass_c in zip(moments, glass.y[0], strict=True):
        air_c = float(np.interp(moment.timestamp(), knots_s, [11.0, 9.0, -1.0]))
        assert course.excess_c(moment) == pytest.approx(float(glass_c) - air_c, abs=1e-3)


def test_the_ceiling_climbs_and_the_climb_is_told() -> None:
    now = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)
    found = situation(now=now, out_since=now - timedelta(minutes=10))
    climb = found.mirror_climb
    assert climb is not None

    later = Situation(found.choices, climb.later)
    assert climb.power == pytest.approx(ceiling(found))
    assert climb.at == now
    assert climb.later_power > 1.2 * climb.power
    assert later.mirror_arcsec(SIX, climb.later) < found.mirror_arcsec(SIX, now)


def test_without_temperatures_no_mirror_counts_and_the_two_times_are_for_17_degrees() -> None:
    found = situation(None, out_since=AFTERNOON)

    assert found.mirror_course is None
    assert found.readiness is not None
    assert found.readiness.usable.warmer_by_c == 17
    assert found.readiness.settled is not None
    assert found.readiness.stays_warmer_c is None
    assert found.warmth_is_assumed


def test_a_typed_difference_counts_in_air_that_stays() -> None:
    out = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)
    found = situation(None, now=out + timedelta(minutes=65), out_since=out, warmer_by_c=10.0)

    assert found.mirror_course is not None
    # After one time constant a third and a bit is left: 10 / e.
    assert found.mirror_course.excess_c(found.now) == pytest.approx(3.68, abs=0.01)


def test_one_not_yet_carried_out_is_taken_out_in_time_for_the_first_target() -> None:
    found = situation()
    first, course = found.targets[0].minutes, found.mirror_course
    assert course is not None

    # A six-inch 9 °C too warm is usable after 21 minutes, its mirror settled after two hours: an hour it is.
    assert first.start - course.out_at == timedelta(hours=1)
    late = situation(now=first.start + timedelta(minutes=30))
    assert late.mirror_course is not None
    assert late.mirror_course.out_at == late.minute


@pytest.mark.parametrize(
    "temperatures", [Temperatures(indoor_c=20), Temperatures(now_c=5), Temperatures(humidity_pct=80)]
)
def test_half_of_what_is_needed_counts_no_blur(temperatures: Temperatures) -> None:
    found = situation(temperatures, out_since=AFTERNOON)

    assert found.mirror_course is None
    assert ceiling(found) == ceiling(situation(None, out_since=AFTERNOON))


def test_a_mask_leaves_the_mirror_as_slow_as_it_is() -> None:
    out = datetime(2026, 12, 5, 18, 0, tzinfo=UTC)
    masked = situation(scope=evolve(SIX, mask_mm=60), out_since=out)
    whole = situation(out_since=out)

    assert masked.mirror_course == whole.mirror_course


def test_a_lens_has_no_blur_of_its_own() -> None:
    found = situation(scope=LENS, out_since=AFTERNOON)

    assert found.mirror_course is None
    assert found.readiness is not None
    assert found.readiness.settled is None
    assert found.readiness.usable.warmer_by_c == pytest.approx(9)


def test_thicker_glass_and_closed_tubes_settle_later_and_a_fan_helps() -> None:
    def settled(scope: Telescope) -> float:
        readiness = situation(scope=scope, out_since=AFTERNOON).readiness
        assert readiness is not None
        assert readiness.settled is not None
        return readiness.settled.likely_minutes

    usual = settled(SIX)
    assert settled(evolve(SIX, mirror_thickness_mm=40.0)) > usual
    assert settled(evolve(SIX, closed_tube=True)) > usual
    assert settled(evolve(SIX, fan=True)) < usual
    assert settled(evolve(SIX, cooling_minutes=60.0, cooling_from_c=17.0)) > usual


def test_of_two_scopes_each_has_its_own_mirror() -> None:
    now = datetime(2026, 12, 5, 19, 0, tzinfo=UTC)
    found = situation(now=now, out_since=now - timedelta(minutes=10), second=Pick("lens"))
    comparison = found.comparison
    assert comparison is not None

    assert comparison.a.ladder.limits.mirror_arcsec > 1
    assert comparison.b.ladder.limits.mirror_arcsec == 0
    assert comparison.b.settled_minutes is None


def test_it_counts_for_its_own_evening_and_site_only() -> None:
    found = situation(out_since=AFTERNOON)
    tomorrow = Situation(evolve(found.choices, evening=EVENING + timedelta(days=1)), AFTERNOON)

    assert found.temperatures == FALLING
    assert tomorrow.temperatures is None
    assert tomorrow.mirror_course is None


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
        words = item_words(settled, clock)
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
