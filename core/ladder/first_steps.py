"""Which eyepiece goes in first, and which next."""

from attrs import frozen

from core.ladder.climb import is_easily_reached, rung_above
from core.ladder.ladder import Ladder, Rung, Standing, nearest_rung


@frozen(kw_only=True)
class FirstSteps:
    """The rung to start with, the one to go to from there, None where the first is the top, and the top.

    ``is_a_try`` tells that the one to go to is over the ceiling, though inside the band, and so the top.
    """

    first: Rung
    following: Rung | None
    top: Rung
    is_a_try: bool = False


def first_steps(ladder: Ladder) -> FirstSteps | None:
    """Return the first steps of a climb, None where no rung stays under the ceiling.

    They are those that the ladder itself tells one by one, so that no reducer is to be fitted in the dark.
    """
    if ladder.climb_to is None:
        return None
    highest, first = nearest_rung(ladder, ladder.climb_to), nearest_rung(ladder, ladder.start)
    assert highest is not None  # there are rungs
    if first is None or first.power >= highest.power:
        return FirstSteps(first=highest, following=None, top=highest)
    top = max(
        (
            rung
            for rung in ladder.rungs
            if rung.power <= highest.power and (rung is first or is_easily_reached(first, rung))
        ),
        key=lambda rung: rung.power,
    )
    above = rung_above(ladder, first)
    if above is not None and above.power <= top.power:
        return FirstSteps(first=first, following=above, top=top)
    if above is not None and above.standing is Standing.TRY and top is not highest:
        return FirstSteps(first=first, following=above, top=above, is_a_try=True)
    return FirstSteps(first=first, following=None if top is first else top, top=top)
