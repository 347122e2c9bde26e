"""What to buy: the named kits, what it is for, and what is no candidate."""

import math
import statistics

import pytest

from core.gear.eye import Eye
from core.gear.owned import Eyepiece
from core.ladder.buying import (
    FOCAL_LENGTHS_MM,
    BuyKind,
    Candidate,
    as_gear,
    best_powers,
    what_to_buy,
)
from core.words.buying import purpose_text
from tests.core.gear.examples import barlow, eyepiece, fixed, telescope

EYEPIECE, ZOOM, BARLOW = BuyKind.EYEPIECE, BuyKind.ZOOM, BuyKind.BARLOW


def kit(*focal_lengths_mm: float) -> list[Eyepiece]:
    return [eyepiece(each) for each in focal_lengths_mm]


@pytest.mark.parametrize(
    ("aperture_mm", "focal_length_mm", "owned_mm", "factors", "wanted"),
    [
        (150, 1200, (25, 10, 8), (2,), (EYEPIECE, 6)),
        (114, 900, (25, 10), (), (EYEPIECE, 6)),
        (90, 900, (25, 10), (), (EYEPIECE, 7)),
        (130, 650, (25, 10), (), (EYEPIECE, 4.5)),
        (254, 1200, (25, 10), (), (EYEPIECE, 6)),
        (200, 2000, (25, 10), (), (ZOOM, None)),
        (150, 1200, (32, 25, 12, 8, 6), (2,), None),
    ],
)
def test_the_named_kits(
    aperture_mm: float,
    focal_length_mm: float,
    owned_mm: tuple[float, ...],
    factors: tuple[float, ...],
    wanted: tuple[BuyKind, float | None] | None,
) -> None:
    scope = telescope(aperture_mm=aperture_mm, focal_length_mm=focal_length_mm)

    found = what_to_buy(scope, kit(*owned_mm), [barlow(factor) for factor in factors])

    if wanted is None:
        assert found is None
        return
    kind, length_mm = wanted
    assert found is not None
    assert found.thing.kind is kind
    assert length_mm is None or found.thing.focal_length_mm == length_mm


def test_it_tells_between_which_powers_there_is_nothing() -> None:
    found = what_to_buy(telescope(), kit(25, 10, 8), [barlow(2)])

    assert found is not None
    assert (found.from_power, found.to_power) == (150, 240)
    assert list(found.powers) == [200, 400]
    assert not found.for_finding


def test_of_a_zoom_it_tells_where_its_most_useful_setting_falls() -> None:
    """80 and 200x on an f/10 of 200 mm: most nights bear some 150x, which neither of them is near."""
    scope = telescope(aperture_mm=200, focal_length_mm=2000)

    found = what_to_buy(scope, kit(25, 10), [])

    assert found is not None
    assert found.thing.kind is ZOOM
    assert (found.from_power, found.to_power) == (80, 200)
    low_mm = found.thing.focal_length_mm
    assert low_mm is not None
    assert (low_mm, found.thing.to_focal_length_mm) in ((8, 24), (7, 21))
    assert found.powers[-1] == pytest.approx(2000 / low_mm)
    assert found.powers[-1] == pytest.approx(3 * found.powers[0])
    assert len(found.powers) == 7


def test_above_all_that_is_owned_there_is_no_upper_end() -> None:
    found = what_to_buy(telescope(aperture_mm=114, focal_length_mm=900), kit(25, 10), [])

    assert found is not None
    assert (found.from_power, found.to_power) == (90, None)


def test_a_kit_that_climbs_but_cannot_find() -> None:
    # 100 to 240x on 150 mm: the widest exit pupil is 1.5 mm.
    found = what_to_buy(telescope(), kit(12, 10, 8.5, 7.5, 6.5, 6, 5.5, 5), [])

    assert found is not None
    assert found.for_finding
    assert found.thing.focal_length_mm is not None
    assert 16 <= found.thing.focal_length_mm <= 48


def test_the_first_thing_of_all_finds_a_planet() -> None:
    found = what_to_buy(telescope(aperture_mm=80, focal_length_mm=400), [], [])

    assert found is not None
    assert any(2 <= 80 / power <= 6 for power in found.powers)


@pytest.mark.parametrize(("aperture_mm", "focal_length_mm"), [(90, 900), (130, 900), (254, 1200)])
def test_glasses_that_stay_on_want_a_barlow_or_a_zoom_rather_than_a_tight_eyepiece(
    aperture_mm: float, focal_length_mm: float
) -> None:
    scope = telescope(aperture_mm=aperture_mm, focal_length_mm=focal_length_mm)
    eyes = (Eye(), Eye(glasses=True), Eye(glasses=True, astigmatism=True))

    bare, taken_off, kept_on = (what_to_buy(scope, kit(25, 10), [], eye=eye) for eye in eyes)

    assert bare is not None
    assert bare.thing.kind is EYEPIECE
    assert taken_off == bare
    assert kept_on is not None
    assert kept_on.thing.kind is not EYEPIECE


