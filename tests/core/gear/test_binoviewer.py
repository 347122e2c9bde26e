"""Pairs for a bino-viewer: only what is equal goes in, and its corrector counts."""

import pytest
from attrs import evolve

from core.gear.binoviewer import eyepiece_pairs
from tests.core.gear.examples import eyepiece, telescope


def test_only_equal_eyepieces_make_a_pair() -> None:
    scope = telescope(binoviewer_factor=1.7)
    one, other = eyepiece(25, 52), evolve(eyepiece(25, 52), name="25 mm, second", id="b")
    wider = evolve(eyepiece(25, 68), name="25 mm wide")

    (pair,) = eyepiece_pairs(scope, [one, eyepiece(10), other, wider])

    assert pair.eyepiece is one
    assert pair.power == pytest.approx(81.6)  # 1200 x 1.7 / 25, by hand
    assert eyepiece_pairs(scope, [one, wider, eyepiece(10)]) == ()


def test_no_bino_viewer_no_pairs() -> None:
    assert eyepiece_pairs(telescope(), [eyepiece(25), eyepiece(25)]) == ()


def test_a_pair_too_wide_for_the_focuser_is_none() -> None:
    wide = eyepiece(40, 52, barrel_mm=50.8)

    assert eyepiece_pairs(telescope(binoviewer_factor=1.7), [wide, wide]) == ()
