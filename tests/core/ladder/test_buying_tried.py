"""What to buy is the same as by trying everything one by one."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.combinations import combinations
from core.gear.eye import Eye
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.buying import FOCAL_LENGTHS_MM, BuyKind, Candidate, best_powers, what_to_buy
from tests.core.gear import examples
from tests.core.gear.examples import barlow, eyepiece, telescope

EYEPIECE, ZOOM, BARLOW = BuyKind.EYEPIECE, BuyKind.ZOOM, BuyKind.BARLOW


def loss_one_by_one(powers: list[float], aperture_mm: float) -> float:
    total = 0.0
    nights = [float(each) for each in best_powers(aperture_mm)]
    for best in nights:
        total += min((2 if power > best else 1) * math.log(power / best) ** 2 for power in powers)
    finding = any(2 - 1e-9 <= aperture_mm / power <= 6 + 1e-9 for power in powers)
    return total / len(nights) + (0 if finding else 0.02)


def trials(
    scope: Telescope, owned: list[Eyepiece], lenses: list[Barlow]
) -> list[tuple[Candidate, list[float], list[float]]]:
    """Every thing to buy as gear in the hand: all powers of the larger kit, and those it gives alone."""
    things = [Candidate(kind=EYEPIECE, focal_length_mm=each) for each in FOCAL_LENGTHS_MM]
    things += [
        Candidate(kind=ZOOM, focal_length_mm=8, to_focal_length_mm=24),
        Candidate(kind=ZOOM, focal_length_mm=7, to_focal_length_mm=21),
    ]
    things += [Candidate(kind=BARLOW, factor=factor) for factor in (2, 2.5, 3)]
    barrel_mm = min(31.75, scope.barrel_mm)
    found = []
    before = [each.power for each in combinations(scope, owned, lenses)]
    for thing in things:
        if thing.kind is BARLOW:
            more = [*lenses, barlow(thing.factor or 2, barrel_mm=barrel_mm)]
            every = [each.power for each in combinations(scope, owned, more)]
            found.append((thing, every, every))
            continue
        if thing.kind is EYEPIECE:
            settings_mm = [thing.focal_length_mm or 0]
        else:
            low, high = thing.focal_length_mm or 0, thing.to_focal_length_mm or 0
            settings_mm = [low * (high / low) ** (step / 6) for step in range(7)]
        new = [eyepiece(each, barrel_mm=barrel_mm) for each in settings_mm]
        every = before + [each.power for each in combinations(scope, new, lenses)]
        alone = before + [each.power for each in combinations(scope, new, [])]
        found.append((thing, every, alone))
    return found


def brute_force(
    scope: Telescope, owned: list[Eyepiece], lenses: list[Barlow], *, glasses_on: bool
) -> tuple[float, float]:
    """Return the cost of the best thing and the loss it leaves; infinite where nothing is to buy.

    What each kind of thing costs beside its loss is the plan's; so are 15 mm of eye relief for glasses, of
    which three quarters of the focal length are counted.
    """
    powers = [each.power for each in combinations(scope, owned, lenses)]
    before = loss_one_by_one(powers, scope.aperture_mm)
    best = (math.inf, math.inf)
    if before < 0.015:
        return best
    for thing, every, alone in trials(scope, owned, lenses):
        after = loss_one_by_one(every, scope.aperture_mm)
        cost = after
        if thing.kind is EYEPIECE and (thing.focal_length_mm or 9) <= 5:
            cost += 0.0015
        if thing.kind is EYEPIECE and glasses_on and (thing.focal_length_mm or 9) < 20:
            cost += 0.01
        if thing.kind is BARLOW:
            cost += 0.005
        if thing.kind is ZOOM:
            cost += 0.008
        gain, gain_alone = before - after, before - loss_one_by_one(alone, scope.aperture_mm)
        if thing.kind is not BARLOW and gain - gain_alone > 0.3 * gain + 1e-15:
            cost += 0.003
        best = min(best, (cost, after))
    return best if best[1] <= 0.7 * before else (math.inf, math.inf)


kits = st.lists(examples.eyepieces, min_size=1, max_size=5)
lens_lists = st.lists(st.builds(barlow, st.floats(1.5, 3), barrel_mm=examples.barrels), max_size=2)


@settings(deadline=None, max_examples=15)
@given(examples.telescopes, kits, lens_lists, st.booleans())
def test_the_same_as_trying_everything(
    scope: Telescope, owned: list[Eyepiece], lenses: list[Barlow], glasses_on: bool
) -> None:
    if combinations(scope, owned, lenses):
        check_by_trying_everything(scope, owned, lenses, glasses_on=glasses_on)


# Aperture, focal length, eyepieces and Barlows owned, and whether glasses stay on: kits that are close calls,
# where a tenth more or less of one of the plan's figures would lead to another thing, or to none.
CLOSE_CALLS = [
    (200, 1200, (32, 17, 15), (2,), False),  # a zoom rather than a Barlow
    (300, 1500, (40, 20, 15, 8), (2,), False),  # a Barlow rather than what stands behind one
    (150, 1200, (25, 15, 12), (2.5,), True),  # 20 mm, which glasses just allow, rather than a zoom
    (60, 420, (20, 15, 10), (2,), True),  # 4.5 mm, tight as they are, rather than a zoom
    (114, 900, (40, 8, 5), (3,), True),
    (130, 900, (9,), (2.5,), False),
    (70, 900, (9, 6), (3,), False),
    (150, 750, (25, 15, 6), (3,), False),  # 3.5 mm rather than a zoom
    (80, 400, (25, 20, 15), (3,), False),  # 10 mm rather than 3.5
    (150, 750, (17, 9, 8, 5), (2,), False),  # 6 mm, which are not short
    (130, 900, (40, 15, 12), (2,), False),  # 9 mm rather than 5, which are
    (60, 700, (17, 12), (), False),  # what finds a planet
    (130, 900, (40, 10, 9, 5), (), False),
    (150, 750, (40, 32, 5), (), False),
    (300, 1500, (17, 12), (2,), False),  # just worth a thing
    (80, 400, (40, 20, 12, 9), (2.5,), False),  # just good enough
    (254, 1200, (40, 17, 10, 6), (2,), False),  # a gain of just three tenths
    (114, 912, (40, 25, 9, 6), (), False),  # hardly less, and so nothing
]


@pytest.mark.parametrize(("aperture_mm", "focal_length_mm", "owned_mm", "factors", "glasses_on"), CLOSE_CALLS)
def test_close_calls(
    aperture_mm: float,
    focal_length_mm: float,
    owned_mm: tuple[float, ...],
    factors: tuple[float, ...],
    glasses_on: bool,
) -> None:
    scope = telescope(aperture_mm=aperture_mm, focal_length_mm=focal_length_mm)
    lenses = [barlow(factor) for factor in factors]

    check_by_trying_everything(scope, [eyepiece(mm) for mm in owned_mm], lenses, glasses_on=glasses_on)


def check_by_trying_everything(
    scope: Telescope, owned: list[Eyepiece], lenses: list[Barlow], *, glasses_on: bool
) -> None:
    found = what_to_buy(scope, owned, lenses, eye=Eye(glasses=glasses_on, astigmatism=glasses_on))
    cost, after = brute_force(scope, owned, lenses, glasses_on=glasses_on)

    if found is None:
        assert math.isinf(cost)
    else:
        assert found.loss_after == pytest.approx(after, abs=1e-9)
        assert found.loss_after <= 0.7 * found.loss_before
        assert found.loss_before >= 0.015


def test_the_loss_of_a_kit_one_by_one() -> None:
    found = what_to_buy(telescope(), [eyepiece(25), eyepiece(10), eyepiece(8)], [])
    first = what_to_buy(telescope(), [], [])

    assert found is not None
    assert found.loss_before == pytest.approx(loss_one_by_one([48.0, 120.0, 150.0], 150))
    assert first is not None
    assert math.isinf(first.loss_before)
