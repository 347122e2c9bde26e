"""How a body is turned: where its axis points, and which face it shows to the Earth and to the Sun.

Positions and axes come from astronomy-engine, whose axes are those of WGCCRE 2015 (the Moon's of 2009).
It guesses the Earth's slowing for years to come, so it is handed Terrestrial Time outright; and it takes
an axis at the very moment given, so it is handed the moment at which the light left the body.
"""

from typing import Final

import astronomy
import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky.bodies import Body
from core.sky.ephemeris import AU_KM, DAY_S, J2000_DAYS, terrestrial_days

LIGHT_KM_S: Final = 299_792.458
LIGHT_DAYS_PER_AU: Final = AU_KM / LIGHT_KM_S / DAY_S

# Direction of the north pole of the ecliptic of J2000.
_ECLIPTIC_POLE: Final = np.array([0.0, -np.sin(np.radians(23.4392911)), np.cos(np.radians(23.4392911))])

ENGINE_BODIES: Final = {
    Body.SUN: astronomy.Body.Sun,
    Body.MERCURY: astronomy.Body.Mercury,
    Body.VENUS: astronomy.Body.Venus,
    Body.MARS: astronomy.Body.Mars,
    Body.JUPITER: astronomy.Body.Jupiter,
    Body.SATURN: astronomy.Body.Saturn,
    Body.URANUS: astronomy.Body.Uranus,
    Body.NEPTUNE: astronomy.Body.Neptune,
    Body.MOON: astronomy.Body.Moon,
}


def engine_time(unix_s: float) -> astronomy.Time:
    """Return the library's time for Unix seconds, with Terrestrial Time from the table of leap seconds."""
    terrestrial = float(terrestrial_days(np.asarray(unix_s, dtype=float)))
    return astronomy.Time(unix_s / DAY_S - J2000_DAYS, terrestrial - J2000_DAYS)


def earlier(time: astronomy.Time, days: float) -> astronomy.Time:
    """Return the library's time that lies a number of days before another."""
    return astronomy.Time(time.ut - days, time.tt - days)


def direction(vector: Floats) -> Floats:
    """Return vectors (..., 3) at length 1."""
    return np.asarray(vector / np.linalg.norm(vector, axis=-1, keepdims=True))


def array_of(vector: astronomy.Vector) -> Floats:
    """Return one of the library's vectors as an array (3,)."""
    return np.array([vector.x, vector.y, vector.z])


@frozen(kw_only=True)
class Pose:
    """A body as its light left it, in the axes of J2000.

    ``from_earth_au`` leads from the Earth at the moment of seeing to the body, ``from_sun_au`` from the
    Sun to the body, both (3,); ``pole`` and ``meridian`` are directions (3,), of the north pole and of
    the equator's point at longitude 0. ``seen`` and ``left`` are the moments of seeing and of leaving.
    """

    body: Body
    seen: astronomy.Time
    left: astronomy.Time
    from_earth_au: Floats
    from_sun_au: Floats
    pole: Floats
    meridian: Floats

    @property
    def to_earth(self) -> Floats:
        """Direction (3,) from the body to the Earth."""
        return direction(-self.from_earth_au)

    @property
    def to_sun(self) -> Floats:
        """Direction (3,) from the body to the Sun."""
        return direction(-self.from_sun_au)

    def latitude_deg(self, towards: Floats) -> float:
        """Return the planetocentric latitude that lies under a direction (3,) from the centre."""
        return float(np.degrees(np.arcsin(np.clip(towards @ self.pole, -1.0, 1.0))))

    def east_longitude_deg(self, towards: Floats) -> float:
        """Return the longitude under a direction (3,): east, by right hand about the pole, 0 to 360."""
        ahead = np.cross(self.pole, self.meridian)
        return float(np.degrees(np.arctan2(towards @ ahead, towards @ self.meridian))) % 360.0


def pose(body: Body, unix_s: float) -> Pose:
    """Return how a body is turned, as seen from the centre of the Earth at Unix seconds."""
    seen = engine_time(unix_s)
    engine_body = ENGINE_BODIES[body]
    if body is Body.MOON:
        # It keeps the Earth company, so that its own light time is all there is to remove.
        left = earlier(seen, astronomy.GeoMoon(seen).Length() * LIGHT_DAYS_PER_AU)
        from_earth = array_of(astronomy.GeoMoon(left))
    else:
        left, from_earth = _light_left(engine_body, seen)
    axis = astronomy.RotationAxis(engine_body, left)
    pole = array_of(axis.north)
    ascent = np.radians(axis.ra * 15.0)
    node = np.array([-np.sin(ascent), np.cos(ascent), 0.0])
    spin = np.radians(axis.spin)
    return Pose(
        body=body,
        seen=seen,
        left=left,
        from_earth_au=from_earth,
        from_sun_au=array_of(astronomy.HelioVector(engine_body, left)),
        pole=pole,
        meridian=np.cos(spin) * node + np.sin(spin) * np.cross(pole, node),
    )


def _light_left(engine_body: astronomy.Body, seen: astronomy.Time) -> tuple[astronomy.Time, Floats]:
    """Return when the light that is seen left a planet, and the way (3,) in au that it came.

    The library's own search for it falls back on its guess of Terrestrial Time.
    """
    earth = array_of(astronomy.HelioVector(astronomy.Body.Earth, seen))
    left = seen
    from_earth = -earth
    for _ in range(3):
        from_earth = array_of(astronomy.HelioVector(engine_body, left)) - earth
        left = earlier(seen, float(np.linalg.norm(from_earth)) * LIGHT_DAYS_PER_AU)
    return left, from_earth


def position_angle_deg(turned: Pose, towards: Floats) -> float:
    """Return the position angle of a direction (3,) as it lies across the body's disc.

    From celestial north of date through east, 0 to 360.
    """
    turn = np.array(astronomy.Rotation_EQJ_EQD(turned.seen).rot)
    sight, across = turned.from_earth_au @ turn, towards @ turn
    east = np.array([-sight[1], sight[0], 0.0])
    north = np.cross(sight, east) / np.linalg.norm(sight)
    return float(np.degrees(np.arctan2(across @ east, across @ north))) % 360.0


def pose_elongation_deg(turned: Pose) -> float:
    """Return the angle between a body and the Sun from the Earth, negative west of the Sun.

    East is where the ecliptic longitude is the larger one. Aberration (0.01 degrees) is left out.
    """
    sun = direction(-array_of(astronomy.HelioVector(astronomy.Body.Earth, turned.seen)))
    body = direction(turned.from_earth_au)
    apart = float(np.degrees(np.arccos(np.clip(body @ sun, -1.0, 1.0))))
    return apart if np.cross(sun, body) @ _ECLIPTIC_POLE >= 0.0 else -apart


def planetographic_deg(planetocentric_deg: float, polar_over_equatorial: float) -> float:
    """Return the planetographic latitude of a planetocentric one, for a globe of that flattening."""
    tangent = np.tan(np.radians(planetocentric_deg)) / polar_over_equatorial**2
    return float(np.degrees(np.arctan(tangent)))
