"""The next step from each rung: which way, to where, how likely it is to show more, and what lies above."""

from datetime import UTC, datetime, timedelta

import pytest

from core.air.blur import Blur
from core.gear.owned import Barlow
from core.ladder.aim import aim_altitude, aim_overhead
from core.ladder.belief import Evidence, LineOfSight, believe, first_belief
from core.ladder.climb import Move, NextStep, next_step, rung_above, rung_below
from core.ladder.ladder import Ladder, Rung, build_ladder
from core.record.log_entry import Verdict
from tests.core.gear.examples import barlow, eyepiece, telescope

NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
OVERHEAD = LineOfSight(aperture_mm=150, path=1.0)


def ladder(*eyepieces_mm: float, barlows: tuple[Barlow, ...] = (), blur_arcsec: float = 1.45) -> Ladder:
    """A six-inch of 1200 mm straight overhead: in fair air it bears 199x (the plan's check value)."""
    return build_ladder(
        scope=telescope(),
        eyepieces=[eyepiece(mm, 52) for mm in eyepieces_mm or (25, 15, 12, 10, 8, 6, 5, 4)],
        barlows=barlows,
        aim=aim_overhead(),
        blur=Blur(overhead_arcsec=blur_arcsec),
    )


def rung(of: Ladder, power: float) -> Rung:
    return next(each for each in of.rungs if each.power == pytest.approx(power))


def power_of(found: Rung | None) -> float | None:
    return None if found is None else round(found.power, 6)


def judged(*steps: tuple[float, float, float, Verdict]) -> tuple[Evidence, ...]:
    """Verdicts as minutes after nine, the powers from and to, and what was said."""
    return tuple(
        Evidence(
            unix_s=(NINE + timedelta(minutes=minutes)).timestamp(),
            line=OVERHEAD,
            from_power=low,
            to_power=high,
            verdict=verdict,
        )
        for minutes, low, high, verdict in steps
    )


def step_from(power: float, of: Ladder, evidence: tuple[Evidence, ...] = ()) -> NextStep:
    belief = believe(evidence, first_look_arcsec=1.45)
    found = next_step(of, rung(of, power), belief, evidence, now=NINE)
    assert found is not None
    return found


# The rung in hand, what to do, where to, what lies above, and the chance of seeing more there: that the air
# bears more than the middle of the two powers. By hand: with 150 mm the middle m wants a blur overhead of
# sqrt((232/m)² - (116/150)²) / 0.6; then the share below it of a normal belief in ln(blur), 0.43 wide.
FAIR = [
    (80, Move.UP, 100, 100, 0.99),  # 89x wants 4.13 arcsec or less
    (100, Move.UP, 120, 120, 0.97),  # 110x, 3.29: a step of just 1.2x is one
    (120, Move.UP, 150, 150, 0.91),  # 134x, 2.58
    (150, Move.UP, 200, 200, 0.70),  # 173x, 1.82: the next is over the ceiling by a hair, a try
    (200, Move.STAY, None, 240, 0.33),  # 219x, 1.21
    (240, Move.BACK, 150, 300, 0.67),  # the other side of the same; straight to what the air bears
    (300, Move.BACK, 150, None, 0.97),  # 268x, 0.64
]


@pytest.mark.parametrize(("power", "move", "to", "above", "chance"), FAIR)
def test_with_nothing_judged_the_first_look_tells_the_way(
    power: float, move: Move, to: float | None, above: float | None, chance: float
) -> None:
    step = step_from(power, ladder())

    assert (step.move, power_of(step.to), power_of(step.above)) == (move, to, above)
    assert step.chance == pytest.approx(chance, abs=0.015)
    assert (step.rung.power, step.just_seen, step.try_again_at) == (power, None, None)
    assert not step.is_over_usual_air
    assert not step.is_gap


def test_a_try_is_what_lies_over_the_ceiling() -> None:
    """199x are borne."""
    fair = ladder()

    assert [step_from(power, fair).is_a_try for power in (120, 150, 200, 300)] == [False, True, False, False]


def test_after_less_detail_it_goes_one_back_and_tells_what_was_seen() -> None:
    """Whatever the belief: what was just seen comes first."""
    evidence = judged((0, 150, 200, Verdict.MORE), (4, 200, 240, Verdict.LESS))

    step = step_from(240, ladder(), evidence)

    assert (step.move, power_of(step.to), power_of(step.above)) == (Move.BACK, 200, 300)
    assert step.just_seen == evidence[-1]
    assert step.chance > 0.5


