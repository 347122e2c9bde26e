"""What a drawing is made of: frozen marks in points (1/72 inch) from the lower left corner of a page.

A layout gives marks, and knows nothing of the pen that draws them: one on the screen, one on paper.
"""

from collections.abc import Sequence

import numpy as np
from attrs import evolve, frozen
from numpy.typing import NDArray

from core.arrays import Floats
from core.drawing.lettering import Lettering, Measure
from core.drawing.palette import Palette
from core.drawing.placing import Box

Points = Floats
# Lengths of ink and gap in line widths; without any a line is solid.
Dashes = tuple[float, ...]
SOLID: Dashes = ()
EDGE_WIDTH = 0.8

_WORDS_ORDER = 9.0  # above every line and tint
_PICTURE_ORDER = 3.0


@frozen(kw_only=True)
class Words:
    """One line of words, vertically centred on ``y``; ``align`` says which part of them is at ``x``.

    ``rotation_deg`` turns them counterclockwise around their middle.
    """

    text: str
    x: float
    y: float
    lettering: Lettering
    colour: str
    align: str = "center"
    rotation_deg: float = 0.0
    order: float = _WORDS_ORDER

    def box(self, measure: Measure) -> Box:
        """Return the room that the words take."""
        width, height = measure.width(self.text, self.lettering), self.lettering.line_height
        if self.rotation_deg % 180.0:
            return Box.around(self.x, self.y, height, width)
        left = self.x - {"left": 0.0, "center": width / 2, "right": width}[self.align]
        return Box(left, self.y - height / 2, left + width, self.y + height / 2)


@frozen(kw_only=True, eq=False)
class Strokes:
    """Lines, each an array (N, 2) of points, drawn alike."""

    lines: tuple[Points, ...]
    colour: str
    width: float
    dashes: Dashes = SOLID
    alpha: float = 1.0
    order: float = 2.0


@frozen(kw_only=True)
class Fill:
    """A filled rectangle, with a thin edge where a colour for it is given."""

    box: Box
    colour: str
    alpha: float = 1.0
    edge: str | None = None
    order: float = 1.0


@frozen(kw_only=True, eq=False)
class Area:
    """What an outline, points (N, 2), goes round."""

    outline: Points
    colour: str
    alpha: float = 1.0
    order: float = 1.0


@frozen(kw_only=True)
class Circle:
    """A filled circle, with a thin edge where a colour for it is given."""

    x: float
    y: float
    radius: float
    colour: str
    edge: str | None = None
    order: float = 2.0


@frozen(kw_only=True, eq=False)
class Picture:
    """Pixels (rows, columns, 3), red, green and blue as bytes, the top row first, laid into a box.

    An ``is_round`` one is cut to the circle inside its box.
    """

    pixels: NDArray[np.uint8]
    box: Box
    is_round: bool = False
    order: float = _PICTURE_ORDER


Mark = Words | Strokes | Fill | Area | Circle | Picture


@frozen(kw_only=True)
class Page:
    """A place for a drawing: its width and height in points, and the measure of the letters there."""

    width: float
    height: float
    measure: Measure

    @property
    def box(self) -> Box:
        """The whole page."""
        return Box(0.0, 0.0, self.width, self.height)


@frozen(kw_only=True, eq=False)
class Drawing:
    """A finished drawing: its page, the colour of the ground, and its marks from the lowest up."""

    page: Page
    ground: str
    marks: tuple[Mark, ...]

    @property
    def words(self) -> tuple[Words, ...]:
        """All words, in the order in which they were written."""
        return tuple(mark for mark in self.marks if isinstance(mark, Words))


