"""Titan, Saturn's large moon: where it stands beside the planet.

One ellipse whose apse turns slowly, near the plane of Saturn's equator. The elements are those published by
JPL for 2000 January 1.5, the motion of the apse that of the Explanatory Supplement (1992), both from memory;
from 2004 to 2032 another theory has it within 0.15 of Saturn's radii, a moon's width or two, of here.
"""

from datetime import datetime
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky.axes import direction, pose
from core.sky.bodies import FACTS, Body
from core.sky.ephemeris import AU_KM

TITAN_RADIUS_KM: Final = 2574.7  # WGCCRE 2015
_SATURN_KM: Final = FACTS[Body.SATURN].equatorial_radius_km
_FLATNESS: Final = FACTS[Body.SATURN].polar_radius_km / _SATURN_KM

_DISTANCE_KM: Final = 1_221_870.0
_ECCENTRICITY: Final = 0.0288
_INCLINATION_DEG: Final = 0.28
_NODE_DEG: Final = 28.06
_PERICENTRE_DEG: Final = 28.06 + 180.532
_PERICENTRE_DEG_A_DAY: Final = 0.001389
_LONGITUDE_DEG: Final = 28.06 + 180.532 + 163.31
_LONGITUDE_DEG_A_DAY: Final = 22.57697
# The plane that the orbit keeps to: its pole, right ascension and declination of J2000.
_PLANE_POLE_DEG: Final = (36.21, 83.95)


@frozen(kw_only=True)
class TitanPosition:
    """Where Titan stands, in equatorial radii of Saturn: x west, y north along the axis, z towards us."""

    x_radii: float
    y_radii: float
    z_radii: float
    occulted: bool
    eclipsed: bool

    @property
    def is_visible(self) -> bool:
        """Whether it can be seen at all: neither behind Saturn nor in its shadow."""
        return not (self.occulted or self.eclipsed)


def titan_position(time: datetime) -> TitanPosition:
    """Return where Titan stands at a time (aware)."""
    saturn = pose(Body.SATURN, time.timestamp())
    place = _from_saturn_km(saturn.left.tt) / _SATURN_KM
    north = direction(saturn.pole - (saturn.to_earth @ saturn.pole) * saturn.to_earth)
    west = np.cross(north, saturn.to_earth)
    toward = float(place @ saturn.to_earth)
    distance = float(np.linalg.norm(saturn.from_earth_au)) * AU_KM / _SATURN_KM
    nearer = distance / (distance - toward)
    return TitanPosition(
        x_radii=float(place @ west) * nearer,
        y_radii=float(place @ north) * nearer,
        z_radii=toward,
        occulted=_is_behind(place, saturn.to_earth, saturn.pole),
        eclipsed=_is_behind(place, saturn.to_sun, saturn.pole),
    )


def _is_behind(place: Floats, towards: Floats, pole: Floats) -> bool:
    """Tell whether Saturn's globe hides a place (3,) from a distant eye in a direction."""
    # With the axis stretched, Saturn is a sphere of radius 1.
    stretch = 1.0 / _FLATNESS - 1.0
    round_place = place + (place @ pole) * pole * stretch
    sight = direction(towards + (towards @ pole) * pole * stretch)
    along = float(round_place @ sight)
    return along < 0.0 and float(round_place @ round_place) - along**2 < 1.0


def _from_saturn_km(days: float) -> Floats:
    """Return the way (3,) from Saturn to Titan, km in the axes of J2000, at terrestrial days from J2000."""
    pericentre = np.radians(_PERICENTRE_DEG + _PERICENTRE_DEG_A_DAY * days)
    mean = np.radians(_LONGITUDE_DEG + _LONGITUDE_DEG_A_DAY * days) - pericentre
    e = _ECCENTRICITY
    # The equation of the centre; what it leaves out is under a thousandth of a degree.
    true = mean + (2.0 * e - e**3 / 4.0) * np.sin(mean) + 1.25 * e**2 * np.sin(2.0 * mean)
    true += 13.0 / 12.0 * e**3 * np.sin(3.0 * mean)
    distance = _DISTANCE_KM * (1.0 - e**2) / (1.0 + e * np.cos(true))
    ascent, height = np.radians(_PLANE_POLE_DEG)
    pole = np.array([np.cos(height) * np.cos(ascent), np.cos(height) * np.sin(ascent), np.sin(height)])
    start = np.array([-np.sin(ascent), np.cos(ascent), 0.0])
    ahead = np.cross(pole, start)
    node, tilt = np.radians(_NODE_DEG), np.radians(_INCLINATION_DEG)
    along_node = np.cos(node) * start + np.sin(node) * ahead
    across_node = np.cos(tilt) * (np.cos(node) * ahead - np.sin(node) * start) + np.sin(tilt) * pole
    from_node = true + pericentre - node
    return np.asarray(distance * (np.cos(from_node) * along_node + np.sin(from_node) * across_node))
