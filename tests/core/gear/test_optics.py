"""The single numbers: what happens at the edges of each formula."""

import math

import pytest

from core.gear.optics import drift_s, moons_across, power, true_field_from_apparent_deg, visible_detail_arcsec
from core.ladder.usual_powers import usual_night_powers

SIDEREAL_DAY_S = 23 * 3600 + 56 * 60 + 4.1


def test_drift_of_the_slow_and_the_fast_field() -> None:
    """Worked by hand: field over 15.041 arcsec/s, at the equator and at declination +23."""
    field_deg = 50 / 240

    assert drift_s(50 / 48) == pytest.approx(249, abs=0.5)
    assert drift_s(field_deg) == pytest.approx(49.9, abs=0.05)
    assert drift_s(field_deg, 23) == pytest.approx(54.2, abs=0.05)
    assert drift_s(field_deg, -23) == drift_s(field_deg, 23)
    # A degree of the equator, 3600 / 15.041.
    assert drift_s(1.0) == pytest.approx(239.346, abs=0.005)


@pytest.mark.parametrize("declination_deg", [89.9999, 90.0, -90.0])
def test_drift_near_the_pole_is_never_longer_than_one_turn_of_the_sky(declination_deg: float) -> None:
    assert drift_s(1.0, declination_deg) == pytest.approx(SIDEREAL_DAY_S, abs=0.1)


def test_a_reducer_lowers_power_and_widens_the_field() -> None:
    """An f/10 of 2000 mm with a 0.63 reducer and a 25 mm eyepiece: 50.4x and about one degree."""
    reduced = power(2000, 25, 0.63)

    assert reduced == pytest.approx(50.4)
    assert true_field_from_apparent_deg(50, reduced) == pytest.approx(0.99, abs=0.005)
    assert true_field_from_apparent_deg(52, reduced) == pytest.approx(1.03, abs=0.005)


def test_usual_night_powers_stop_where_the_air_decides() -> None:
    """Common practice: 1.2 to 1.5x per mm up to about 150 mm; a 4-inch is used at about 150x."""
    four_inch = usual_night_powers(101.6)

    assert math.isclose(four_inch[1], 150, rel_tol=0.03)
    assert usual_night_powers(150) == (180, 225)
    assert usual_night_powers(152) == usual_night_powers(406) == (180, 225)


def test_detail_grows_finer_with_power_until_the_aperture_ends_it() -> None:
    """By hand from Dawes 1867: 232 / 100 at 100x; from 300x on the 116 / 150 of the aperture."""
    assert visible_detail_arcsec(150, 100) == pytest.approx(2.32)
    assert visible_detail_arcsec(150, 300) == pytest.approx(0.773, abs=0.001)
    assert visible_detail_arcsec(150, 450) == pytest.approx(0.773, abs=0.001)


def test_fields_told_in_moons() -> None:
    """The mean Moon is 3474.8 km at 384,400 km, 31.1 arcmin: two of them fit into 1.036 degrees."""
    assert moons_across(1.036) == pytest.approx(2.0, abs=0.005)
