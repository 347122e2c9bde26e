"""The path through the air against the table of Kasten and Young 1989 and other published formulae."""

import numpy as np
import pytest

from core.air.atmosphere import LOWEST_PATH_ALTITUDE_DEG, air_path, refraction_deg
from tests.published.tables import Row, rows

# No path is given below 5 degrees: rows there are of no use.
ROWS = [row for row in rows("airmass.csv") if float(row["altitude_deg"]) >= LOWEST_PATH_ALTITUDE_DEG]
KASTEN_YOUNG = [row for row in ROWS if row["model"].startswith("KY89")]
OTHERS = [row for row in ROWS if row not in KASTEN_YOUNG]
# The others, and tables a hundred years old, part by so much below 10 degrees, and from there up.
LOW_APART, HIGH_APART = 0.01, 0.004


def named(row: Row) -> str:
    return f"{row['model'].split(' (')[0]}-{row['altitude_deg']}"


@pytest.mark.parametrize("row", KASTEN_YOUNG, ids=named)
def test_path_is_that_of_kasten_and_young(row: Row) -> None:
    # Their formula keeps within 0.2 percent of their table above 1 degree; formula rows have 4 decimals.
    expected = float(row["expected_airmass"])
    allowed = 0.002 * expected if "Table" in row["model"] else 0.0001
    assert float(air_path(float(row["altitude_deg"]))) == pytest.approx(expected, abs=allowed)


@pytest.mark.parametrize("row", OTHERS, ids=named)
def test_path_is_near_that_of_others(row: Row) -> None:
    altitude_deg = float(row["altitude_deg"])
    allowed = LOW_APART if altitude_deg < 10.0 else HIGH_APART
    if "TRUE" in row["model"]:
        altitude_deg += float(refraction_deg(altitude_deg))
    assert float(air_path(altitude_deg)) == pytest.approx(float(row["expected_airmass"]), rel=allowed)


def test_rules_of_thumb_for_the_path() -> None:
    # Common practice, no source: twice the path overhead at 30 degrees, 1.4 times at 45, nearly three at 20.
    assert np.allclose(air_path([90.0, 45.0, 30.0, 20.0]), [1.0, 1.4, 2.0, 2.9], rtol=0.012)
