"""Of several combinations of nearly the same power the simplest comes first."""

import pytest

from core.gear.combinations import combinations
from core.gear.simplest import simplest_first
from tests.core.gear.examples import barlow, eyepiece, telescope


def test_no_barlow_before_a_weaker_one_before_a_stronger_one() -> None:
    kit = [eyepiece(18), eyepiece(12), eyepiece(6)]
    same = [
        each
        for each in combinations(telescope(), kit, [barlow(3), barlow(2)])
        if each.power == pytest.approx(200)
    ]

    assert [each.label for each in simplest_first(same)] == ["6 mm", "12 mm + 2x", "18 mm + 3x"]


def test_among_equals_the_widest_field() -> None:
    kit = [eyepiece(10), eyepiece(10, 45), eyepiece(10, 68)]

    fields = [each.apparent_field_deg for each in simplest_first(combinations(telescope(), kit, []))]

    assert fields == [68, 45, None]
