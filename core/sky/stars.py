"""The bright stars from which a planet can be found: some seventy, within 40 degrees of the ecliptic.

Their places are of Hipparcos, the new reduction (van Leeuwen 2007, Astronomy and Astrophysics 474, 653),
their names those that the IAU approved, or the letters of Bayer; ``resources/build_stars.py`` puts them
together.
"""

import csv
from functools import cache, lru_cache
from importlib import resources
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky.ephemeris import DAY_S, StarPlaces, star_vectors
from core.sky.viewpoint import Viewpoint

# Sirius; a planet that outshines it is taken for whichever planet somebody looks for.
BRIGHTEST_STAR_MAGNITUDE: Final = -1.46


@frozen(kw_only=True)
class Star:
    """A bright star: the name as shown to a person, and its magnitude."""

    label: str
    magnitude: float


@frozen(kw_only=True)
class StarPosition:
    """Where a star stands at one time: geometric altitude, true azimuth."""

    star: Star
    altitude_deg: float
    azimuth_deg: float


@cache
def _catalogue() -> tuple[tuple[Star, ...], StarPlaces]:
    text = resources.files("resources").joinpath("stars.csv").read_text("utf-8")
    rows = list(csv.DictReader(text.splitlines()))

    def column(name: str) -> Floats:
        return np.array([float(row[name]) for row in rows])

    stars = tuple(Star(label=row["name"], magnitude=float(row["magnitude"])) for row in rows)
    return stars, StarPlaces(
        ra_deg=column("ra_deg"),
        dec_deg=column("dec_deg"),
        ra_mas_a_year=column("ra_mas_a_year"),
        dec_mas_a_year=column("dec_mas_a_year"),
    )


@lru_cache(maxsize=8)
def _vectors_of_day(day: int) -> Floats:
    """Return the directions to the stars (N, 3) in the middle of a day since 1970."""
    return star_vectors(_catalogue()[1], (day + 0.5) * DAY_S)


def bright_stars_at(viewpoint: Viewpoint, unix_s: float) -> tuple[StarPosition, ...]:
    """Return where each bright star stands at a time, within 0.001 degrees, the day's aberration."""
    stars, _ = _catalogue()
    altitude_deg, azimuth_deg = viewpoint.look_towards(_vectors_of_day(int(unix_s // DAY_S)), unix_s)
    return tuple(
        StarPosition(star=star, altitude_deg=float(altitude), azimuth_deg=float(azimuth))
        for star, altitude, azimuth in zip(stars, altitude_deg, azimuth_deg, strict=True)
    )