class Sheet:
    """Collects the marks of one drawing while it is laid out."""

    def __init__(self, page: Page, palette: Palette) -> None:
        self._page = page
        self._marks: list[Mark] = []
        self.palette = palette
        self.measure = page.measure

    @property
    def page(self) -> Box:
        """The whole page."""
        return self._page.box

    @property
    def drawing(self) -> Drawing:
        """What has been laid out so far."""
        marks = tuple(sorted(self._marks, key=lambda mark: mark.order))
        return Drawing(page=self._page, ground=self.palette.surface, marks=marks)

    def write(
        self,
        text: str,
        x: float,
        y: float,
        lettering: Lettering,
        colour: str,
        *,
        align: str = "center",
        rotation_deg: float = 0.0,
    ) -> None:
        """Write one line, vertically centred on ``y``; nothing is written of an empty text."""
        text = self.measure.legible(text)
        if text:
            self._marks.append(
                Words(
                    text=text,
                    x=x,
                    y=y,
                    lettering=lettering,
                    colour=colour,
                    align=align,
                    rotation_deg=rotation_deg,
                )
            )

    def paragraph(
        self, text: str, left: float, top: float, width: float, lettering: Lettering, colour: str
    ) -> float:
        """Write a text in as many lines as it needs; return where the next one may begin."""
        for line in self.measure.wrapped(self.measure.legible(text), lettering, width):
            self.write(line, left, top - lettering.line_height / 2, lettering, colour, align="left")
            top -= lettering.line_height
        return top

    def strokes(
        self,
        lines: Sequence[Sequence[tuple[float, float]] | Points],
        colour: str,
        width: float,
        *,
        dashes: Dashes = SOLID,
        alpha: float = 1.0,
        order: float = 2.0,
    ) -> None:
        """Draw lines, each an array (N, 2) of points."""
        arrays = tuple(np.asarray(line, dtype=np.float64) for line in lines if len(line))
        if arrays:
            self._marks.append(
                Strokes(lines=arrays, colour=colour, width=width, dashes=dashes, alpha=alpha, order=order)
            )

    def stroke(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        colour: str,
        width: float,
        *,
        dashes: Dashes = SOLID,
        order: float = 2.0,
    ) -> None:
        """Draw one straight line."""
        self.strokes([[start, end]], colour, width, dashes=dashes, order=order)

    def fill(
        self, box: Box, colour: str, *, alpha: float = 1.0, edge: str | None = None, order: float = 1.0
    ) -> None:
        """Fill a rectangle, with a thin edge where a colour for it is given."""
        self._marks.append(Fill(box=box, colour=colour, alpha=alpha, edge=edge, order=order))

    def area(self, outline: Points, colour: str, *, alpha: float = 1.0, order: float = 1.0) -> None:
        """Fill what an outline, points (N, 2), goes round."""
        self._marks.append(Area(outline=outline, colour=colour, alpha=alpha, order=order))

    def circle(
        self, x: float, y: float, radius: float, colour: str, *, edge: str | None = None, order: float = 2.0
    ) -> None:
        """Fill a circle, with a thin edge where a colour for it is given."""
        self._marks.append(Circle(x=x, y=y, radius=radius, colour=colour, edge=edge, order=order))

    def lay(self, drawing: Drawing, left: float, bottom: float) -> None:
        """Lay another drawing's marks, without its ground, with its lower left corner at a place."""
        self._marks += [_moved(mark, left, bottom) for mark in drawing.marks]

    def picture(self, pixels: NDArray[np.uint8], box: Box, *, is_round: bool = False) -> None:
        """Lay pixels (rows, columns, 3) into a box, cut to the circle in it where they are round."""
        self._marks.append(Picture(pixels=pixels, box=box, is_round=is_round))


def _moved(mark: Mark, right: float, up: float) -> Mark:
    """Return a mark moved by so many points."""
    if isinstance(mark, Words | Circle):
        return evolve(mark, x=mark.x + right, y=mark.y + up)
    if isinstance(mark, Strokes):
        return evolve(mark, lines=tuple(line + np.array([right, up]) for line in mark.lines))
    if isinstance(mark, Area):
        return evolve(mark, outline=mark.outline + np.array([right, up]))
    return evolve(mark, box=mark.box.moved(right, up))
