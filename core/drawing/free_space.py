"""The free space between the curves of a chart, and the search for the best place for words in it.

Places are arrays (N, 4) of left, bottom, right and top, with a cost for each (N,): 0 is perfect.
"""

from collections.abc import Iterable, Iterator

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.drawing.lettering import Lettering, Measure
from core.drawing.marks import Points
from core.drawing.placing import Box, Taken

Places = Floats

# Curves are looked at every so many points when places are weighed.
STEP = 3.0
COST_OF_POINT = 3.0
# A curve may cut a corner of a place between two of its points.
_BETWEEN_POINTS = STEP / 2 * np.array([-1.0, -1.0, 1.0, 1.0])
# Words that would cost more than this stand elsewhere.
TOO_BAD = 40.0
# No distance costs as much as standing on a curve.
_ON_A_CURVE = 1e4
_PLACES_ALONG = 24
_ANCHORS = 5
# Shifts of words around a point, in halves of their own size: above and below it, right and left of it.
_AROUND = np.array(
    [(x, y) for x in (0.0, 0.5, -0.5, 1.0, -1.0) for y in (1.0, -1.0)] + [(1.0, 0.0), (-1.0, 0.0)]
)


@frozen(kw_only=True)
class Label:
    """Words in a box; ``lead`` is where a thin line starts that leads to them, if they stand apart."""

    text: str
    box: Box
    lettering: Lettering
    lead: tuple[float, float] | None = None

    @property
    def centre(self) -> tuple[float, float]:
        """The middle of the words, points."""
        return (self.box.left + self.box.right) / 2, (self.box.bottom + self.box.top) / 2

    @property
    def leader(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """The line from the edge of the words to what they name; a point where there is none."""
        if self.lead is None:
            return self.centre, self.centre
        x = min(max(self.lead[0], self.box.left), self.box.right)
        y = min(max(self.lead[1], self.box.bottom), self.box.top)
        return (x, y), self.lead


class Crowd:
    """Counts the points (N, 2) inside any box of a frame at once, from a table of sums over a fine grid."""

    _CELL = 2.0

    def __init__(self, points: Points, frame: Box) -> None:
        across = int(np.ceil(frame.width / self._CELL)) + 1
        up = int(np.ceil(frame.height / self._CELL)) + 1
        cells = np.zeros((across + 1) * (up + 1), dtype=np.int32)
        if len(points):
            x = np.clip(((points[:, 0] - frame.left) / self._CELL).astype(int), 0, across - 1)
            y = np.clip(((points[:, 1] - frame.bottom) / self._CELL).astype(int), 0, up - 1)
            # One axis, and a 1 of the cells' own kind: numpy is forty times as fast with both.
            np.add.at(cells, (x + 1) * (up + 1) + y + 1, np.int32(1))
        # Along the last axis both times, for numpy is four times as fast there: up, then across.
        upwards = cells.reshape(across + 1, up + 1).cumsum(axis=1, dtype=np.int32)
        self._sums = np.ascontiguousarray(upwards.T).cumsum(axis=1, dtype=np.int32)
        self._corner = np.array([[frame.left], [frame.bottom]] * 2)
        self._most = np.array([[across], [up]] * 2)

    def inside(self, places: Places) -> Floats:
        """Return how many points lie in each place (N, 4), to within the grid's cells."""
        edges = (places.T - self._corner) / self._CELL
        np.ceil(edges[2:], out=edges[2:])
        left, bottom, right, top = np.minimum(np.maximum(edges, 0.0), self._most).astype(int)
        sums = self._sums
        return np.asarray(sums[top, right] - sums[top, left] - sums[bottom, right] + sums[bottom, left])


class FreeSpace:
    """The space between curves: ``lines`` are all of them as points (N, 2), ``taken`` the places in use."""

    def __init__(self, lines: Iterable[Points], taken: Taken, measure: Measure) -> None:
        curves = list(lines)
        self.points: Points = np.concatenate(curves) if curves else np.empty((0, 2))
        self.taken = taken
        self.measure = measure
        self._crowd = Crowd(self.points, taken.frame)

    def cost_of_covering(self, places: Places) -> Floats:
        """Return how bad it is that words in each place (N, 4) cover curves, (N,)."""
        return COST_OF_POINT * self._crowd.inside(places + _BETWEEN_POINTS)

    def clear(self, places: Places, costs: Floats) -> tuple[Places, Floats]:
        """Return those of the places that cover no curve, with their costs."""
        is_clear = self.cost_of_covering(places) == 0.0
        return places[is_clear], costs[is_clear]

    def from_best(
        self, places: Places, costs: Floats, *, at_most: float = TOO_BAD
    ) -> Iterator[tuple[Box, float]]:
        """Yield the free places with their costs, the least first; those too bad are left out."""
        for number in np.argsort(costs, kind="stable"):
            if costs[number] > at_most:
                return
            box = Box(*(float(edge) for edge in places[number]))
            if self.taken.is_free(box):
                yield box, float(costs[number])

    def take_best(self, places: Places, costs: Floats, *, at_most: float = TOO_BAD) -> Box | None:
        """Take the free place of the least cost, or None where all are taken or too bad."""
        for box, _ in self.from_best(places, costs, at_most=at_most):
            self.taken.add(box)
            return box
        return None

    def beside(self, text: str, lettering: Lettering, part: Points, *, reach: int = 1) -> Label | None:
        """Place words next to a part (N, 2) of a curve, up to ``reach`` rows away, near its middle.

        None where they would stand on a curve everywhere.
        """
        size = self.measure.width(text, lettering) + 2.0, lettering.line_height
        some = part[:: max(len(part) // _PLACES_ALONG, 1)]
        far = np.hypot(*(some - part[len(part) // 2]).T) / 30.0
        rows = [around(some, size, away=4.0 + row * size[1]) for row in range(reach)]
        places = np.concatenate(rows)
        distance = np.concatenate([np.repeat(far, len(_AROUND)) + row for row in range(reach)])
        box = self.take_best(*self.clear(places, distance))
        return None if box is None else Label(text=text, box=box, lettering=lettering)

    def apart(self, text: str, lettering: Lettering, part: Points, *, must: bool = False) -> Label | None:
        """Place words at a free spot anywhere, near a part (N, 2) of a curve, with a line to lead there.

        They stand on a curve only where no spot is clear of all and they ``must`` be told; the line keeps
        clear of all other words where it can.
        """
        width, height = self.measure.width(text, lettering) + 2.0, lettering.line_height
        frame = self.taken.frame
        x, y = np.meshgrid(
            np.arange(frame.left + width / 2, frame.right - width / 2, 8.0),
            np.arange(frame.bottom + height / 2, frame.top - height / 2, 6.0),
        )
        centres = np.column_stack((x.ravel(), y.ravel()))
        if not len(centres):
            return None
        places = boxes_around(centres, (width, height))
        anchors = part[np.linspace(0, len(part) - 1, _ANCHORS + 2).astype(int)[1:-1]]
        away = np.hypot(*(centres[:, np.newaxis] - anchors).transpose(2, 0, 1))
        covering = self.cost_of_covering(places)[:, np.newaxis]
        costs = away + np.where(covering > 0.0, _ON_A_CURVE + 4.0 * covering if must else np.inf, 0.0)
        costs[~self.taken.are_free(places)] = np.inf
        best: Label | None = None
        for number in np.argsort(costs, axis=None):
            place, anchor = divmod(int(number), len(anchors))
            cost = costs[place, anchor]
            if np.isinf(cost) or (best is not None and cost >= _ON_A_CURVE):
                break
            box = Box(*(float(edge) for edge in places[place]))
            lead = (float(anchors[anchor, 0]), float(anchors[anchor, 1]))
            label = Label(text=text, box=box, lettering=lettering, lead=lead)
            best = best or label
            if self.taken.is_clear(*label.leader):
                best = label
                break
        if best is not None:
            self.taken.add(best.box)
            self.taken.add_line(*best.leader)
        return best


def boxes_around(centres: Points, size: tuple[float, float]) -> Places:
    """Return boxes of one size around points (N, 2)."""
    half = np.array(size) / 2.0
    return np.column_stack((centres - half, centres + half))


def around(points: Points, size: tuple[float, float], *, away: float) -> Places:
    """Return the places next to each of the points (N, 2), in the points' order, twelve to a point."""
    shifts = _AROUND * (np.array(size) / 2.0 + away)
    return boxes_around((points[:, np.newaxis] + shifts).reshape(-1, 2), size)


def places_per_point() -> int:
    """Return how many places ``around`` gives for each point."""
    return len(_AROUND)


def along(line: Points) -> Floats:
    """Return the length of a curve (N, 2) from its start to each of its points, (N,)."""
    steps = line[1:] - line[:-1]
    lengths = np.zeros(len(line))
    np.hypot(steps[:, 0], steps[:, 1]).cumsum(out=lengths[1:])
    return lengths


def evenly(line: Points, step: float = STEP) -> Points:
    """Return a curve (N, 2) as points about ``step`` apart, both ends kept."""
    length = along(line)
    wanted = np.linspace(0.0, length[-1], max(int(length[-1] / step), 1) + 1)
    return np.array([np.interp(wanted, length, line[:, axis]) for axis in (0, 1)]).T


def without(line: Points, gaps: Iterable[Box]) -> list[Points]:
    """Cut the parts inside boxes out of a curve (N, 2) and return what is left, in pieces."""
    (left, bottom), (right, top) = line.min(axis=0), line.max(axis=0)
    near = [
        gap
        for gap in gaps
        if gap.left <= right and left <= gap.right and gap.bottom <= top and bottom <= gap.top
    ]
    if near:
        # Most lie in the bow of a curve: none of its steps comes near them.
        lower, upper = np.minimum(line[1:], line[:-1]).T, np.maximum(line[1:], line[:-1]).T
        near = [gap for gap in near if _meets(gap, lower, upper)]
    if not near:
        return [line]
    fine = evenly(line, step=1.0)
    covered = np.zeros(len(fine), dtype=bool)
    for gap in near:
        covered |= gap.inside(fine)
    if not covered.any():
        return [line]
    breaks = np.flatnonzero(covered[1:] != covered[:-1]) + 1
    length, ends = along(line), np.linspace(0.0, 1.0, len(fine))
    ends *= length[-1]
    runs = np.split(np.arange(len(fine)), breaks)
    return [
        np.concatenate(
            (fine[run[:1]], line[(ends[run[0]] < length) & (length < ends[run[-1]])], fine[run[-1:]])
        )
        for run in runs
        if len(run) > 1 and not covered[run[0]]
    ]


def _meets(gap: Box, lower: Points, upper: Points) -> bool:
    """Tell whether a box meets any of those from lower left to upper right corners, both (2, N)."""
    beside = (gap.left > upper[0]) | (lower[0] > gap.right) | (gap.bottom > upper[1]) | (lower[1] > gap.top)
    return not bool(beside.all())
