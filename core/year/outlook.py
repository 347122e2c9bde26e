"""Many evenings at one site at a glance: when bodies rise, how high they get in a dark sky, how large.

Everything is solved for all evenings together. Events are those of ``night.compute_night``, within 2 ms
(tests/core/sky/test_outlook.py measures it).
"""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Floats, Truths
from core.moments.hours import STOP_BEFORE_SUNRISE
from core.sky.bodies import FACTS, PLANETS, Body
from core.sky.crossings import Course
from core.sky.events import (
    BEST_DEG,
    FAIR_DEG,
    HORIZON_DEG,
    LOWEST_USEFUL_DEG,
    SUN_HORIZON_DEG,
    BodyState,
    Heights,
    dark_spans,
    upper_transits_s,
)
from core.sky.geocentric import diameter_arcsec, illuminated_fraction
from core.sky.spans import Pieces, covers, intersect
from core.sky.viewpoint import Viewpoint
from core.year.behind_obstacles import spans_behind_obstacles
from core.year.evenings import Evenings

Progress = Callable[[int, int], None]


# An evening is good that has at least so long above 30 degrees in a dark sky (ours): time to set up on it.
GOOD_HOURS: Final = 0.5
# A body that stays low is near its greatest height from this part of it on (ours).
NEARLY_HIGHEST: Final = 0.85


@frozen(eq=False)
class ByEvening:
    """Times (M,) or spans (M, 2) in Unix seconds, in order, and the number (M,) of the evening of each."""

    values_s: Floats
    evening: NDArray[np.intp]

    def of(self, number: int) -> Floats:
        """Return those of one evening."""
        return np.asarray(self.values_s[self.evening == number])


@frozen(kw_only=True, eq=False)
class BodyOutlook:
    """One body over N evenings; altitudes are geometric.

    ``above_30`` and ``above_45`` are spans, dark or not, cut at the evenings' noons. The sky counts as dark
    when it is dark enough for the body, up to the time to stop before sunrise, and, unless asked otherwise,
    nothing of the site's blocked sky is before it: ``best_altitude_deg`` (N,) is the greatest altitude above
    the horizon then and ``best_s`` its time, NaN without one; ``dark_hours_10``, ``dark_hours_30`` and
    ``dark_hours_45`` (N,) are the hours above each height then. ``sky_dark_hours`` (N,) are those in
    which the sky itself is dark enough. ``diameter_arcsec`` (N,), equatorial, and
    ``illuminated_fraction`` (N,) are geocentric, in the middle of the evening.
    """

    body: Body
    evenings: Evenings
    rises: ByEvening
    transits: ByEvening
    sets: ByEvening
    above_30: ByEvening
    above_45: ByEvening
    hours_up: Floats
    best_altitude_deg: Floats
    best_s: Floats
    sky_dark_hours: Floats
    dark_hours_10: Floats
    dark_hours_30: Floats
    dark_hours_45: Floats
    diameter_arcsec: Floats
    illuminated_fraction: Floats

    def state(self, number: int) -> BodyState:
        """Tell whether the body passes the horizon in one evening."""
        if len(self.rises.of(number)) or len(self.sets.of(number)):
            return BodyState.NORMAL
        return BodyState.ALWAYS_UP if self.hours_up[number] > 0.0 else BodyState.NEVER_UP


def compute_outlook(
    evenings: Evenings,
    bodies: Sequence[Body] = PLANETS,
    *,
    dark_enough: Mapping[Body, float] | None = None,
    through_blocked: bool = False,
    progress: Progress | None = None,
) -> tuple[BodyOutlook, ...]:
    """Return the outlook of each body.

    ``dark_enough`` gives the altitude in degrees under which the Sun must stand, where it is not the usual
    one of ``FACTS``; ``through_blocked`` looks through the site's blocked sky as if nothing stood there.
    ``progress`` is told after each step how many are done, and of how many; whatever it raises stops the
    work. Raises EphemerisRangeError where the planet tables end.
    """
    tell = progress or say_nothing
    steps = len(bodies) + 1
    tell(0, steps)
    sky = _Sky.over(evenings, through_blocked=through_blocked)
    below = {body: FACTS[body].dark_enough_sun_altitude_deg for body in bodies} | dict(dark_enough or {})
    levels_deg = sorted({below[body] for body in bodies})
    sun = sky.heights(Body.SUN)
    outside_s = _until_stop(sun)
    dark = {
        level_deg: intersect(spans_s, outside_s)
        for level_deg, spans_s in zip(levels_deg, dark_spans(sun, levels_deg), strict=True)
    }
    tell(1, steps)
    found = []
    for number, body in enumerate(bodies, start=2):
        found.append(_body_outlook(sky, body, dark[below[body]]))
        tell(number, steps)
    return tuple(found)


def _until_stop(sun: Heights) -> Floats:
    """Return the spans (N, 2) from sunset to the time to stop, some minutes before sunrise."""
    (nights_s,) = dark_spans(sun, [SUN_HORIZON_DEG])
    ends_s = nights_s[:, 1]
    stops_s = np.where(ends_s < sun.course.end_s, ends_s - STOP_BEFORE_SUNRISE.total_seconds(), ends_s)
    return np.column_stack([nights_s[:, 0], stops_s])[stops_s > nights_s[:, 0]]


