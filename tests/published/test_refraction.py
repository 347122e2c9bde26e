"""Refraction in standard air against published formulae, a worked example of Meeus, and ERFA."""

import numpy as np
import pytest

from core.air.atmosphere import refraction_deg
from tests.published.tables import Row, rows

ROWS = rows("refraction.csv")
MEEUS = {
    row["id"]: float(row["expected"])
    for row in rows("worked_positions.csv")
    if row["id"] in ("M16a-2", "M16a-3")
}
OWN_FORMULA_ARCMIN = 0.02
BETWEEN_FORMULAE_ARCMIN = 0.15


def lift_arcmin(apparent_deg: float) -> float:
    """Return the refraction for an APPARENT altitude, by trying true altitudes."""
    true_deg = apparent_deg
    for _ in range(30):
        true_deg = apparent_deg - float(refraction_deg(true_deg))
    return (apparent_deg - true_deg) * 60.0


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["alt_deg"])
def test_refraction_is_saemundsson_s(row: Row) -> None:
    found_arcmin = float(refraction_deg(float(row["alt_deg"]))) * 60.0
    expected_arcmin = float(row["saemundsson_R_arcmin_for_true_alt"])
    assert found_arcmin == pytest.approx(expected_arcmin, abs=OWN_FORMULA_ARCMIN)


@pytest.mark.parametrize(
    "row", [row for row in ROWS if float(row["alt_deg"]) > 10.0], ids=lambda r: r["alt_deg"]
)
def test_refraction_is_near_bennett_s_and_that_of_erfa(row: Row) -> None:
    found_arcmin = lift_arcmin(float(row["alt_deg"]))
    for column in (
        "bennett_R_arcmin_for_apparent_alt",
        "erfa_R_arcmin_for_apparent_alt_1010hPa_10C_rh0.5_574nm",
    ):
        assert found_arcmin == pytest.approx(float(row[column]), abs=BETWEEN_FORMULAE_ARCMIN)


def test_the_sun_s_limbs_of_meeus_16a() -> None:
    # Meeus, Astronomical Algorithms, 2nd ed. (1998), p. 107: the true Sun is 32' wide.
    upper_deg = (MEEUS["M16a-2"] + 32.0) / 60.0
    assert float(refraction_deg(upper_deg)) * 60.0 == pytest.approx(MEEUS["M16a-3"], abs=0.005)


def test_there_is_no_step_at_the_horizon() -> None:
    # A formula carried on below the horizon ends in a cliff; a curve must not.
    altitudes_deg = np.linspace(-3.0, 3.0, 601)
    assert np.abs(np.diff(refraction_deg(altitudes_deg))).max() < 0.003
