"""Where the names stand on the height chart: each on its own curve, none on another."""

from collections.abc import Sequence

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Floats
from core.drawing.frame import Frame
from core.drawing.free_space import (
    STEP,
    TOO_BAD,
    Crowd,
    FreeSpace,
    Label,
    Places,
    around,
    boxes_around,
    evenly,
    places_per_point,
)
from core.drawing.height_scene import Curve, Piece, PieceKind
from core.drawing.lettering import Lettering, Measure
from core.drawing.marks import Points
from core.drawing.placing import Box, Taken
from core.sky.bodies import Body
from core.sky.events import BEST_DEG, FAIR_DEG
from core.words.charts import BEST_BAND, FAIR_BAND, THICK_BAND
from core.words.obstacles import blocked_note, warm_air_note

NAME = Lettering(10.0, bold=True)
NAME_IN_HAND = Lettering(12.5, bold=True)
NAME_IN_A_CROWD = Lettering(8.5, bold=True)
NOTE = Lettering(8.5)
BAND = Lettering(9.5)

# The words on the bands, the altitudes in degrees between which each may stand, and which end is better.
BAND_WORDS = (
    (BEST_BAND, BEST_DEG, 90.0, 1),
    (FAIR_BAND, FAIR_DEG, BEST_DEG, 1),
    (THICK_BAND, 0.0, FAIR_DEG, -1),
)

# How much of a transit's stroke stands above its curve and below it, and how far a name keeps from others.
TRANSIT = 5.0
_ALONG_TRANSIT = np.array([(0.0, up) for up in (-TRANSIT, -TRANSIT / 2, 0.0, TRANSIT / 2, TRANSIT)])
_AROUND_NAME = np.array([-2.0, -2.0, 2.0, 2.0])
# A name goes into a gap of its curve only where the curve is this much longer than the name.
_ROOM_FOR_GAP = 2.2
# The same obstacle is named again only this far away, in points.
_SAME_NOTE_FROM = 90.0
_BAND_PLACES = 61
# A name beside its curve stands so far from it, points, that none of it lies under the letters.
_BESIDE = 3.5
_PLACES_BESIDE = 32
_COST_OF_BESIDE = 6.0
_COST_OF_NEARER_TO_OTHER = 10.0
_COST_OF_BAND_ROW = 3.0
# How little each piece of a curve suits its name.
_COST_OF_KIND = {PieceKind.WINDOW: 0.0, PieceKind.WARM: 4.0, PieceKind.UP: 6.0, PieceKind.BLOCKED: 14.0}


@frozen(kw_only=True)
class BodyLabel:
    """A body's name, or a remark on its curve."""

    body: Body
    label: Label


