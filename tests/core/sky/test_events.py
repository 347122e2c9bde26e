"""Rises, sets and transits against skyfield's own almanac search, near the poles against dense samples."""

from collections.abc import Callable
from functools import cache
from importlib.resources import files
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from skyfield import almanac
from skyfield.api import load, load_file, wgs84

from core.sky.bodies import Body
from core.sky.events import HORIZON_DEG, SUN_HORIZON_DEG, BodyState, Heights, transits_along, upper_transits_s
from core.sky.instant import instant
from core.sky.track import sample_times_s
from core.sky.viewpoint import Viewpoint

AGREEMENT_S = 1.0
DAY_S = 86_400.0
Floats = NDArray[np.float64]
EventsOf = Callable[[Viewpoint, Body, float, float], tuple[Heights, Floats]]
NAMES = {"jupiter", "saturn", "uranus", "neptune"}


def looked_for(viewpoint: Viewpoint, body: Body, start_s: float, end_s: float) -> tuple[Heights, Floats]:
    heights = Heights.of(viewpoint, body, start_s, end_s)
    return heights, upper_transits_s(viewpoint, body, heights)


def sampled(viewpoint: Viewpoint, body: Body, start_s: float, end_s: float) -> tuple[Heights, Floats]:
    times_s = sample_times_s(start_s, end_s)
    direction = viewpoint.direction(body, times_s)
    return Heights.along(times_s, direction), transits_along(viewpoint, times_s, direction)


@pytest.fixture(params=[looked_for, sampled])
def events_of(request: pytest.FixtureRequest) -> EventsOf:
    """The two ways to find events: for long spans each is looked for, an evening is read off its samples."""
    found: EventsOf = request.param
    return found


@cache
def asked_directly() -> tuple[Any, Any]:
    path = files("skyfield_data") / "data" / "de421.bsp"
    return load_file(str(path)), load.timescale(builtin=True)


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "start_s"),
    [(41.15, -8.61, 1.7965e9), (-45.0, 170.5, 1.25e9), (64.84, -147.72, 1.47e9), (1.87, -157.4, 2.1e9)],
)
@pytest.mark.parametrize("body", [Body.SUN, Body.MOON, Body.MERCURY, Body.MARS, Body.SATURN])
def test_a_week_of_events_is_skyfields(
    events_of: EventsOf, body: Body, latitude_deg: float, longitude_deg: float, start_s: float
) -> None:
    bodies, timescale = asked_directly()
    observer = bodies["earth"] + wgs84.latlon(latitude_deg, longitude_deg)
    target = bodies[f"{body} barycenter" if body.value in NAMES else body.value]
    end_s = start_s + 7.0 * DAY_S
    span = timescale.from_datetime(instant(start_s)), timescale.from_datetime(instant(end_s))
    horizon_deg = SUN_HORIZON_DEG if body is Body.SUN else HORIZON_DEG
    viewpoint = Viewpoint.at(latitude_deg, longitude_deg)

    heights, transits_s = events_of(viewpoint, body, start_s, end_s)
    (found,) = heights.crossings([horizon_deg])

    rises, _ = almanac.find_risings(observer, target, *span, horizon_degrees=horizon_deg)
    sets, _ = almanac.find_settings(observer, target, *span, horizon_degrees=horizon_deg)
    transits = almanac.find_transits(observer, target, *span)
    for ours_s, theirs in ((found.climbs_s, rises), (found.falls_s, sets), (transits_s, transits)):
        theirs_s = [time.utc_datetime().timestamp() for time in theirs]
        assert ours_s == pytest.approx(theirs_s, abs=AGREEMENT_S)


@pytest.mark.parametrize("latitude_deg", [-90.0, -89.4, 88.0, 85.0, 70.0, 0.1])
@pytest.mark.parametrize("body", [Body.MOON, Body.SUN, Body.VENUS])
def test_no_pair_of_crossings_is_missed_where_a_body_grazes_a_height(
    events_of: EventsOf, body: Body, latitude_deg: float
) -> None:
    viewpoint = Viewpoint.at(latitude_deg, 30.0)
    for start_s in 1.79e9 + DAY_S * np.arange(0, 30, 3):
        heights, _ = events_of(viewpoint, body, float(start_s), float(start_s) + DAY_S)
        times_s = np.arange(start_s, start_s + DAY_S + 1.0, 10.0)
        sampled_deg = viewpoint.direction(body, times_s).altitude_deg
        levels_deg = [sampled_deg.max() - 0.002, sampled_deg.min() + 0.002, float(np.median(sampled_deg))]
        for level_deg, crossed in zip(levels_deg, heights.crossings(levels_deg), strict=True):
            above = sampled_deg >= level_deg
            assert len(crossed.climbs_s) == np.sum(above[1:] & ~above[:-1])
            assert len(crossed.falls_s) == np.sum(~above[1:] & above[:-1])
        assert heights.highest_deg >= sampled_deg.max() - 1e-6
        assert heights.lowest_deg <= sampled_deg.min() + 1e-6


@pytest.mark.parametrize("latitude_deg", [90.0, -90.0])
def test_a_pole_has_no_transits(events_of: EventsOf, latitude_deg: float) -> None:
    viewpoint = Viewpoint.at(latitude_deg, 0.0)

    _, transits_s = events_of(viewpoint, Body.MARS, 1.79e9, 1.79e9 + DAY_S)
    assert len(transits_s) == 0


def test_the_sun_at_the_north_pole_neither_rises_nor_sets_but_at_the_equinoxes() -> None:
    viewpoint = Viewpoint.at(90.0, 0.0)
    new_year_2026_s = 1_767_225_600.0
    year = Heights.of(viewpoint, Body.SUN, new_year_2026_s, new_year_2026_s + 365.0 * DAY_S)
    (crossed,) = year.crossings([SUN_HORIZON_DEG])

    # Up from two days before the March equinox (20 March 2026) to two days after September's (23).
    assert [instant(time_s).strftime("%m-%d") for time_s in crossed.climbs_s] == ["03-18"]
    assert [instant(time_s).strftime("%m-%d") for time_s in crossed.falls_s] == ["09-25"]
    january = Heights.of(viewpoint, Body.SUN, new_year_2026_s, new_year_2026_s + DAY_S)
    assert january.state(SUN_HORIZON_DEG) is BodyState.NEVER_UP
