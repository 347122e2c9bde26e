"""Places in the sky against JPL Horizons and the worked examples of J. Meeus.

Meeus is Astronomical Algorithms, 2nd ed. (1998). The Horizons rows were read in public repositories, which
each row names.
"""

from datetime import UTC, date, datetime, timedelta

import attrs
import numpy as np
import pytest
from astropy.time import Time
from astropy.utils import iers

from core.air.atmosphere import refraction_deg
from core.sky.bodies import Body
from core.sky.ephemeris import DAY_S, node_sidereal_rad, node_vectors_au, terrestrial_days
from core.sky.night import compute_night
from core.sky.site import Site
from core.sky.viewpoint import Viewpoint
from tests.published.tables import Row, degrees_apart, rows, seconds_apart, unix_s

HORIZONS = rows("horizons.csv")
IN_THE_SKY = [row for row in HORIZONS if row["kind"] == "topocentric az/el"]
DECLINATIONS = [row for row in HORIZONS if "apparent RA/Dec" in row["kind"]]
MEEUS = {row["id"]: row["expected"] for row in rows("worked_positions.csv")}

ARCSECOND_DEG = 1.0 / 3600.0
# Meeus (12.4): degrees that the Earth turns in a day of Universal Time.
TURN_DEG_PER_DAY = 360.98564736629


def hours_of(text: str) -> float:
    """Return hours (or degrees) of a value with minutes and seconds."""
    whole, minutes, seconds = text.lstrip("+-").split(":")
    size = int(whole) + int(minutes) / 60.0 + float(seconds) / 3600.0
    return -size if text.startswith("-") else size


def place(row: Row) -> Viewpoint:
    return Viewpoint.at(
        float(row["site_lat_deg"]), float(row["site_lon_east_deg"]), float(row["site_elev_m"])
    )


# --- JPL Horizons ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", IN_THE_SKY, ids=lambda row: f"{row['id']}-{row['target']}-{row['time_utc']}")
def test_height_and_bearing_of_horizons(row: Row) -> None:
    seen = place(row).direction(Body(row["target"].lower()), np.array([unix_s(row["time_utc"])]))
    altitude_deg, allowed_deg = float(seen.altitude_deg[0]), 0.005
    if not row["refraction"].startswith("none"):
        # Its air is at 10 °C and 1010 hPa as well; formulae part from each other near the horizon.
        altitude_deg += float(refraction_deg(altitude_deg))
        allowed_deg = 0.01 if float(row["el_deg"]) > 15.0 else 0.05
    assert altitude_deg == pytest.approx(float(row["el_deg"]), abs=allowed_deg)
    assert degrees_apart(float(seen.azimuth_deg[0]), float(row["az_deg"])) <= 0.005


@pytest.mark.parametrize(
    "row", DECLINATIONS, ids=lambda row: f"{row['id']}-{row['target']}-{row['time_utc']}"
)
def test_declination_of_horizons(row: Row) -> None:
    if row["kind"].startswith("geocentric"):
        here = attrs.evolve(Viewpoint.at(0.0, 0.0), from_axis_au=0.0, from_equator_au=0.0)
    else:
        here = place(row)
    seen = here.direction(Body(row["target"].lower()), np.array([unix_s(row["time_utc"])]))
    # What the engine leaves out is worth 0.6 arcsec; the rows are given to 1 arcsec or a little more.
    assert float(seen.declination_deg[0]) == pytest.approx(float(row["dec_app_deg"]), abs=2.0 * ARCSECOND_DEG)


def test_the_tables_have_every_target() -> None:
    assert len(IN_THE_SKY) == 94
    assert {row["target"].lower() for row in IN_THE_SKY} == {body for body in Body if body is not Body.SUN}


# --- Meeus -----------------------------------------------------------------------------------------------


