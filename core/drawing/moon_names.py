"""The names of a planet's moons beside their dots, where there is room for them."""

import math
from collections.abc import Callable, Sequence
from typing import Final

from core.drawing.lettering import Lettering
from core.drawing.marks import Sheet
from core.drawing.placing import Box

_SMALL: Final = Lettering(8.0)
# From the middle of a dot to its name, points.
_OFF: Final = 4.0
# Nearer to another dot than this nobody knows whose name it is, points.
_APART: Final = 6.0


def write_moon_names(
    sheet: Sheet,
    dots: Sequence[tuple[str, float, float]],
    *,
    colour: str,
    taken: Sequence[Box],
    is_inside: Callable[[Box], bool],
) -> None:
    """Write names beside dots (name, x, y): whole where there is room, else their first letters.

    A name stands over or under its dot, right or left of it, where it touches nothing ``taken``, no dot and
    no other name, and lies inside; one that cannot, or whose dot stands close beside another, is left out.
    """
    blocked = [*taken, *(Box.around(x, y, 3.0, 3.0) for _, x, y in dots)]
    apart = [dot for dot in dots if all(dot is other or _away(dot, other) >= _APART for other in dots)]
    placed: dict[str, tuple[str, Box]] = {}
    for shorten in (True, False):  # letters first, so that no whole name takes the room of another's letter
        for name, x, y in apart:
            text = name[0] if shorten else name
            others = [*blocked, *(box for other, (_, box) in placed.items() if other != name)]
            free = (
                room
                for room in _rooms(sheet, text, x, y)
                if is_inside(room) and not any(map(room.touches, others))
            )
            room = next(free, None)
            if room is not None:
                placed[name] = (text, room)
    for text, room in placed.values():
        sheet.write(text, *room.middle, _SMALL, colour)


def _away(one: tuple[str, float, float], other: tuple[str, float, float]) -> float:
    return math.hypot(one[1] - other[1], one[2] - other[2])


def _rooms(sheet: Sheet, text: str, x: float, y: float) -> tuple[Box, ...]:
    """Return where a name may stand beside a dot, the best place first."""
    width, height = sheet.measure.width(text, _SMALL), _SMALL.line_height
    across, high = width / 2.0 + _OFF, height / 2.0 + _OFF - 2.0
    return tuple(
        Box.around(x + right, y + up, width, height)
        for right, up in ((0.0, high), (0.0, -high), (across, 0.0), (-across, 0.0))
    )
