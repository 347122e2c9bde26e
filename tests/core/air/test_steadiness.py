"""Limits and ceiling: which limit is told, and what cannot be told."""

import math

import numpy as np
import pytest

from core.air.atmosphere import air_path
from core.air.steadiness import (
    FIRST_LOOK_BLUR_ARCSEC,
    NO_CEILING,
    Blur,
    BlurSource,
    Ceiling,
    FirstLook,
    LimitKind,
    Limits,
    air_limit,
    blur_at,
    ceiling_of,
    find_limits,
)


@pytest.mark.parametrize(
    ("aperture", "usual_air", "tonight_air", "set_by"),
    [
        (120, 300, 160, LimitKind.APERTURE),
        (500, 300, 350, LimitKind.USUAL_AIR),
        (500, 300, 160, LimitKind.TONIGHT_AIR),
        (300, 300, 300, LimitKind.APERTURE),
        (300, 300, 400, LimitKind.APERTURE),
        (500, 300, 300, LimitKind.USUAL_AIR),
        (160, 300, 160, LimitKind.APERTURE),
    ],
)
def test_the_lowest_limit_sets_the_ceiling_and_ties_are_told_in_order(
    aperture: float, usual_air: float, tonight_air: float, set_by: LimitKind
) -> None:
    limits = Limits(aperture=aperture, usual_air=usual_air, tonight_air=tonight_air)

    ceiling = ceiling_of(limits)

    assert ceiling == Ceiling(power=min(aperture, usual_air, tonight_air), set_by=set_by)


@pytest.mark.parametrize("path", [None, math.nan])
def test_without_a_path_there_is_no_ceiling(path: float | None) -> None:
    limits = find_limits(aperture_mm=150, path=path, blur=Blur.assumed())

    assert limits == Limits(aperture=300, usual_air=300, tonight_air=None)
    assert ceiling_of(limits) == NO_CEILING


def test_with_nothing_said_the_air_is_taken_as_fair_and_called_assumed() -> None:
    blur = Blur.assumed()

    assert blur.overhead_arcsec == 1.45
    assert blur.source is BlurSource.ASSUMED


def test_first_looks_run_from_steady_to_boiling() -> None:
    arcsec = [Blur.of_first_look(look).overhead_arcsec for look in FirstLook]

    assert arcsec == [0.8, 1.45, 3.0]
    assert set(FIRST_LOOK_BLUR_ARCSEC) == set(FirstLook)


@pytest.mark.parametrize("overhead_arcsec", [0.1, 8.1, math.nan, math.inf, True])
def test_a_blur_out_of_range_is_refused(overhead_arcsec: float) -> None:
    with pytest.raises(ValueError, match=r"from 0\.2 to 8 arcsec"):
        Blur(overhead_arcsec=overhead_arcsec)


def test_low_altitude_costs_power() -> None:
    """At 20 degrees the path is 2.9 times that overhead (Kasten and Young 1989), the blur 1.9 times."""
    low, overhead = air_limit(1.0, float(air_path(20.0))), air_limit(1.0, 1.0)

    assert overhead == 232
    assert low == pytest.approx(232 / 1.9, rel=0.01)


def test_blur_over_an_evening_is_an_array_and_unknown_stays_unknown() -> None:
    paths = np.array([1.0, 2.0, np.nan])

    blurs = blur_at(2.0, paths)

    assert blurs[:2] == pytest.approx([2.0, 3.031], abs=0.001)
    assert np.isnan(blurs[2])
