"""Where words can stand without touching one another: plain rectangles and columns, no drawing."""

from collections.abc import Sequence

import numpy as np
from attrs import frozen

from core.arrays import Floats, Truths

_LINE_STEP = 3.0
# Where along a line it is looked whether it runs clear, and how much of its start does not count.
_ALONG = np.linspace(0.0, 1.0, 25)
_OWN_PLACE = 2.0


@frozen
class Box:
    """A rectangle with ``y`` upwards; any unit of length."""

    left: float
    bottom: float
    right: float
    top: float

    @classmethod
    def around(cls, x: float, y: float, width: float, height: float) -> "Box":
        """Return the box of that size around a point."""
        return cls(x - width / 2, y - height / 2, x + width / 2, y + height / 2)

    @property
    def width(self) -> float:
        """Extent along x."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Extent along y."""
        return self.top - self.bottom

    @property
    def middle(self) -> tuple[float, float]:
        """The point in the middle."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def grown(self, by: float) -> "Box":
        """Return the box with a margin added on every side."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def moved(self, right: float, up: float) -> "Box":
        """Return the box at another place."""
        return Box(self.left + right, self.bottom + up, self.right + right, self.top + up)

    def touches(self, other: "Box") -> bool:
        """Tell whether two boxes share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )

    def holds(self, other: "Box") -> bool:
        """Tell whether another box lies wholly inside."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.bottom <= other.bottom
            and other.top <= self.top
        )

    def contains(self, x: float, y: float) -> bool:
        """Tell whether a point lies inside or on the edge."""
        return self.left <= x <= self.right and self.bottom <= y <= self.top

    def inside(self, points: Floats) -> Truths:
        """Tell which of the points (N, 2) lie inside or on the edge."""
        x, y = points[:, 0], points[:, 1]
        return np.asarray((self.left <= x) & (x <= self.right) & (self.bottom <= y) & (y <= self.top))


class Taken:
    """The places already given away inside a frame."""

    def __init__(self, frame: Box, gap: float = 1.0) -> None:
        self.frame = frame
        self.gap = gap
        self._boxes: list[Box] = []
        self._edges = np.empty((0, 4))

    def add(self, box: Box) -> None:
        """Give a place away, whether it is free or not."""
        self._boxes.append(box)

    def add_line(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Give the places along a straight line away, so that no words come to stand on it."""
        steps = max(int(np.hypot(end[0] - start[0], end[1] - start[1]) / _LINE_STEP), 1)
        for along in np.linspace(0.0, 1.0, steps + 1):
            x, y = (float(a * (1 - along) + b * along) for a, b in zip(start, end, strict=True))
            self._boxes.append(Box.around(x, y, _LINE_STEP, _LINE_STEP))

    def is_free(self, box: Box) -> bool:
        """Tell whether a box lies in the frame and keeps its distance from every other."""
        wide = box.grown(self.gap)
        return self.frame.holds(box) and not any(wide.touches(other) for other in self._boxes)

    def are_free(self, places: Floats) -> Truths:
        """Tell of many boxes (N, 4: left, bottom, right, top) at once which are free."""
        left, bottom, right, top = places.T
        frame = self.frame
        free = (frame.left <= left) & (right <= frame.right) & (frame.bottom <= bottom) & (top <= frame.top)
        gap = self.gap
        for box in self._boxes:
            free &= (
                (left - gap >= box.right)
                | (box.left >= right + gap)
                | (bottom - gap >= box.top)
                | (box.bottom >= top + gap)
            )
        return np.asarray(free)

    def is_clear(self, start: tuple[float, float], end: tuple[float, float]) -> bool:
        """Tell whether a straight line runs clear of every place given away, but for its first 2 units."""
        if len(self._edges) < len(self._boxes):
            self._edges = np.array([(box.left, box.bottom, box.right, box.top) for box in self._boxes])
        ahead = np.array(end) - np.array(start)
        along = _ALONG[_ALONG * np.hypot(*ahead) > _OWN_PLACE]
        x, y = (start[axis] + along * ahead[axis] for axis in (0, 1))
        left, bottom, right, top = self._edges.T[:, :, np.newaxis]
        return not bool(np.any((left <= x) & (x <= right) & (bottom <= y) & (y <= top)))


def spread(wanted: Sequence[float], pitch: float, low: float, high: float) -> list[float]:
    """Return places at least ``pitch`` apart between ``low`` and ``high``, near the wanted ones, in order.

    ``wanted`` ascends. Neighbours that would touch form a group around their middle. When all
    together are too many for the length, they stand at equal distances closer than ``pitch``.
    """
    count = len(wanted)
    if count == 0:
        return []
    if (count - 1) * pitch >= high - low:
        step = (high - low) / max(count - 1, 1)
        return [low + number * step for number in range(count)]
    # Groups as [sum of wanted first places, members]; a group's first member stands at the mean.
    groups: list[list[float]] = []
    for place in wanted:
        groups.append([place, 1.0])
        while len(groups) > 1 and _first(groups[-2]) + groups[-2][1] * pitch > _first(groups[-1]):
            total, members = groups.pop()
            groups[-1][0] += total - members * groups[-1][1] * pitch
            groups[-1][1] += members
    places = [_first(group) + number * pitch for group in groups for number in range(int(group[1]))]
    for number in range(count):  # pushed in from below, then from above
        places[number] = max(places[number], low + number * pitch)
    for number in range(count):
        places[-1 - number] = min(places[-1 - number], high - number * pitch)
    return places


def _first(group: list[float]) -> float:
    return group[0] / group[1]