@frozen(kw_only=True)
class Labels:
    """All words inside the chart."""

    bands: tuple[Label, ...]
    names: tuple[BodyLabel, ...]
    notes: tuple[BodyLabel, ...]

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Where no curve is drawn, so that the words can be read."""
        bodies = (named.label for named in (*self.names, *self.notes))
        return tuple(label.box for label in (*self.bands, *bodies))


@frozen(kw_only=True, eq=False)
class Way:
    """A curve on the page: evenly spaced points (N, 2), and the number of the piece of each (N,).

    ``lines`` are its pieces as they are drawn; ``marks`` are points (M, 2) along the strokes of its transits.
    """

    curve: Curve
    lines: Sequence[Points]
    points: Points
    numbers: NDArray[np.int_]
    marks: Points

    @classmethod
    def of(cls, curve: Curve, frame: Frame) -> "Way":
        """Return the way of a curve in a frame."""
        lines = [frame.line(piece.unix_s, piece.altitude_deg) for piece in curve.pieces]
        parts = [evenly(line) for line in lines]
        numbers = [np.full(len(part), number) for number, part in enumerate(parts)]
        tops = [frame.line(np.array([when]), np.array([high])) for when, high in curve.transits]
        marks = np.concatenate([top + _ALONG_TRANSIT for top in tops]) if tops else np.empty((0, 2))
        return cls(
            curve=curve,
            lines=lines,
            points=np.concatenate(parts),
            numbers=np.concatenate(numbers),
            marks=marks,
        )


def place_labels(
    ways: Sequence[Way], frame: Frame, measure: Measure, *, in_hand: Body | None, transit_words: str = ""
) -> Labels:
    """Return where all words inside the chart stand; ``transit_words`` go to the planet in hand."""
    inner = Box(frame.box.left + 3, frame.box.bottom + 2, frame.box.right - 3, frame.box.top - 2)
    lines = [line for way in ways for line in (way.points, way.marks)]
    free = FreeSpace(lines, Taken(inner, gap=1.5), measure)
    nearest = _Nearest(ways)
    # The planet in hand has first choice; then the shortest curves, which have the least.
    ways = sorted(ways, key=lambda way: (way.curve.body is not in_hand, len(way.points)))
    names = [name for way in ways if (name := _name(way, nearest, frame, free, in_hand)) is not None]
    bands = _band_words(frame, free)
    notes: list[BodyLabel] = []
    for way in ways:
        is_in_hand = way.curve.body is in_hand
        if is_in_hand and way.curve.transits and transit_words:
            notes += _transit_note(way, frame, free, transit_words)
        notes += _obstacle_notes(way, free, notes, must=is_in_hand)
    return Labels(bands=bands, names=tuple(names), notes=tuple(notes))


def _band_words(frame: Frame, free: FreeSpace) -> tuple[Label, ...]:
    """Place the words of the bands where the fewest curves run, at the left end rather than elsewhere."""
    labels = []
    for text, from_deg, to_deg, side in BAND_WORDS:
        size = free.measure.width(text, BAND) + 2.0, BAND.line_height
        x = np.linspace(frame.box.left + 6 + size[0] / 2, frame.box.right - 6 - size[0] / 2, _BAND_PLACES)
        low, high = frame.y(from_deg) + size[1] / 2 + 1.5, frame.y(to_deg) - size[1] / 2 - 1.5
        y = np.arange(low, high + 0.1, size[1]) if side > 0 else np.arange(high, low - 0.1, -size[1])
        if not len(y):
            y = np.array([(low + high) / 2])
        columns, rows = (grid.ravel() for grid in np.meshgrid(np.arange(len(x)), np.arange(len(y))))
        from_end = np.minimum(columns, len(x) - 2.0 - columns) / 4.0
        places = boxes_around(np.column_stack((x[columns], y[rows])), size)
        box = free.take_best(*free.clear(places, from_end + _COST_OF_BAND_ROW * rows), at_most=np.inf)
        if box is not None:
            labels.append(Label(text=text, box=box, lettering=BAND))
    return tuple(labels)


def _name(
    way: Way, nearest: "_Nearest", frame: Frame, free: FreeSpace, in_hand: Body | None
) -> BodyLabel | None:
    """Place a body's name: in a gap of its curve or beside it, else apart with a line to lead there."""
    body = way.curve.body
    text, lettering = body.heading, NAME_IN_HAND if body is in_hand else NAME
    size = free.measure.width(text, lettering) + 5.0, lettering.line_height
    on = next(free.from_best(*_places_on(way, frame, size, nearest)), None)
    # Beside the curve only where that is better than on it.
    found = _best_beside(way, frame, size, free, nearest, TOO_BAD if on is None else on[1]) or on
    if found is not None:
        box, _ = found
        free.taken.add(box)
        return BodyLabel(body=body, label=Label(text=text, box=box, lettering=lettering))
    label = (
        free.apart(text, lettering, way.points)
        or free.apart(text, NAME_IN_A_CROWD, way.points)
        or free.apart(text, NAME_IN_A_CROWD, way.points, must=True)
    )
    return None if label is None else BodyLabel(body=body, label=label)


def _places_on(
    way: Way, frame: Frame, size: tuple[float, float], nearest: "_Nearest"
) -> tuple[Places, Floats]:
    """Return gaps in a long enough curve that touch no other curve and no transit, and their costs.

    They are least where the curve is high and flat.
    """
    points = way.points
    count = len(points)
    if count * STEP < _ROOM_FOR_GAP * size[0]:
        return np.empty((0, 4)), np.empty(0)
    places = boxes_around(points, size)
    numbers = np.arange(count)
    ahead = points[np.minimum(numbers + 4, count - 1)] - points[np.maximum(numbers - 4, 0)]
    steepness = np.abs(ahead[:, 1]) / (np.abs(ahead[:, 0]) + 1e-6)
    near_end = np.minimum(numbers, count - 1 - numbers) * STEP < size[0]
    costs = _dullness(way, frame) + 2.0 * np.minimum(steepness, 4.0) + np.where(near_end, 5.0, 0.0)
    crowd = Crowd(np.concatenate((nearest.others(way), way.marks)), frame.box)
    is_clear = crowd.inside(places + _AROUND_NAME) == 0
    return places[is_clear], costs[is_clear]


