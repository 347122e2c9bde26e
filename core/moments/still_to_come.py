"""What is still to come of a body's best minutes at a moment of the evening.

The best minutes are those of the whole evening, whatever the hour: they do not begin anew with each minute
that goes by. Once the owner's hours are over, whoever looks is outside all the same, and the rest of the
night counts. Ours.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Final

from attrs import evolve, frozen

from core.moments.best_minutes import (
    SHORTEST_USEFUL,
    TOUCHING,
    BestMinutes,
    as_one_run,
    find_best_minutes,
    minutes_of,
    offered_windows,
    rank_of,
    within,
)
from core.moments.hours import HoursOut
from core.sky.bodies import Body
from core.sky.night import Night
from core.sky.windows import Window


@frozen(kw_only=True)
class StillToCome:
    """The best minutes from a moment on.

    ``best`` are what is left of them; once they are over, the best of the rest; None where nothing is left.
    ``past_since`` is when the best ended where only poorer ones are left. ``better`` are the best minutes of
    the night where those lie later, and now is but the best of a poorer time.
    """

    best: BestMinutes | None
    past_since: datetime | None = None
    better: BestMinutes | None = None


# For what is best within so long one waits, and is told only that (ours).
_SOON_ENOUGH: Final = timedelta(minutes=45)
NOTHING: Final = StillToCome(best=None)


def still_to_come(night: Night, body: Body, *, now: datetime | None, hours: HoursOut) -> StillToCome:
    """Return what is still to come of a body's best minutes; ``now`` is None for another evening."""
    if now is None:
        return StillToCome(best=find_best_minutes(night, body, hours=hours))
    rest = offered_windows(night, body, since=now)
    if not rest:
        return NOTHING
    if hours.are_over(now):
        return _after_hours(night, body, rest, now, hours)
    whole, left = find_best_minutes(night, body, hours=hours), hours.held_open(now)
    assert whole is not None  # there is something left of it
    if now < whole.start:
        return StillToCome(best=whole)
    if whole.holds(now):
        best = _from(whole, now)
        return StillToCome(best=best, better=_better(night, body, rest, best))
    after = _good_still(night, body, rest, whole, now) or find_best_minutes(
        night, body, since=now, hours=left
    )
    assert after is not None
    is_poorer = whole.in_hours and after.rank < whole.rank
    return StillToCome(
        best=after,
        past_since=_good_until(night, body, whole, now) if is_poorer else None,
        better=_better(night, body, rest, after) if after.holds(now) else None,
    )


def waiting(
    night: Night, body: Body, to_come: StillToCome, *, now: datetime | None, hours: HoursOut
) -> StillToCome:
    """Return the same for a body that is looked at in the hours although its best is long to come.

    What it is like now comes before the best then; where it is not up, nothing changes.
    """
    best = to_come.best
    if now is None or best is None or not hours.holds(now) or best.start - now <= _SOON_ENOUGH:
        return to_come
    first = _as_good_as_now(within(offered_windows(night, body, since=now), now, best.start), now)
    if not first or rank_of(first[0]) >= best.rank:
        return to_come
    return StillToCome(best=as_one_run(night.of(body), first), better=best)


def _after_hours(
    night: Night, body: Body, rest: Sequence[Window], now: datetime, hours: HoursOut
) -> StillToCome:
    whole = find_best_minutes(night, body)
    assert whole is not None
    if whole.holds(now):
        return StillToCome(best=_from(whole, now))
    if now < whole.start:
        first = _as_good_as_now(within(rest, now, whole.start), now)
        if first:
            return StillToCome(best=as_one_run(night.of(body), first), better=whole)
        return StillToCome(best=evolve(whole, in_hours=whole.start < hours.held_open(now).end))
    after = _good_still(night, body, rest, whole, now) or minutes_of(night.of(body), rest)
    assert after is not None
    is_poorer = after.rank < whole.rank
    return StillToCome(best=after, past_since=_good_until(night, body, whole, now) if is_poorer else None)


def _good_still(
    night: Night, body: Body, rest: Sequence[Window], whole: BestMinutes, now: datetime
) -> BestMinutes | None:
    """Return what is left of another time as good as the best, however short it is; None without one."""
    first = _as_good_as_now(rest, now)
    is_good = bool(first) and first[0].start <= now and rank_of(first[0]) >= whole.rank
    return as_one_run(night.of(body), first) if is_good else None


def _good_until(night: Night, body: Body, whole: BestMinutes, now: datetime) -> datetime:
    """Return when it was last as good as in the best minutes, before now."""
    good = (window.end for window in offered_windows(night, body) if rank_of(window) >= whole.rank)
    return max((end for end in good if whole.end < end <= now), default=whole.end)


def _from(best: BestMinutes, now: datetime) -> BestMinutes:
    return evolve(best, windows=within(best.windows, now, best.end))


def _as_good_as_now(rest: Sequence[Window], now: datetime) -> tuple[Window, ...]:
    """Return the windows that are open now and go on, equally good; none where nothing is open."""
    found: list[Window] = []
    for window in rest:
        end = found[-1].end if found else now
        if window.start - end > TOUCHING or (found and rank_of(window) != rank_of(found[0])):
            break
        found.append(window)
    return tuple(found)


def _better(night: Night, body: Body, rest: Sequence[Window], best: BestMinutes) -> BestMinutes | None:
    """Return the best minutes of the rest of the night where they begin later and are better."""
    found = minutes_of(night.of(body), rest)
    if found is None or found.rank <= best.rank or found.duration < SHORTEST_USEFUL:
        return None
    return found if found.start > best.start else None
