"""The Moon's near side: how bright its ground is, and how the Sun falls on its heights.

Heights and brightness are measured ones (``resources/build_moon.py`` tells whose), a third of a degree or
11 km apart: walled plains, mountain rims and craters from about 25 km are there, smaller ones are not.
"""

from functools import cache, lru_cache
from importlib import resources
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Values
from core.looks.picture.bilinear import bilinear
from core.sky.bodies import FACTS, Body

Places = NDArray[np.intp]

_RADIUS_M: Final = FACTS[Body.MOON].equatorial_radius_km * 1000.0
# How far away a height may stand that throws a shadow, in points of the finer map.
_REACHES: Final = (1.0, 2.0, 3.0, 4.2, 5.6, 7.2, 9.2, 11.6, 14.6, 18.5, 23.5, 30.0)
# Only where the Sun stands lower than this can heights so far apart throw a shadow.
_LOW_SUN_DEG: Final = 14.0
# The Sun's own half width, and what a coarse map smooths away: so soft is the edge of a shadow.
_SOFT_EDGE_DEG: Final = 0.4
# The Sun moves half a degree an hour over the Moon: so fine are its places told apart.
_SUN_STEP_DEG: Final = 0.25
# Beyond this circle of latitude a map of equal longitudes is too narrow to follow a shadow in.
_HIGHEST_LATITUDE_DEG: Final = 85.0


@frozen(eq=False)
class _Map:
    """What is known of the near side (rows, columns), row 0 in the north, points ``step_deg`` apart."""

    values: Values
    west_deg: float
    step_deg: float

    def at(self, latitude_deg: Values, longitude_deg: Values) -> Values:
        """Return values between the points, any shape; beyond the edges those of the edge."""
        row = (90.0 - latitude_deg) / self.step_deg - 0.5
        return bilinear(self.values, row, (longitude_deg - self.west_deg) / self.step_deg - 0.5)


@cache
def _moon_maps() -> tuple[_Map, _Map]:
    """Return heights in metres, twice as finely as they were kept, and brightness."""
    place = resources.files("resources").joinpath("moon.npz")
    with place.open("rb") as file, np.load(file) as kept:
        height_m = kept["heights"].astype(np.float32) * kept["step_m"]
        brightness = kept["brightness"].astype(np.float32) * kept["brightness_step"]
        west_deg = float(kept["west_deg"])
    step_deg = 180.0 / height_m.shape[0]
    finer = _twice_as_fine(_twice_as_fine(height_m).T).T
    return _Map(finer, west_deg, step_deg / 2.0), _Map(brightness, west_deg, step_deg)


def _twice_as_fine(values: Values) -> Values:
    """Return twice the rows, each parted in two, on smooth curves along the old ones (corner cutting)."""
    padded = np.pad(values, ((1, 1), (0, 0)), mode="edge")
    before, here, after = padded[:-2], padded[1:-1], padded[2:]
    finer = np.stack([0.75 * here + 0.25 * before, 0.75 * here + 0.25 * after], axis=1)
    return finer.reshape(-1, values.shape[1])


def ground_brightness(latitude_deg: Values, longitude_deg: Values) -> Values:
    """Return how bright the ground is against usual highland, at east longitudes, any shape."""
    return _moon_maps()[1].at(latitude_deg, longitude_deg)


def sunlight(
    latitude_deg: Values, longitude_deg: Values, *, sun_latitude_deg: float, sun_longitude_deg: float
) -> Values:
    """Return how squarely the Sun falls on the slopes at places, 0 (shadow, night) to 1, any shape.

    The Sun's place is where it stands overhead.
    """
    step = _SUN_STEP_DEG
    falling = _falling(round(sun_latitude_deg / step) * step, round(sun_longitude_deg / step) * step)
    return falling.at(latitude_deg, longitude_deg)


@lru_cache(maxsize=4)
def _falling(sun_latitude_deg: float, sun_longitude_deg: float) -> _Map:
    """Return how squarely the Sun falls on each point of the near side, in shadow 0."""
    heights = _moon_maps()[0]
    height_m = heights.values
    rows, columns = height_m.shape
    places = np.arange(rows), np.arange(columns)
    latitude = np.radians(90.0 - (places[0] + 0.5) * heights.step_deg)[:, None].astype(np.float32)
    longitude = np.radians(heights.west_deg + (places[1] + 0.5) * heights.step_deg)[None].astype(np.float32)
    sun_latitude = np.float32(np.radians(sun_latitude_deg))
    hour = np.float32(np.radians(sun_longitude_deg)) - longitude
    level = np.cos(latitude)
    # The Sun's direction by each place's own east, north and up.
    east = np.cos(sun_latitude) * np.sin(hour) + 0.0 * latitude
    north = np.sin(sun_latitude) * level - np.cos(sun_latitude) * np.sin(latitude) * np.cos(hour)
    up = np.sin(sun_latitude) * np.sin(latitude) + np.cos(sun_latitude) * level * np.cos(hour)
    spacing_m = np.float32(_RADIUS_M * np.radians(heights.step_deg))
    to_north, to_east = np.gradient(height_m, spacing_m)
    to_east /= np.maximum(level, 0.02)
    falling = (up - to_east * east + to_north * north) / np.sqrt(1.0 + to_east**2 + to_north**2)
    low = np.abs(up) < np.sin(np.radians(_LOW_SUN_DEG))
    low &= np.abs(latitude) < np.radians(_HIGHEST_LATITUDE_DEG)
    lit = (up > 0.0).astype(np.float32)
    found_rows, found_columns = np.nonzero(low)
    beam = _Beam(-north[low], east[low] / level[found_rows, 0], up[low])
    lit[low] = _past_heights(heights, found_rows, found_columns, beam)
    lit = _smoothed(_smoothed(lit).T).T
    return _Map(np.maximum(falling, 0.0) * lit, heights.west_deg, heights.step_deg)


@frozen(eq=False)
class _Beam:
    """The way to the Sun at places (N,): down and right on the map, level ones of length 1, and up."""

    down: Values
    right: Values
    up: Values


def _past_heights(heights: _Map, rows: Places, columns: Places, beam: _Beam) -> Values:
    """Return which share of the Sun looks over the heights towards it, at rows and columns (N,)."""
    along = np.cos(np.arcsin(np.clip(beam.up, -1.0, 1.0)))
    down, right = beam.down / along, beam.right / along
    here = heights.values[rows, columns]
    spacing_m = _RADIUS_M * np.radians(heights.step_deg)
    horizon = np.full_like(here, -np.inf)
    last_row, last_column = heights.values.shape[0] - 1, heights.values.shape[1] - 1
    for reach in _REACHES:
        row = np.clip(np.rint(rows + reach * down), 0, last_row).astype(np.int32)
        column = np.clip(np.rint(columns + reach * right), 0, last_column).astype(np.int32)
        away_m = reach * spacing_m
        rise = (heights.values[row, column] - here) / away_m - away_m / (2.0 * _RADIUS_M)
        np.maximum(horizon, rise, out=horizon)
    over_deg = np.degrees(np.arcsin(np.clip(beam.up, -1.0, 1.0)) - np.arctan(horizon))
    return np.asarray(np.clip(0.5 + over_deg / (2.0 * _SOFT_EDGE_DEG), 0.0, 1.0))


def _smoothed(values: Values) -> Values:
    """Return values with each row mixed with its neighbours, one part, two parts, one part."""
    padded = np.pad(values, ((1, 1), (0, 0)), mode="edge")
    return np.asarray((padded[:-2] + 2.0 * padded[1:-1] + padded[2:]) / 4.0, dtype=np.float32)
