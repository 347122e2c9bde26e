"""Bodies that stand so close together in an evening that one field of view may hold both."""

from collections.abc import Sequence
from datetime import datetime
from itertools import combinations
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats, Truths
from core.moments.best_minutes import offered_windows
from core.sky.angles import angle_between_deg
from core.sky.bodies import Body
from core.sky.instant import instant
from core.sky.night import BodyNight, Night

# The lowest powers of most telescopes show about so much of the sky (ours).
CLOSE_DEG: Final = 2.0


@frozen(kw_only=True)
class ClosePair:
    """Two bodies at their closest while both can be looked at.

    ``separation_deg`` is the angle between their centres as seen from the site; ``across_deg`` is how wide a
    field must be to hold both discs whole.
    """

    a: Body
    b: Body
    separation_deg: float
    across_deg: float
    at: datetime


def close_pairs(night: Night) -> tuple[ClosePair, ...]:
    """Return every two bodies of an evening under 2 degrees apart, in the order of time.

    Only minutes in windows of both count, none later than the stop before sunrise; the closest is told to
    the minute.
    """
    seen = [(body, inside) for body in night.bodies if (inside := _is_offered(night, body)).any()]
    found = (_closest(one, other) for one, other in combinations(seen, 2))
    return tuple(sorted(filter(None, found), key=lambda pair: pair.at))


_Seen = tuple[BodyNight, Truths]


def _is_offered(night: Night, body: BodyNight) -> Truths:
    """Tell of each sample of a body's track whether it can be looked at then."""
    windows = offered_windows(night, body.body)
    spans = [(window.start.timestamp(), window.end.timestamp()) for window in windows]
    return _within(body.track.unix_s, spans)


def _within(unix_s: Floats, spans_s: Sequence[tuple[float, float]]) -> Truths:
    inside = np.zeros(unix_s.shape, dtype=bool)
    for start_s, end_s in spans_s:
        inside |= (unix_s >= start_s) & (unix_s < end_s)
    return inside


def _closest(one: _Seen, other: _Seen) -> ClosePair | None:
    (a, a_offered), (b, b_offered) = one, other
    # All tracks of an evening have the same times.
    both = a_offered & b_offered
    if not both.any():
        return None
    apart_deg = angle_between_deg(
        *(a.track.altitude_deg[both], a.track.azimuth_deg[both]),
        *(b.track.altitude_deg[both], b.track.azimuth_deg[both]),
    )
    least = int(np.argmin(apart_deg))
    separation_deg = float(apart_deg[least])
    if separation_deg >= CLOSE_DEG:
        return None
    return ClosePair(
        a=a.body,
        b=b.body,
        separation_deg=separation_deg,
        across_deg=separation_deg + (a.diameter_arcsec + b.diameter_arcsec) / 2.0 / 3600.0,
        at=instant(a.track.unix_s[both][least]),
    )
