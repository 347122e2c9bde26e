"""An evening's targets in their order, each with its own minutes in the owner's hours."""

import math
from collections.abc import Callable, Mapping, Sequence
from datetime import timedelta
from typing import Final

import numpy as np
from attrs import evolve, frozen

from core.arrays import Floats
from core.moments.best_minutes import (
    WORTH_A_CLIMB,
    BestMinutes,
    as_one_run,
    find_best_minutes,
    is_worth_a_climb,
    joined,
    offered_windows,
    rank_of,
    within,
)
from core.moments.details import Sharpness, details_along
from core.moments.hours import HoursOut
from core.moments.order import SHORTEST_STEPS, Block, Target, order_targets
from core.moments.order import STEP_S as ORDER_STEP_S
from core.moments.worth import (
    BEST_STEPS,
    FAINT_SHARE,
    LEAST_DETAILS,
    LOWEST_DEG,
    STEP_S,
    step_times_s,
    step_worth,
)
from core.sky.bodies import PLANETS, Body
from core.sky.events import FAIR_DEG
from core.sky.instant import instant
from core.sky.night import Night
from core.sky.track import Track
from core.sky.windows import Grade, Window

# A look is enough after so long, as in the worth of an evening; small faint discs tire sooner.
_ENOUGH_S: Final = BEST_STEPS * STEP_S
_ENOUGH_FAINT_S: Final = 1800.0
# The worth of a body beside the best one is never less than this, and follows this power of its details.
_LEAST_SHARE: Final = 0.3
# A look at the evening's best outside its best minutes is worth so much of one in them, so that its turn
# falls among those that are told.
_BESIDE_THE_BEST: Final = 0.8
# Through warm air a look is worth so much of one in clean air at the same height.
_THROUGH_WARM_AIR: Final = 0.2
_FALLS_OFF: Final = 3.0
# The end of a block and that of the best minutes are told as one from so near, where each block keeps this.
_NEAR_S: Final = 600.0
_SHORTEST_S: Final = SHORTEST_STEPS * ORDER_STEP_S
# What rises no higher by the end of the hours, and stands well later, is no target yet.
_HARDLY_RISEN_DEG: Final = 20.0
# Nor is what shows no more than a dot, and stays lower than this.
_DOT_LOWEST_DEG: Final = 18.0
# Nor a faint one lower than that.
_FAINT_LOWEST_DEG: Final = 25.0


@frozen(kw_only=True)
class TargetTime:
    """One target and its minutes: windows cut to them."""

    body: Body
    minutes: BestMinutes


def evening_targets(
    night: Night,
    *,
    hours: HoursOut,
    sharpness: Sharpness,
    in_hand: Body | None = None,
    kept: Body | None = None,
) -> tuple[TargetTime, ...]:
    """Return every planet with 15 minutes of window in the hours, in an order without overlap.

    Each has its turn near its own best, where that costs a better one little, and one that shows no more than
    a dot leaves a better one its time while it stands well itself. One that comes up only in the last of the
    hours, under 20 degrees, and stands well later in the night, is left for then; under 30 degrees too, or a
    dot under 45, where a better one has its best minutes meanwhile. Nor is a dot one that stays under 18
    degrees, a faint one 25, and while it rises to 30 and more it waits until it is there.

    Of orders that are worth the same, what sinks within the hours comes first, then what can be seen first
    (ours).
    The Moon is one where no planet is, or where it is ``kept``: that body is never left out. A body
    ``in_hand`` that is not among them comes last, at its best.
    """
    wanted = frozenset(PLANETS) | ({kept} if kept else frozenset())
    found = _ordered(night, wanted, hours, sharpness, kept) or _ordered(
        night, frozenset({Body.MOON}), hours, sharpness, kept
    )
    if in_hand is None or any(target.body is in_hand for target in found):
        return found
    best = find_best_minutes(night, in_hand)
    if best is None:
        return found
    minutes = evolve(best, in_hours=hours.start <= best.start and best.end <= hours.end)
    return (*found, TargetTime(body=in_hand, minutes=minutes))


