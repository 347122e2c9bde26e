"""Where a body stands in the sky of a place, for any run of times: fast, and exact enough to time events.

Geocentric positions are read once a day of terrestrial time and joined by smooth curves, whose nodes lie
on one fixed grid, so that an answer does not depend on what was asked before. The step to the place
is plain geometry: the Earth's turning, and the observer's distance from its centre (WGS 84).

Left out are the aberration of the observer's own turning (0.3 arcsec) and polar motion (0.3 arcsec).
"""

from datetime import UTC, datetime, timedelta
from functools import cached_property, lru_cache
from typing import Final, Self

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky import ephemeris
from core.sky.bodies import FACTS, Body
from core.sky.ephemeris import AU_KM
from core.sky.even_curve import EvenCurve
from core.sky.site import Site

# Nodes are asked for in whole blocks, and a curve reaches this much past the times it is needed for:
# each time then lies in the middle of the nodes that it is found from.
_BLOCK_DAYS: Final = 32
_PADDING_DAYS: Final = 8

# Radians that the Earth turns, against the equinox, in a day of 86 400 s (Capitaine et al. 2003).
_TURN_PER_DAY_RAD: Final = 2.0 * np.pi * 1.002737811911355

# WGS 84.
_EARTH_RADIUS_KM: Final = 6378.137
_EARTH_FLATTENING: Final = 1.0 / 298.257223563

_EPOCH: Final = datetime(1970, 1, 1, tzinfo=UTC)


def instant(unix_s: float) -> datetime:
    """Return the UTC time of Unix seconds, to the nearest millisecond."""
    return _EPOCH + timedelta(milliseconds=round(float(unix_s) * 1000.0))


@lru_cache(maxsize=4096)
def _nodes(body: Body, block: int) -> Floats:
    """Return one block of nodes, (M, 4): x, y, z (au), and sidereal time ahead of a steady turn."""
    lowest, highest = ephemeris.node_limits()
    first = max(block * _BLOCK_DAYS, lowest)
    count = min((block + 1) * _BLOCK_DAYS, highest + 1) - first
    turned = _TURN_PER_DAY_RAD * np.arange(first, first + count)
    ahead = ephemeris.node_sidereal_rad(first, count) - turned
    return np.column_stack([ephemeris.node_vectors_au(body, first, count), ahead])


@lru_cache(maxsize=512)
def _curve(body: Body, first_block: int, last_block: int) -> EvenCurve:
    """Return the curve through whole blocks of nodes, over days of terrestrial time since 1970."""
    nodes = np.concatenate([_nodes(body, block) for block in range(first_block, last_block + 1)])
    nodes[:, 3] = np.unwrap(nodes[:, 3])
    first_day = max(first_block * _BLOCK_DAYS, ephemeris.node_limits()[0])
    return EvenCurve(first_day, 1.0, nodes)


def _curve_over(body: Body, days: Floats) -> EvenCurve:
    earliest, latest = float(days.min()), float(days.max())
    lowest, highest = ephemeris.node_limits()
    if earliest < lowest or latest > highest:
        outside = earliest if earliest < lowest else latest
        raise ephemeris.EphemerisRangeError((_EPOCH + timedelta(days=outside)).date())
    first = max(earliest - _PADDING_DAYS, lowest) // _BLOCK_DAYS
    last = min(latest + _PADDING_DAYS, highest) // _BLOCK_DAYS
    return _curve(body, int(first), int(last))


def geocentric_au(body: Body, unix_s: Floats) -> Floats:
    """Return apparent geocentric positions (au) at Unix seconds (N,), shape (N, 3).

    The axes are the true equator and equinox of date. EphemerisRangeError outside the tables.
    """
    days = ephemeris.terrestrial_days(unix_s)
    return np.asarray(_curve_over(body, days)(days)[:3].T) if days.size else np.empty((0, 3))


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


@frozen(kw_only=True, slots=False, eq=False)
class Direction:
    """Where a body stands at each time; every value has the shape of the times.

    Topocentric, of the body's centre, without refraction. The fields are parts of its place (au): outwards
    from the axis of the Earth in the meridian plane, along the axis, east, north and up.
    """

    out_au: Floats
    axial_au: Floats
    east_au: Floats
    north_au: Floats
    up_au: Floats

    @cached_property
    def altitude_deg(self) -> Floats:
        """The angle above the horizon."""
        return np.asarray(np.degrees(np.arctan2(self.up_au, np.hypot(self.north_au, self.east_au))))

    @cached_property
    def azimuth_deg(self) -> Floats:
        """True, from north through east, 0 up to 360."""
        return np.asarray(np.degrees(np.arctan2(self.east_au, self.north_au)) % 360.0)

    @cached_property
    def declination_deg(self) -> Floats:
        """The angle north of the equator of date."""
        return np.asarray(np.degrees(np.arctan2(self.axial_au, np.hypot(self.out_au, self.east_au))))

    @cached_property
    def sine_altitude(self) -> Floats:
        """The sine of the altitude: smooth, even through the zenith."""
        return np.asarray(self.up_au / self.distance_au)

    @cached_property
    def sine_east(self) -> Floats:
        """The sine of the angle east of the meridian plane.

        It falls through zero when the hour angle is 0 and climbs through it when that is 12 h.
        """
        return np.asarray(self.east_au / self.distance_au)

    @cached_property
    def distance_au(self) -> Floats:
        """The distance from the observer."""
        return np.asarray(np.sqrt(self.out_au**2 + self.east_au**2 + self.axial_au**2))


