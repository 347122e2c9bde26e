"""The engine against skyfield asked directly: same ephemeris, no interpolation."""

from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
import pytest
from skyfield.api import load, load_file, wgs84

from core.sky.bodies import Body
from core.sky.ephemeris import DAY_S, EphemerisRangeError
from core.sky.instant import instant
from core.sky.viewpoint import Viewpoint

# Degrees. What is left: the aberration of the observer's own turning (0.00009), and at most the bending
# of light by the Sun where a body passes close behind it.
ENGINE_ERROR_DEG = 0.0005

SITES = {
    "north pole": (90.0, 0.0, 0.0),
    "south pole": (-90.0, 20.0, 2800.0),
    "on the date line": (0.0, 180.0, 0.0),
    "just east of it": (52.0, -179.9, 100.0),
    "Tromso": (69.65, 18.96, 10.0),
    "southern summit": (-33.0, 151.0, 6000.0),
    "Dead Sea": (31.5, 35.5, -430.0),
}
NAMES = {"jupiter", "saturn", "uranus", "neptune"}


@cache
def asked_directly() -> tuple[Any, Any]:
    path = files("skyfield_data") / "data" / "de421.bsp"
    return load_file(str(path)), load.timescale(builtin=True)


@pytest.mark.parametrize("site", SITES)
def test_altitudes_and_azimuths_are_skyfields(site: str) -> None:
    bodies, timescale = asked_directly()
    latitude_deg, longitude_deg, elevation_m = SITES[site]
    viewpoint = Viewpoint.at(latitude_deg, longitude_deg, elevation_m)
    observer = bodies["earth"] + wgs84.latlon(latitude_deg, longitude_deg, elevation_m=elevation_m)
    random = np.random.default_rng(20261205)
    years = random.uniform(-70.35, 83.7, 40)  # since 1970: all that DE421 holds, less a few weeks
    unix_s = np.round(years * 365.2425 * DAY_S)
    time = timescale.from_datetimes([instant(each) for each in unix_s])
    at_site = observer.at(time)

    for body in Body:
        name = f"{body} barycenter" if body.value in NAMES else body.value
        altitude, azimuth, distance = at_site.observe(bodies[name]).apparent().altaz()
        _, declination, _ = at_site.observe(bodies[name]).apparent().radec(epoch="date")
        found = np.array([viewpoint.direction(body, np.array([each])).altitude_deg[0] for each in unix_s])
        assert np.abs(found - altitude.degrees).max() < ENGINE_ERROR_DEG, body
        last = viewpoint.direction(body, unix_s[-1:])
        turn_deg = (last.azimuth_deg[0] - azimuth.degrees[-1] + 180.0) % 360.0 - 180.0
        assert abs(turn_deg) * np.cos(altitude.radians[-1]) < ENGINE_ERROR_DEG
        assert last.distance_au[0] == pytest.approx(distance.au[-1], rel=3e-6)
        assert last.declination_deg[0] == pytest.approx(declination.degrees[-1], abs=ENGINE_ERROR_DEG)


def test_one_minute_samples_of_the_moon_follow_skyfield_all_evening() -> None:
    bodies, timescale = asked_directly()
    unix_s = 1_796_472_000.0 + np.arange(0.0, 86_401.0, 420.0)  # 2026-12-05T12:00Z on
    observer = bodies["earth"] + wgs84.latlon(41.15, -8.61, elevation_m=90.0)
    time = timescale.from_datetimes([instant(each) for each in unix_s])
    altitude, azimuth, _ = observer.at(time).observe(bodies["moon"]).apparent().altaz()

    found = Viewpoint.at(41.15, -8.61, 90.0).direction(Body.MOON, unix_s)

    assert np.abs(found.altitude_deg - altitude.degrees).max() < ENGINE_ERROR_DEG
    assert np.abs(found.azimuth_deg - azimuth.degrees).max() < ENGINE_ERROR_DEG


def test_an_answer_does_not_depend_on_what_was_asked_before() -> None:
    viewpoint = Viewpoint.at(10.0, 20.0)
    evening_s = 1_796_472_000.0 + np.arange(0.0, 86_400.0, 3600.0)
    alone = viewpoint.direction(Body.MOON, evening_s).altitude_deg
    year_s = 1_780_000_000.0 + np.arange(0.0, 3.1e7, 18_000.0)
    together = viewpoint.direction(Body.MOON, np.concatenate([year_s, evening_s])).altitude_deg[-24:]

    assert np.allclose(alone, together, atol=1e-6)


def test_times_keep_their_shape() -> None:
    viewpoint = Viewpoint.at(10.0, 20.0)

    assert viewpoint.direction(Body.MARS, np.full((2, 3), 1.8e9)).altitude_deg.shape == (2, 3)
    assert viewpoint.sine_altitude(Body.MARS, np.empty(0)).shape == (0,)


@pytest.mark.parametrize("unix_s", [-2_300_000_000.0, 2_700_000_000.0])
def test_times_outside_the_tables_are_refused_by_date(unix_s: float) -> None:
    with pytest.raises(EphemerisRangeError, match=r"choose a date from 1899-.* to 2053-"):
        Viewpoint.at(0.0, 0.0).direction(Body.MARS, np.array([unix_s]))
