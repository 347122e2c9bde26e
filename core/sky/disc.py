"""How a planet's disc looks at a time: size, phase, tilt, brightness, and the face it turns to us.

Geocentric; the Moon's size differs by up to 2 % at a site. Positions and axes as in ``axes``; brightness
as in ``ephemeris``, so that it is the same everywhere.
"""

from datetime import datetime
from typing import Final

import numpy as np
from attrs import frozen

from core.gear.optics import ARCSEC_PER_RADIAN
from core.sky.axes import Pose, planetographic_deg, pose, pose_elongation_deg, position_angle_deg
from core.sky.bodies import FACTS, Body
from core.sky.ephemeris import AU_KM, magnitude

# What the longitude of the prime meridian is of, for bodies whose longitudes are counted west.
_OWN_SYSTEM: Final = {
    Body.MERCURY: "",
    Body.MARS: "",
    Body.JUPITER: "III",
    Body.SATURN: "III",
    Body.NEPTUNE: "",
}

# Other systems of longitude: W at J2000 and per day, degrees. Jupiter's I (belts near the equator) and II
# (the rest) of WGCCRE 2015, table 1 note e; Saturn's I of the older report, Davies et al. 1980.
SYSTEM_II_DEG_PER_DAY: Final = 870.270
_VISUAL_SYSTEMS: Final = {
    Body.JUPITER: {"I": (67.1, 877.900), "II": (43.3, SYSTEM_II_DEG_PER_DAY)},
    Body.SATURN: {"I": (227.2037, 844.3)},
}
# Their own rotation, System III (WGCCRE 2015).
_OWN_SPIN: Final = {Body.JUPITER: (284.95, 870.536), Body.SATURN: (38.90, 810.7939024)}


@frozen(kw_only=True)
class CentralMeridian:
    """The west longitude that faces the Earth, in system "I", "II" or "III", or "" where there is but one."""

    system: str
    longitude_deg: float


@frozen(kw_only=True)
class Disc:
    """How a body's disc looks from the centre of the Earth at a time (aware UTC).

    ``equatorial_diameter_arcsec`` and ``polar_diameter_arcsec`` are those seen on the sky, the second
    across the tilt; ``phase_angle_deg`` is that between the Earth and the Sun at the body. Position
    angles run from celestial north of date through east: of the middle of the bright limb, and of the
    north pole. Latitudes are named; the central meridian is geometric, without a correction for phase.
    ``elongation_deg`` is the distance from the Sun, ``east_of_sun`` tells an evening body.
    """

    body: Body
    time: datetime
    equatorial_diameter_arcsec: float
    polar_diameter_arcsec: float
    distance_au: float
    sun_distance_au: float
    phase_angle_deg: float
    illuminated_fraction: float
    bright_limb_angle_deg: float
    pole_angle_deg: float
    elongation_deg: float
    east_of_sun: bool
    magnitude: float
    sub_earth_latitude_planetocentric_deg: float
    sub_earth_latitude_planetographic_deg: float
    sub_solar_latitude_planetocentric_deg: float
    sub_solar_latitude_planetographic_deg: float
    central_meridians: tuple[CentralMeridian, ...]

    def central_meridian_deg(self, system: str) -> float | None:
        """Return the central meridian in one system, or None where the body has no such system."""
        found = {meridian.system: meridian.longitude_deg for meridian in self.central_meridians}
        return found.get(system)


def disc_at(body: Body, time: datetime) -> Disc:
    """Return how a body's disc looks at a time (aware) within the planet tables.

    Magnitudes: Mallama and Hilton 2018 for the planets, Saturn with its ring; see ``ephemeris.magnitude``.
    """
    unix_s = time.timestamp()
    turned = pose(body, unix_s)
    facts = FACTS[body]
    flat = facts.polar_radius_km / facts.equatorial_radius_km
    distance_au = float(np.linalg.norm(turned.from_earth_au))
    phase = float(np.arccos(np.clip(turned.to_earth @ turned.to_sun, -1.0, 1.0)))
    earth_latitude = turned.latitude_deg(turned.to_earth)
    sun_latitude = turned.latitude_deg(turned.to_sun)
    across = np.hypot(np.sin(np.radians(earth_latitude)), flat * np.cos(np.radians(earth_latitude)))
    diameter = 2.0 * np.arcsin(facts.equatorial_radius_km / (distance_au * AU_KM)) * ARCSEC_PER_RADIAN
    from_sun = pose_elongation_deg(turned)
    return Disc(
        body=body,
        time=time,
        equatorial_diameter_arcsec=float(diameter),
        polar_diameter_arcsec=float(diameter * across),
        distance_au=distance_au,
        sun_distance_au=float(np.linalg.norm(turned.from_sun_au)),
        phase_angle_deg=float(np.degrees(phase)),
        illuminated_fraction=float((1.0 + np.cos(phase)) / 2.0),
        bright_limb_angle_deg=position_angle_deg(turned, turned.to_sun),
        pole_angle_deg=position_angle_deg(turned, turned.pole),
        elongation_deg=abs(from_sun),
        east_of_sun=from_sun >= 0.0,
        magnitude=float(magnitude(body, np.array([unix_s]))[0]),
        sub_earth_latitude_planetocentric_deg=earth_latitude,
        sub_earth_latitude_planetographic_deg=planetographic_deg(earth_latitude, flat),
        sub_solar_latitude_planetocentric_deg=sun_latitude,
        sub_solar_latitude_planetographic_deg=planetographic_deg(sun_latitude, flat),
        central_meridians=central_meridians(turned),
    )


def central_meridians(turned: Pose) -> tuple[CentralMeridian, ...]:
    """Return the central meridians of a pose in every system its body has, its own system last."""
    body = turned.body
    if body not in _OWN_SYSTEM:
        return ()
    own = -turned.east_longitude_deg(turned.to_earth) % 360.0
    found = []
    for system, (start, per_day) in _VISUAL_SYSTEMS.get(body, {}).items():
        own_start, own_per_day = _OWN_SPIN[body]
        ahead = start - own_start + (per_day - own_per_day) * turned.left.tt
        found.append(CentralMeridian(system=system, longitude_deg=(own + ahead) % 360.0))
    return (*found, CentralMeridian(system=_OWN_SYSTEM[body], longitude_deg=own))
