"""What an hour before or after the owner's own would give: one clause, where it would give much. Ours."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from typing import Final

from attrs import frozen

from core.moments.best_minutes import (
    SHORTEST_USEFUL,
    TOUCHING,
    BestMinutes,
    find_best_minutes,
    highest_within,
    is_worth_a_climb,
    minutes_of,
    offered_windows,
    rank_of,
    within,
)
from core.moments.hours import HoursOut
from core.moments.worth import BEST_STEPS, EveningWorth
from core.sky.bodies import Body
from core.sky.events import BEST_DEG, FAIR_DEG
from core.sky.night import Night
from core.sky.track import Position
from core.sky.windows import Window

# Worth telling is what gives nearly as much as the hours themselves, and half as much again as the same body
# gives in them.
_NEARLY_AS_MUCH: Final = 0.8
_MUCH_MORE: Final = 1.5
# All the steps that count at N = 6, twice what is worth nothing.
_LEAST: Final = BEST_STEPS * 0.69
# By so much one height is told from another.
AS_HIGH_DEG: Final = 4.0
_A_MINUTE: Final = timedelta(minutes=1)


@frozen(kw_only=True)
class Elsewhen:
    """A body that is good at another hour than the owner's own; ``is_earlier`` for one before them.

    ``is_before_dawn`` for one so late that whoever is not outside still rather gets up for it. ``higher`` is
    where the planet in hand stands then, which is still rising as the hours end.
    """

    body: Body
    start: datetime
    end: datetime
    is_earlier: bool
    is_before_dawn: bool = False
    higher: Position | None = None


def rising_on(night: Night, body: Body, *, hours: HoursOut) -> Position | None:
    """Return where a body stands highest after the hours, where it is still rising as they end.

    What the hours have of it is then but the best of them. None where it stands above 45 degrees in them
    already, or later hardly higher, or only in poorer air.
    """
    best = find_best_minutes(night, body, hours=hours)
    if best is None or not best.in_hours or abs(hours.end - best.end) > TOUCHING:
        return None
    here = highest_within(night, body, best)
    if here.time < best.end - _A_MINUTE or here.altitude_deg >= BEST_DEG:
        return None
    later = minutes_of(night.of(body), within(offered_windows(night, body), hours.end, night.end))
    if later is None or later.rank < best.rank:
        return None
    highest = highest_within(night, body, later)
    return highest if highest.altitude_deg - here.altitude_deg >= AS_HIGH_DEG else None


def find_elsewhen(
    night: Night,
    worths: Mapping[Body, EveningWorth],
    *,
    planet: Body,
    hours: HoursOut,
    since: datetime | None = None,
) -> Elsewhen | None:
    """Return what the hours outside the owner's would give much of, beside ``planet`` in them, or None.

    It must stand above 30 degrees in clean air for 20 minutes then; the Moon is never told. What is as good
    already in the hours, or now, is nothing to wait for. Where ``planet`` is still rising as the hours end,
    it is what whoever stays gains, unless another is worth more then. ``hours`` are as they were told;
    whoever looks at ``since`` after them is up anyway.
    """
    is_up = hours.are_over(since)
    left = hours if since is None else hours.held_open(since)
    in_hand = 0.0
    if planet in worths:
        # Whoever is up anyway has the rest of the night for the planet in hand too.
        in_hand = max(worths[planet].inside, worths[planet].later if is_up else 0.0)
    offers = [
        (worth, amount, is_earlier)
        for worth in worths.values()
        for amount, is_earlier in ((worth.later, False), (worth.earlier, True))
        if worth.body is not Body.MOON
        and amount >= max(_NEARLY_AS_MUCH * in_hand, _MUCH_MORE * worth.inside, _LEAST)
    ]
    itself = None if is_up or planet not in worths else _higher_later(night, planet, hours=hours, now=since)
    for worth, amount, is_earlier in sorted(offers, key=lambda offer: -offer[1]):
        if itself is not None and amount < worths[planet].later:
            break
        windows = offered_windows(night, worth.body, since=since)
        outside = (night.start, hours.start) if is_earlier else (left.end, night.end)
        best = minutes_of(night.of(worth.body), within(windows, *outside))
        if best is None or not is_worth_a_climb(best):
            continue
        start = best.start if is_earlier else _true_start(windows, best)
        if not is_earlier and left.end - start >= SHORTEST_USEFUL:
            continue
        if since is not None and start <= since:
            continue
        gets_up = hours.asks_to_get_up(start, night.site.zone, now=since)
        return Elsewhen(
            body=worth.body, start=start, end=best.end, is_earlier=is_earlier, is_before_dawn=gets_up
        )
    return itself


def _higher_later(night: Night, body: Body, *, hours: HoursOut, now: datetime | None) -> Elsewhen | None:
    """Return when a body stands highest that is still rising as the hours end, above 30 degrees then."""
    higher = rising_on(night, body, hours=hours)
    if higher is None or higher.altitude_deg < FAIR_DEG:
        return None
    return Elsewhen(
        body=body,
        start=higher.time,
        end=higher.time,
        is_earlier=False,
        is_before_dawn=hours.asks_to_get_up(higher.time, night.site.zone, now=now),
        higher=higher,
    )


def _true_start(windows: Sequence[Window], best: BestMinutes) -> datetime:
    """Return when minutes begin that were cut where the hours end, for they may be as good before."""
    start = best.start
    for window in reversed(windows):
        if window.start < start <= window.end + TOUCHING and rank_of(window) >= best.rank:
            start = window.start
    return start
