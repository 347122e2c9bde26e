"""The usual kits are whole, in order, and name no maker."""

from itertools import pairwise

from attrs import evolve

from core.gear.owned import TelescopeKind
from core.gear.starter import (
    starter_kits,
    usual_barlow,
    usual_barlow_factors,
    usual_eyepiece,
    usual_eyepieces_mm,
)


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
