"""A year of evenings at one site, seven planets: against PyEphem and skyfield, all sides warm.

What each side does, for the 365 evenings from 5 December 2026, noon to noon at 41.15 N, 8.61 W:

* the program: rises, transits, sets, spans above 30 and 45 degrees (so both crossings of each), the best
  altitude in a dark sky and its time, the hours in a dark sky above both heights, the apparent size, and the
  Sun's three limits of darkness that this takes; with the noons of the zone found anew each time;
* PyEphem: for every evening and planet ``next_rising``, ``next_transit`` and ``next_setting`` of the centre
  from its noon on, without refraction, horizon at -34';
* skyfield: for every planet ``almanac.find_risings``, ``find_transits`` and ``find_settings`` over the whole
  year at once, with DE421 and the same horizon.

Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

import math
from contextlib import closing
from datetime import UTC, date, datetime
from importlib.resources import files
from typing import Any

import ephem
import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from skyfield import almanac
from skyfield.api import load, load_file, wgs84

from core.sky.bodies import PLANETS
from core.sky.night import compute_night
from core.sky.site import Site
from core.year.evenings import Evenings, year_from
from core.year.outlook import BodyOutlook, compute_outlook
from tests.bench.timing import best_of

SITE = Site(
    name="Terrace", latitude_deg=41.15, longitude_deg=-8.61, elevation_m=90, time_zone="Europe/Lisbon"
)
FIRST = date(2026, 12, 5)
HORIZON_DEG = -34 / 60
TIMES_EPHEM, TIMES_SKYFIELD = 20.0, 10.0
AGREE_S = 1.0

pytestmark = pytest.mark.benchmark(group="a year of seven planets")


def look_ahead() -> tuple[BodyOutlook, ...]:
    return compute_outlook(year_from(SITE, FIRST), PLANETS)


def evenings() -> Evenings:
    return year_from(SITE, FIRST)


@pytest.fixture(scope="module")
def ephem_s() -> float:
    """Return the seconds that PyEphem takes."""
    observer = ephem.Observer()
    observer.lat, observer.lon = math.radians(SITE.latitude_deg), math.radians(SITE.longitude_deg)
    observer.elevation, observer.pressure, observer.horizon = SITE.elevation_m, 0.0, "-0:34"
    noons = [
        ephem.Date(datetime.fromtimestamp(edge_s, UTC).replace(tzinfo=None))
        for edge_s in evenings().edges_s[:-1]
    ]
    planets = [getattr(ephem, body.heading)() for body in PLANETS]

    def search() -> None:
        for planet in planets:
            for noon in noons:
                observer.date = noon
                observer.next_rising(planet, use_center=True)
                observer.date = noon
                observer.next_transit(planet)
                observer.date = noon
                observer.next_setting(planet, use_center=True)

    return best_of(4, search)


@pytest.fixture(scope="module")
def skyfield_s() -> float:
    """Return the seconds that skyfield's almanac takes."""
    timescale = load.timescale(builtin=True)
    with closing(load_file(str(files("skyfield_data") / "data" / "de421.bsp"))) as bodies:
        place = wgs84.latlon(SITE.latitude_deg, SITE.longitude_deg, SITE.elevation_m)
        observer = bodies["earth"] + place
        targets: list[Any] = [bodies[_name(body.value)] for body in PLANETS]
        run = evenings()
        start, end = (
            timescale.from_datetime(datetime.fromtimestamp(edge_s, UTC))
            for edge_s in (run.start_s, run.end_s)
        )

        def search() -> None:
            for target in targets:
                almanac.find_risings(observer, target, start, end, HORIZON_DEG)
                almanac.find_transits(observer, target, start, end)
                almanac.find_settings(observer, target, start, end, HORIZON_DEG)

        return best_of(2, search)


def _name(body: str) -> str:
    return body if body in ("mercury", "venus", "mars") else f"{body} barycenter"


def check_against_single_evenings(outlooks: tuple[BodyOutlook, ...]) -> None:
    for number in range(0, len(outlooks[0].evenings), 60):
        night = compute_night(SITE, outlooks[0].evenings.dates[number], targets=PLANETS)
        for outlook in outlooks:
            body = night.of(outlook.body)
            spans = [edge for span in (*body.above_30, *body.above_45) for edge in (span.start, span.end)]
            transits = [transit.time for transit in body.transits]
            expected = [time.timestamp() for time in (*body.rises, *transits, *body.sets, *spans)]
            found = [
                *outlook.rises.of(number),
                *outlook.transits.of(number),
                *outlook.sets.of(number),
                *outlook.above_30.of(number).ravel(),
                *outlook.above_45.of(number).ravel(),
            ]
            assert found == pytest.approx(expected, abs=AGREE_S)


def test_a_year_beside_pyephem(benchmark: BenchmarkFixture, ephem_s: float) -> None:
    look_ahead()
    outlooks = benchmark(look_ahead)

    assert benchmark.stats is not None
    benchmark.extra_info["times as fast as PyEphem"] = round(ephem_s / benchmark.stats.stats.min, 1)
    assert ephem_s / benchmark.stats.stats.min >= TIMES_EPHEM
    check_against_single_evenings(outlooks)


def test_a_year_beside_skyfield(benchmark: BenchmarkFixture, skyfield_s: float) -> None:
    look_ahead()
    benchmark(look_ahead)

    assert benchmark.stats is not None
    benchmark.extra_info["times as fast as skyfield"] = round(skyfield_s / benchmark.stats.stats.min, 1)
    assert skyfield_s / benchmark.stats.stats.min >= TIMES_SKYFIELD
