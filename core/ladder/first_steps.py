"""Which eyepiece goes in first, and which next."""

from typing import Final

from attrs import frozen

from core.ladder.ladder import Ladder, Rung, Standing

# A step of less than this shows nothing new (ours).
LEAST_STEP: Final = 1.2


@frozen(kw_only=True)
class FirstSteps:
    """The rung to start with, the one to go to from there, None where the first is the top, and the top."""

    first: Rung
    following: Rung | None
    top: Rung


def first_steps(ladder: Ladder) -> FirstSteps | None:
    """Return the first steps of a climb, None where no rung stays under the ceiling.

    From the start, the lowest power that shows something on its planet, and without a Barlow where one of
    the eyepieces alone gives such a power (ours).
    """
    by_power = {rung.power: rung for rung in ladder.rungs}
    if ladder.climb_to is None:
        return None
    top = by_power[ladder.climb_to]
    first = by_power.get(ladder.start, top) if ladder.start is not None else top
    if first.power >= top.power:
        return FirstSteps(first=top, following=None, top=top)
    steps = [rung for rung in ladder.rungs if LEAST_STEP * first.power <= rung.power <= top.power]
    return FirstSteps(first=first, following=min(steps, key=_effort, default=top), top=top)


def _effort(rung: Rung) -> tuple[bool, int, float]:
    return rung.standing is Standing.BELOW, len(rung.combination.barlows), rung.power
