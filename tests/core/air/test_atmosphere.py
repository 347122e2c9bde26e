"""Refraction, pressure and path against published values."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.air.atmosphere import air_path, apparent_altitude_deg, refraction_deg, standard_pressure_hpa


def test_meeus_example_16a_lifts_the_sun_by_24_arcminutes() -> None:
    # Meeus, Astronomical Algorithms, 2nd ed., p. 107: true altitude 33.246' (0.5541 degrees), R = 24.618'.
    assert float(refraction_deg(33.246 / 60.0)) * 60.0 == pytest.approx(24.618, abs=0.001)


def test_refraction_keeps_its_value_below_the_horizon_and_never_sinks_a_body() -> None:
    at_horizon = float(refraction_deg(0.0))

    assert np.allclose(refraction_deg([-0.5, -1.01, -40.0]), at_horizon)
    assert float(refraction_deg(90.0)) == 0.0


def test_thin_or_cold_air() -> None:
    # Refractivity of air is proportional to pressure and to the inverse of the absolute temperature.
    assert float(refraction_deg(20.0, pressure_hpa=505.0)) == pytest.approx(float(refraction_deg(20.0)) / 2)
    assert float(refraction_deg(20.0, temperature_c=-30.0)) > float(refraction_deg(20.0)) * 1.15


@pytest.mark.parametrize(
    ("elevation_m", "pressure_hpa"),
    [(0.0, 1013.25), (1000.0, 898.75), (2000.0, 794.95), (5000.0, 540.20), (-400.0, 1062.2)],
)
def test_standard_pressure(elevation_m: float, pressure_hpa: float) -> None:
    # Tables of the standard atmosphere (ISO 2533, from memory); geopotential against geometric height
    # is worth up to 0.2 hPa here.
    assert float(standard_pressure_hpa(elevation_m)) == pytest.approx(pressure_hpa, abs=0.4)


@pytest.mark.parametrize(("altitude_deg", "path"), [(5.0, 10.3164), (10.0, 5.5841)])
def test_path_of_kasten_and_young(altitude_deg: float, path: float) -> None:
    # Kasten and Young 1989, Table II; their formula keeps within 0.2 percent of it above 1 degree.
    assert float(air_path(altitude_deg)) == pytest.approx(path, rel=0.002)


@pytest.mark.parametrize(("altitude_deg", "path"), [(90.0, 1.0), (60.0, 1.154), (30.0, 1.995), (20.0, 2.904)])
def test_path_of_the_old_table(altitude_deg: float, path: float) -> None:
    # Bemporad's table of 1904 as reprinted since (from memory); newer air differs by under a percent here.
    assert float(air_path(altitude_deg)) == pytest.approx(path, rel=0.01)


def test_no_path_is_given_below_five_degrees() -> None:
    assert np.isnan(air_path([4.999, 0.0, -30.0])).all()
    assert np.isfinite(air_path(5.0))


def test_a_mountain_site_lifts_less() -> None:
    assert apparent_altitude_deg(10.0, elevation_m=3000.0) < apparent_altitude_deg(10.0)


@given(st.floats(-90.0, 89.9), st.floats(0.001, 0.1), st.floats(-430.0, 6000.0))
def test_apparent_altitude_rises_with_true_altitude(
    low_deg: float, more_deg: float, elevation_m: float
) -> None:
    low, high = apparent_altitude_deg([low_deg, low_deg + more_deg], elevation_m=elevation_m)

    assert low < high
    assert low_deg <= low < low_deg + 0.55
