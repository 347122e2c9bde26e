"""Where a body stands from the Earth's centre, for any run of times: fast, and exact enough to time events.

Positions are read once a day of terrestrial time and joined by smooth curves, whose nodes lie on one fixed
grid, so that an answer does not depend on what was asked before.
"""

from functools import lru_cache
from typing import Final

import numpy as np

from core.arrays import Floats
from core.sky import ephemeris
from core.sky.bodies import FACTS, Body
from core.sky.ephemeris import AU_KM, DAY_S
from core.sky.even_curve import EvenCurve
from core.sky.instant import instant

# Nodes are asked for in whole blocks, and a curve reaches this much past the times it is needed for:
# each time then lies in the middle of the nodes that it is found from.
_BLOCK_DAYS: Final = 32
_PADDING_DAYS: Final = 8

# Radians that the Earth turns, against the equinox, in a day of 86 400 s (Capitaine et al. 2003).
TURN_PER_DAY_RAD: Final = 2.0 * np.pi * 1.002737811911355


@lru_cache(maxsize=4096)
def _nodes(body: Body, block: int) -> Floats:
    """Return one block of nodes, (M, 4): x, y, z (au), and sidereal time ahead of a steady turn."""
    lowest, highest = ephemeris.node_limits()
    first = max(block * _BLOCK_DAYS, lowest)
    count = min((block + 1) * _BLOCK_DAYS, highest + 1) - first
    turned = TURN_PER_DAY_RAD * np.arange(first, first + count)
    ahead = ephemeris.node_sidereal_rad(first, count) - turned
    return np.column_stack([ephemeris.node_vectors_au(body, first, count), ahead])


@lru_cache(maxsize=512)
def _curve(body: Body, first_block: int, last_block: int) -> EvenCurve:
    """Return the curve through whole blocks of nodes, over days of terrestrial time since 1970."""
    nodes = np.concatenate([_nodes(body, block) for block in range(first_block, last_block + 1)])
    nodes[:, 3] = np.unwrap(nodes[:, 3])
    first_day = max(first_block * _BLOCK_DAYS, ephemeris.node_limits()[0])
    return EvenCurve(first_day, 1.0, nodes)


def curve_over(body: Body, days: Floats) -> EvenCurve:
    """Return the curve through a body's nodes that holds days of terrestrial time since 1970.

    It gives x, y, z (au) and how far sidereal time is ahead of a steady turn (rad).
    """
    earliest, latest = float(days.min()), float(days.max())
    lowest, highest = ephemeris.node_limits()
    if earliest < lowest or latest > highest:
        outside = earliest if earliest < lowest else latest
        raise ephemeris.EphemerisRangeError(instant(outside * DAY_S).date())
    first = max(earliest - _PADDING_DAYS, lowest) // _BLOCK_DAYS
    last = min(latest + _PADDING_DAYS, highest) // _BLOCK_DAYS
    return _curve(body, int(first), int(last))


def geocentric_au(body: Body, unix_s: Floats) -> Floats:
    """Return apparent geocentric positions (au) at Unix seconds (N,), shape (N, 3).

    The axes are the true equator and equinox of date. EphemerisRangeError outside the tables.
    """
    days = ephemeris.terrestrial_days(unix_s)
    return np.asarray(curve_over(body, days)(days)[:3].T) if days.size else np.empty((0, 3))


def diameter_arcsec(body: Body, unix_s: Floats) -> Floats:
    """Return the equatorial diameter of a body from the Earth's centre at Unix seconds (N,)."""
    distance_km = np.linalg.norm(geocentric_au(body, unix_s), axis=-1) * AU_KM
    return np.asarray(np.degrees(2.0 * np.arcsin(FACTS[body].equatorial_radius_km / distance_km)) * 3600.0)


def illuminated_fraction(body: Body, unix_s: Floats) -> Floats:
    """Return how much of a body's disc is lit, 0 to 1, from the Earth's centre at Unix seconds (N,)."""
    place, sun = geocentric_au(body, unix_s), geocentric_au(Body.SUN, unix_s)
    to_sun = sun - place
    size = np.linalg.norm(place, axis=-1) * np.linalg.norm(to_sun, axis=-1)
    return np.asarray((1.0 - (place * to_sun).sum(axis=-1) / size) / 2.0)


def geocentric_angle_deg(body: Body, other: Body, unix_s: Floats) -> Floats:
    """Return the angle between two bodies' apparent geocentric places at Unix seconds (N,)."""
    one, two = geocentric_au(body, unix_s), geocentric_au(other, unix_s)
    across = np.linalg.norm(np.cross(one, two), axis=-1)
    return np.asarray(np.degrees(np.arctan2(across, (one * two).sum(axis=-1))))


def elongation_deg(body: Body, unix_s: Floats) -> Floats:
    """Return a body's angle from the Sun, as seen from the Earth's centre, at Unix seconds (N,)."""
    return geocentric_angle_deg(body, Body.SUN, unix_s)
