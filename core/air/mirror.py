"""How a mirror follows the air, how much its own warmth blurs, and when it no longer matters.

The glass follows the air with one time constant: 2.6 min per mm of its thickness (1.7 to 3.5; published
amateur tests, Sky & Telescope, May and June 2004, and a slab of glass in slow air). Behind a falling air it
lags by rate times time constant. Its blur follows Racine 1991, PASP 103, 1020, for a few degrees; the tail,
and the rest, are ours. Before sunset shade and caps are assumed. The rule-of-thumb time until a telescope is
usable for planets is in ``cooling``; a lens has that one only.
"""

import math
from itertools import pairwise
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import ArrayLike

from core.air.cooling import FAN_FACTOR
from core.air.finest_detail import ceiling_power
from core.air.usual_air import USUAL_AIR_POWER
from core.arrays import Floats

MINUTES_PER_MM: Final = 2.6
MINUTES_PER_MM_RANGE: Final = (1.7, 3.5)
# By what a closed tube slows the glass itself; the rule of thumb in ``cooling`` has its own factor.
CLOSED_TUBE_FACTOR: Final = 1.5
# An owner's own measured time counts at most this much against the estimate.
OWN_TIME_RANGE: Final = (0.5, 2.0)
# Settled is when the ceiling first reaches this share of the value that it ends at.
SETTLED_SHARE: Final = 0.9
# Blurs of independent layers add as this power (Kolmogorov turbulence; Roddier 1981).
_LAYER_EXPONENT: Final = 5.0 / 3.0
_STEP_MINUTES: Final = 1.0


def assumed_thickness_mm(aperture_mm: float) -> float:
    """Return the usual thickness in mm of a mirror: D/6 up to 150 mm, thinner in proportion above (ours).

    >>> [assumed_thickness_mm(aperture_mm) for aperture_mm in (120, 150, 250)]
    [20.0, 25.0, 35.0]
    """
    return aperture_mm / 6.0 if aperture_mm <= 150.0 else 25.0 + (aperture_mm - 150.0) / 10.0


def own_time_factor(own_minutes: float, predicted_minutes: float) -> float:
    """Return by what an owner's own measured time scales the time constant, from 0.5 to 2.

    >>> own_time_factor(own_minutes=120, predicted_minutes=50)
    2.0
    """
    low, high = OWN_TIME_RANGE
    return min(max(own_minutes / predicted_minutes, low), high)


def settling_constant_minutes(
    thickness_mm: float, *, fan: bool = False, closed: bool = False, own_factor: float = 1.0
) -> float:
    """Return the time constant in minutes of a mirror so many mm thick.

    A fan halves it, a closed tube makes it half as long again; ``own_factor`` is that of ``own_time_factor``.

    >>> settling_constant_minutes(25), settling_constant_minutes(25, fan=True)
    (65.0, 32.5)
    """
    minutes = MINUTES_PER_MM * thickness_mm * own_factor
    if closed:
        minutes *= CLOSED_TUBE_FACTOR
    return minutes * FAN_FACTOR if fan else minutes


@frozen(kw_only=True)
class AirCourse:
    """How warm the air is: straight lines between times in minutes, and no change outside them.

    ``minutes`` rises; ``celsius`` is as long.
    """

    minutes: tuple[float, ...]
    celsius: tuple[float, ...]

    def __attrs_post_init__(self) -> None:
        if not self.minutes or len(self.minutes) != len(self.celsius):
            raise ValueError("needs as many temperatures as times, and at least one")
        if any(later <= earlier for earlier, later in pairwise(self.minutes)):
            raise ValueError("times must rise")

    def at(self, minutes: ArrayLike) -> Floats:
        """Return the temperature in °C at times in minutes, any shape."""
        return np.asarray(np.interp(np.asarray(minutes, dtype=float), self.minutes, self.celsius))


def air_course(
    *,
    now_c: float,
    dusk_minutes: float | None = None,
    dusk_c: float | None = None,
    sunrise_minutes: float | None = None,
    lowest_c: float | None = None,
) -> AirCourse:
    """Return the air from now (0 minutes) straight to dusk, and on to its lowest at sunrise.

    What is not known, or past already, is left out.
    """
    knots = [(0.0, now_c)]
    for minutes, celsius in ((dusk_minutes, dusk_c), (sunrise_minutes, lowest_c)):
        if minutes is not None and celsius is not None and minutes > knots[-1][0]:
            knots.append((minutes, celsius))
    return AirCourse(
        minutes=tuple(minutes for minutes, _ in knots), celsius=tuple(celsius for _, celsius in knots)
    )


