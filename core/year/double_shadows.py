"""When the shadows of two of Jupiter's moons lie on its face at once, as far as a site sees it."""

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from itertools import combinations
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats, runs
from core.sky.bodies import Body
from core.sky.events import LOWEST_USEFUL_DEG
from core.sky.instant import instant
from core.sky.moons import Moon, shadow_spans
from core.sky.spans import intersect
from core.sky.viewpoint import Viewpoint
from core.year.behind_obstacles import spans_behind_obstacles
from core.year.outlook import BodyOutlook

# So many are told, and looked for on no more than so many evenings on which Jupiter is up in a dark sky.
_TOLD: Final = 3
_MOST_EVENINGS: Final = 120
_AT_A_TIME: Final = 6
# What is seen of one for less than this is not told (ours).
_SHORTEST_S: Final = 600.0
_SAMPLE_S: Final = 120.0


@frozen(kw_only=True)
class DoubleShadow:
    """Two shadows at once, from ``start`` to ``end`` (aware UTC), as far as that is seen from a site."""

    moons: tuple[Moon, Moon]
    start: datetime
    end: datetime


def next_double_shadows(
    outlook: BodyOutlook, dark_below_deg: float, *, between: Callable[[], None]
) -> tuple[DoubleShadow, ...]:
    """Return the next few of an outlook of Jupiter, in order, seen for ten minutes or more.

    Jupiter stands above 10 degrees then, the Sun below an altitude, and nothing of the site's blocked sky is
    before it. Three shadows at once count as pairs. ``between`` is called after every few evenings;
    whatever it raises stops the work.
    """
    found: list[DoubleShadow] = []
    numbers = np.flatnonzero(outlook.best_altitude_deg >= LOWEST_USEFUL_DEG)[:_MOST_EVENINGS]
    for first in range(0, len(numbers), _AT_A_TIME):
        for run_s in _joined(outlook.evenings.spans_s[numbers[first : first + _AT_A_TIME]]):
            found += _within(outlook, run_s, dark_below_deg)
        between()
        if len(found) >= _TOLD:
            break
    return tuple(sorted(found, key=lambda each: each.start)[:_TOLD])


def _joined(spans_s: Floats) -> Iterator[tuple[float, float]]:
    """Yield evenings that follow one another as one span."""
    breaks = np.flatnonzero(spans_s[1:, 0] > spans_s[:-1, 1]) + 1
    for run in np.split(spans_s, breaks):
        yield float(run[0, 0]), float(run[-1, 1])


def _within(
    outlook: BodyOutlook, run_s: tuple[float, float], dark_below_deg: float
) -> Iterator[DoubleShadow]:
    start, end = (datetime.fromtimestamp(each, UTC) for each in run_s)
    by_moon = shadow_spans(start, end)
    for one, other in combinations(Moon, 2):
        for both_s in intersect(by_moon[one], by_moon[other]):
            for seen_s in _seen(outlook, both_s, dark_below_deg):
                yield DoubleShadow(moons=(one, other), start=instant(seen_s[0]), end=instant(seen_s[1]))


def _seen(outlook: BodyOutlook, span_s: Floats, dark_below_deg: float) -> Iterator[Floats]:
    """Yield what of a span is seen from the site, to two minutes."""
    site = outlook.evenings.site
    viewpoint = Viewpoint.of(site)
    times_s = np.linspace(span_s[0], span_s[1], max(int((span_s[1] - span_s[0]) / _SAMPLE_S), 1) + 1)
    is_seen = viewpoint.direction(Body.JUPITER, times_s).altitude_deg >= LOWEST_USEFUL_DEG
    is_seen &= viewpoint.direction(Body.SUN, times_s).altitude_deg < dark_below_deg
    for hidden_s in spans_behind_obstacles(site, viewpoint, Body.JUPITER, span_s[np.newaxis]):
        is_seen &= (times_s < hidden_s[0]) | (times_s > hidden_s[1])
    for run in runs(np.flatnonzero(is_seen)):
        if times_s[run[-1]] - times_s[run[0]] >= _SHORTEST_S:
            yield times_s[run[[0, -1]]]
