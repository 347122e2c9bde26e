"""Where a body stands in the sky of a place, for any run of times.

The step from the Earth's centre to the place is plain geometry: the Earth's turning, and the observer's
distance from its centre (WGS 84). Left out are the aberration of the observer's own turning (0.3 arcsec) and
polar motion (0.3 arcsec).
"""

from functools import cached_property
from typing import Final, Self

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky import ephemeris
from core.sky.bodies import Body
from core.sky.ephemeris import AU_KM
from core.sky.geocentric import TURN_PER_DAY_RAD, curve_over
from core.sky.site import Site

# WGS 84.
_EARTH_RADIUS_KM: Final = 6378.137
_EARTH_FLATTENING: Final = 1.0 / 298.257223563


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
    (tests/core/sky/test_viewpoint.py measures it).
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
        return self._direction(*self._vectors(body, unix_s))

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
        sine, cosine = np.sin(sidereal), np.cos(sidereal)
        found = self._direction(x * cosine + y * sine, y * cosine - x * sine, axial)
        return found.altitude_deg, found.azimuth_deg

    def sine_altitude(self, body: Body, unix_s: Floats) -> Floats:
        """Return the sine of a body's altitude at Unix seconds, as ``Direction`` has it."""
        return self.direction(body, unix_s).sine_altitude

    def sine_east(self, body: Body, unix_s: Floats) -> Floats:
        """Return the sine of the angle east of the meridian at Unix seconds, as ``Direction`` has it."""
        return self.direction(body, unix_s).sine_east

    def hour_angle_rad(self, body: Body, unix_s: Floats) -> Floats:
        """Return the topocentric hour angle at Unix seconds, -pi to pi, positive west of the meridian."""
        out, east, _ = self._vectors(body, unix_s)
        return np.asarray(np.arctan2(-east, out))

    def _direction(self, out: Floats, east: Floats, axial: Floats) -> Direction:
        """Return the direction of a place, as ``_vectors`` gives it; any length serves where it is far."""
        return Direction(
            out_au=out,
            axial_au=axial,
            east_au=east,
            north_au=axial * self.cosine_latitude - out * self.sine_latitude,
            up_au=out * self.cosine_latitude + axial * self.sine_latitude,
        )

    def _sidereal_rad(self, unix_s: float) -> float:
        """Return the local apparent sidereal time at a time."""
        days = ephemeris.terrestrial_days(np.array([unix_s]))
        # Every curve carries it.
        ahead = curve_over(Body.SUN, days)(days)[3]
        return float((ahead + TURN_PER_DAY_RAD * days)[0] + self.longitude_rad)

    def _vectors(self, body: Body, unix_s: Floats) -> tuple[Floats, Floats, Floats]:
        """Return a topocentric position (au): outwards in the meridian plane, east, along the axis."""
        days = ephemeris.terrestrial_days(unix_s)
        found = curve_over(body, days)(days) if days.size else np.empty((4, *days.shape))
        x, y, z, ahead = found
        sidereal = ahead + TURN_PER_DAY_RAD * days + self.longitude_rad
        sine, cosine = np.sin(sidereal), np.cos(sidereal)
        out = x * cosine + y * sine - self.from_axis_au
        east = y * cosine - x * sine
        return out, east, z - self.from_equator_au