def _ordered(
    night: Night, bodies: frozenset[Body], hours: HoursOut, sharpness: Sharpness, kept: Body | None
) -> tuple[TargetTime, ...]:
    seen = {
        each.body: windows
        for each in night.bodies
        if each.body in bodies and (windows := offered_windows(night, each.body))
    }
    end_s = hours.end.timestamp()
    looks = {body: _Looks.of(night, body, seen[body], hours, sharpness) for body in seen}
    offered = {
        body: windows if body is kept or not looks[body].is_dot else _once_well_up(night, body, windows)
        for body, windows in seen.items()
        if body is kept or not _is_left_out(night, body, seen, hours, looks)
    }
    most = max((each.worth_at_best for each in looks.values()), default=0.0)
    blocks = order_targets(
        [
            Target(
                key=body,
                windows_s=tuple((span.start.timestamp(), span.end.timestamp()) for span in joined(windows)),
                sinks_s=min(windows[-1].end.timestamp(), end_s),
                worth=looks[body].worth_beside(most),
                enough_s=_ENOUGH_FAINT_S if body in FAINT_SHARE else _ENOUGH_S,
                best_s=_best_span_s(looks[body].best, windows, hours),
            )
            # The order is kept among those that sink at the same time.
            for body, windows in sorted(offered.items(), key=lambda each: (each[1][0].start, each[1][-1].end))
        ],
        start_s=hours.start.timestamp(),
        end_s=end_s,
    )
    targets = []
    for block in _at_best_minutes(blocks, looks, offered):
        inside = within(offered[block.key], instant(block.start_s), instant(block.end_s))
        targets.append(TargetTime(body=block.key, minutes=as_one_run(night.of(block.key), inside)))
    return tuple(targets)


def _at_best_minutes(
    blocks: Sequence[Block[Body]], looks: Mapping[Body, "_Looks"], offered: Mapping[Body, Sequence[Window]]
) -> Sequence[Block[Body]]:
    """Return blocks that end when a target's best minutes do, where that is but a few minutes away.

    So that one time is told for both. What follows at once begins as much later or earlier, if it can.
    """
    found = list(blocks)
    for place, block in enumerate(blocks):
        best = looks[block.key].best
        if best is None:
            continue
        moved_s = best.end.timestamp() - found[place].end_s
        if abs(moved_s) > _NEAR_S or found[place].end_s + moved_s - found[place].start_s < _SHORTEST_S:
            continue
        later = _made_room(found[place:], moved_s, offered)
        if later is not None:
            found[place:] = [evolve(found[place], end_s=found[place].end_s + moved_s), *later]
    return found


def _made_room(
    blocks: Sequence[Block[Body]], moved_s: float, offered: Mapping[Body, Sequence[Window]]
) -> list[Block[Body]] | None:
    """Return all blocks but the first, begun later or earlier where it ends so; None where one cannot be.

    The next one keeps its length as long as the one after it can give way in its stead.
    """
    first, *rest = blocks
    if not rest or rest[0].start_s > first.end_s + max(moved_s, 0.0) + 1.0:
        return rest
    follower = rest[0]
    if moved_s > 0.0:
        kept = evolve(follower, start_s=follower.start_s + moved_s, end_s=follower.end_s + moved_s)
        after = _made_room(rest, moved_s, offered) if len(rest) > 1 else None
        if after is not None and _is_open(kept, offered):
            return [kept, *after]
    cut = evolve(follower, start_s=first.end_s + moved_s)
    is_long_enough = cut.end_s - cut.start_s >= _SHORTEST_S
    return [cut, *rest[1:]] if is_long_enough and _is_open(cut, offered) else None


def _is_open(block: Block[Body], offered: Mapping[Body, Sequence[Window]]) -> bool:
    """Tell whether the target of a block is in its windows all the time."""
    return any(
        span.start.timestamp() <= block.start_s + 1.0 and block.end_s <= span.end.timestamp() + 1.0
        for span in joined(offered[block.key])
    )


def _best_span_s(best: BestMinutes | None, windows: Sequence[Window], hours: HoursOut) -> tuple[float, float]:
    """Return from when a body is worth a climb until its best minutes end; all the time without such."""
    if best is None or best.start >= hours.end or best.end <= hours.start:
        return -math.inf, math.inf
    least = min(best.rank, WORTH_A_CLIMB)
    begins = next(window.start for window in windows if rank_of(window) >= least)
    return begins.timestamp(), best.end.timestamp()


def _is_left_out(
    night: Night,
    body: Body,
    seen: Mapping[Body, Sequence[Window]],
    hours: HoursOut,
    looks: Mapping[Body, "_Looks"],
) -> bool:
    """Tell whether a body is no target: a dot that stays low, or one that is worth more after the hours.

    That one rises all the time, and stands in a higher band later in the night; and in the hours it hardly
    comes up, or a better one has its best minutes from then on.
    """
    inside = within(seen[body], hours.start, hours.end)
    if not inside:
        return False
    track = night.of(body).track
    first_deg, last_deg = (track.altitude_at(moment) for moment in (inside[0].start, inside[-1].end))
    is_dot, is_low = looks[body].is_dot, all(window.grade is Grade.LOW for window in inside)
    lowest_deg = _FAINT_LOWEST_DEG if body in FAINT_SHARE else _DOT_LOWEST_DEG
    if is_dot and is_low and max(first_deg, last_deg) < lowest_deg:
        return len(seen) > 1
    later = within(seen[body], hours.end, night.end)
    if last_deg < first_deg or not (is_low or is_dot) or not _is_higher(later, inside):
        return False
    return last_deg < _HARDLY_RISEN_DEG or any(
        looks[other].worth_at_best > looks[body].worth_at_best
        and _fills_the_time_of(looks[other].best, track, inside)
        for other in seen
    )


