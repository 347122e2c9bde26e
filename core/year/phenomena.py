"""Oppositions, conjunctions, greatest elongations and half-lit Venus: when a planet stands how to the Sun.

By the usual definitions, as seen from the Earth's centre. Opposition and conjunction: the apparent ecliptic
longitudes of body and Sun, of date, differ by 180 or by 0 degrees. Greatest elongation: the angle between
their apparent places is greatest. Within a minute of skyfield with DE421, or two where a planet passes right
behind the Sun, whose gravity bends the light (tests/published/test_phenomena.py).
"""

from collections.abc import Iterator
from datetime import datetime
from enum import StrEnum
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.gear.optics import ARCSEC_PER_RADIAN
from core.sky.bodies import Body
from core.sky.crossings import Course, turning_points
from core.sky.ephemeris import DAY_S, J2000_DAYS, terrestrial_days
from core.sky.geocentric import elongation_deg, geocentric_au, illuminated_fraction
from core.sky.instant import instant

_INNER: Final = frozenset({Body.MERCURY, Body.VENUS})

# Neither the Moon nor Mercury turns twice against the Sun in so short a time.
_STEP_S: Final = DAY_S
# A greatest elongation is known to half an hour from daily samples; a parabola of this width has its place.
_FINE_STEP_S: Final = 5400.0


class Aspect(StrEnum):
    """How a body stands to the Sun."""

    OPPOSITION = "opposition"
    CONJUNCTION = "conjunction"
    INFERIOR_CONJUNCTION = "inferior conjunction"
    SUPERIOR_CONJUNCTION = "superior conjunction"
    GREATEST_ELONGATION_EAST = "greatest elongation east"
    GREATEST_ELONGATION_WEST = "greatest elongation west"
    HALF_LIT = "half lit"
    FULL_MOON = "full Moon"
    NEW_MOON = "new Moon"


ELONGATIONS: Final = frozenset({Aspect.GREATEST_ELONGATION_EAST, Aspect.GREATEST_ELONGATION_WEST})


@frozen(kw_only=True)
class Phenomenon:
    """One of them: its time (UTC), and how far the body then stands from the Sun."""

    body: Body
    aspect: Aspect
    time: datetime
    elongation_deg: float


def find_phenomena(body: Body, start: datetime, end: datetime) -> tuple[Phenomenon, ...]:
    """Return the phenomena of a body from ``start`` up to, not including, ``end``, in order.

    The Moon's are full and new Moon. EphemerisRangeError outside the planet tables, a day at both ends
    included.
    """
    start_s, end_s = start.timestamp(), end.timestamp()
    found = [
        *_in_line(body, start_s, end_s),
        *_greatest_elongations(body, start_s, end_s),
        *_half_lit(body, start_s, end_s),
    ]
    return tuple(
        Phenomenon(
            body=body,
            aspect=aspect,
            time=instant(time_s),
            elongation_deg=float(elongation_deg(body, np.array([time_s]))[0]),
        )
        for time_s, aspect in sorted(found)
    )


def _in_line(body: Body, start_s: float, end_s: float) -> Iterator[tuple[float, Aspect]]:
    """Yield when body and Sun stand at the same or at opposite longitudes."""
    course = Course(
        quantity=lambda unix_s: _ahead(body, unix_s)[0], start_s=start_s, end_s=end_s, step_s=_STEP_S
    )
    (crossings,) = course.crossings([0.0])
    for time_s in np.concatenate([crossings.climbs_s, crossings.falls_s]):
        at_s = np.array([time_s])
        same_side = bool(_ahead(body, at_s)[1][0] > 0.0)
        if body is Body.MOON:
            yield time_s, Aspect.NEW_MOON if same_side else Aspect.FULL_MOON
        elif not same_side:
            yield time_s, Aspect.OPPOSITION
        elif body not in _INNER:
            yield time_s, Aspect.CONJUNCTION
        elif _distance_au(body, at_s)[0] < _distance_au(Body.SUN, at_s)[0]:
            yield time_s, Aspect.INFERIOR_CONJUNCTION
        else:
            yield time_s, Aspect.SUPERIOR_CONJUNCTION