def test_a_step_down_to_more_detail_is_told_as_less_on_the_way_up() -> None:
    evidence = judged((0, 240, 200, Verdict.MORE))

    back = step_from(240, ladder(), evidence)

    assert back.move is Move.BACK
    assert back.just_seen is not None
    seen = back.just_seen
    assert (seen.from_power, seen.to_power, seen.verdict) == (200, 240, Verdict.LESS)
    # It was on a step to 240x, so nothing was just seen of 200x.
    assert step_from(200, ladder(), evidence).just_seen is None


@pytest.mark.parametrize(("minutes", "is_offered"), [(0, False), (14, False), (15, True), (60, True)])
def test_a_power_given_up_is_left_for_a_quarter_of_an_hour(minutes: float, is_offered: bool) -> None:
    """In steady air 200x is likely to show more than 150x all the while (tens of minutes: Racine 1996)."""
    evidence = judged((0, 150, 200, Verdict.LESS))
    belief = believe(evidence, first_look_arcsec=0.8).faded(evidence[0].unix_s + 60 * minutes)
    steady = ladder(blur_arcsec=0.8)
    assert belief.chance_better(OVERHEAD, 150, 200) > 0.6

    step = next_step(steady, rung(steady, 150), belief, evidence, now=NINE)

    assert step is not None
    assert (step.move is Move.UP) is is_offered
    if not is_offered:
        assert step.try_again_at is not None
        assert step.try_again_at - NINE >= timedelta(minutes=15)


# What was said of the step from 150 to 200x before, and whether it is offered in air of 1.9 arcsec. By hand:
# the step wants 1.82 or less, so that it shows more with a chance of 0.46; a belief of 0.4 is enough, of one
# half for a power that was given up.
SAID_BEFORE = [
    (None, Move.UP),
    (Verdict.MORE, Move.UP),
    (Verdict.NO_CHANGE, Move.STAY),
    (Verdict.LESS, Move.STAY),
]


@pytest.mark.parametrize(("said", "move"), SAID_BEFORE)
def test_a_power_given_up_must_be_as_likely_as_not_to_show_more(said: Verdict | None, move: Move) -> None:
    fair = ladder(blur_arcsec=1.9)
    evidence = () if said is None else judged((-60, 150, 200, said))
    belief = first_belief(1.9)
    assert 0.44 < belief.chance_better(OVERHEAD, 150, 200) < 0.48

    step = next_step(fair, rung(fair, 150), belief, evidence, now=NINE)

    assert step is not None
    assert step.move is move


# The step from 150 to 200x wants 1.82 arcsec or less. Of these blurs that is ln(1.82 / b) / 0.43 = -0.20 and
# -0.31 standard deviations off, a chance of 0.42 and of 0.38: two in five are enough for a step up (ours).
@pytest.mark.parametrize(
    ("overhead_arcsec", "chance", "move"), [(1.985, 0.42, Move.UP), (2.08, 0.38, Move.STAY)]
)
def test_two_chances_in_five_are_enough_for_a_step_up(
    overhead_arcsec: float, chance: float, move: Move
) -> None:
    kit = ladder(8, 6, blur_arcsec=overhead_arcsec)

    step = next_step(kit, kit.rungs[0], first_belief(overhead_arcsec), now=NINE)

    assert step is not None
    assert step.move is move
    assert step.chance == pytest.approx(chance, abs=0.015)


# Two steps in air of 1.9 arcsec whose middle, 174.7 and 174.4x, wants 1.80 arcsec or less: by hand that is so
# with a chance of 0.45. Enough for a step up, but not for one past all that is likely: past the 218x of air
# as calm as in 15 of 100 cases, 1.9 exp(0.43 x -1.036) = 1.217 arcsec.
FAR = [(8.5, 5.55, Move.UP), (8.7, 5.44, Move.STAY)]  # to 216 and to 221x


@pytest.mark.parametrize(("in_hand_mm", "above_mm", "move"), FAR)
def test_past_all_that_is_likely_a_step_must_be_as_likely_as_not_to_show_more(
    in_hand_mm: float, above_mm: float, move: Move
) -> None:
    kit, belief = ladder(in_hand_mm, above_mm, blur_arcsec=1.9), first_belief(1.9)
    low, high = kit.rungs
    assert 0.44 < belief.chance_better(OVERHEAD, low.power, high.power) < 0.46

    step = next_step(kit, low, belief, now=NINE)

    assert step is not None
    assert step.move is move


def test_seen_from_afar_no_time_is_told_for_another_try() -> None:
    evidence = judged((0, 120, 150, Verdict.LESS), (4, 100, 120, Verdict.LESS))
    belief, fair = believe(evidence, first_look_arcsec=1.45), ladder()

    far, near = (next_step(fair, rung(fair, 100), belief, evidence, now=now) for now in (None, NINE))

    assert far is not None
    assert near is not None
    assert (far.move, far.try_again_at) == (Move.STAY, None)
    assert near.try_again_at is not None
    assert NINE + timedelta(minutes=19) <= near.try_again_at <= NINE + timedelta(hours=4)