def mirror_excess_c(
    air: AirCourse, *, start_c: float, constant_minutes: float, minutes: ArrayLike, out_minutes: float = 0.0
) -> Floats:
    """Return by how many °C a mirror is warmer than the air (negative: colder) at times in minutes.

    Any shape. It is carried out at ``out_minutes``, ``start_c`` warm, and stays so until then. Along each
    straight piece of the air the answer is exact.
    """
    asked = np.asarray(minutes, dtype=float)
    last = max(float(asked.max(initial=out_minutes)), out_minutes)
    inner = [knot for knot in air.minutes if out_minutes < knot < last]
    found = np.where(asked <= out_minutes, start_c - air.at(asked), np.nan)
    excess = start_c - float(air.at(out_minutes))
    for begin, end in pairwise([out_minutes, *inner, last]):
        rate = (float(air.at(end)) - float(air.at(begin))) / (end - begin) if end > begin else 0.0
        lag = -rate * constant_minutes
        inside = (asked > begin) & (asked <= end)
        found[inside] = lag + (excess - lag) * np.exp(-(asked[inside] - begin) / constant_minutes)
        excess = lag + (excess - lag) * math.exp(-(end - begin) / constant_minutes)
    return found


def mirror_blur_arcsec(excess_c: ArrayLike) -> Floats:
    """Return the blur in arcsec of a mirror so many °C warmer than the air; a colder one has none.

    Any shape. 0.40 dT^1.2 / (1 + dT / 5): Racine 1991, PASP 103, 1020, for a few degrees; the tail is ours.

    >>> [round(float(blur), 2) for blur in mirror_blur_arcsec([-2, 1, 3, 15])]
    [0.0, 0.33, 0.93, 2.58]
    """
    warmer = np.maximum(np.asarray(excess_c, dtype=float), 0.0)
    return np.asarray(0.40 * warmer**1.2 / (1.0 + warmer / 5.0))


def combined_blur_arcsec(air_arcsec: ArrayLike, mirror_arcsec: ArrayLike) -> Floats:
    """Return the blur in arcsec of air and mirror together, any common shape.

    >>> round(float(combined_blur_arcsec(1.0, 1.0)), 2)
    1.52
    """
    air = np.asarray(air_arcsec, dtype=float) ** _LAYER_EXPONENT
    return np.asarray(
        (air + np.asarray(mirror_arcsec, dtype=float) ** _LAYER_EXPONENT) ** (1.0 / _LAYER_EXPONENT)
    )


def settled_minutes(
    air: AirCourse,
    *,
    aperture_mm: float,
    blur_arcsec: float,
    start_c: float,
    constant_minutes: float,
    end_minutes: float,
    out_minutes: float = 0.0,
    usual_air: float = USUAL_AIR_POWER,
) -> float:
    """Return after how many minutes outside the ceiling first reaches 90 % of the value it ends at.

    The ceiling is that overhead in tonight's air (``blur_arcsec``); it ends at ``end_minutes`` on the clock
    of the air, mostly sunrise. 0 where it is that good at once.
    """
    steps = max(2, math.ceil((end_minutes - out_minutes) / _STEP_MINUTES) + 1)
    minutes = np.linspace(out_minutes, max(end_minutes, out_minutes), steps)
    excess = mirror_excess_c(
        air, start_c=start_c, constant_minutes=constant_minutes, minutes=minutes, out_minutes=out_minutes
    )
    blur = combined_blur_arcsec(blur_arcsec, mirror_blur_arcsec(excess))
    power = ceiling_power(aperture_mm, blur, usual_air=usual_air)
    return _first_reach(minutes - out_minutes, power, SETTLED_SHARE * float(power[-1]))


def _first_reach(minutes: Floats, power: Floats, wanted: float) -> float:
    """Return when a curve first reaches a value, read straight between its points."""
    place = int(np.argmax(power >= wanted))
    if place == 0:
        return float(minutes[0])
    share = (wanted - power[place - 1]) / (power[place] - power[place - 1])
    return float(minutes[place - 1] + share * (minutes[place] - minutes[place - 1]))
