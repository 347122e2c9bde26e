"""Which rung is in hand, and whose words must not be missing when there is little room beside a ladder."""

from collections.abc import Sequence

from core.ladder.ladder import Ladder, Rung, Standing


def rung_at_power(rungs: Sequence[Rung], power: float | None) -> Rung | None:
    """Return the rung nearest to a power on the ladder's scale, None without a power or rungs."""
    if power is None or not rungs:
        return None
    return min(rungs, key=lambda rung: abs(rung.power / power - 1.0))


def by_weight(ladder: Ladder, chosen: Rung | None, following: Rung | None = None) -> list[Rung]:
    """Return all rungs, those first whose words must not be missing when there is little room.

    First the chosen rung, the one to go to from there and what the answer speaks of, then the ends, then
    whichever is farthest, on the scale, from those already taken.
    """
    rungs = list(ladder.rungs)
    above = [rung for rung in rungs if rung.standing is Standing.ABOVE]
    wanted = [
        chosen,
        following,
        *(rung for rung in rungs if rung.power == ladder.climb_to),
        *(rung for rung in rungs if rung.power == ladder.start),
        *above[:1],
        *rungs[:1],
        *rungs[-1:],
    ]
    taken = list(dict.fromkeys(rung for rung in wanted if rung is not None))
    rest = {rung.power: rung for rung in rungs if rung not in taken}
    away = {power: min(_ratio(power, other.power) for other in taken) for power in rest}
    while away:
        farthest = max(away, key=away.__getitem__)
        del away[farthest]
        taken.append(rest[farthest])
        away = {power: min(ratio, _ratio(power, farthest)) for power, ratio in away.items()}
    return taken


def _ratio(one: float, other: float) -> float:
    return max(one, other) / min(one, other)
