"""The evening in order: what to prepare, when each target is worth a look, and when to stop."""

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from typing import Final

from attrs import evolve

from core.air.dew_outlook import DewOutlook
from core.air.readiness import Readiness, readiness_in_still_air
from core.gear.owned import Telescope
from core.moments.best_minutes import stop_time
from core.moments.targets import TargetTime
from core.sky.bodies import Body
from core.sky.night import Night
from core.tonight.preparation import Preparing, preparation
from core.tonight.steps import (
    UNMARKED,
    CarryOutItem,
    EveningItem,
    ItemKind,
    Marks,
    OwnItem,
    StopItem,
    TargetItem,
)

_ORDER: Final = tuple(ItemKind)
# Whoever is still outside so long before the stop line is told by it to cap the telescope (ours).
_STOP_TELLS_IT: Final = timedelta(minutes=30)


def plan_evening(
    night: Night,
    scope: Telescope | None = None,
    *,
    targets: Sequence[TargetTime] = (),
    in_hand: Body | None = None,
    readiness: Readiness | None = None,
    outside_since: datetime | None = None,
    dew: DewOutlook | None = None,
    owns_filters: bool = False,
    marks: Marks = UNMARKED,
    now: datetime | None = None,
) -> tuple[EveningItem, ...]:
    """Return the evening's steps by their times: preparation, targets, the stop before sunrise.

    The target ``in_hand`` is marked. Preparation is for the first; a telescope without an estimate of its
    cooling is taken to start 17 °C too warm, and one that stands outside already (``outside_since``) is not
    told to be carried out. ``marks`` are what the owner ticked off, moved and added. Nothing to see, nothing
    to do but what the owner added.
    """
    items: list[EveningItem] = [
        OwnItem(start=step.at, end=step.at, step=step) for step in marks.own if night.holds(step.at)
    ]
    if targets:
        first = min(targets, key=lambda target: target.minutes.start)
        if scope is not None:
            items += preparation(
                Preparing(
                    night=night,
                    scope=scope,
                    readiness=readiness or readiness_in_still_air(scope),
                    body=first.body,
                    first_look=first.minutes.start,
                    last_look=max(target.minutes.end for target in targets),
                    outside_since=outside_since,
                    dew=dew,
                    owns_filters=owns_filters,
                    warm=_warm_things(night),
                    marks=marks,
                    now=now,
                )
            )
            items += _pack_up(night, max(target.minutes.end for target in targets), marks)
        items += _targets(targets, in_hand)
        items += _stop(night, max(target.minutes.end for target in targets), now)
    marked = [
        evolve(
            item,
            is_done=item.key in marks.done or (isinstance(item, CarryOutItem) and item.is_outside),
            is_moved=item.can_be_moved and item.key in marks.moved,
        )
        for item in items
    ]
    return tuple(sorted(marked, key=lambda item: (item.start, _ORDER.index(item.kind))))


def _targets(targets: Sequence[TargetTime], in_hand: Body | None) -> Iterator[TargetItem]:
    for target in targets:
        minutes = target.minutes
        yield TargetItem(
            start=minutes.start,
            end=minutes.end,
            body=target.body,
            best=minutes,
            is_chosen=target.body is in_hand,
        )


def _pack_up(night: Night, last_look: datetime, marks: Marks) -> Iterator[EveningItem]:
    """Yield going in, where that comes well before the stop line, which tells the same."""
    stop = stop_time(night)
    start = marks.time_of(ItemKind.PACK_UP, night) or last_look
    if stop is None or start < stop - _STOP_TELLS_IT:
        yield EveningItem(kind=ItemKind.PACK_UP, start=start, end=start, caution=True)


def _stop(night: Night, last_look: datetime, now: datetime | None) -> Iterator[EveningItem]:
    """Yield the stop line for whoever is outside until shortly before it, or is outside still."""
    stop, sunrise = stop_time(night), night.sun.rise
    if stop is None or sunrise is None or last_look > sunrise:
        return
    if last_look >= stop - _STOP_TELLS_IT or (now is not None and now > last_look):
        yield StopItem(start=stop, end=stop, sunrise=sunrise, caution=True)


def _warm_things(night: Night) -> tuple[str, ...]:
    """Return what warms the air above a site, by the names that its owner gave."""
    site = night.site
    things = [blocked.what for blocked in site.blocked if blocked.heated]
    things += [warm.what for warm in site.warm_air]
    return tuple(dict.fromkeys(name.strip() for name in things if name.strip()))