def say_nothing(_done: int, _steps: int) -> None:
    """Be the progress of a work that nobody waits for."""


@frozen
class _Sky:
    """What all bodies share."""

    evenings: Evenings
    viewpoint: Viewpoint
    through_blocked: bool

    @classmethod
    def over(cls, evenings: Evenings, *, through_blocked: bool) -> "_Sky":
        return cls(evenings, Viewpoint.of(evenings.site), through_blocked)

    def heights(self, body: Body) -> Heights:
        """Follow a body through all evenings."""
        return Heights.of(self.viewpoint, body, self.evenings.start_s, self.evenings.end_s)

    def spans_behind_obstacles(self, body: Body, within_s: Floats) -> Floats:
        """Return the spans (N, 2) in which blocked sky is before a body."""
        if self.through_blocked:
            return np.empty((0, 2))
        return spans_behind_obstacles(self.evenings.site, self.viewpoint, body, within_s)

    def by_evening(self, times_s: Floats) -> ByEvening:
        return ByEvening(times_s, self.evenings.numbers(times_s))

    def spans_by_evening(self, spans_s: Floats) -> ByEvening:
        """Cut spans at the noons."""
        noons_s = self.evenings.edges_s[1:-1]
        cuts_s = noons_s[covers(spans_s, noons_s)]
        edges_s = np.sort(np.concatenate([spans_s.ravel(), cuts_s, cuts_s])).reshape(-1, 2)
        edges_s = edges_s[edges_s[:, 1] > edges_s[:, 0]]
        return ByEvening(edges_s, self.evenings.numbers(edges_s[:, 0]))


def _body_outlook(sky: _Sky, body: Body, dark_s: Floats) -> BodyOutlook:
    heights = sky.heights(body)
    horizon, useful, fair, best = heights.crossings([HORIZON_DEG, LOWEST_USEFUL_DEG, FAIR_DEG, BEST_DEG])
    dark_and_up_s = intersect(dark_s, horizon.above_s)
    hidden_s = sky.spans_behind_obstacles(body, dark_and_up_s)
    pieces = Pieces.between(
        *(sky.evenings.spans_s, dark_s, horizon.above_s, dark_and_up_s, hidden_s),
        *(useful.above_s, fair.above_s, best.above_s),
    )
    seen = pieces.within(dark_and_up_s)
    if len(hidden_s):
        seen &= ~pieces.within(hidden_s)
    best_s, best_sine = _highest(sky.evenings, heights.course, pieces.spans_s[seen])
    hours = partial(_hours, sky.evenings, pieces)
    middles_s = sky.evenings.spans_s.mean(axis=1)
    return BodyOutlook(
        body=body,
        evenings=sky.evenings,
        rises=sky.by_evening(horizon.climbs_s),
        transits=sky.by_evening(upper_transits_s(sky.viewpoint, body, heights)),
        sets=sky.by_evening(horizon.falls_s),
        above_30=sky.spans_by_evening(fair.above_s),
        above_45=sky.spans_by_evening(best.above_s),
        hours_up=hours(pieces.within(horizon.above_s)),
        best_altitude_deg=np.degrees(np.arcsin(best_sine)),
        best_s=best_s,
        sky_dark_hours=hours(pieces.within(dark_s)),
        dark_hours_10=hours(seen & pieces.within(useful.above_s)),
        dark_hours_30=hours(seen & pieces.within(fair.above_s)),
        dark_hours_45=hours(seen & pieces.within(best.above_s)),
        diameter_arcsec=diameter_arcsec(body, middles_s),
        illuminated_fraction=illuminated_fraction(body, middles_s),
    )


def _hours(evenings: Evenings, pieces: Pieces, chosen: Truths) -> Floats:
    """Return how many hours of each evening (N,) lie in the chosen pieces."""
    lengths_h = (pieces.ends_s - pieces.starts_s)[chosen] / 3600.0
    numbers = evenings.numbers(pieces.starts_s[chosen])
    return np.bincount(numbers, weights=lengths_h, minlength=len(evenings)).astype(float)


def _highest(evenings: Evenings, course: Course, spans_s: Floats) -> tuple[Floats, Floats]:
    """Return when a quantity is greatest in each evening's spans, and its value; both (N,), NaN without."""
    knots_s, knot_values = course.knots
    inside = covers(spans_s, knots_s)
    edges_s = spans_s.ravel()
    times_s = np.concatenate([edges_s, knots_s[inside]])
    values = np.concatenate([course.quantity(edges_s), knot_values[inside]])
    # An end of a span may be the next evening's start, yet it belongs to its own span.
    starts_s = np.concatenate([np.repeat(spans_s[:, 0], 2), knots_s[inside]])
    numbers = evenings.numbers(starts_s)
    order = np.lexsort((values, numbers))
    highest_s, highest = np.full((2, len(evenings)), np.nan)
    # Of the values of one evening the last written stays, which is the greatest.
    highest_s[numbers[order]], highest[numbers[order]] = times_s[order], values[order]
    return highest_s, highest
