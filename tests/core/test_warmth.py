"""The evening's temperatures in a situation: what a warm mirror costs, and what is told without them."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from attrs import evolve
from scipy.integrate import solve_ivp

from core.air.temperatures import Temperatures
from core.gear.owned import Telescope
from core.ladder.contenders import Pick
from core.situation.situation import Situation
from core.words.limits import limit_lines
from tests.core.warm_evenings import AFTERNOON, EVENING, FALLING, LENS, SIX, situation


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
