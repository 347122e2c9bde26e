"""What happens next to the view of a body: it comes, goes behind something, or it is time to stop."""

from datetime import datetime
from enum import StrEnum
from itertools import pairwise
from typing import Final

from attrs import frozen

from core.moments.best_minutes import TOUCHING, offered_windows, stop_time
from core.sky.bodies import Body
from core.sky.events import LOWEST_USEFUL_DEG
from core.sky.night import Night
from core.sky.windows import Grade, Window

_ROUNDED_DEG: Final = 0.02


class ViewChange(StrEnum):
    """How the view of a body changes."""

    COMES = "comes"
    BEHIND = "behind"
    WARM_AIR = "warm_air"
    CLEAR_AIR = "clear_air"
    LOW = "low"
    HIGH_ENOUGH = "high_enough"
    TOO_LOW = "too_low"
    BRIGHT_SKY = "bright_sky"
    STOP = "stop"


@frozen(kw_only=True)
class NextChange:
    """The next change of the view and when it is (UTC); ``what`` names what hides it or warms the air."""

    kind: ViewChange
    at: datetime
    what: str = ""


def next_change(night: Night, body: Body, now: datetime) -> NextChange | None:
    """Return what happens next to the view of a body from a moment on (aware), None when all is over.

    From 45 degrees to under it is no change worth a word, from 30 degrees to under it or above it is one
    (common practice).
    """
    windows = offered_windows(night, body, since=now)
    if not windows:
        return None
    if windows[0].start > now:
        return NextChange(kind=ViewChange.COMES, at=windows[0].start)
    for window, after in pairwise(windows):
        if after.start - window.end > TOUCHING:
            return _end_of(night, body, window)
        if after.warm_air != window.warm_air:
            if after.warm_air is not None:
                return NextChange(kind=ViewChange.WARM_AIR, at=after.start, what=after.warm_air)
            return NextChange(kind=ViewChange.CLEAR_AIR, at=after.start)
        if (after.grade is Grade.LOW) is not (window.grade is Grade.LOW):
            kind = ViewChange.LOW if after.grade is Grade.LOW else ViewChange.HIGH_ENOUGH
            return NextChange(kind=kind, at=after.start)
    return _end_of(night, body, windows[-1])


def _end_of(night: Night, body: Body, window: Window) -> NextChange:
    """Return what ends a window that no other follows."""
    end = window.end
    if end == stop_time(night):
        return NextChange(kind=ViewChange.STOP, at=end)
    for span in night.of(body).blocked:
        if abs(span.start - end) <= TOUCHING:
            return NextChange(kind=ViewChange.BEHIND, at=end, what=span.what)
    is_low = night.position(body, end).altitude_deg < LOWEST_USEFUL_DEG + _ROUNDED_DEG
    return NextChange(kind=ViewChange.TOO_LOW if is_low else ViewChange.BRIGHT_SKY, at=end)
