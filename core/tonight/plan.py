"""The evening in order: what to prepare, when each target is worth a look, and when to stop."""

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from enum import StrEnum

from attrs import frozen

from core.air.readiness import Readiness, readiness_in_still_air
from core.gear.owned import Telescope, TelescopeKind
from core.moments.best_minutes import BestMinutes, stop_time
from core.moments.targets import TargetTime
from core.sky.bodies import Body
from core.sky.night import Night

# The finder is aligned in this time, which ends so long before sunset (common practice, safety).
FINDER_TAKES = timedelta(minutes=30)
FINDER_ENDS_BEFORE_SUNSET = timedelta(minutes=10)
# No target for the finder is nearer to the Sun than this (common practice, safety).
FINDER_FROM_SUN_DEG = 30.0


class ItemKind(StrEnum):
    """What an item of the evening is about."""

    FINDER = "finder"
    CARRY_OUT = "carry_out"
    READY = "ready"
    TARGET = "target"
    STOP = "stop"


@frozen(kw_only=True)
class EveningItem:
    """One item on the evening's time axis, from ``start`` to ``end`` (UTC); for a mere moment they are equal.

    ``caution`` marks what concerns safety.
    """

    kind: ItemKind
    start: datetime
    end: datetime
    caution: bool = False


@frozen(kw_only=True)
class FinderItem(EveningItem):
    """Aligning the finder; by day ``sun_azimuths_deg`` are the Sun's at both ends, else None."""

    kind: ItemKind = ItemKind.FINDER
    sun_azimuths_deg: tuple[float, float] | None


@frozen(kw_only=True)
class CarryOutItem(EveningItem):
    """Carrying the telescope out for a first target, or that it stands outside since then.

    ``in_shade`` says that the Sun is up then.
    """

    kind: ItemKind = ItemKind.CARRY_OUT
    is_outside: bool
    readiness: Readiness
    body: Body
    first_look: datetime
    in_shade: bool


@frozen(kw_only=True)
class TargetItem(EveningItem):
    """A body's own time in the order of the evening; ``is_chosen`` for the one in hand."""

    kind: ItemKind = ItemKind.TARGET
    body: Body
    best: BestMinutes
    is_chosen: bool = False


@frozen(kw_only=True)
class StopItem(EveningItem):
    """Off the planet, in time before the Sun rises."""

    kind: ItemKind = ItemKind.STOP
    sunrise: datetime


def plan_evening(
    night: Night,
    scope: Telescope | None = None,
    *,
    targets: Sequence[TargetTime] = (),
    in_hand: Body | None = None,
    readiness: Readiness | None = None,
    outside_since: datetime | None = None,
) -> tuple[EveningItem, ...]:
    """Return the evening's items: preparation, targets, the stop before sunrise.

    ``targets`` are in their order, the one ``in_hand`` is marked. Preparation is for the first; a telescope
    without an estimate of its cooling is taken to start 17 °C too warm, and one that stands outside already
    (``outside_since``) is not told to be carried out. Nothing to see, nothing to do.
    """
    if not targets:
        return ()
    first = min(targets, key=lambda target: target.minutes.start)
    first_look = first.minutes.start
    items: list[EveningItem] = []
    if scope is not None:
        items += _finder(night, scope, first_look)
        cooling = readiness or readiness_in_still_air(scope)
        items += _cooling(night, cooling, first.body, first_look, outside_since)
    items += [
        TargetItem(
            start=target.minutes.start,
            end=target.minutes.end,
            body=target.body,
            best=target.minutes,
            is_chosen=target.body is in_hand,
        )
        for target in targets
    ]
    items += _stop(night, max(target.minutes.start for target in targets))
    return tuple(items)


def _finder(night: Night, scope: Telescope, first_look: datetime) -> Iterator[EveningItem]:
    """Yield when to align the finder: by day, else on a lamp or a star just before the first look."""
    if scope.kind is TelescopeKind.FIXED:
        return
    sunset = night.sun.set
    end = first_look if sunset is None else sunset - FINDER_ENDS_BEFORE_SUNSET
    start = end - FINDER_TAKES
    if sunset is None or start < night.start or end > first_look:
        start = max(first_look - FINDER_TAKES, night.start)
        yield FinderItem(start=start, end=first_look, sun_azimuths_deg=None)
        return
    first_deg, last_deg = (night.position(Body.SUN, moment).azimuth_deg for moment in (start, end))
    yield FinderItem(start=start, end=end, sun_azimuths_deg=(first_deg, last_deg), caution=True)


def _cooling(
    night: Night, readiness: Readiness, body: Body, first_look: datetime, since: datetime | None
) -> Iterator[EveningItem]:
    """Yield when the telescope goes out, so that even the slow end of the estimate is over in time."""
    usable = readiness.usable
    lead = timedelta(minutes=readiness.lead_minutes)
    out = max(first_look - lead, night.start) if since is None else since
    in_shade = night.sun.set is not None and out < night.sun.set
    yield CarryOutItem(
        start=out,
        end=out,
        is_outside=since is not None,
        readiness=readiness,
        body=body,
        first_look=first_look,
        in_shade=in_shade,
        caution=in_shade,
    )
    if readiness.never or (readiness.is_ready_at_once and since is not None):
        return
    start = out + timedelta(minutes=usable.low_minutes)
    end = first_look if since is None else out + timedelta(minutes=usable.high_minutes)
    yield EveningItem(kind=ItemKind.READY, start=start, end=max(start, end))


def _stop(night: Night, last_start: datetime) -> Iterator[EveningItem]:
    stop, sunrise = stop_time(night), night.sun.rise
    if stop is not None and sunrise is not None and stop >= last_start:
        yield StopItem(start=stop, end=stop, sunrise=sunrise, caution=True)