def _once_well_up(night: Night, body: Body, windows: Sequence[Window]) -> Sequence[Window]:
    """Return windows but for low ones in which a body rises that stands higher later in the night."""
    track = night.of(body).track
    higher = [window.start for window in windows if window.grade is not Grade.LOW]
    return tuple(
        window
        for window in windows
        if window.grade is not Grade.LOW
        or not any(start > window.start for start in higher)
        or track.altitude_at(window.start) >= track.altitude_at(window.end)
    )


def _is_higher(windows: Sequence[Window], than: Sequence[Window]) -> bool:
    """Tell whether some windows reach a higher band than all of some others."""
    bands = list(Grade)
    return min((bands.index(each.grade) for each in windows), default=len(bands)) < min(
        bands.index(each.grade) for each in than
    )


def _fills_the_time_of(best: BestMinutes | None, track: Track, windows: Sequence[Window]) -> bool:
    """Tell whether a better body is at its best last, and has its turn from before another has risen well."""
    if best is None or not is_worth_a_climb(best) or best.end < windows[-1].end:
        return False
    turn = min(best.start, windows[-1].end - timedelta(seconds=_ENOUGH_S))
    begins = max(turn, windows[0].start)
    return begins < windows[-1].end and track.altitude_at(begins) < _HARDLY_RISEN_DEG


@frozen(kw_only=True)
class _Looks:
    """What looks at a body are worth in the hours, beside its own best there."""

    night: Night
    body: Body
    sharpness: Sharpness
    most_details: float
    best: BestMinutes | None
    warm_s: tuple[tuple[float, float], ...]

    @classmethod
    def of(
        cls, night: Night, body: Body, windows: Sequence[Window], hours: HoursOut, sharpness: Sharpness
    ) -> "_Looks":
        spans_s = [
            (span.start.timestamp(), span.end.timestamp())
            for span in joined(within(windows, hours.start, hours.end))
        ]
        details, _ = details_along(night, body, step_times_s(spans_s), sharpness)
        return cls(
            night=night,
            body=body,
            sharpness=sharpness,
            most_details=float(np.nanmax(details, initial=0.0)),
            best=find_best_minutes(night, body, hours=hours),
            warm_s=tuple(
                (window.start.timestamp(), window.end.timestamp())
                for window in windows
                if window.warm_air is not None
            ),
        )

    @property
    def is_dot(self) -> bool:
        """Whether it shows nothing of its disc in the hours."""
        return self.most_details < LEAST_DETAILS

    @property
    def worth_at_best(self) -> float:
        """The worth of a step at its best."""
        return FAINT_SHARE.get(self.body, 1.0) * float(step_worth(self.most_details))

    def worth_beside(self, most: float) -> Callable[[Floats], Floats]:
        """Return the worth of looks beside what the best target's best is worth.

        It falls off from the body's own best, faster than the details do, so that a low one is avoided.
        """
        share = self.worth_at_best / most if most > 0.0 else 1.0
        at_best = _LEAST_SHARE + (1.0 - _LEAST_SHARE) * share

        def worth(unix_s: Floats) -> Floats:
            if self.most_details <= 0.0:
                return np.zeros_like(unix_s)
            details, altitude_deg = details_along(self.night, self.body, unix_s, self.sharpness)
            beside_best = np.nan_to_num(details, nan=0.0) / self.most_details
            if self.is_dot:
                # Of a mere dot one height shows as much as another, if it is not low.
                beside_best = np.where(altitude_deg >= FAIR_DEG, 1.0, beside_best)
            share = np.ones_like(unix_s)
            if self.best is not None and self.worth_at_best >= most:
                start_s, end_s = self.best.start.timestamp(), self.best.end.timestamp()
                share[(unix_s < start_s) | (unix_s >= end_s)] = _BESIDE_THE_BEST
            for start_s, end_s in self.warm_s:
                share[(start_s <= unix_s) & (unix_s < end_s)] *= _THROUGH_WARM_AIR
            return np.asarray(at_best * share * beside_best**_FALLS_OFF * (altitude_deg >= LOWEST_DEG))

        return worth
