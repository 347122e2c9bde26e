"""The aperture in use: the whole one, or what an off-axis mask leaves of it."""

import math

import pytest

from core.gear.aperture import clear_area_mm2, working_aperture_mm, working_obstruction_ratio
from tests.core.gear.examples import telescope


def test_a_mask_leaves_its_own_aperture_and_no_obstruction() -> None:
    open_scope = telescope(aperture_mm=250, obstruction_mm=60)
    masked = telescope(aperture_mm=250, obstruction_mm=60, mask_mm=80)

    assert (working_aperture_mm(open_scope), working_obstruction_ratio(open_scope)) == (250, 0.24)
    assert (working_aperture_mm(masked), working_obstruction_ratio(masked)) == (80, 0)
    assert clear_area_mm2(masked) == pytest.approx(math.pi * 1600)
    assert clear_area_mm2(open_scope) == pytest.approx(math.pi * (125**2 - 30**2))