# What is owned, the rung in hand, and whether the kit has a gap there: the ceiling of 199x a tenth and more
# over the rung, and nothing up to a rung over it that is likely too much.
GAPS = [
    ((25, 8, 4), 150, True),
    ((25, 6.75, 4), 177.777778, True),  # the ceiling is 12 % over it
    ((25, 6.5, 4), 184.615385, False),  # 8 %
    ((25, 8, 6), 150, False),  # 200x is a try
    ((25, 10, 8), 150, False),  # nothing above
]


@pytest.mark.parametrize(("eyepieces_mm", "power", "is_gap"), GAPS)
def test_a_gap_is_where_the_ceiling_lies_well_over_the_rung_and_nothing_is_owned_up_to_it(
    eyepieces_mm: tuple[float, ...], power: float, is_gap: bool
) -> None:
    step = step_from(power, ladder(*eyepieces_mm))

    assert step.is_gap is is_gap
    assert (step.move is Move.UP) is (eyepieces_mm == (25, 8, 6))


@pytest.mark.parametrize(("overhead_arcsec", "is_only_that"), [(0.25, True), (1.45, False)])
def test_over_the_usual_limit_it_stays_and_tells_whether_only_that_keeps_one_from_it(
    overhead_arcsec: float, is_only_that: bool
) -> None:
    """254 mm bear 482x in air of 0.25 arcsec and 236x in fair air; 300x is the usual limit of the air."""
    kit = build_ladder(
        scope=telescope(aperture_mm=254),
        eyepieces=[eyepiece(4), eyepiece(3.2)],
        barlows=[],
        aim=aim_overhead(),
        blur=Blur(overhead_arcsec=0.25),
    )

    step = next_step(kit, rung(kit, 300), first_belief(overhead_arcsec), now=NINE)

    assert step is not None
    assert (step.move, step.to, power_of(step.above)) == (Move.STAY, None, 375)
    assert step.is_over_usual_air is is_only_that


def test_without_an_air_path_there_is_no_next_step() -> None:
    low = build_ladder(
        scope=telescope(),
        eyepieces=[eyepiece(25), eyepiece(10)],
        barlows=[],
        aim=aim_altitude(2),
        blur=Blur(overhead_arcsec=1.45),
    )

    assert next_step(low, low.rungs[0], first_belief(), now=NINE) is None


# The rung in hand with the next worth a step up and back: closer than 1.2x nothing can be told apart.
STEPS = [
    (48, 80, None),
    (80, 100, 48),
    (100, 120, 80),
    (120, 150, 100),
    (240, 300, 200),
    (300, None, 240),
]


@pytest.mark.parametrize(("power", "above", "below"), STEPS)
def test_the_next_rungs_up_and_down(power: float, above: float | None, below: float | None) -> None:
    kit = ladder()

    assert power_of(rung_above(kit, rung(kit, power))) == above
    assert power_of(rung_below(kit, rung(kit, power))) == below


def test_rungs_too_close_are_passed_over_both_ways() -> None:
    """120, 133 and 150x: 1.11 and 1.125 times apart."""
    kit = ladder(10, 9, 8)

    assert power_of(rung_above(kit, rung(kit, 120))) == 150
    assert power_of(rung_below(kit, rung(kit, 150))) == 120
    assert rung_above(kit, rung(kit, 400 / 3)) is None
    assert rung_below(kit, rung(kit, 400 / 3)) is None


def test_from_a_power_that_shows_little_it_goes_to_the_lowest_that_shows_something_without_a_barlow() -> None:
    """30x is under the 50x from which a planet shows much; 60x wants a Barlow, 75x does not."""
    kit = ladder(40, 16, barlows=(barlow(2),))

    assert power_of(rung_above(kit, rung(kit, 30))) == 75
    # Where only a Barlow gives such a power it is taken.
    assert power_of(rung_above(ladder(40, barlows=(barlow(2),)), rung(kit, 30))) == 60
    # Where nothing under the ceiling does, it is the next one all the same.
    assert power_of(rung_above(ladder(40, 4), rung(kit, 30))) == 300


def test_a_reducer_is_not_fitted_in_the_dark_but_may_stay_in() -> None:
    """12 and 10 mm give 100 and 120x, 60 and 72x with a reducer of 0.6x."""
    kit = ladder(12, 10, barlows=(barlow(0.6),))

    assert power_of(rung_above(kit, rung(kit, 60))) == 72
    assert power_of(rung_below(kit, rung(kit, 72))) == 60
    assert power_of(rung_above(kit, rung(kit, 72))) == 100
    assert power_of(rung_below(kit, rung(kit, 120))) == 100
    assert rung_below(kit, rung(kit, 100)) is None