@frozen
class Viewpoint:
    """A place on the Earth, ready to look from.

    Altitudes are within 0.0005 degrees of skyfield with DE421 asked directly, the Moon's too
    (tests/core/sky/test_apparent.py measures it).
    """

    latitude_deg: float
    longitude_rad: float
    sine_latitude: float
    cosine_latitude: float
    from_axis_au: float
    from_equator_au: float

    @classmethod
    def at(cls, latitude_deg: float, longitude_deg: float, elevation_m: float = 0.0) -> Self:
        """Return the viewpoint of geodetic coordinates, north and east positive."""
        latitude = np.radians(latitude_deg)
        sine, cosine = float(np.sin(latitude)), float(np.cos(latitude))
        polar_ratio = (1.0 - _EARTH_FLATTENING) ** 2
        normal_km = _EARTH_RADIUS_KM / np.sqrt(cosine**2 + polar_ratio * sine**2)
        height_km = elevation_m / 1000.0
        return cls(
            latitude_deg=latitude_deg,
            longitude_rad=float(np.radians(longitude_deg)),
            sine_latitude=sine,
            cosine_latitude=cosine,
            from_axis_au=float((normal_km + height_km) * cosine / AU_KM),
            from_equator_au=float((normal_km * polar_ratio + height_km) * sine / AU_KM),
        )

    @classmethod
    def of(cls, site: Site) -> Self:
        """Return the viewpoint of a site."""
        return cls.at(site.latitude_deg, site.longitude_deg, site.elevation_m)

    def direction(self, body: Body, unix_s: Floats) -> Direction:
        """Return where a body stands at Unix seconds, any shape; EphemerisRangeError outside the tables."""
        out, east, axial = self._vectors(body, unix_s)
        return Direction(
            out_au=out,
            axial_au=axial,
            east_au=east,
            north_au=axial * self.cosine_latitude - out * self.sine_latitude,
            up_au=out * self.cosine_latitude + axial * self.sine_latitude,
        )

    def place(self, body: Body, unix_s: float) -> Floats:
        """Return a body's topocentric position (au) at a time, shape (3,).

        The axes are the true equator and equinox of date, as of ``geocentric_au``.
        """
        out, east, axial = (float(part[0]) for part in self._vectors(body, np.array([unix_s])))
        sidereal = self._sidereal_rad(unix_s)
        sine, cosine = np.sin(sidereal), np.cos(sidereal)
        return np.array([out * cosine - east * sine, out * sine + east * cosine, axial])

    def look_towards(self, places: Floats, unix_s: float) -> tuple[Floats, Floats]:
        """Return altitudes and azimuths (N,) in degrees of far directions (N, 3) at a time.

        The axes are those of ``geocentric_au``; geometric altitudes, azimuths as in ``Direction``.
        """
        sidereal = self._sidereal_rad(unix_s)
        x, y, axial = places.T
        out = x * np.cos(sidereal) + y * np.sin(sidereal)
        east = y * np.cos(sidereal) - x * np.sin(sidereal)
        up = out * self.cosine_latitude + axial * self.sine_latitude
        north = axial * self.cosine_latitude - out * self.sine_latitude
        return (
            np.degrees(np.arctan2(up, np.hypot(north, east))),
            np.degrees(np.arctan2(east, north)) % 360.0,
        )

    def sine_altitude(self, body: Body, unix_s: Floats) -> Floats:
        """Return the sine of the altitude at Unix seconds: smooth, even through the zenith."""
        out, east, axial = self._vectors(body, unix_s)
        up = out * self.cosine_latitude + axial * self.sine_latitude
        return np.asarray(up / np.sqrt(out**2 + east**2 + axial**2))

    def sine_east(self, body: Body, unix_s: Floats) -> Floats:
        """Return the sine of the angle east of the meridian plane at Unix seconds.

        It falls through zero when the hour angle is 0 and climbs through it when that is 12 h.
        """
        out, east, axial = self._vectors(body, unix_s)
        return np.asarray(east / np.sqrt(out**2 + east**2 + axial**2))

    def hour_angle_rad(self, body: Body, unix_s: Floats) -> Floats:
        """Return the topocentric hour angle at Unix seconds, -pi to pi, positive west of the meridian."""
        out, east, _ = self._vectors(body, unix_s)
        return np.asarray(np.arctan2(-east, out))

    def _sidereal_rad(self, unix_s: float) -> float:
        """Return the local apparent sidereal time at a time."""
        days = ephemeris.terrestrial_days(np.array([unix_s]))
        # Every curve carries it.
        ahead = _curve_over(Body.SUN, days)(days)[3]
        return float((ahead + _TURN_PER_DAY_RAD * days)[0] + self.longitude_rad)

    def _vectors(self, body: Body, unix_s: Floats) -> tuple[Floats, Floats, Floats]:
        """Return a topocentric position (au): outwards in the meridian plane, east, along the axis."""
        days = ephemeris.terrestrial_days(unix_s)
        found = _curve_over(body, days)(days) if days.size else np.empty((4, *days.shape))
        x, y, z, ahead = found
        sidereal = ahead + _TURN_PER_DAY_RAD * days + self.longitude_rad
        sine, cosine = np.sin(sidereal), np.cos(sidereal)
        out = x * cosine + y * sine - self.from_axis_au
        east = y * cosine - x * sine
        return out, east, z - self.from_equator_au
