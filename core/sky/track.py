"""The way of one body over one evening, sampled for drawing, and its place at one time."""

from collections.abc import Sequence
from datetime import datetime
from typing import Final

import numpy as np
from attrs import frozen

from core.air.atmosphere import air_path, apparent_altitude_deg
from core.arrays import Floats
from core.sky.angles import angle_between_deg
from core.sky.bodies import Body
from core.sky.site import Site
from core.sky.viewpoint import Direction, Viewpoint

SAMPLE_S: Final = 60.0


@frozen(kw_only=True, eq=False)
class Track:
    """A body's way over an evening; every array is (N,) and runs from start to end, both included.

    ``altitude_deg`` is geometric, ``apparent_altitude_deg`` has refraction in the site's standard air;
    azimuths are true, from north through east, and jump from 360 to 0 where the body passes north.
    """

    body: Body
    unix_s: Floats
    altitude_deg: Floats
    azimuth_deg: Floats
    apparent_altitude_deg: Floats

    def altitude_at(self, moment: datetime) -> float:
        """Return the geometric altitude in degrees at a moment of the evening, between two of the times."""
        return float(np.interp(moment.timestamp(), self.unix_s, self.altitude_deg))


@frozen(kw_only=True)
class Position:
    """Where a body stands at one time; ``path`` is the air path, None below 5 degrees apparent altitude."""

    time: datetime
    altitude_deg: float
    azimuth_deg: float
    apparent_altitude_deg: float
    path: float | None
    declination_deg: float


def sample_times_s(start_s: float, end_s: float) -> Floats:
    """Return even times from ``start_s`` to ``end_s`` (Unix seconds), a minute apart or denser."""
    return np.linspace(start_s, end_s, int(np.ceil((end_s - start_s) / SAMPLE_S)) + 1)


def track_of(site: Site, body: Body, unix_s: Floats, direction: Direction) -> Track:
    """Return a body's track through where it stands at times (N,), in a site's air."""
    return Track(
        body=body,
        unix_s=unix_s,
        altitude_deg=direction.altitude_deg,
        azimuth_deg=direction.azimuth_deg,
        apparent_altitude_deg=apparent_altitude_deg(direction.altitude_deg, elevation_m=site.elevation_m),
    )


def position_at(site: Site, body: Body, time: datetime) -> Position:
    """Return where a body stands in a site's sky at a time; EphemerisRangeError outside the tables."""
    (position,) = positions_at(site, Viewpoint.of(site), body, [time])
    return position


def positions_at(
    site: Site, viewpoint: Viewpoint, body: Body, times: Sequence[datetime]
) -> tuple[Position, ...]:
    """Return where a body stands at each of some times, seen from the site's viewpoint."""
    direction = viewpoint.direction(body, np.array([time.timestamp() for time in times]))
    apparent_deg = apparent_altitude_deg(direction.altitude_deg, elevation_m=site.elevation_m)
    return tuple(
        Position(
            time=time,
            altitude_deg=float(direction.altitude_deg[number]),
            azimuth_deg=float(direction.azimuth_deg[number]),
            apparent_altitude_deg=float(apparent_deg[number]),
            path=path_or_none(float(apparent_deg[number])),
            declination_deg=float(direction.declination_deg[number]),
        )
        for number, time in enumerate(times)
    )


def separation_deg(first: Position, second: Position) -> float:
    """Return the angle in degrees between two places in one site's sky at one time."""
    return float(
        angle_between_deg(first.altitude_deg, first.azimuth_deg, second.altitude_deg, second.azimuth_deg)
    )


def path_or_none(apparent_deg: float) -> float | None:
    """Return the air path at an apparent altitude in degrees, None below 5."""
    path = float(air_path(apparent_deg))
    return None if np.isnan(path) else path
