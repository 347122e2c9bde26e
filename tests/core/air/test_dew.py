"""Dew on glass: check values, published dew points, and an independent computation."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.constants import Stefan_Boltzmann, zero_Celsius
from scipy.optimize import brentq

from core.air.dew import DampAir, Shelter

temperatures_c = st.floats(-30, 40)
humidities_pct = st.floats(5, 100)


def test_the_check_value_of_a_calm_evening() -> None:
    air = DampAir(temperature_c=10, humidity_pct=80)

    assert 10 - air.dew_point_c == pytest.approx(3.3, abs=0.05)
    assert air.glass_below_c(Shelter.BARE) == pytest.approx(7.7, abs=0.05)
    assert air.glass_below_c(Shelter.SHIELDED) == pytest.approx(0.9, abs=0.05)
    assert air.risk(Shelter.BARE).wet
    assert not air.risk(Shelter.SHIELDED).wet
    assert not air.risk(Shelter.DOWN_A_TUBE).wet


# Dew points as tables of humid air print them (psychrometric tables, from memory).
@pytest.mark.parametrize(
    ("temperature_c", "humidity_pct", "dew_point_c"),
    [(20, 50, 9.3), (20, 100, 20.0), (30, 60, 21.4), (0, 80, -3.0), (25, 40, 10.5), (15, 90, 13.4)],
)
def test_dew_points_of_the_tables(temperature_c: float, humidity_pct: float, dew_point_c: float) -> None:
    air = DampAir(temperature_c=temperature_c, humidity_pct=humidity_pct)

    assert air.dew_point_c == pytest.approx(dew_point_c, abs=0.15)


def goff_gratch_hpa(celsius: float) -> float:
    """Saturation pressure over water, Goff and Gratch 1946 as in the Smithsonian tables (from memory)."""
    ratio = 373.16 / (celsius + zero_Celsius)
    return 1013.246 * 10 ** (
        -7.90298 * (ratio - 1)
        + 5.02808 * math.log10(ratio)
        - 1.3816e-7 * (10 ** (11.344 * (1 - 1 / ratio)) - 1)
        + 8.1328e-3 * (10 ** (-3.49149 * (ratio - 1)) - 1)
    )


@given(temperatures_c, st.floats(20, 100))
def test_the_dew_point_against_another_formula(temperature_c: float, humidity_pct: float) -> None:
    wanted = goff_gratch_hpa(temperature_c) * humidity_pct / 100
    other = brentq(lambda celsius: goff_gratch_hpa(celsius) - wanted, -60, 60)

    assert DampAir(temperature_c=temperature_c, humidity_pct=humidity_pct).dew_point_c == pytest.approx(
        other, abs=0.2
    )


@given(temperatures_c, humidities_pct, st.booleans())
def test_the_fall_against_a_balance_written_out_again(
    temperature_c: float, humidity_pct: float, breeze: bool
) -> None:
    air = DampAir(temperature_c=temperature_c, humidity_pct=humidity_pct, breeze=breeze)
    dew = air.dew_point_c
    clear_sky = min(1.0, 0.711 + 0.0056 * dew + 0.000073 * dew**2)
    loss = 0.9 * 0.9 * (1 - clear_sky) * Stefan_Boltzmann * (temperature_c + zero_Celsius) ** 4

    assert air.glass_below_c(Shelter.BARE) == pytest.approx(loss / (14.5 if breeze else 9.5), rel=1e-4)


@given(temperatures_c, humidities_pct)
def test_a_shield_and_a_breeze_help_and_a_tube_helps_most(temperature_c: float, humidity_pct: float) -> None:
    calm = DampAir(temperature_c=temperature_c, humidity_pct=humidity_pct)
    breezy = DampAir(temperature_c=temperature_c, humidity_pct=humidity_pct, breeze=True)

    falls = [calm.glass_below_c(shelter) for shelter in Shelter]
    assert falls == sorted(falls, reverse=True)
    assert falls[-1] == 0
    assert breezy.glass_below_c(Shelter.BARE) <= calm.glass_below_c(Shelter.BARE)
    assert calm.dew_point_c <= temperature_c + 1e-9


def test_frost_below_freezing_and_dew_on_everything_in_wet_air() -> None:
    assert DampAir(temperature_c=-1, humidity_pct=85).risk(Shelter.BARE).frost
    assert not DampAir(temperature_c=10, humidity_pct=80).risk(Shelter.BARE).frost
    assert not DampAir(temperature_c=-1, humidity_pct=40).risk(Shelter.SHIELDED).frost
    wet = DampAir(temperature_c=10, humidity_pct=98).risk(Shelter.DOWN_A_TUBE)
    assert wet.everywhere
    assert wet.wet


@pytest.mark.parametrize("humidity_pct", [0, 101, math.nan])
def test_no_humidity_outside_the_range(humidity_pct: float) -> None:
    with pytest.raises(ValueError, match="must be"):
        DampAir(temperature_c=10, humidity_pct=humidity_pct)
