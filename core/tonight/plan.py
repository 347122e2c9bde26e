"""The evening in order: what to prepare, when each target is worth a look, and when to stop."""

import math
from collections.abc import Iterator
from datetime import datetime, timedelta
from enum import StrEnum

from attrs import frozen

from core.air.cooling import Readiness, estimate_cooling
from core.gear.owned import Telescope, TelescopeKind
from core.moments.best_minutes import BestMinutes, find_best_minutes, is_worth_a_climb, stop_time
from core.sky.bodies import Body
from core.sky.night import Grade, Night
from core.words.cooling import readiness_text, words_outside
from core.words.directions import compass_text
from core.words.names import opening
from core.words.site_clock import SiteClock

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

    ``title`` is a word or two for a strip under a chart, ``words`` one or more plain sentences. ``body`` is
    set for a target. ``caution`` marks words of safety.
    """

    kind: ItemKind
    start: datetime
    end: datetime
    title: str
    words: str
    body: Body | None = None
    caution: bool = False


def plan_evening(
    night: Night,
    scope: Telescope | None = None,
    *,
    planet: Body | None = None,
    readiness: Readiness | None = None,
    outside_since: datetime | None = None,
    clock: int = 24,
) -> tuple[EveningItem, ...]:
    """Return the evening's items: preparation, targets, the stop before sunrise.

    Preparation aims at the best minutes of ``planet``, or of the first target without one; a telescope
    without an estimate of its cooling is taken to start 17 °C too warm, and one that stands outside already
    (``outside_since``) is not told to be carried out. Targets are the planet in hand,
    and all others that stand above 30 degrees in clean air for 20 minutes. Nothing to see, nothing to do.
    """
    site_clock = SiteClock(zone=night.site.zone, hours=clock)
    best_of = {body.body: best for body in night.bodies if (best := find_best_minutes(night, body.body))}
    in_hand = best_of.get(planet) if planet is not None else None
    others = [
        (body, best)
        for body, best in sorted(best_of.items(), key=lambda each: each[1].start)
        if body not in (planet, Body.MOON) and is_worth_a_climb(best)
    ]
    targets = ([(planet, in_hand)] if planet is not None and in_hand is not None else []) + others
    if not targets:
        return ()
    first, best = targets[0]
    items: list[EveningItem] = []
    if scope is not None:
        items += _finder(night, scope, best.start, site_clock)
        cooling = readiness or estimate_cooling(scope)
        if outside_since is None:
            items += _cooling(night, cooling, first, best.start, site_clock)
        else:
            items += _outside(night, cooling, outside_since, site_clock)
    items += [_target(body, minutes, site_clock) for body, minutes in targets]
    items += _stop(night, targets[-1][1].start, site_clock)
    return tuple(items)


def _finder(night: Night, scope: Telescope, first_look: datetime, clock: SiteClock) -> Iterator[EveningItem]:
    """Yield when and how to align the finder: by day well away from the Sun, else on a lamp or a star."""
    if scope.kind is TelescopeKind.FIXED:
        return
    sunset = night.sun.set
    end = first_look if sunset is None else sunset - FINDER_ENDS_BEFORE_SUNSET
    start = end - FINDER_TAKES
    if sunset is None or start < night.start or end > first_look:
        yield EveningItem(
            kind=ItemKind.FINDER,
            start=max(first_look - FINDER_TAKES, night.start),
            end=first_look,
            title="Finder",
            words="Align the finder on a distant lamp or a bright star, at low power first.",
        )
        return
    azimuths_deg = [night.position(Body.SUN, moment).azimuth_deg for moment in (start, end)]
    # Going the short way round from one azimuth to the other, through north as well.
    turn_deg = (azimuths_deg[1] - azimuths_deg[0] + 180.0) % 360.0 - 180.0
    left_deg = azimuths_deg[0] + min(turn_deg, 0.0) - FINDER_FROM_SUN_DEG
    right_deg = azimuths_deg[0] + max(turn_deg, 0.0) + FINDER_FROM_SUN_DEG
    sun_at = compass_text(azimuths_deg[0] + turn_deg / 2)
    yield EveningItem(
        kind=ItemKind.FINDER,
        start=start,
        end=end,
        title="Finder",
        words=(
            "Align the finder in daylight on something distant on the ground, more than 30° from the Sun: "
            f"the Sun is in the {sun_at}, so nothing between azimuths {math.floor(left_deg) % 360}° and "
            f"{math.ceil(right_deg) % 360}°. End by {clock.time(end)}. "
            "Never turn telescope or finder towards the Sun: it blinds at once."
        ),
        caution=True,
    )


def _cooling(
    night: Night, readiness: Readiness, body: Body, first_look: datetime, clock: SiteClock
) -> Iterator[EveningItem]:
    """Yield when to carry the telescope out, so that even the slow end of the estimate is over in time."""
    minutes = readiness.slowest_minutes
    # One that never comes within 1 °C still gains from an hour outside.
    lead = timedelta(hours=1) if minutes is None else timedelta(minutes=minutes)
    out = max(first_look - lead, night.start)
    shade = _shade(night, out)
    words = f"Carry the telescope out by {clock.time(out)} for {body.label} at {clock.time(first_look)}."
    yield EveningItem(
        kind=ItemKind.CARRY_OUT,
        start=out,
        end=out,
        title="Carry out",
        words=f"{words}{shade} {readiness_text(readiness)}",
        caution=bool(shade),
    )
    if readiness.low_minutes is not None and not readiness.never:
        yield _ready(out + timedelta(minutes=readiness.low_minutes), first_look)


def _outside(night: Night, readiness: Readiness, since: datetime, clock: SiteClock) -> Iterator[EveningItem]:
    """Yield that the telescope stands outside, and when it is ready."""
    shade = _shade(night, since)
    yield EveningItem(
        kind=ItemKind.CARRY_OUT,
        start=since,
        end=since,
        title="Outside",
        words=f"{words_outside(readiness, since, clock)}{shade}",
        caution=bool(shade),
    )
    slowest = readiness.slowest_minutes
    if readiness.low_minutes is not None and slowest:
        yield _ready(since + timedelta(minutes=readiness.low_minutes), since + timedelta(minutes=slowest))


def _ready(start: datetime, end: datetime) -> EveningItem:
    return EveningItem(
        kind=ItemKind.READY,
        start=start,
        end=max(start, end),
        title="Ready",
        words="Within about 1 °C of the air somewhere in this time, by a rule of thumb.",
    )


def _shade(night: Night, out: datetime) -> str:
    """Return what is to be heeded by a telescope that goes out by day, nothing after sunset."""
    by_day = night.sun.set is not None and out < night.sun.set
    return " Until sunset it stands in the shade with its caps on." if by_day else ""


def _target(body: Body, best: BestMinutes, clock: SiteClock) -> EveningItem:
    grades = {window.grade for window in best.windows}
    height = "above 45°" if grades == {Grade.BEST} else "above 30°" if Grade.LOW not in grades else "low"
    then = "" if best.then is None else f", then {best.then}"
    return EveningItem(
        kind=ItemKind.TARGET,
        start=best.start,
        end=best.end,
        title=body.heading,
        words=f"{opening(body)} {clock.span(best.start, best.end)}, {height}{then}.",
        body=body,
    )


def _stop(night: Night, last_start: datetime, clock: SiteClock) -> Iterator[EveningItem]:
    stop, sunrise = stop_time(night), night.sun.rise
    if stop is None or sunrise is None or stop < last_start:
        return
    yield EveningItem(
        kind=ItemKind.STOP,
        start=stop,
        end=stop,
        title="Stop",
        words=(
            f"Off the planet by {clock.time(stop)}; the Sun rises at {clock.time(sunrise)}. "
            "Cap the telescope and its finder, and leave them capped while they stand out by day."
        ),
        caution=True,
    )
