"""What to buy: equal to trying everything, a strict improvement or nothing."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.combinations import combinations
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.gaps import (
    USUAL_FACTORS,
    USUAL_FOCAL_LENGTHS_MM,
    eyepieces_for_power,
    suggest,
    what_if,
    widest_gap,
)
from tests.core.gear import examples
from tests.core.gear.examples import barlow, eyepiece, fixed, telescope

ceilings = st.floats(40, 400)


def test_a_weak_barlow_fills_two_wide_steps_at_once() -> None:
    """Worked by hand: 1.5x adds 72, 180 and 225 to 48, 96, 120, 150, 240 and 300; 50 to 72 is left."""
    found = suggest(telescope(), [eyepiece(25), eyepiece(10), eyepiece(8)], [barlow(2)], 300)

    assert found is not None
    assert isinstance(found.thing, Barlow)
    assert found.thing.factor == 1.5
    assert found.before is not None
    assert (found.before.low_power, found.before.high_power) == (50, 96)
    assert found.after is not None
    assert (found.after.low_power, found.after.high_power) == (50, 72)


def test_the_focal_lengths_that_are_commonly_sold() -> None:
    # The list of the design, common practice without a source.
    assert (
        *(2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10, 12, 12.5, 13, 15, 17, 18, 20, 22, 24, 25, 30, 32, 35, 40),
    ) == USUAL_FOCAL_LENGTHS_MM


def test_equal_steps_are_told_at_the_lowest() -> None:
    gap = widest_gap([100, 200], 400)

    assert gap is not None
    assert (gap.low_power, gap.high_power) == (50, 100)


def test_a_full_kit_has_nothing_to_buy() -> None:
    even = [eyepiece(1200 / (50 * 1.05**step)) for step in range(37)]

    assert suggest(telescope(), even, [], 300) is None


@pytest.mark.parametrize("ceiling", [None, 50, 30])
def test_no_room_above_fifty_leaves_nothing_to_buy(ceiling: float | None) -> None:
    assert suggest(telescope(), [eyepiece(25)], [], ceiling) is None


def test_nothing_can_be_bought_for_a_fixed_instrument() -> None:
    assert suggest(fixed(power_min=20, power_max=60), [], [], 160) is None


def test_an_empty_kit_is_told_the_eyepiece_nearest_the_middle() -> None:
    """1200 mm from 50x to 200x: the middle by logarithm is 100x, a 12 mm."""
    found = suggest(telescope(), [], [], 200)

    assert found is not None
    assert isinstance(found.thing, Eyepiece)
    assert found.thing.focal_length_mm == 12
    assert found.before is not None
    assert (found.before.low_power, found.before.high_power) == (50, 200)


def test_the_suggestion_fits_a_narrow_focuser() -> None:
    found = suggest(telescope(barrel_mm=24.5), [], [], 200)

    assert found is not None
    assert found.thing.barrel_mm == 24.5


def test_what_if_tells_powers_and_duplicates() -> None:
    """A 12 mm behind 1200 mm with a 2x: 100x, within 15 % of the owned 96x, and 200x, not so near 240x."""
    found = what_if(telescope(), [eyepiece(25), eyepiece(10)], [barlow(2)], 300, eyepiece(12))

    assert list(found.powers) == [100, 200]
    assert found.duplicates == 1


def test_what_if_of_a_barlow_counts_every_eyepiece() -> None:
    found = what_if(telescope(), [eyepiece(25), eyepiece(10)], [barlow(2)], 300, barlow(3))

    assert list(found.powers) == [144, 360]


def test_the_eyepiece_for_a_wanted_power_with_and_without_each_barlow() -> None:
    reducer = barlow(0.5)

    found = eyepieces_for_power(telescope(), [barlow(2), reducer], 200)

    assert [(each.barlow and each.barlow.factor, each.focal_length_mm) for each in found] == [
        (None, 6),
        (2, 12),
        (0.5, 3),
    ]
    assert eyepieces_for_power(fixed(power=20), [], 30) == ()


def _largest_step(
    scope: Telescope, eyepieces: list[Eyepiece], barlows: list[Barlow], ceiling: float
) -> float:
    """Return the largest logarithmic step by laying out the whole kit again."""
    powers = [each.power for each in combinations(scope, eyepieces, barlows)]
    marks = sorted({50.0, ceiling, *(power for power in powers if 50 <= power <= ceiling)})
    return max(math.log(high) - math.log(low) for low, high in pairwise(marks))


@settings(max_examples=40, deadline=None)
@given(examples.telescopes, examples.eyepiece_lists, examples.barlow_lists, ceilings)
def test_the_suggestion_is_the_best_of_all_candidates(
    scope: Telescope, eyepieces: list[Eyepiece], barlows: list[Barlow], ceiling: float
) -> None:
    found = suggest(scope, eyepieces, barlows, ceiling)

    if ceiling <= 50:
        assert found is None
        return
    barrel_mm = min(31.75, scope.barrel_mm)
    before = _largest_step(scope, eyepieces, barlows, ceiling)
    after = {
        length_mm: _largest_step(
            scope, [*eyepieces, eyepiece(length_mm, barrel_mm=barrel_mm)], barlows, ceiling
        )
        for length_mm in USUAL_FOCAL_LENGTHS_MM
    }
    after_barlow = {
        factor: _largest_step(scope, eyepieces, [*barlows, barlow(factor, barrel_mm=barrel_mm)], ceiling)
        for factor in USUAL_FACTORS
    }
    best = min(*after.values(), *after_barlow.values())
    if found is None:
        assert best >= before - 1e-6
        return
    assert best < before
    if isinstance(found.thing, Eyepiece):
        assert found.thing.focal_length_mm is not None
        assert after[found.thing.focal_length_mm] == pytest.approx(best, abs=1e-6)
    else:
        assert after_barlow[found.thing.factor] == pytest.approx(best, abs=1e-6)
    assert found.after is not None
    assert math.log(found.after.ratio) == pytest.approx(best, abs=1e-6)


def test_a_tie_goes_to_the_longer_eyepiece() -> None:
    """1200 mm to 240x: 12 mm (100x) leaves 100 to 240, 10 mm (120x) leaves 50 to 120; both are 2.4 times."""
    found = suggest(telescope(), [], [], 240)

    assert found is not None
    assert isinstance(found.thing, Eyepiece)
    assert found.thing.focal_length_mm == 12


def test_a_tie_goes_first_to_fewer_duplicates() -> None:
    """The same tie, but with a 5x the 12 mm repeats the 500x of an owned 2.4 mm; 600x is new."""
    found = suggest(telescope(), [eyepiece(2.4)], [barlow(5)], 240)

    assert found is not None
    assert isinstance(found.thing, Eyepiece)
    assert found.thing.focal_length_mm == 10
