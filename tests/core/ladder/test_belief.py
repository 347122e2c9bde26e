"""What verdicts teach: each rule by hand or by another way, and what must always hold."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from core.ladder.belief import (
    STEP_UP_FROM,
    Belief,
    Evidence,
    LineOfSight,
    believe,
    first_belief,
    likelihood_of,
    same_step,
)
from core.record.log_entry import Verdict

SIX_INCH = LineOfSight(aperture_mm=150, path=1.2)
WIDE = LineOfSight(aperture_mm=400, path=1.0)


def verdict(
    answer: Verdict = Verdict.MORE,
    *,
    at_min: float = 0.0,
    powers: tuple[float, float] = (120, 170),
    line: LineOfSight = SIX_INCH,
    filter_in: bool = False,
    mirror_cooling: bool = False,
    warm_air: bool = False,
) -> Evidence:
    return Evidence(
        unix_s=60 * at_min,
        line=line,
        from_power=powers[0],
        to_power=powers[1],
        verdict=answer,
        filter_in=filter_in,
        mirror_cooling=mirror_cooling,
        warm_air=warm_air,
    )


def median(belief: Belief) -> float:
    return belief.blur_arcsec(0.5)


def test_before_any_verdict_it_is_the_first_look() -> None:
    for look in (0.8, 1.45, 3.0):
        belief = first_belief(look)
        assert median(belief) == pytest.approx(look, rel=1e-9)
        assert belief.blur_arcsec(0.15) == pytest.approx(look * math.exp(0.43 * norm.ppf(0.15)), rel=0.03)
    assert median(first_belief()) == pytest.approx(1.6, rel=0.01)


def test_a_likelihood_by_hand() -> None:
    # 400 mm overhead at 1.45 arcsec bears 232 / hypot(0.29, 0.87) = 253; A = 200, B = 300.
    margin = math.log(232 / math.hypot(0.29, 0.87)) - 0.5 * math.log(200 * 300)
    z = 6 * math.log(1.5) * margin
    expected = {
        Verdict.MORE: norm.cdf(z - 0.4),
        Verdict.LESS: norm.cdf(-z - 0.4),
        Verdict.NO_CHANGE: 1 - norm.cdf(z - 0.4) - norm.cdf(-z - 0.4),
    }
    for answer, share in expected.items():
        found = float(likelihood_of(verdict(answer, powers=(200, 300), line=WIDE), 1.45))
        assert found == pytest.approx(0.95 * share + 0.05 / 3)


@pytest.mark.parametrize(("overhead_arcsec", "answer"), [(0.1, Verdict.MORE), (20, Verdict.LESS)])
def test_no_verdict_is_surer_than_two_and_a_half_standard_deviations(
    overhead_arcsec: float, answer: Verdict
) -> None:
    """From 50 to 100x on 400 mm in the calmest and the worst air; a twentieth of all verdicts is chance."""
    sure = float(likelihood_of(verdict(answer, powers=(50, 100), line=WIDE), overhead_arcsec))

    assert sure == pytest.approx(0.95 * norm.cdf(2.5 - 0.4) + 0.05 / 3)


def test_it_fades_by_full_minutes() -> None:
    belief = believe([verdict(Verdict.LESS, at_min=1)])

    times_s = [
        None if belief.faded(seconds) is belief else belief.faded(seconds).unix_s
        for seconds in (
            30,
            60,
            119.9,
            120,
            179.9,
        )
    ]

    assert times_s == [None, None, None, 120, 120]
    assert believe([verdict(Verdict.LESS, at_min=1.99)]).unix_s == 60


# A step from 120 to 170x, and whether it is taken for the same: powers within 1 % are.
SAME = [
    ((120, 170), True),
    ((121.1, 170), True),
    ((118.9, 168.4), True),
    ((121.3, 170), False),
    ((120, 172), False),
]


@pytest.mark.parametrize(("powers", "is_same"), SAME)
def test_powers_within_one_per_cent_make_the_same_step(powers: tuple[float, float], is_same: bool) -> None:
    assert same_step(verdict(powers=powers), 120, 170) is is_same
    assert same_step(verdict(powers=powers[::-1]), 120, 170) is is_same


@given(st.floats(0.3, 8), st.floats(40, 200), st.floats(1.05, 2.5))
def test_the_three_answers_share_out_everything(blur: float, power: float, ratio: float) -> None:
    told = [Verdict.MORE, Verdict.NO_CHANGE, Verdict.LESS]
    total = sum(float(likelihood_of(verdict(each, powers=(power, power * ratio)), blur)) for each in told)

    assert total == pytest.approx(1.0)


def test_a_belief_by_integration() -> None:
    def weigh(x: float) -> float:
        return float(norm.pdf(x, math.log(1.6), 0.43) * likelihood_of(verdict(Verdict.LESS), math.exp(x)))

    whole = quad(weigh, math.log(0.2), math.log(10), epsabs=1e-10)[0]
    mean = quad(lambda x: x * weigh(x), math.log(0.2), math.log(10), epsabs=1e-10)[0] / whole

    found = believe([verdict(Verdict.LESS)])

    assert float(found.share @ found.ln_blur) == pytest.approx(mean, abs=0.003)


_STEPS = st.tuples(
    st.sampled_from([Verdict.MORE, Verdict.LESS, Verdict.NO_CHANGE]),
    st.floats(0, 20),  # minutes since the one before
    st.floats(20, 400),  # the lower power
    st.floats(1.02, 3),
    st.floats(1, 3),  # path
    st.floats(0, 4),  # warm mirror, arcsec
    st.sampled_from([False, True]),
)


@given(st.floats(0.2, 8), st.lists(_STEPS, min_size=1, max_size=6))
def test_more_never_lowers_the_ceiling_and_less_never_raises_it(
    look: float, steps: list[tuple[Verdict, float, float, float, float, float, bool]]
) -> None:
    """Just after a verdict on a step up, the air is never believed to be other than it says."""
    told: list[Evidence] = []
    minutes = 0.0
    for answer, after, power, ratio, path, mirror, cooling in steps:
        minutes += after
        line = LineOfSight(aperture_mm=150, path=path, mirror_arcsec=mirror)
        last = verdict(
            answer, at_min=minutes, powers=(power, power * ratio), line=line, mirror_cooling=cooling
        )
        before = median(believe(told, first_look_arcsec=look).faded(last.unix_s))
        told.append(last)
        after_it = median(believe(told, first_look_arcsec=look).faded(last.unix_s))
        if answer is Verdict.MORE:
            assert after_it <= before * (1 + 1e-9)
        elif answer is Verdict.LESS:
            assert after_it >= before * (1 - 1e-9)


def test_more_means_finer_air_and_less_coarser() -> None:
    assert median(believe([verdict(Verdict.MORE)])) < 1.6 < median(believe([verdict(Verdict.LESS)]))


@given(st.sampled_from([Verdict.MORE, Verdict.LESS, Verdict.NO_CHANGE]))
def test_stepping_down_says_the_reverse(answer: Verdict) -> None:
    other = {Verdict.MORE: Verdict.LESS, Verdict.LESS: Verdict.MORE}.get(answer, answer)

    up = believe([verdict(answer)])
    down = believe([verdict(other, powers=(170, 120))])

    assert up.share == pytest.approx(down.share)


@pytest.mark.parametrize("minutes", [1, 2, 30, 60, 600])
def test_fading_is_that_of_a_walk_that_is_drawn_back(minutes: float) -> None:
    before = believe([verdict(Verdict.MORE, powers=(100, 240)), verdict(Verdict.MORE, powers=(150, 240))])
    kept = math.exp(-minutes / 60)

    after = before.faded(60 * minutes)
    grid = before.ln_blur

    # The mean is drawn to the prior's, the variance towards its square; the ends of the grid cut a little.
    mean, later = float(before.share @ grid), float(after.share @ grid)
    spread = float(before.share @ (grid - mean) ** 2)
    assert later == pytest.approx(math.log(1.6) + kept * (mean - math.log(1.6)), abs=0.005)
    expected = kept**2 * spread + 0.43**2 * (1 - kept**2)
    assert float(after.share @ (grid - later) ** 2) == pytest.approx(expected, rel=0.03)


def test_after_a_night_it_is_the_first_look_again() -> None:
    found = believe([verdict(Verdict.LESS)], first_look_arcsec=1.0).faded(3600 * 12)

    assert median(found) == pytest.approx(1.0, rel=0.01)


def test_looking_at_a_faded_copy_changes_nothing() -> None:
    belief = believe([verdict(Verdict.LESS)])
    kept = belief.share.copy()

    belief.faded(9000)

    assert (belief.share == kept).all()


def test_weights() -> None:
    full = median(believe([verdict(Verdict.LESS)]))
    cooling = median(believe([verdict(Verdict.LESS, mirror_cooling=True)]))
    filtered = median(believe([verdict(Verdict.LESS, filter_in=True)]))
    both = median(believe([verdict(Verdict.LESS, filter_in=True, mirror_cooling=True)]))

    assert 1.6 < both < filtered < cooling < full
    assert median(believe([verdict(Verdict.LESS, warm_air=True)])) == pytest.approx(1.6, rel=0.01)
    assert median(believe([verdict(Verdict.CANNOT_TELL)])) == pytest.approx(1.6, rel=0.01)


def test_where_the_aperture_dominates_a_verdict_teaches_little() -> None:
    small = LineOfSight(aperture_mm=50, path=1.0)

    little = abs(math.log(median(believe([verdict(Verdict.LESS, powers=(70, 110), line=small)])) / 1.6))
    much = abs(math.log(median(believe([verdict(Verdict.LESS, powers=(120, 190))])) / 1.6))

    assert little < much / 2


def test_the_same_pair_again_within_two_minutes_is_one_piece() -> None:
    once = believe([verdict(Verdict.LESS)])
    again = believe([verdict(Verdict.LESS), verdict(Verdict.MORE, at_min=1, powers=(170, 120))])
    later = believe([verdict(Verdict.LESS), verdict(Verdict.LESS, at_min=3)])

    assert again.share == pytest.approx(once.share)
    assert median(later) > median(once)


@pytest.mark.parametrize(("minutes", "is_one"), [(1.0, True), (2.0, True), (2.01, False), (10.0, False)])
def test_one_piece_is_what_is_judged_within_two_minutes(minutes: float, is_one: bool) -> None:
    """A second "less" after more than that teaches more than the first alone."""
    once = believe([verdict(Verdict.LESS)])
    twice = believe([verdict(Verdict.LESS), verdict(Verdict.LESS, at_min=minutes)])

    assert (median(twice) <= median(once) * (1 + 1e-9)) is is_one


def test_a_piece_weighs_as_in_the_better_of_its_conditions() -> None:
    plain, filtered = verdict(Verdict.LESS), verdict(Verdict.LESS, filter_in=True)
    once = believe([plain])

    for pair in ((plain, filtered), (filtered, plain)):
        assert believe(pair).share == pytest.approx(once.share)


def test_through_warm_air_or_by_another_telescope_it_is_a_piece_of_its_own() -> None:
    once = believe([verdict(Verdict.LESS)])
    warm = believe([verdict(Verdict.LESS), verdict(Verdict.MORE, at_min=0.5, warm_air=True)])
    other = LineOfSight(aperture_mm=152, path=1.2)
    by_another = believe([verdict(Verdict.LESS), verdict(Verdict.LESS, at_min=0.5, line=other)])

    assert warm.share == pytest.approx(once.share)
    assert median(by_another) > 1.02 * median(once)


def test_what_cannot_be_told_is_as_likely_in_any_air_and_still_a_word_of_its_time() -> None:
    likely = likelihood_of(verdict(Verdict.CANNOT_TELL), [0.5, 1.6, 4.0])

    assert list(likely) == [1, 1, 1]
    assert believe([verdict(Verdict.CANNOT_TELL, at_min=5)]).unix_s == 300


def test_a_change_of_mind_counts_as_the_last_word() -> None:
    corrected = believe([verdict(Verdict.LESS), verdict(Verdict.MORE, at_min=0.5)])

    assert corrected.share == pytest.approx(believe([verdict(Verdict.MORE)]).share)


@given(
    st.lists(
        st.tuples(
            st.sampled_from(list(Verdict)), st.floats(0, 300), st.floats(40, 200), st.floats(1.05, 2.5)
        ),
        max_size=8,
    )
)
def test_it_stays_a_belief(
    told: list[tuple[Verdict, float, float, float]],
) -> None:
    verdicts = [
        verdict(answer, at_min=at, powers=(power, power * ratio))
        for answer, at, power, ratio in sorted(told, key=lambda each: each[1])
    ]
    belief = believe(verdicts)

    assert belief.share.sum() == pytest.approx(1.0)
    assert (belief.share >= 0).all()
    assert belief.blur_arcsec(0.15) <= belief.blur_arcsec(0.5) <= belief.blur_arcsec(0.85)


def test_what_one_scope_taught_tells_of_another() -> None:
    belief = believe([verdict(Verdict.LESS, at_min=5 * n, powers=(120, 170)) for n in range(3)])

    assert WIDE.power(median(belief)) < WIDE.power(median(first_belief()))


def test_chances_fall_with_the_power() -> None:
    belief = first_belief(1.45)
    chances = [belief.chance_better(SIX_INCH, power, 1.25 * power) for power in (50, 100, 150, 200, 300)]

    assert chances == sorted(chances, reverse=True)
    # What is sure enough for a step up at the bottom, and not at the top.
    assert chances[0] > STEP_UP_FROM > chances[-1]


def test_a_power_given_up_is_worth_another_try_when_the_air_may_have_changed() -> None:
    # A steady first look, then three bad steps: the belief fades back to the look.
    belief = believe(
        [verdict(Verdict.LESS, at_min=4 * number, powers=(150, 225)) for number in range(3)],
        first_look_arcsec=0.9,
    )

    assert belief.chance_better(SIX_INCH, 150, 225) < 0.5
    again = belief.try_again_at_s(SIX_INCH, 150, 225)
    assert again is not None
    assert 300 <= again - 480 <= 3 * 3600
    assert (again - 480) % 300 == 0  # looked at every five minutes
    assert belief.faded(again).chance_better(SIX_INCH, 150, 225) >= 0.5
    assert belief.faded(again - 300).chance_better(SIX_INCH, 150, 225) < 0.5
    assert believe([verdict(Verdict.LESS)], first_look_arcsec=3.0).try_again_at_s(SIX_INCH, 120, 250) is None
    assert first_belief().try_again_at_s(SIX_INCH, 120, 250) is None
