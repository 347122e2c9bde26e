"""Which eyepiece goes in first, and which next."""

from attrs import frozen

from core.ladder.climb import rung_above
from core.ladder.ladder import Ladder, Rung, nearest_rung


@frozen(kw_only=True)
class FirstSteps:
    """The rung to start with, the one to go to from there, None where the first is the top, and the top."""

    first: Rung
    following: Rung | None
    top: Rung


def first_steps(ladder: Ladder) -> FirstSteps | None:
    """Return the first steps of a climb, None where no rung stays under the ceiling."""
    if ladder.climb_to is None:
        return None
    top, first = nearest_rung(ladder, ladder.climb_to), nearest_rung(ladder, ladder.start)
    assert top is not None  # there are rungs
    if first is None or first.power >= top.power:
        return FirstSteps(first=top, following=None, top=top)
    above = rung_above(ladder, first)
    following = top if above is None or above.power > top.power else above
    return FirstSteps(first=first, following=following, top=top)
