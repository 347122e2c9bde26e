"""Aperture and air together: check values, what must always hold, and nights as observers know them."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.air.atmosphere import air_path
from core.air.blur import blur_at
from core.air.dispersion import spread_arcsec
from core.air.finest_detail import (
    LimitKind,
    ceiling_power,
    detail_arcsec,
    finest_detail,
    learned_band,
    power_band,
    power_showing,
)

apertures_mm = st.floats(20, 2000)
blurs_arcsec = st.floats(0.2, 8)
altitudes_deg = st.floats(5, 90)


def power_at(aperture_mm: float, overhead_arcsec: float, altitude_deg: float) -> float:
    path = float(air_path(altitude_deg))
    return float(
        power_showing(
            detail_arcsec(aperture_mm, blur_at(overhead_arcsec, path), float(spread_arcsec(altitude_deg)))
        )
    )


@pytest.mark.parametrize(
    ("blur_arcsec", "powers"),
    [
        (1.45, (137, 173, 199, 236, 253)),
        (3.0, (100, 112, 118, 125, 127)),
        (0.8, (152, 206, 255, 350, 414)),
    ],
)
def test_powers_overhead_without_dispersion(blur_arcsec: float, powers: tuple[int, ...]) -> None:
    found = power_showing(detail_arcsec([80, 114, 150, 254, 400], blur_arcsec))

    assert np.floor(found + 0.5).tolist() == list(powers)


@given(apertures_mm, apertures_mm, blurs_arcsec, altitudes_deg)
def test_more_aperture_never_bears_less(one: float, other: float, blur: float, altitude: float) -> None:
    small, large = sorted((one, other))

    assert power_at(small, blur, altitude) <= power_at(large, blur, altitude)


@given(apertures_mm, blurs_arcsec, blurs_arcsec, altitudes_deg)
def test_worse_air_never_bears_more(aperture: float, one: float, other: float, altitude: float) -> None:
    calm, rough = sorted((one, other))

    assert power_at(aperture, calm, altitude) >= power_at(aperture, rough, altitude)


@given(apertures_mm, blurs_arcsec, altitudes_deg, altitudes_deg)
def test_lower_never_bears_more(aperture: float, blur: float, one: float, other: float) -> None:
    low, high = sorted((one, other))

    assert power_at(aperture, blur, low) <= power_at(aperture, blur, high) * (1 + 1e-9)


@given(blurs_arcsec, st.floats(0, 4))
def test_a_very_large_aperture_bears_what_the_air_does(blur: float, spread: float) -> None:
    detail = finest_detail(aperture_mm=1e9, blur_arcsec=blur, dispersion_arcsec=spread)

    assert detail.power == pytest.approx(detail.air_power, rel=1e-9)
    assert detail.air_power == pytest.approx(232 / math.hypot(0.6 * blur, 0.45 * spread))


@given(apertures_mm)
def test_in_perfect_air_an_aperture_bears_exactly_twice_its_millimetres(aperture: float) -> None:
    detail = finest_detail(aperture_mm=aperture, blur_arcsec=0.0)

    assert detail.power == pytest.approx(2 * aperture)
    assert detail.air_power == math.inf
    assert detail.largest_part is LimitKind.APERTURE


@given(apertures_mm, blurs_arcsec, st.floats(0, 4))
def test_one_moment_and_a_row_of_moments_agree(aperture: float, blur: float, spread: float) -> None:
    one = finest_detail(aperture_mm=aperture, blur_arcsec=blur, dispersion_arcsec=spread)
    row = detail_arcsec(aperture, [blur, blur], [spread, spread])

    assert row == pytest.approx([one.arcsec, one.arcsec])
    assert ceiling_power(aperture, [blur], [spread]) == pytest.approx([min(one.power, 300)])


def test_a_row_of_moments_keeps_what_is_unknown() -> None:
    assert np.isnan(ceiling_power(150, [1.0, np.nan])).tolist() == [False, True]


@pytest.mark.parametrize(
    ("aperture_mm", "blur_arcsec", "spread_arcsec", "usual_air", "limit"),
    [
        (80, 1.45, 0.0, 300, LimitKind.APERTURE),  # 1.45 against 0.87
        (254, 1.45, 0.0, 300, LimitKind.TONIGHT_AIR),  # 0.46 against 0.87
        (254, 0.8, 0.0, 300, LimitKind.USUAL_AIR),  # would bear 350x
        (254, 0.8, 0.0, 400, LimitKind.TONIGHT_AIR),  # lifted
        (150, 1.0, 2.0, 300, LimitKind.HEIGHT),  # 0.77, 0.60 and 0.90
    ],
)
def test_the_largest_share_names_the_limit(
    aperture_mm: float, blur_arcsec: float, spread_arcsec: float, usual_air: float, limit: LimitKind
) -> None:
    detail = finest_detail(aperture_mm=aperture_mm, blur_arcsec=blur_arcsec, dispersion_arcsec=spread_arcsec)

    assert detail.limit(usual_air=usual_air) is limit


@given(apertures_mm, blurs_arcsec, st.floats(0, 4), st.sampled_from([300.0, 400.0]))
def test_the_band_holds_the_ceiling_and_is_cut_with_it(
    aperture: float, blur: float, spread: float, usual_air: float
) -> None:
    uncut = float(power_showing(detail_arcsec(aperture, blur, spread)))
    low, high = (float(end) for end in power_band(aperture, blur, spread, usual_air=usual_air))
    ceiling = float(ceiling_power(aperture, blur, spread, usual_air=usual_air))

    assert low <= ceiling <= high <= usual_air
    assert low == usual_air or low <= uncut * 0.88 * (1 + 1e-9)
    assert high == usual_air or high >= uncut * 1.12 * (1 - 1e-9)


def test_a_band_by_hand() -> None:
    # 254 mm, 1.45 arcsec: 116 / 254 = 0.4567; 0.75 and 0.50 of the blur are 1.0875 and 0.725.
    low, high = power_band(254, 1.45)

    assert float(low) == pytest.approx(232 / math.hypot(0.4567, 1.0875), rel=1e-4)
    assert float(high) == pytest.approx(232 / math.hypot(0.4567, 0.725), rel=1e-4)


# Common practice, no source: planets of the middle latitudes stand about half way up.
HALF_WAY_UP_DEG = 45


def test_four_inches_bear_about_150x_as_a_routine() -> None:
    assert power_at(102, 1.6, HALF_WAY_UP_DEG) == pytest.approx(150, rel=0.1)


@pytest.mark.parametrize("overhead_arcsec", [1.45, 1.6, 1.8])
def test_twelve_inches_bear_150_to_200x_in_average_air(overhead_arcsec: float) -> None:
    assert 150 <= power_at(305, overhead_arcsec, HALF_WAY_UP_DEG) <= 200


def test_a_114_mm_bears_100x_in_boiling_and_200x_in_steady_air() -> None:
    # Judged overhead.
    assert power_at(114, 3.0, 90) == pytest.approx(100, rel=0.15)
    assert power_at(114, 0.8, 90) == pytest.approx(200, rel=0.05)


def test_a_band_from_verdicts_runs_between_its_ends_but_is_never_finer_than_15_percent() -> None:
    # 150 mm overhead by the check values: 199x at 1.45 arcsec, 255x at 0.8, 118x at 3.
    assert learned_band(150, (0.8, 1.45, 3.0)) == pytest.approx((118, 255), abs=0.6)
    assert learned_band(150, (1.45, 1.45, 1.45)) == pytest.approx((0.85 * 199, 1.15 * 199), rel=0.004)
    # 400 mm at 0.8 arcsec would bear 414x: both ends stop at the usual limit.
    assert learned_band(400, (0.8, 0.8, 0.8)) == (300, 300)
    assert learned_band(400, (0.8, 0.8, 0.8), usual_air=400)[1] == 400
