"""When a body is behind a site's blocked sky, over many evenings together."""

from collections.abc import Callable
from functools import reduce
from typing import Final

import numpy as np
from numpy.typing import NDArray

from core.air.atmosphere import apparent_altitude_deg
from core.arrays import Floats, Truths
from core.sky.bodies import Body
from core.sky.site import Site
from core.sky.viewpoint import Viewpoint

# What a body passes behind in less than this may be missed; edges are halved down to half a second.
_SAMPLE_S: Final = 300.0
_HALVINGS: Final = 10


def spans_behind_obstacles(site: Site, viewpoint: Viewpoint, body: Body, within_s: Floats) -> Floats:
    """Return the spans (M, 2), of those given (N, 2), in which a body is behind any blocked sky of a site.

    Unix seconds; the given spans are in order and apart.
    """
    if not site.blocked or len(within_s) == 0:
        return np.empty((0, 2))

    def is_hidden(unix_s: Floats) -> Truths:
        direction = viewpoint.direction(body, unix_s)
        apparent_deg = apparent_altitude_deg(direction.altitude_deg, elevation_m=site.elevation_m)
        behind = (
            sector.spans(direction.azimuth_deg) & (apparent_deg < sector.below_altitude_deg)
            for sector in site.blocked
        )
        return reduce(np.logical_or, behind)

    times_s, of_span = _samples(within_s)
    hidden = is_hidden(times_s)
    here = np.flatnonzero((hidden[1:] != hidden[:-1]) & (of_span[1:] == of_span[:-1]))
    edges_s = _halved(is_hidden, times_s[here], times_s[here + 1], hidden[here])
    first = np.flatnonzero(np.diff(of_span, prepend=-1))
    last = np.append(first[1:], len(times_s)) - 1
    starts_s = np.concatenate([times_s[first][hidden[first]], edges_s[~hidden[here]]])
    ends_s = np.concatenate([edges_s[hidden[here]], times_s[last][hidden[last]]])
    return np.column_stack([np.sort(starts_s), np.sort(ends_s)])


def _samples(spans_s: Floats) -> tuple[Floats, NDArray[np.intp]]:
    """Return times at even steps through each span, both ends included, and the number of its span."""
    lengths_s = spans_s[:, 1] - spans_s[:, 0]
    steps = np.maximum(np.ceil(lengths_s / _SAMPLE_S).astype(np.intp), 1)
    of_span = np.repeat(np.arange(len(spans_s)), steps + 1)
    place = np.arange(len(of_span)) - np.repeat(np.cumsum(steps + 1) - steps - 1, steps + 1)
    return spans_s[of_span, 0] + lengths_s[of_span] * (place / steps[of_span]), of_span


def _halved(
    is_hidden: Callable[[Floats], Truths],
    before_s: Floats,
    after_s: Floats,
    was_hidden: Truths,
) -> Floats:
    """Return where it changes whether a body is hidden, between times before and after (N,)."""
    for _ in range(_HALVINGS if len(before_s) else 0):
        middle_s = (before_s + after_s) / 2.0
        same = is_hidden(middle_s) == was_hidden
        before_s = np.where(same, middle_s, before_s)
        after_s = np.where(same, after_s, middle_s)
    return after_s
