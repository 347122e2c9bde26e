"""All that is shown of one power at a time: the field, its middle enlarged, and the powers beside it.

Whoever looks at an enlarged picture brings the blur of an eye along, so the eye's own is left out of it; in
small pictures of all powers, which are not enlarged, it tells what a higher power is good for.
"""

from collections.abc import Collection, Sequence
from typing import Final

from attrs import frozen

from core.arrays import Values
from core.looks.picture.sight import PICTURE_SIZE, Sight, window_for

FIELD_SIZE: Final = 256
STEP_SIZE: Final = 128
# So many powers stand beside each other.
MOST_STEPS: Final = 7
_LEAST_WINDOW_DEG: Final = 1.0


@frozen(eq=False)
class Steps:
    """Several views beside each other at one scale: each (N, N, 3) is ``window_deg`` wide to the eye."""

    shown: tuple[tuple[Sight, Values], ...]
    window_deg: float


@frozen(eq=False, kw_only=True)
class Pictures:
    """One power in hand and its neighbours.

    ``field`` (N, N, 3) is just as wide as the field, None where that is not known. ``close_up`` gives the
    body room at the power in hand; ``steps`` stand from the lowest power up.
    """

    sight: Sight
    field: Values | None
    close_up: Steps
    steps: Steps


def compute_pictures(sights: Sequence[Sight], in_hand: Sight, also: Collection[float] = ()) -> Pictures:
    """Return the pictures of a power in hand, one of ``sights``, which stand from the lowest power up.

    ``also`` are powers that must not be missing beside it.
    """
    return Pictures(
        sight=in_hand,
        field=field_picture(in_hand),
        close_up=compute_steps([in_hand], PICTURE_SIZE),
        steps=compute_steps(steps_around(sights, in_hand, also), with_eye=True),
    )


def field_picture(sight: Sight) -> Values | None:
    """Return the picture (N, N, 3) that is just as wide as the field, or None where that is not known."""
    if sight.true_field_deg is None:
        return None
    return sight.coloured_window(sight.true_field_deg * sight.power, FIELD_SIZE)


def compute_steps(sights: Sequence[Sight], size: int = STEP_SIZE, *, with_eye: bool = False) -> Steps:
    """Return views (size, size, 3) at one scale, at which the body has room in each."""
    window_deg = max(_LEAST_WINDOW_DEG, *(window_for(sight.subject, sight.power) for sight in sights))
    shown = tuple((sight, sight.coloured_window(window_deg, size, with_eye=with_eye)) for sight in sights)
    return Steps(shown, window_deg)


def steps_around(sights: Sequence[Sight], in_hand: Sight, also: Collection[float] = ()) -> tuple[Sight, ...]:
    """Return the powers that stand beside one in hand, itself included, in order.

    Of a large kit these are the one in hand, the powers told ``also``, such as the next step and the top, and
    of what reaches up to one step above them whichever is farthest, by its ratio, from those taken already.
    """
    if len(sights) <= MOST_STEPS:
        return tuple(sights)
    told = [sight for sight in sights if sight is in_hand or sight.power in also or sight == in_hand]
    highest = max(sight.power for sight in (told if also else sights))
    above = next((sight.power for sight in sights if sight.power > highest), highest)
    taken = told[:MOST_STEPS]
    left = [sight for sight in sights if sight.power <= above and sight not in taken]
    while left and len(taken) < MOST_STEPS:
        farthest = max(left, key=lambda sight: min(_ratio(sight.power, other.power) for other in taken))
        taken.append(farthest)
        left.remove(farthest)
    return tuple(sorted(taken, key=lambda sight: sight.power))


def _ratio(one: float, other: float) -> float:
    return max(one, other) / min(one, other)