def test_nothing_for_a_built_in_power() -> None:
    assert what_to_buy(fixed(power=20.0), [], []) is None


def test_a_barlow_counts_behind_another_too_where_they_may_be_stacked() -> None:
    """500 mm over 25 and 15 mm by 2.5x: 50 and 83x, and with the 2x that is owned 100 and 167x."""
    scope = telescope(aperture_mm=114, focal_length_mm=500, stack_barlows=True)

    found = what_to_buy(scope, kit(25, 15), [barlow(2)])

    assert found is not None
    assert found.thing == Candidate(kind=BARLOW, factor=2.5)
    assert found.powers == pytest.approx((50, 500 / 6, 100, 500 / 3))


def test_what_does_not_fit_the_focuser_is_no_candidate() -> None:
    narrow = telescope(aperture_mm=60, focal_length_mm=700, barrel_mm=24.5)

    found = what_to_buy(narrow, [eyepiece(20, barrel_mm=24.5)], [barlow(2, barrel_mm=31.75)])

    assert found is not None
    assert as_gear(found.thing, scope=narrow).barrel_mm == 24.5
    assert len(found.powers) == 1 or found.thing.kind is ZOOM  # the Barlow does not fit, so adds none


def test_what_is_weighed_is_what_is_commonly_sold() -> None:
    """Focal lengths in mm that are found everywhere: common practice, no source."""
    short = {2.5, 3, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10}
    usual = {12, 12.5, 13, 15, 17, 18, 20, 22, 24, 25, 30, 32, 35, 40}

    assert set(FOCAL_LENGTHS_MM) == short | usual
    assert list(FOCAL_LENGTHS_MM) == sorted(FOCAL_LENGTHS_MM)


def test_every_thing_to_buy_fits_a_narrow_focuser() -> None:
    narrow = telescope(aperture_mm=60, focal_length_mm=700, barrel_mm=24.5)
    things = [
        Candidate(kind=BARLOW, factor=2.5),
        Candidate(kind=EYEPIECE, focal_length_mm=12.5),
        Candidate(kind=ZOOM, focal_length_mm=8.0, to_focal_length_mm=24.0),
    ]

    gear = [as_gear(thing, scope=narrow) for thing in things]

    assert [each.barrel_mm for each in gear] == [24.5, 24.5, 24.5]
    assert [each.name for each in gear] == ["2.5x", "12.5 mm", "8-24 mm zoom"]
    assert as_gear(things[0], scope=telescope(barrel_mm=50.8)).barrel_mm == 31.75


def test_best_powers_written_out_one_by_one() -> None:
    normal = statistics.NormalDist()
    expected = []
    for number in range(25):
        air = 1.6 * math.exp(0.4 * normal.inv_cdf((number + 0.5) / 25))
        for step in range(7):
            path = 1.05 + 0.125 * step
            theta = math.hypot(116 / 150, 0.6 * air * path**0.6)
            expected.append(min(232 / theta, 1.6 * 150, 300))

    assert best_powers(150) == pytest.approx(expected, rel=1e-9)


def test_what_climbs_and_finds_is_told_for_both() -> None:
    # 300x alone on 150 mm: a zoom of 8 to 24 or 7 to 21 mm gives all below it, from 50 or 57x on.
    found = what_to_buy(telescope(), kit(4), [])

    assert found is not None
    assert found.finds_too
    assert purpose_text(found).endswith("where you have nothing below, and for finding a planet with")


def test_what_climbs_by_one_setting_and_finds_by_another_is_for_both() -> None:
    """58x alone on 60 mm: a zoom of 8 to 24 mm gives the 87x that most nights bear, and 29x to find with."""
    found = what_to_buy(telescope(aperture_mm=60, focal_length_mm=700), kit(12), [])

    assert found is not None
    assert (found.thing.focal_length_mm, found.thing.to_focal_length_mm) == (8, 24)
    assert (found.finds_too, found.for_finding) == (True, False)


def test_a_planet_is_found_with_a_wide_exit_pupil_too() -> None:
    # 42x on 254 mm: 6.1 mm wide, and nobody lacks a finding power there.
    found = what_to_buy(telescope(aperture_mm=254, focal_length_mm=1250), kit(30, 8, 5), [])

    assert found is not None
    assert not found.finds_too
