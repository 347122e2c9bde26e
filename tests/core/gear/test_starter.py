"""The usual kits are whole, in order, and name no maker."""

from itertools import pairwise

import pytest
from attrs import evolve

from core.gear.combinations import combinations
from core.gear.owned import TelescopeKind
from core.gear.starter import (
    kit_like,
    starter_kits,
    usual_barlow,
    usual_barlow_factors,
    usual_eyepiece,
    usual_eyepieces_mm,
)
from tests.core.gear.examples import telescope


def test_there_are_kits_of_every_kind_with_names_of_their_own() -> None:
    kits = starter_kits()

    assert {kit.telescope.kind for kit in kits} == set(TelescopeKind)
    assert len({kit.telescope.name for kit in kits}) == len(kits)


def test_kits_of_one_kind_stand_together_from_small_to_large() -> None:
    for smaller, larger in pairwise(starter_kits()):
        if (
            smaller.telescope.kind is larger.telescope.kind
            and smaller.telescope.kind is not TelescopeKind.FIXED
        ):
            assert smaller.telescope.aperture_mm <= larger.telescope.aperture_mm

    kinds = [kit.telescope.kind for kit in starter_kits()]
    assert len([kind for kind, after in pairwise([*kinds, None]) if kind is not after]) == len(set(kinds))


def test_only_a_fixed_power_instrument_comes_without_eyepieces() -> None:
    for kit in starter_kits():
        assert bool(kit.eyepieces_mm) is (kit.telescope.kind is not TelescopeKind.FIXED)
        assert set(kit.eyepieces_mm) <= set(usual_eyepieces_mm())


def test_a_usual_eyepiece_or_barlow_fits_a_narrow_focuser() -> None:
    narrow = evolve(starter_kits()[0].telescope, barrel_mm=24.5)

    assert usual_eyepiece(10, scope=narrow).barrel_mm == 24.5
    assert usual_barlow(2, scope=narrow).barrel_mm == 24.5
    assert usual_eyepiece(10).barrel_mm == 31.75


def test_factors_of_barlows_are_of_barlows() -> None:
    assert all(not usual_barlow(factor).is_reducer for factor in usual_barlow_factors())


@pytest.mark.parametrize("barrel_mm", [24.5, 31.75, 50.8])
def test_no_usual_eyepiece_asks_for_more_field_than_its_barrel_shows(barrel_mm: float) -> None:
    scope = telescope(barrel_mm=barrel_mm)
    found = combinations(scope, [usual_eyepiece(length, scope=scope) for length in usual_eyepieces_mm()], [])

    assert [each.label for each in found if each.is_field_cut] == []


def test_a_long_usual_eyepiece_has_the_field_that_its_barrel_leaves() -> None:
    # 27 mm of field stop over 40 mm is 38.7°, over 32 mm 48.3°.
    assert usual_eyepiece(40).apparent_field_deg == 38
    assert usual_eyepiece(32).apparent_field_deg == 48
    assert usual_eyepiece(25).apparent_field_deg == 50


def test_usual_sizes_are_round_so_that_none_points_at_one_maker() -> None:
    for kit in starter_kits():
        focal_length_mm = kit.telescope.focal_length_mm
        assert focal_length_mm is None or focal_length_mm % 50 == 0, kit.telescope.name
        # 114 mm are 4½ in, which everybody has made.
        assert kit.telescope.aperture_mm % 5 == 0 or kit.telescope.aperture_mm == 114, kit.telescope.name


def test_a_telescope_of_a_usual_size_has_the_kit_of_that_size_and_an_odd_one_none() -> None:
    for kit in starter_kits():
        found = kit_like(evolve(kit.telescope, name="Mine"))
        assert found is not None
        assert found.telescope.aperture_mm == kit.telescope.aperture_mm

    assert kit_like(telescope("Odd", 147, 1111)) is None
