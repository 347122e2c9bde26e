"""Which things fit together, and what each combination gives."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.gear.combinations import Combination, combinations, equal_steps
from core.gear.owned import Barlow, Eyepiece, Telescope
from tests.core.gear import examples
from tests.core.gear.examples import barlow, eyepiece, fixed, telescope


def labels(found: tuple[Combination, ...]) -> list[str]:
    return [combination.label for combination in found]


def test_none_or_one_barlow_lowest_power_first() -> None:
    found = combinations(telescope(), [eyepiece(25), eyepiece(10)], [barlow(2), barlow(3)])

    assert labels(found) == ["25 mm", "25 mm + 2x", "10 mm", "25 mm + 3x", "10 mm + 2x", "10 mm + 3x"]
    assert [combination.power for combination in found] == [48, 96, 120, 144, 240, 360]


def test_two_barlows_only_when_allowed_and_marked_approximate() -> None:
    things = [eyepiece(25)], [barlow(2), barlow(3)]

    plain = combinations(telescope(), *things)
    stacked = combinations(telescope(stack_barlows=True), *things)

    assert not any(combination.approximate for combination in plain)
    assert [each.power for each in stacked if each.approximate] == [48 * 6]


def test_a_reducer_never_stands_with_a_barlow() -> None:
    found = combinations(
        telescope(stack_barlows=True), [eyepiece(25)], [barlow(0.63), barlow(2), barlow(0.5)]
    )

    assert labels(found) == ["25 mm + 0.5x", "25 mm + 0.63x", "25 mm", "25 mm + 2x"]


def test_a_measured_factor_overrides_the_marked_one() -> None:
    found = combinations(telescope(), [eyepiece(10)], [barlow(2, measured_factor=2.2)])

    assert found[1].power == pytest.approx(264)


@pytest.mark.parametrize(
    ("scope_mm", "barlow_mm", "eyepiece_mm", "alone", "together"),
    [
        (31.75, 31.75, 31.75, True, True),
        (31.75, 31.75, 24.5, True, True),
        (31.75, 24.5, 31.75, True, False),
        (31.75, 50.8, 31.75, True, False),
        (31.75, 31.75, 50.8, False, False),
        (50.8, 31.75, 50.8, True, False),
        (50.8, 50.8, 31.75, True, True),
        (24.5, 24.5, 31.75, False, False),
    ],
)
def test_barrels_go_into_their_own_width_or_a_wider_one(
    scope_mm: float, barlow_mm: float, eyepiece_mm: float, alone: bool, together: bool
) -> None:
    found = combinations(
        telescope(barrel_mm=scope_mm),
        [eyepiece(10, barrel_mm=eyepiece_mm)],
        [barlow(2, barrel_mm=barlow_mm)],
    )

    assert any(not combination.barlows for combination in found) == alone
    assert any(combination.barlows for combination in found) == together


def test_the_wider_of_two_barlows_stands_next_to_the_focuser() -> None:
    scope = telescope(barrel_mm=50.8, stack_barlows=True)
    found = combinations(scope, [eyepiece(20)], [barlow(2), barlow(1.5, barrel_mm=50.8)])

    (stacked,) = (combination for combination in found if combination.approximate)
    assert stacked.label == "20 mm + 1.5x + 2x"


def test_field_stop_is_preferred_and_a_barlow_narrows_it() -> None:
    """An eyepiece of 25 mm and 52 degrees with a stop of 21.2 mm behind 1200 mm."""
    alone, behind_barlow = combinations(telescope(), [eyepiece(25, 52, field_stop_mm=21.2)], [barlow(2)])

    assert alone.true_field_deg == pytest.approx(math.degrees(21.2 / 1200), rel=1e-4)
    assert behind_barlow.true_field_deg == pytest.approx(math.degrees(21.2 / 2400), rel=1e-4)


def test_without_figures_the_field_is_unknown() -> None:
    (found,) = combinations(telescope(), [eyepiece(25)], [])

    assert found.true_field_deg is None


def test_a_zoom_is_shown_at_both_ends_and_between() -> None:
    zoom = Eyepiece(
        name="Zoom",
        focal_length_min_mm=8,
        focal_length_max_mm=24,
        apparent_field_at_min_deg=60,
        apparent_field_at_max_deg=40,
    )

    found = combinations(telescope(), [zoom], [])

    powers = [combination.power for combination in found]
    assert powers[0] == 50
    assert powers[-1] == 150
    ratios = [high / low for low, high in pairwise(powers)]
    assert max(ratios) == pytest.approx(min(ratios))
    assert max(ratios) <= 1.25
    assert len(powers) == 6
    assert found[0].apparent_field_deg == 40
    assert found[-1].apparent_field_deg == 60
    fields = [combination.apparent_field_deg for combination in found]
    assert fields == sorted(fields, key=lambda field: field or 0)
    assert found[0].label == "24 mm of Zoom"


@pytest.mark.parametrize(
    ("ends", "count"), [((8, 9), 2), ((8, 10), 2), ((8, 12.5), 3), ((12.8, 20), 3), ((8, 12.6), 4)]
)
def test_a_zoom_of_just_so_many_steps_of_a_quarter_gets_no_more(
    ends: tuple[float, float], count: int
) -> None:
    """10 over 8 is a quarter more, 12.5 over 8 a quarter twice, and what is over that wants one more."""
    low_mm, high_mm = ends
    zoom = Eyepiece(name="Zoom", focal_length_min_mm=low_mm, focal_length_max_mm=high_mm)

    assert len(combinations(telescope(), [zoom], [])) == count


def test_a_zoom_known_at_one_end_is_unknown_elsewhere() -> None:
    zoom = Eyepiece(name="Zoom", focal_length_min_mm=8, focal_length_max_mm=24, apparent_field_at_max_deg=40)

    found = combinations(telescope(), [zoom], [])

    assert [each.true_field_deg is not None for each in found] == [True] + [False] * 5


def test_one_field_stop_tells_nothing_of_a_zoom() -> None:
    zoom = Eyepiece(name="Zoom", focal_length_min_mm=8, focal_length_max_mm=24, field_stop_mm=16)

    assert {each.true_field_deg for each in combinations(telescope(), [zoom], [])} == {None}


def test_a_fixed_instrument_has_its_own_powers_and_nothing_else() -> None:
    """A 20-60x80: exit pupil 4.0 to 1.33 mm, whatever eyepieces and Barlows are owned."""
    scope = fixed(power_min=20, power_max=60, true_field_deg=2)

    found = combinations(scope, [eyepiece(25)], [barlow(2)])

    assert (found[0].power, found[-1].power) == (20, 60)
    assert found[0].exit_pupil_mm == 4.0
    assert found[-1].exit_pupil_mm == pytest.approx(1.33, abs=0.005)
    assert all(each.eyepiece is None and each.barlows == () for each in found)
    assert [each.true_field_deg for each in found] == [2, *[None] * (len(found) - 1)]


def test_a_single_fixed_power_is_one_combination() -> None:
    (found,) = combinations(fixed(power=20, true_field_deg=3.2), [], [])

    assert (found.power, found.true_field_deg) == (20, 3.2)


@settings(deadline=None)
@given(st.floats(1, 100), st.floats(1.01, 50))
def test_equal_steps_are_few_equal_and_small_enough(low: float, ratio: float) -> None:
    steps = equal_steps(low, low * ratio)

    ratios = [high / low for low, high in pairwise(steps)]
    assert (steps[0], steps[-1]) == (low, low * ratio)
    assert max(ratios) == pytest.approx(min(ratios))
    assert max(ratios) <= 1.25 + 1e-6
    # One step fewer would be too wide.
    assert len(ratios) == 1 or ratio ** (1 / (len(ratios) - 1)) > 1.25


@settings(deadline=None)
@given(examples.telescopes, examples.eyepiece_lists, examples.barlow_lists)
def test_powers_are_positive_and_sorted_and_every_barrel_fits(
    scope: Telescope, eyepieces: list[Eyepiece], barlows: list[Barlow]
) -> None:
    found = combinations(scope, eyepieces, barlows)

    powers = [combination.power for combination in found]
    assert powers == sorted(powers)
    assert all(power > 0 for power in powers)
    for combination in found:
        assert combination.eyepiece is not None
        chain = [scope.barrel_mm, *(b.barrel_mm for b in combination.barlows), combination.eyepiece.barrel_mm]
        assert chain == sorted(chain, reverse=True)
        assert len(combination.barlows) <= (2 if scope.stack_barlows else 1)
