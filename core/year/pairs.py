"""The evenings of a year on which something else stands close to a planet."""

from collections.abc import Callable
from typing import Final

import numpy as np

from core.moments.pairs import CLOSE_DEG, ClosePair, close_pairs
from core.sky.bodies import TARGETS, Body
from core.sky.events import LOWEST_USEFUL_DEG
from core.sky.geocentric import geocentric_angle_deg
from core.sky.night import compute_night
from core.year.outlook import BodyOutlook

# From when a planet is highest to when it can be looked at for the last time, bodies move by up to so much,
# and the Moon looks by a degree elsewhere than from the Earth's centre.
_MOVES_DEG: Final = 1.0
_MOON_MOVES_DEG: Final = 7.0
# Two that stay close for evenings on end are told of once, at their closest; so many days part two meetings.
_ONE_MEETING_DAYS: Final = 12.0


def close_pairs_of_year(
    outlook: BodyOutlook, dark_below_deg: float, *, between: Callable[[], None]
) -> tuple[ClosePair, ...]:
    """Return when other bodies are closest to one of an outlook, under 2 degrees and in windows of both.

    They are in the order of time; ``dark_below_deg`` is the altitude under which the Sun must stand for it.
    ``between`` is called after every other body; whatever it raises stops the work.
    """
    others = [other for other in TARGETS if other is not outlook.body]
    found: list[ClosePair] = []
    for other in others:
        found += _with(outlook, other, dark_below_deg)
        between()
    return tuple(sorted(found, key=lambda pair: pair.at))


def _with(outlook: BodyOutlook, other: Body, dark_below_deg: float) -> list[ClosePair]:
    numbers = np.flatnonzero(np.nan_to_num(outlook.best_altitude_deg) >= LOWEST_USEFUL_DEG)
    apart_deg = geocentric_angle_deg(outlook.body, other, outlook.best_s[numbers])
    moon = Body.MOON in (other, outlook.body)
    near = numbers[apart_deg < CLOSE_DEG + (_MOON_MOVES_DEG if moon else _MOVES_DEG)]
    meetings: list[ClosePair] = []
    for number in near:
        pair = _on(outlook, int(number), other, dark_below_deg)
        if pair is None:
            continue
        if meetings and (pair.at - meetings[-1].at).days < _ONE_MEETING_DAYS:
            meetings[-1] = min(meetings[-1], pair, key=lambda each: each.separation_deg)
        else:
            meetings.append(pair)
    return meetings


def _on(outlook: BodyOutlook, number: int, other: Body, dark_below_deg: float) -> ClosePair | None:
    evenings = outlook.evenings
    ordered = [body for body in TARGETS if body in (outlook.body, other)]
    night = compute_night(
        evenings.site, evenings.dates[number], targets=ordered, dark_enough={outlook.body: dark_below_deg}
    )
    return next(iter(close_pairs(night)), None)
