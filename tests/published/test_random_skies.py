"""Anywhere and at any time, poles and date line included: the sky of astropy, and the events of PyEphem.

As in ``test_independent``, but at places and dates that nobody chose. Both libraries share no code with the
program; astropy reads the same planet tables, PyEphem has theories of its own.
"""

import math
from datetime import UTC, date, datetime, timedelta

import astropy.units as u
import ephem
import numpy as np
import pytest
from astropy.coordinates import AltAz, EarthLocation, get_body
from astropy.time import Time
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from core.sky.bodies import TARGETS, Body
from core.sky.events import BodyState
from core.sky.night import Night, compute_night
from core.sky.site import Site
from core.sky.viewpoint import Viewpoint

ALTITUDE_DEG = 0.005
# PyEphem takes UTC for UT1, 0.9 s at most between them, and has a theory of its own for each planet: an
# event may be off by 3 s, or by so much as 0.002 degrees take at the rate at which the body climbs.
EVENT_S = 3.0
GRAZING_DEG = 0.002
LATITUDES = st.floats(-90.0, 90.0) | st.sampled_from((-90.0, -89.9, 0.0, 66.56, 89.9, 90.0))
LONGITUDES = st.floats(-180.0, 180.0) | st.sampled_from((-180.0, 179.99, 180.0))
# The Earth's rotation is measured for these years; before and after, libraries part on it.
DAYS = st.dates(date(1973, 1, 1), date(2025, 6, 1))


@pytest.mark.usefixtures("planet_tables")
@settings(max_examples=25, deadline=None)
@given(
    latitude_deg=LATITUDES,
    longitude_deg=LONGITUDES,
    elevation_m=st.floats(-430.0, 6000.0),
    day=DAYS,
    body=st.sampled_from(list(Body)),
)
@example(latitude_deg=90.0, longitude_deg=0.0, elevation_m=0.0, day=date(2020, 3, 20), body=Body.SUN)
@example(latitude_deg=-16.8, longitude_deg=180.0, elevation_m=0.0, day=date(2020, 1, 1), body=Body.MOON)
def test_a_body_stands_where_astropy_has_it(
    latitude_deg: float, longitude_deg: float, elevation_m: float, day: date, body: Body
) -> None:
    times = (
        Time(datetime(day.year, day.month, day.day, tzinfo=UTC), scale="utc") + np.arange(0, 24, 5) * u.hour
    )
    place = EarthLocation.from_geodetic(longitude_deg * u.deg, latitude_deg * u.deg, elevation_m * u.m)
    airless = AltAz(obstime=times, location=place, pressure=0.0 * u.hPa)
    expected = get_body(body.value, times, place).transform_to(airless)

    found = Viewpoint.at(latitude_deg, longitude_deg, elevation_m).direction(body, times.unix)

    altitude_deg = expected.alt.deg
    assert np.abs(found.altitude_deg - altitude_deg).max() <= ALTITUDE_DEG
    turned_deg = (found.azimuth_deg - expected.az.deg + 180.0) % 360.0 - 180.0
    # An azimuth counts for less, the nearer the zenith.
    assert (np.abs(turned_deg) * np.cos(np.radians(altitude_deg))).max() <= ALTITUDE_DEG


def first_by_ephem(night: Night, body: Body, kind: str) -> datetime | None:
    """Return the first event of a kind in an evening, None without one."""
    observer = ephem.Observer()
    observer.lat, observer.lon = math.radians(night.site.latitude_deg), math.radians(night.site.longitude_deg)
    observer.elevation, observer.pressure, observer.horizon = night.site.elevation_m, 0.0, "-0:34"
    observer.date = night.start.replace(tzinfo=None)
    planet = getattr(ephem, body.heading)()
    search = observer.next_rising if kind == "rises" else observer.next_setting
    try:
        time: datetime = search(planet, use_center=True).datetime().replace(tzinfo=UTC)
    except (ephem.AlwaysUpError, ephem.NeverUpError):
        return None
    return time if time < night.end else None


@settings(max_examples=40, deadline=None)
@given(
    latitude_deg=st.floats(-80.0, 80.0),
    longitude_deg=LONGITUDES,
    day=DAYS,
    body=st.sampled_from(TARGETS),
)
@example(latitude_deg=-16.8, longitude_deg=179.99, day=date(2024, 2, 29), body=Body.MOON)
def test_a_body_rises_and_sets_when_pyephem_says(
    latitude_deg: float, longitude_deg: float, day: date, body: Body
) -> None:
    site = Site(name="Anywhere", latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone="UTC")
    night = compute_night(site, day, targets=[body])
    found = night.of(body)
    # A body that hardly crosses the horizon is left to the altitudes.
    assume(abs(found.highest.altitude_deg) > 1.0 and found.state is BodyState.NORMAL)
    for kind, times in (("rises", found.rises), ("sets", found.sets)):
        expected = first_by_ephem(night, body, kind)
        edge = [night.start, night.end - timedelta(seconds=5)]
        if not times or expected is None:
            # An event at the very noon may fall on either side of it.
            other = [*times, *([expected] if expected else [])]
            assert all(min(abs((time - noon).total_seconds()) for noon in edge) < 10.0 for time in other), (
                kind
            )
            continue
        assert abs((times[0] - expected).total_seconds()) <= EVENT_S + _slack_s(night, body, times[0]), kind


def _slack_s(night: Night, body: Body, time: datetime) -> float:
    """Return the seconds in which a body climbs or sinks by so much as the theories may differ."""
    later = night.position(body, time + timedelta(seconds=30)).altitude_deg
    return GRAZING_DEG / (abs(later - night.position(body, time).altitude_deg) / 30.0)
