"""Limits and ceiling: which limit is told, and what cannot be told."""

import math

import numpy as np
import pytest

from core.air.atmosphere import air_path
from core.air.blur import Blur, BlurSource, blur_at
from core.air.finest_detail import LimitKind
from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook
from core.air.limits import NO_CEILING, Limits, ceiling_of, find_limits


@pytest.mark.parametrize(
    ("aperture_mm", "blur_arcsec", "spread_arcsec", "usual_air", "power", "set_by"),
    [
        # Worked by hand: 232 over the root of the sum of the squares, cut at the usual air.
        (60, 0.8, 0.0, 300, 116.5, LimitKind.APERTURE),
        (254, 1.45, 0.0, 300, 236.1, LimitKind.TONIGHT_AIR),
        (254, 0.5, 0.0, 300, 300.0, LimitKind.USUAL_AIR),
        (254, 0.5, 0.0, 400, 400.0, LimitKind.USUAL_AIR),
        (150, 1.0, 2.0, 300, 174.4, LimitKind.HEIGHT),
    ],
)
def test_aperture_and_air_together_set_the_ceiling(
    aperture_mm: float,
    blur_arcsec: float,
    spread_arcsec: float,
    usual_air: float,
    power: float,
    set_by: LimitKind,
) -> None:
    blur = Blur(overhead_arcsec=blur_arcsec)
    limits = find_limits(
        aperture_mm=aperture_mm, path=1.0, dispersion_arcsec=spread_arcsec, blur=blur, usual_air=usual_air
    )

    ceiling = ceiling_of(limits)

    assert ceiling.power == pytest.approx(power, abs=0.1)
    assert ceiling.set_by is set_by
    assert limits.band is not None
    assert limits.band[0] <= power <= limits.band[1] <= usual_air


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
    assert [FIRST_LOOK_BLUR_ARCSEC[look] for look in FirstLook] == [0.8, 1.45, 3.0]


@pytest.mark.parametrize("overhead_arcsec", [0.1, 8.1, math.nan, math.inf, True])
def test_a_blur_out_of_range_is_refused(overhead_arcsec: float) -> None:
    with pytest.raises(ValueError, match=r"from 0\.2 to 8 arcsec"):
        Blur(overhead_arcsec=overhead_arcsec)


def test_low_altitude_costs_power() -> None:
    """At 20 degrees the path is 2.9 times that overhead (Kasten and Young 1989), the blur 1.9 times."""
    blur = Blur(overhead_arcsec=1.0)
    low = find_limits(aperture_mm=150, path=float(air_path(20.0)), blur=blur)
    overhead = find_limits(aperture_mm=150, path=1.0, blur=blur)

    # 232 over 0.6 arcsec overhead, and over 1.9 times as much.
    assert overhead.tonight_air == pytest.approx(386.7, abs=0.1)
    assert low.tonight_air == pytest.approx(386.7 / 1.9, rel=0.01)


def test_blur_over_an_evening_is_an_array_and_unknown_stays_unknown() -> None:
    paths = np.array([1.0, 2.0, np.nan])

    blurs = blur_at(2.0, paths)

    assert blurs[:2] == pytest.approx([2.0, 3.031], abs=0.001)
    assert np.isnan(blurs[2])
