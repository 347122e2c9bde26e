"""What is due now or in a few minutes, so that nobody misses it at the eyepiece; each notice expires.

How long before and after each is told is ours.
"""

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Final

from attrs import frozen

from core.moments.best_minutes import TOUCHING, offered_windows
from core.moments.last_call import last_call
from core.sky.bodies import Body
from core.sky.events import BEST_DEG, FAIR_DEG
from core.sky.night import Night
from core.sky.red_spot import WELL_PLACED_MINUTES
from core.sky.track import Position
from core.sky.windows import Window
from core.tonight.steps import ESTIMATES, MOMENT_LASTS, CarryOutItem, EveningItem, ItemKind

if TYPE_CHECKING:
    from core.looks.happenings import Happenings
    from core.sky.moons import MoonEvent

STEP_BEFORE: Final = timedelta(minutes=5)
SIGHT_BEFORE: Final = timedelta(minutes=10)
LASTS: Final = timedelta(minutes=5)
_SPOT_WELL_PLACED: Final = timedelta(minutes=WELL_PLACED_MINUTES)


@frozen(kw_only=True)
class Due:
    """One thing that happens at ``at`` (aware), as it is told at ``now``."""

    at: datetime
    now: datetime

    @property
    def is_to_come(self) -> bool:
        """Whether it is still to come."""
        return self.at > self.now


@frozen(kw_only=True)
class StepDue(Due):
    """A step of the evening that is not done."""

    item: EveningItem


@frozen(kw_only=True)
class CrossingDue(Due):
    """The body in hand has crossed 45 or 30 degrees (geometric)."""

    body: Body
    level_deg: float
    is_rising: bool


@frozen(kw_only=True)
class HiddenDue(Due):
    """The body in hand goes behind something."""

    body: Body
    what: str


@frozen(kw_only=True)
class WarmAirDue(Due):
    """The body in hand is seen through warm air from then on."""

    body: Body
    what: str


@frozen(kw_only=True)
class TransitDue(Due):
    """The body in hand stands highest."""

    body: Body
    position: Position


@frozen(kw_only=True)
class MoonEventDue(Due):
    """Something begins between Jupiter and one of its moons."""

    event: "MoonEvent"


@frozen(kw_only=True)
class RedSpotDue(Due):
    """The red spot has come round the edge; it is in the middle at ``middle``."""

    middle: datetime
    is_old: bool


def notices_due(
    night: Night,
    body: Body | None,
    *,
    now: datetime,
    steps: Sequence[EveningItem] = (),
    happenings: "Happenings | None" = None,
) -> tuple[Due, ...]:
    """Return what is due at a moment of the evening, the most pressing first; near sunrise nothing at all.

    ``happenings`` are those of the body in hand. What is about a body is told only while it is offered.
    """
    if last_call(night, now) is not None:
        return ()
    to_do = tuple(_steps(steps, now))
    if body is None:
        return to_do
    windows = offered_windows(night, body)
    return (
        *_sight(night, body, windows, now),
        *to_do,
        *_heights(night, body, windows, now),
        *_events(happenings, windows, now),
    )


def _sight(night: Night, body: Body, windows: Sequence[Window], now: datetime) -> Iterator[Due]:
    """Yield what comes between in the next ten minutes."""
    for window in windows:
        for span in night.of(body).blocked:
            if abs(span.start - window.end) <= TOUCHING and _is_near(window.end, now, SIGHT_BEFORE):
                yield HiddenDue(at=window.end, now=now, body=body, what=span.what)
        is_into_warmth = window.warm_air is not None and any(
            other.warm_air is None and abs(other.end - window.start) <= TOUCHING for other in windows
        )
        if window.warm_air is not None and is_into_warmth and _is_near(window.start, now, SIGHT_BEFORE):
            yield WarmAirDue(at=window.start, now=now, body=body, what=window.warm_air)


def _steps(steps: Sequence[EveningItem], now: datetime) -> Iterator[Due]:
    """Yield what is to be done, the last to begin first; the stop line has words of its own.

    What is put off from minute to minute, as the telescope is not said to be out, is in the list, and enough.
    """
    put_off = {item.start for item in steps if isinstance(item, CarryOutItem) and item.is_late}
    for item in reversed(steps):
        if item.is_done or item.kind in ESTIMATES or item.kind is ItemKind.STOP:
            continue
        if item.start in put_off:
            continue
        if item.start - STEP_BEFORE <= now < item.start + MOMENT_LASTS:
            yield StepDue(at=item.start, now=now, item=item)


def _heights(night: Night, body: Body, windows: Sequence[Window], now: datetime) -> Iterator[Due]:
    found = night.of(body)
    for level_deg, spans in ((BEST_DEG, found.above_45), (FAIR_DEG, found.above_30)):
        for span in spans:
            for at, is_rising in ((span.start, True), (span.end, False)):
                if _has_just_been(at, now) and _are_open(windows, at):
                    yield CrossingDue(at=at, now=now, body=body, level_deg=level_deg, is_rising=is_rising)
    for position in found.transits:
        if _has_just_been(position.time, now) and _are_open(windows, position.time):
            yield TransitDue(at=position.time, now=now, body=body, position=position)


def _events(happenings: "Happenings | None", windows: Sequence[Window], now: datetime) -> Iterator[Due]:
    if happenings is None:
        return
    for event in happenings.events_to_see:
        if event.start_seen and _has_just_been(event.start, now) and _are_open(windows, event.start):
            yield MoonEventDue(at=event.start, now=now, event=event)
    spot = happenings.red_spot
    for middle in () if spot is None else spot.times:
        at = middle - _SPOT_WELL_PLACED
        if spot is not None and _has_just_been(at, now) and _are_open(windows, at):
            yield RedSpotDue(at=at, now=now, middle=middle, is_old=spot.is_old)


def _is_near(at: datetime, now: datetime, before: timedelta) -> bool:
    return at - before <= now < at


def _has_just_been(at: datetime, now: datetime) -> bool:
    """Tell whether something came in the last few minutes; ``now`` is a full minute."""
    return at - timedelta(minutes=1) < now < at + LASTS


def _are_open(windows: Sequence[Window], at: datetime) -> bool:
    """Tell whether a moment lies in any of the windows, their ends included."""
    return any(window.start - TOUCHING <= at <= window.end + TOUCHING for window in windows)
