"""From what a body can be found: the Moon, a bright planet, bright stars; how far off, on which side."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Final

import numpy as np
from attrs import frozen

from core.air.atmosphere import apparent_altitude_deg
from core.sky.angles import angle_between_deg, bearing_deg
from core.sky.bodies import Body
from core.sky.events import CIVIL_DEG
from core.sky.night import Night
from core.sky.site import Site
from core.sky.stars import Star, bright_stars_at
from core.sky.viewpoint import Viewpoint

# With the Sun below this the brightest stars are out.
_STARS_OUT_DEG: Final = CIVIL_DEG
# Lower than this the haze takes too much of a star to go by it (ours).
_LOWEST_DEG: Final = 5.0
# A planet this bright is found without a chart (ours).
_BRIGHT_PLANET_MAGNITUDE: Final = 1.5
# Each magnitude by which a star is fainter counts as so many degrees further off (ours): a star of the fourth
# magnitude beside a planet helps more than a bright one half a sky away, and less than one three fists away.
_DEGREES_PER_MAGNITUDE: Final = 4.0
_EASY_MAGNITUDE: Final = 1.0
# Farther than this no arm measures an angle (ours), nor nearer than the body's own width.
_FARTHEST_DEG: Final = 45.0
# Two stars fix a place where the lines from them meet at no small angle (ours).
_APART_DEG: Final = 50.0
# A second one harder to use than a bright one so many degrees off is no help (ours).
_HARDEST_SECOND: Final = 30.0

_PLANETS: Final = (Body.VENUS, Body.JUPITER, Body.MARS, Body.SATURN, Body.MERCURY)
# What no eye finds unaided has two stars to go by.
FAINT: Final = frozenset({Body.URANUS, Body.NEPTUNE})


@frozen(kw_only=True)
class Landmark:
    """Something bright, and how a body lies from it.

    ``angle_deg`` is the angle between the two,
    ``bearing_deg`` the direction from the landmark to the body, clockwise from straight up as one faces it.
    """

    what: Body | Star
    angle_deg: float
    bearing_deg: float

    @property
    def right(self) -> float:
        """How far to the right the direction goes, -1 to 1."""
        return float(np.sin(np.radians(self.bearing_deg)))

    @property
    def up(self) -> float:
        """How far up it goes, -1 to 1."""
        return float(np.cos(np.radians(self.bearing_deg)))


@frozen
class _Spot:
    """A place in the sky, in degrees."""

    altitude_deg: float
    azimuth_deg: float


def find_landmarks(night: Night, body: Body, time: datetime) -> tuple[Landmark, ...]:
    """Return from what a body can be found at a time: the Moon, the nearest bright planet, a bright star.

    Only what is up, not behind the site's blocked sky, and out in so light a sky counts; of planets only
    brighter ones than the body. Uranus and Neptune get a second star, off to another side, where there is
    one. The Moon needs nothing.
    """
    if body is Body.MOON:
        return ()
    here = night.position(body, time)
    spot = _Spot(here.altitude_deg, here.azimuth_deg)
    sun_deg = night.position(Body.SUN, time).altitude_deg
    planets = sorted(_planets(night, body, spot, time, sun_deg), key=lambda each: each.angle_deg)
    return (
        *_moon(night, spot, time),
        *planets[:1],
        *(_stars(night.site, spot, time, two=body in FAINT) if sun_deg < _STARS_OUT_DEG else ()),
    )


def _moon(night: Night, spot: _Spot, time: datetime) -> Iterator[Landmark]:
    moon = night.position(Body.MOON, time)
    at = _Spot(moon.altitude_deg, moon.azimuth_deg)
    if not _is_seen(night.site, at):
        return
    found = _from(Body.MOON, at, spot)
    if found.angle_deg <= _FARTHEST_DEG:
        yield found


def _planets(night: Night, body: Body, spot: _Spot, time: datetime, sun_deg: float) -> Iterator[Landmark]:
    faintest = min(_BRIGHT_PLANET_MAGNITUDE, night.of(body).magnitude)
    for other in _PLANETS:
        if other is body or not any(each.body is other for each in night.bodies):
            continue
        its_night = night.of(other)
        if sun_deg >= its_night.dark_below_deg or its_night.magnitude > faintest:
            continue
        position = night.position(other, time)
        at = _Spot(position.altitude_deg, position.azimuth_deg)
        if _is_seen(night.site, at):
            found = _from(other, at, spot)
            if found.angle_deg <= _FARTHEST_DEG:
                yield found


def _stars(site: Site, spot: _Spot, time: datetime, *, two: bool) -> Sequence[Landmark]:
    seen = []
    for each in bright_stars_at(Viewpoint.of(site), time.timestamp()):
        at = _Spot(each.altitude_deg, each.azimuth_deg)
        if _is_seen(site, at):
            found = _from(each.star, at, spot)
            if found.angle_deg <= _FARTHEST_DEG:
                seen.append(found)
    seen.sort(key=_hard_to_use)
    if not two or not seen:
        return seen[:1]
    first = seen[0]
    others = (
        each
        for each in seen[1:]
        if _APART_DEG <= _turn(first, each) <= 180.0 - _APART_DEG and _hard_to_use(each) <= _HARDEST_SECOND
    )
    return [first, *[each for each in [next(others, None)] if each is not None]]


def _hard_to_use(landmark: Landmark) -> float:
    magnitude = landmark.what.magnitude if isinstance(landmark.what, Star) else 0.0
    return landmark.angle_deg + _DEGREES_PER_MAGNITUDE * max(magnitude - _EASY_MAGNITUDE, 0.0)


def _turn(one: Landmark, other: Landmark) -> float:
    """Return the angle between two directions, 0 to 180 degrees."""
    return abs((one.bearing_deg - other.bearing_deg + 180.0) % 360.0 - 180.0)


def _from(what: Body | Star, at: _Spot, spot: _Spot) -> Landmark:
    places = (at.altitude_deg, at.azimuth_deg, spot.altitude_deg, spot.azimuth_deg)
    return Landmark(
        what=what, angle_deg=float(angle_between_deg(*places)), bearing_deg=float(bearing_deg(*places))
    )


def _is_seen(site: Site, spot: _Spot) -> bool:
    """Tell whether a place is high enough, with nothing of the site's blocked sky before it."""
    apparent_deg = float(apparent_altitude_deg(spot.altitude_deg, elevation_m=site.elevation_m))
    if apparent_deg < _LOWEST_DEG:
        return False
    azimuth = np.array([spot.azimuth_deg])
    return not any(
        bool(sector.spans(azimuth)[0]) and apparent_deg < sector.below_altitude_deg for sector in site.blocked
    )
