"""The same evenings from two libraries that share no code with the program: astropy and PyEphem.

astropy reads the same planet tables (DE421) and goes its own way from there: precession, nutation,
aberration, the Earth's rotation (IERS) and the step to the site, polar motion included. PyEphem has theories
of its own for the planets (VSOP87) and the Moon, and its own search for events.
"""

import math
from datetime import UTC, date, datetime

import astropy.units as u
import ephem
import numpy as np
import pytest
from astropy.coordinates import AltAz, EarthLocation, get_body
from astropy.time import Time
from attrs import frozen

from core.arrays import Floats
from core.sky.bodies import TARGETS, Body
from core.sky.night import Night, compute_night
from core.sky.site import Site
from core.sky.viewpoint import Viewpoint

ALTITUDE_DEG = 0.005
# PyEphem takes UTC for UT1: 0.9 s at most between them.
EVENT_S = 3.0
HOURS = np.arange(0.0, 24.1, 1.5)


@frozen
class Place:
    """A real place, and the date on which its evening is compared."""

    name: str
    latitude_deg: float
    longitude_deg: float
    elevation_m: float
    day: date

    def night(self) -> Night:
        site = Site(
            name=self.name,
            latitude_deg=self.latitude_deg,
            longitude_deg=self.longitude_deg,
            elevation_m=self.elevation_m,
            time_zone="UTC",
        )
        return compute_night(site, self.day)


PLACES = (
    Place("Tromsø in polar night", 69.65, 18.96, 10, date(2025, 11, 28)),
    Place("South Pole", -89.99, 0.0, 2830, date(2026, 6, 21)),
    Place("Antarctic plateau", -75.1, 123.3, 3230, date(2026, 1, 2)),
    Place("Svalbard in April", 78.22, 15.65, 20, date(1990, 4, 20)),
    Place("Thessaloniki", 40.62, 22.97, 60, date(2025, 12, 5)),
    Place("Mendoza", -32.9, -68.87, 790, date(2026, 3, 1)),
    Place("Matsumoto", 36.23, 137.96, 600, date(2025, 7, 15)),
    Place("Duluth", 46.81, -92.12, 380, date(2026, 10, 31)),
    Place("Kiritimati", 1.87, -157.4, 3, date(2026, 10, 5)),
    Place("Taveuni on the date line", -16.8, 179.99, 5, date(2024, 2, 29)),
    Place("Greenwich", 51.48, 0.0, 46, date(2015, 1, 12)),
    Place("Kathmandu", 27.7, 85.3, 1350, date(2010, 10, 2)),
    Place("Dunedin at the turn of the century", -45.87, 170.5, 120, date(2000, 12, 31)),
    Place("Mauna Kea", 19.82, -155.47, 4205, date(1985, 8, 19)),
)


# --- astropy ---------------------------------------------------------------------------------------------


def spread(values: Floats) -> Floats:
    """Return one value for each place, repeated for each time."""
    return np.repeat(values[:, np.newaxis], len(HOURS), axis=1)


@pytest.mark.usefixtures("planet_tables")
@pytest.mark.parametrize("body", Body)
def test_the_track_is_that_of_astropy(body: Body) -> None:
    starts = Time([datetime(p.day.year, p.day.month, p.day.day, 12, tzinfo=UTC) for p in PLACES], scale="utc")
    times = starts[:, np.newaxis] + HOURS * u.hour
    location = EarthLocation.from_geodetic(
        lon=spread(np.array([p.longitude_deg for p in PLACES])) * u.deg,
        lat=spread(np.array([p.latitude_deg for p in PLACES])) * u.deg,
        height=spread(np.array([p.elevation_m for p in PLACES])) * u.m,
    )
    airless = AltAz(obstime=times, location=location, pressure=0.0 * u.hPa)
    expected = get_body(body.value, times, location).transform_to(airless)
    for index, place in enumerate(PLACES):
        here = Viewpoint.at(place.latitude_deg, place.longitude_deg, place.elevation_m)
        seen = here.direction(body, times[index].unix)
        altitude_deg = expected.alt.deg[index]
        assert np.abs(seen.altitude_deg - altitude_deg).max() <= ALTITUDE_DEG, place.name
        # An azimuth counts for less, the nearer the zenith.
        turned_deg = (seen.azimuth_deg - expected.az.deg[index] + 180.0) % 360.0 - 180.0
        across_deg = np.abs(turned_deg) * np.cos(np.radians(altitude_deg))
        assert across_deg.max() <= ALTITUDE_DEG, place.name


# --- PyEphem ---------------------------------------------------------------------------------------------


def first_by_ephem(place: Place, night: Night, body: Body) -> dict[str, datetime | None]:
    """Return the first rise, transit and set of an evening, None for one that does not happen in it."""
    observer = ephem.Observer()
    observer.lat, observer.lon = math.radians(place.latitude_deg), math.radians(place.longitude_deg)
    observer.elevation, observer.pressure, observer.horizon = place.elevation_m, 0.0, "-0:34"
    planet = getattr(ephem, body.heading)()

    def first(kind: str) -> datetime | None:
        observer.date = night.start.replace(tzinfo=None)
        try:
            if kind == "transit":
                found = observer.next_transit(planet)
            else:
                search = observer.next_rising if kind == "rise" else observer.next_setting
                found = search(planet, use_center=True)
        except (ephem.AlwaysUpError, ephem.NeverUpError):
            return None
        time: datetime = found.datetime().replace(tzinfo=UTC)
        return time if time < night.end else None

    return {kind: first(kind) for kind in ("rise", "transit", "set")}


# At the pole itself a meridian says little, and bodies graze the horizon for days.
@pytest.mark.parametrize("place", [p for p in PLACES if p.latitude_deg > -89.0], ids=lambda place: place.name)
def test_events_are_those_of_pyephem(place: Place) -> None:
    night = place.night()
    for body in TARGETS:
        found = night.of(body)
        firsts = {
            "rise": next(iter(found.rises), None),
            "transit": next((transit.time for transit in found.transits), None),
            "set": next(iter(found.sets), None),
        }
        for kind, expected in first_by_ephem(place, night, body).items():
            ours = firsts[kind]
            assert (ours is None) == (expected is None), f"{body} {kind}"
            if ours is not None and expected is not None:
                assert abs((ours - expected).total_seconds()) <= EVENT_S, f"{body} {kind}"
