"""The spread of colours against Filippenko 1982, ERFA, and a figure observers quote."""

import math

import erfa
import pytest

from core.air.dispersion import refractivity, spread_arcsec
from tests.published.tables import rows

HPA_PER_MMHG = 1013.25 / 760.0


def test_the_published_table_is_reproduced() -> None:
    """Filippenko 1982, PASP 94, 715, table I: 600 mmHg, 7 °C, 8 mmHg of vapour, against 500 nm."""
    checked = 0
    for row in rows("dispersion_filippenko.csv"):
        if not row["published_dR_arcsec"] or "do not test" in row["note"]:
            continue
        altitude_deg = 90.0 - math.degrees(math.acos(1.0 / float(row["sec_z"])))
        found = spread_arcsec(
            altitude_deg,
            blue_nm=float(row["wavelength_angstrom"]) / 10.0,
            red_nm=500.0,
            pressure_hpa=600.0 * HPA_PER_MMHG,
            temperature_c=7.0,
            vapour_hpa=8.0 * HPA_PER_MMHG,
        )
        assert float(found) == pytest.approx(float(row["published_dR_arcsec"]), abs=0.0075, rel=0.01), row
        checked += 1
    assert checked > 200


def test_spreads_agree_with_erfa() -> None:
    """ERFA's refco, five kinds of air, from 15 degrees up; it keeps a term that flat layers lack."""
    for row in rows("dispersion_erfa.csv"):
        warmth = float(row["temp_c"])
        # Magnus' formula for the pressure of saturated vapour (WMO-No. 8).
        saturated_hpa = 6.112 * math.exp(17.62 * warmth / (243.12 + warmth))
        found = spread_arcsec(
            float(row["observed_alt_deg"]),
            blue_nm=float(row["wl_blue_nm"]),
            red_nm=float(row["wl_red_nm"]),
            pressure_hpa=float(row["pressure_hpa"]),
            temperature_c=warmth,
            vapour_hpa=saturated_hpa * float(row["rel_humidity"]),
        )
        assert float(found) == pytest.approx(float(row["erfa_dispersion_arcsec"]), rel=0.03, abs=0.002), row


@pytest.mark.parametrize("temperature_c", [0.0, 10.0, 25.0])
def test_moist_air_bends_less_as_erfa_has_it(temperature_c: float) -> None:
    """ERFA's refco; its first constant goes as the refractivity."""
    saturated_hpa = 6.112 * math.exp(17.62 * temperature_c / (243.12 + temperature_c))

    dry, moist = (
        float(refractivity(550.0, temperature_c=temperature_c, vapour_hpa=vapour))
        for vapour in (0.0, saturated_hpa)
    )
    their_dry, their_moist = (
        erfa.refco(1013.25, temperature_c, humidity, 0.55)[0] for humidity in (0.0, 1.0)
    )

    # The formulae for vapour differ by a tenth of its small share.
    assert 1.0 - moist / dry == pytest.approx(1.0 - their_moist / their_dry, rel=0.12)
    assert dry == pytest.approx(their_dry, rel=0.003)


@pytest.mark.parametrize(("altitude_deg", "expected_arcsec"), [(40, 2.1), (30, 3.1), (20, 4.9), (10, 9.9)])
def test_the_table_that_observers_quote(altitude_deg: float, expected_arcsec: float) -> None:
    """A public table for zenith angles 50 to 80, whose colours are not said; 380 to 750 nm fits it."""
    found = spread_arcsec(altitude_deg, blue_nm=380.0, red_nm=750.0)

    assert float(found) == pytest.approx(expected_arcsec, rel=0.05)