def _greatest_elongations(body: Body, start_s: float, end_s: float) -> Iterator[tuple[float, Aspect]]:
    """Yield when an inner planet turns back towards the Sun."""
    if body not in _INNER:
        return
    count = int(np.ceil((end_s - start_s) / _STEP_S)) + 3
    samples_s = np.linspace(start_s - _STEP_S, end_s + _STEP_S, count)
    turns_s = turning_points(
        lambda unix_s: _cosine_elongation(body, unix_s),
        samples_s,
        _cosine_elongation(body, samples_s),
        fine_step_s=_FINE_STEP_S,
    )
    near_s = turns_s + np.array([[-_STEP_S / 4.0], [0.0], [_STEP_S / 4.0]])
    before, here, after = _cosine_elongation(body, near_s.ravel()).reshape(near_s.shape)
    for time_s in turns_s[(here < before) & (here < after) & (turns_s >= start_s) & (turns_s < end_s)]:
        is_east = _ahead(body, np.array([time_s]))[0][0] > 0.0
        yield time_s, Aspect.GREATEST_ELONGATION_EAST if is_east else Aspect.GREATEST_ELONGATION_WEST


def _half_lit(body: Body, start_s: float, end_s: float) -> Iterator[tuple[float, Aspect]]:
    """Yield when half of Venus is lit: the Sun and the Earth at a right angle, as it sees them."""
    if body is not Body.VENUS:
        return
    course = Course(
        quantity=lambda unix_s: illuminated_fraction(body, unix_s.ravel()).reshape(unix_s.shape) - 0.5,
        start_s=start_s,
        end_s=end_s,
        step_s=_STEP_S,
    )
    (crossings,) = course.crossings([0.0])
    for time_s in np.concatenate([crossings.climbs_s, crossings.falls_s]):
        yield time_s, Aspect.HALF_LIT


def _ahead(body: Body, unix_s: Floats) -> tuple[Floats, Floats]:
    """Return sine and cosine of the longitude by which a body stands east of the Sun, both (N,)."""
    (x, y), (sun_x, sun_y) = (_along_ecliptic(each, unix_s) for each in (body, Body.SUN))
    size = np.hypot(x, y) * np.hypot(sun_x, sun_y)
    return (y * sun_x - x * sun_y) / size, (x * sun_x + y * sun_y) / size


def _along_ecliptic(body: Body, unix_s: Floats) -> tuple[Floats, Floats]:
    """Return a position (au) along the ecliptic of date: towards the equinox, and 90 degrees east of it."""
    x, y, z = geocentric_au(body, unix_s.ravel()).T.reshape(3, *unix_s.shape)
    obliquity = _obliquity_rad(unix_s)
    return x, y * np.cos(obliquity) + z * np.sin(obliquity)


def _obliquity_rad(unix_s: Floats) -> Floats:
    """Return the true obliquity of the ecliptic, within 0.2 arcsec.

    Sources: mean obliquity of Capitaine et al. 2003 (A&A 412, 567); the two largest terms of its nutation,
    Meeus, Astronomical Algorithms, chapter 22.
    """
    days = terrestrial_days(unix_s) - J2000_DAYS
    mean_arcsec = 84381.406 - 46.836769 * days / 36_525.0
    node, sun = np.radians(125.0445 - 0.0529538 * days), np.radians(280.4665 + 0.9856474 * days)
    return np.asarray((mean_arcsec + 9.20 * np.cos(node) + 0.57 * np.cos(2.0 * sun)) / ARCSEC_PER_RADIAN)


def _cosine_elongation(body: Body, unix_s: Floats) -> Floats:
    places, suns = (geocentric_au(each, unix_s.ravel()) for each in (body, Body.SUN))
    lengths = np.linalg.norm(places, axis=1) * np.linalg.norm(suns, axis=1)
    return np.asarray((places * suns).sum(axis=1) / lengths).reshape(unix_s.shape)


def _distance_au(body: Body, unix_s: Floats) -> Floats:
    return np.asarray(np.linalg.norm(geocentric_au(body, unix_s), axis=1))
