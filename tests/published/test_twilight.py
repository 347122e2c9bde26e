"""Sunset, sunrise and twilights, computed with astropy and JPL DE440 for ten sites, 2026 to 2030."""

import pytest

from core.sky.bodies import Body
from tests.published.tables import Row, night_of, rows, seconds_apart, utc

ROWS = rows("nights_sun.csv")
EVENT_S = 3.0
ALTITUDE_DEG = 0.005
# The Sun turns by so much in the minute between two samples of the table, where it passes straight below.
TURN_IN_A_MINUTE_DEG = 0.25
EVENTS = {
    "sun_dusk": "set",
    "sun_dawn": "rise",
    "civil_dusk": "civil_dusk",
    "civil_dawn": "civil_dawn",
    "nautical_dusk": "nautical_dusk",
    "nautical_dawn": "nautical_dawn",
    "astronomical_dusk": "astronomical_dusk",
    "astronomical_dawn": "astronomical_dawn",
}

each_row = pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['site']}-{row['night_of']}")


def test_the_table_is_whole_and_has_nights_without_an_event() -> None:
    assert len(ROWS) == 30
    assert any(not row["astronomical_dusk_utc"] for row in ROWS)
    assert any(not row["sun_dusk_utc"] for row in ROWS)


@each_row
def test_dusk_and_dawn_are_on_time_or_rightly_missing(row: Row) -> None:
    sun = night_of(row).sun
    found = {event: getattr(sun, name) for event, name in EVENTS.items()}
    assert {event: time is not None for event, time in found.items()} == {
        event: bool(row[f"{event}_utc"]) for event in EVENTS
    }
    for event, time in found.items():
        if time is not None:
            assert seconds_apart(time, row[f"{event}_utc"]) <= EVENT_S, event


@each_row
def test_the_sun_goes_as_deep_as_the_table_says(row: Row) -> None:
    night = night_of(row)
    lowest_deg = float(row["sun_min_alt_deg"])
    then = night.position(Body.SUN, utc(row["sun_min_utc"]))
    assert then.altitude_deg == pytest.approx(lowest_deg, abs=ALTITUDE_DEG)
    allowed_deg = TURN_IN_A_MINUTE_DEG if lowest_deg < -85.0 else ALTITUDE_DEG
    assert lowest_deg - allowed_deg <= night.sun.lowest_altitude_deg <= lowest_deg + ALTITUDE_DEG