def _best_beside(
    way: Way,
    frame: Frame,
    size: tuple[float, float],
    free: FreeSpace,
    nearest: "_Nearest",
    at_most: float,
) -> tuple[Box, float] | None:
    """Return the best free place next to a curve and its cost, None where all cost more than ``at_most``.

    It covers no curve; one that is nearer to another curve is bad.
    """
    step = max(len(way.points) // _PLACES_BESIDE, 1)
    around_points = around(way.points[::step], size, away=_BESIDE)
    dull = np.repeat(_dullness(way, frame)[::step], places_per_point())
    places, costs = free.clear(around_points, dull + _COST_OF_BESIDE)
    best: tuple[Box, float] | None = None
    # Whose curve is nearest takes long to find: asked only of what comes into question, the best first.
    for box, cost in free.from_best(places, costs, at_most=at_most):
        if best is not None and best[1] <= cost:
            break
        if nearest.is_own(way, box):
            return box, cost
        if best is None and cost + _COST_OF_NEARER_TO_OTHER <= at_most:
            best = box, cost + _COST_OF_NEARER_TO_OTHER
    return best


def _dullness(way: Way, frame: Frame) -> Floats:
    """Return how little each point of a curve matters (N,): low, or not in a window."""
    of_piece = np.array([_COST_OF_KIND[piece.kind] for piece in way.curve.pieces])
    lowness = 1.0 - (way.points[:, 1] - frame.box.bottom) / frame.box.height
    return np.asarray(of_piece[way.numbers] + 6.0 * lowness)


class _Nearest:
    """Tells whose curve a place is nearest to."""

    def __init__(self, ways: Sequence[Way]) -> None:
        self._ways = list(ways)
        self._points = np.concatenate([way.points for way in ways]) if ways else np.empty((0, 2))
        self._owners = np.repeat(np.arange(len(ways)), [len(way.points) for way in ways])

    def others(self, way: Way) -> Points:
        """Return the points (N, 2) of all other curves."""
        return np.asarray(self._points[self._owners != self._ways.index(way)])

    def is_own(self, way: Way, box: Box) -> bool:
        """Tell whether a place, at its middle or either end, is nearest to one curve of all."""
        x, y = box.middle
        ends = np.array([[box.left], [x], [box.right]])
        away = np.hypot(self._points[:, 0] - ends, self._points[:, 1] - y)
        nearest = int(np.argmin(away)) % len(self._points)
        return bool(self._owners[nearest] == self._ways.index(way))


def _transit_note(way: Way, frame: Frame, free: FreeSpace, words: str) -> list[BodyLabel]:
    when, high = way.curve.transits[0]
    label = free.beside(words, NOTE, frame.line(np.array([when]), np.array([high])), reach=4)
    return [] if label is None else [BodyLabel(body=way.curve.body, label=label)]


def _obstacle_notes(way: Way, free: FreeSpace, so_far: Sequence[BodyLabel], *, must: bool) -> list[BodyLabel]:
    """Name what blocks or warms the pieces of a curve; the same words not twice close together."""
    notes: list[BodyLabel] = []
    for number, piece in enumerate(way.curve.pieces):
        text = free.measure.legible(_words_of(piece))
        if not text:
            continue
        part = way.points[way.numbers == number]
        middle = part[len(part) // 2]
        if any(_is_near(note.label, text, middle) for note in (*so_far, *notes)):
            continue
        label = free.beside(text, NOTE, part, reach=3)
        if label is None and must:
            label = free.apart(text, NOTE, part)
        if label is not None:
            notes.append(BodyLabel(body=way.curve.body, label=label))
    return notes


def _words_of(piece: Piece) -> str:
    if piece.kind is PieceKind.BLOCKED:
        return blocked_note(piece.what)
    return warm_air_note(piece.what) if piece.kind is PieceKind.WARM else ""


def _is_near(label: Label, text: str, point: Points) -> bool:
    x, y = label.centre
    return label.text == text and float(np.hypot(x - point[0], y - point[1])) < _SAME_NOTE_FROM
