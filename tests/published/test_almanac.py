"""Rise, transit and set of Sun and Moon in the tables of the US Naval Observatory, to the minute.

The tables mean the upper limb under 34 arcminutes of refraction: the same search for crossings as in the
program, with another horizon. They were read in public repositories, which each row names.
"""

import numpy as np
import pytest

from core.arrays import Floats
from core.sky.bodies import FACTS, Body
from core.sky.crossings import Course
from core.sky.ephemeris import AU_KM, DAY_S
from core.sky.events import HORIZON_DEG, Heights, upper_transits_s
from core.sky.viewpoint import Viewpoint
from tests.published.tables import Row, degrees_apart, rows, unix_s

ROWS = rows("almanac_riseset.csv")
NORTH_DEG = 15.0


def place(row: Row) -> Viewpoint:
    return Viewpoint.at(float(row["lat_deg"]), float(row["lon_deg_east"]), float(row["elev_m"]))


def nearest_s(row: Row) -> float:
    """Return when the row's event happens by the program, nearest to when the row has it."""
    viewpoint, body, expected_s = place(row), Body(row["body"].lower()), unix_s(row["time_utc"])
    start_s, end_s = expected_s - DAY_S / 2.0, expected_s + DAY_S / 2.0
    if row["event"] == "transit":
        found_s = upper_transits_s(viewpoint, body, Heights.of(viewpoint, body, start_s, end_s))
    else:

        def sine_of_upper_limb(times_s: Floats) -> Floats:
            seen = viewpoint.direction(body, times_s)
            radius_deg = np.degrees(np.arcsin(FACTS[body].equatorial_radius_km / (seen.distance_au * AU_KM)))
            return np.sin(np.radians(seen.altitude_deg + radius_deg))

        course = Course(quantity=sine_of_upper_limb, start_s=start_s, end_s=end_s)
        (crossings,) = course.crossings([float(np.sin(np.radians(HORIZON_DEG)))])
        found_s = crossings.climbs_s if row["event"] == "rise" else crossings.falls_s
    assert len(found_s), "the event is missing"
    return float(found_s[np.argmin(np.abs(found_s - expected_s))])


def allowed_s(row: Row, azimuth_deg: float) -> float:
    """Return how far a row may be off by its own word."""
    if abs(float(row["lat_deg"])) > 80.0:
        return 300.0
    is_grazing = row["value"] and degrees_apart(azimuth_deg, 0.0) < NORTH_DEG
    return 120.0 if is_grazing else 60.0


@pytest.mark.parametrize(
    "row", ROWS, ids=lambda row: f"{row['body']}-{row['event']}-{row['lat_deg']}-{row['time_utc']}"
)
def test_the_almanac_s_minute(row: Row) -> None:
    time_s = nearest_s(row)
    seen = place(row).direction(Body(row["body"].lower()), np.array([time_s]))
    azimuth_deg = float(seen.azimuth_deg[0])
    assert abs(time_s - unix_s(row["time_utc"])) <= allowed_s(row, azimuth_deg)
    kind, _, value = row["value"].partition(" ")
    if kind == "azimuth":
        assert degrees_apart(azimuth_deg, float(value)) <= 1.0
    if kind == "altitude":
        assert float(seen.altitude_deg[0]) == pytest.approx(float(value), abs=1.0)


def test_the_table_is_whole() -> None:
    assert len(ROWS) == 105
    assert {row["event"] for row in ROWS} == {"rise", "transit", "set"}
