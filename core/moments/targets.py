"""An evening's targets in their order, each with its own minutes in the owner's hours."""

from collections.abc import Callable
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.moments.best_minutes import (
    BestMinutes,
    as_one_run,
    find_best_minutes,
    joined,
    offered_windows,
    within,
)
from core.moments.details import Sharpness, details_along
from core.moments.hours import HoursOut
from core.moments.order import Target, order_targets
from core.moments.worth import FAINT_SHARE, LOWEST_DEG, step_worth
from core.sky.apparent import instant
from core.sky.bodies import Body
from core.sky.night import Night

Floats = NDArray[np.float64]

_PLANETS: Final = frozenset(Body) - {Body.SUN, Body.MOON}


@frozen(kw_only=True)
class TargetTime:
    """One target and its minutes: windows cut to them."""

    body: Body
    minutes: BestMinutes


def evening_targets(
    night: Night, *, hours: HoursOut, sharpness: Sharpness, in_hand: Body | None = None
) -> tuple[TargetTime, ...]:
    """Return every planet with 15 minutes of window in the hours, in an order without overlap.

    What sinks within the hours comes first; of all that stays up beyond them, what can be seen first (ours).
    The Moon is one where no planet is, or where it is the body ``in_hand``. A body in hand that is good only
    outside the hours comes last, at its best.
    """
    planets = _ordered(night, _PLANETS | ({in_hand} if in_hand else frozenset()), hours, sharpness)
    found = planets or _ordered(night, frozenset({Body.MOON}), hours, sharpness)
    if in_hand is None or any(target.body is in_hand for target in found):
        return found
    best = find_best_minutes(night, in_hand, hours=hours)
    return found if best is None else (*found, TargetTime(body=in_hand, minutes=best))


def _ordered(
    night: Night, bodies: frozenset[Body], hours: HoursOut, sharpness: Sharpness
) -> tuple[TargetTime, ...]:
    offered = {
        each.body: windows
        for each in night.bodies
        if each.body in bodies and (windows := offered_windows(night, each.body))
    }
    end_s = hours.end.timestamp()
    blocks = order_targets(
        [
            Target(
                key=body,
                windows_s=tuple((span.start.timestamp(), span.end.timestamp()) for span in joined(windows)),
                sinks_s=min(windows[-1].end.timestamp(), end_s),
                worth=_worth_of(night, body, sharpness),
            )
            # The order is kept among those that sink at the same time.
            for body, windows in sorted(offered.items(), key=lambda each: (each[1][0].start, each[1][-1].end))
        ],
        start_s=hours.start.timestamp(),
        end_s=end_s,
    )
    targets = []
    for block in blocks:
        inside = within(offered[block.key], instant(block.start_s), instant(block.end_s))
        targets.append(TargetTime(body=block.key, minutes=as_one_run(night.of(block.key), inside)))
    return tuple(targets)


def _worth_of(night: Night, body: Body, sharpness: Sharpness) -> Callable[[Floats], Floats]:
    def worth(unix_s: Floats) -> Floats:
        details, altitude_deg = details_along(night, body, unix_s, sharpness)
        return np.asarray(FAINT_SHARE.get(body, 1.0) * step_worth(details) * (altitude_deg >= LOWEST_DEG))

    return worth