def sidereal_hours(moment: datetime) -> float:
    """Return Greenwich apparent sidereal time at an instant of Universal Time (UT1), from the node before.

    The instant's UTC is found by the Earth-rotation table that comes with astropy.
    """
    with iers.conf.set_temp("auto_download", False):
        utc_s = float(Time(moment, scale="ut1").utc.unix)
    days = float(terrestrial_days(np.array(utc_s)))
    node = int(days // 1)
    turned_deg = (days - node) * TURN_DEG_PER_DAY
    return float(np.degrees(node_sidereal_rad(node, 1)[0]) + turned_deg) % 360.0 / 15.0


def test_sidereal_time_of_meeus_12a() -> None:
    found = sidereal_hours(datetime(1987, 4, 10, tzinfo=UTC))
    assert found * 3600.0 == pytest.approx(hours_of(MEEUS["M12a-2"]) * 3600.0, abs=0.01)


def test_sidereal_time_of_meeus_12b() -> None:
    # The example asks for mean time; the equation of the equinoxes is that of 12.a, 19 hours before.
    equinoxes = hours_of(MEEUS["M12a-2"]) - hours_of(MEEUS["M12a-1"])
    found = sidereal_hours(datetime(1987, 4, 10, 19, 21, tzinfo=UTC)) - equinoxes
    assert found * 3600.0 == pytest.approx(hours_of(MEEUS["M12b-1"]) * 3600.0, abs=0.03)


def test_height_and_bearing_of_venus_of_meeus_13b() -> None:
    washington = Viewpoint.at(38.0 + 55.0 / 60.0 + 17.0 / 3600.0, -(77.0 + 3.0 / 60.0 + 56.0 / 3600.0))
    seen = washington.direction(Body.VENUS, np.array([unix_s("1987-04-10T19:21:00")]))
    # The example is geocentric: at 15 degrees parallax takes 0.002 degrees off.
    assert float(seen.altitude_deg[0]) == pytest.approx(float(MEEUS["M13b-3"]), abs=0.005)
    assert float(seen.azimuth_deg[0]) == pytest.approx(float(MEEUS["M13b-2"]), abs=0.005)


def test_apparent_place_of_venus_of_meeus_15a() -> None:
    day = (date(1988, 3, 20) - date(1970, 1, 1)).days
    x, y, z = node_vectors_au(Body.VENUS, day, 1)[0]
    right_ascension_h = np.degrees(np.arctan2(y, x)) % 360.0 / 15.0
    declination_deg = np.degrees(np.arctan2(z, np.hypot(x, y)))
    assert right_ascension_h * 3600.0 == pytest.approx(hours_of(MEEUS["M15a-RA"]) * 3600.0, abs=0.05)
    assert declination_deg == pytest.approx(hours_of(MEEUS["M15a-DE"]), abs=0.5 * ARCSECOND_DEG)


def test_rising_transit_and_setting_of_venus_of_meeus_15a() -> None:
    boston = Site(
        name="Boston", latitude_deg=42.0 + 20.0 / 60.0, longitude_deg=-(71.0 + 5.0 / 60.0), time_zone="UTC"
    )
    before, after = (
        compute_night(boston, day, targets=[Body.VENUS]).of(Body.VENUS)
        for day in (date(1988, 3, 19), date(1988, 3, 20))
    )
    # Geocentric again, and for 0.5667 degrees below the horizon exactly.
    assert seconds_apart(before.sets[0], f"1988-03-20T{MEEUS['M15a-3b']}") <= 6.0
    assert seconds_apart(after.rises[0], f"1988-03-20T{MEEUS['M15a-1b']}") <= 6.0
    assert seconds_apart(after.transits[0].time, f"1988-03-20T{MEEUS['M15a-2b']}") <= 6.0
    for fraction, found in (
        ("M15a-1", after.rises[0]),
        ("M15a-2", after.transits[0].time),
        ("M15a-3", before.sets[0]),
    ):
        days = (found - datetime(1988, 3, 20, tzinfo=UTC)) / timedelta(seconds=DAY_S)
        assert days == pytest.approx(float(MEEUS[fraction]), abs=0.00005)
