"""A sheet with places told as shares of its width and height, for small drawings."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from core.drawing.lettering import Lettering
from core.drawing.marks import Sheet

LINE: Final = 1.4
_LABEL: Final = Lettering(9.0)
_TURN: Final = np.linspace(0.0, 2.0 * np.pi, 97)
Place = tuple[float, float]


class Board:
    """Draws lines, rings and discs in one ink; places are shares from the lower left corner."""

    def __init__(
        self, sheet: Sheet, *, margin: float = 6.0, line: float = LINE, ink: str | None = None
    ) -> None:
        self.sheet = sheet
        self.palette = sheet.palette
        self._line = line
        self._ink = ink or self.palette.ink
        self._box = sheet.page.grown(-margin)

    def at(self, x: float, y: float) -> Place:
        """Return a place on the page, points."""
        return self._box.left + x * self._box.width, self._box.bottom + y * self._box.height

    def line(self, *places: Place, colour: str | None = None, width: float | None = None) -> None:
        """Draw a line through some places."""
        self.sheet.strokes([[self.at(*place) for place in places]], colour or self._ink, width or self._line)

    def filled(self, places: Sequence[Place], colour: str | None = None) -> None:
        """Fill an outline."""
        self.sheet.area(np.array([self.at(*place) for place in places]), colour or self._ink)

    def arc(self, x: float, y: float, radius: float, first_deg: float, last_deg: float) -> None:
        """Draw a part of a circle, counter-clockwise from the right; its radius is a share of the height."""
        turn = np.radians(np.linspace(first_deg, last_deg, 49))
        middle, radius = self.at(x, y), radius * self._box.height
        outline = np.column_stack([middle[0] + radius * np.cos(turn), middle[1] + radius * np.sin(turn)])
        self.sheet.strokes([outline], self._ink, self._line)

    def ring(self, x: float, y: float, radius: float, *, colour: str | None = None) -> None:
        """Draw a circle; its radius is a share of the height."""
        middle, radius = self.at(x, y), radius * self._box.height
        outline = np.column_stack([middle[0] + radius * np.cos(_TURN), middle[1] + radius * np.sin(_TURN)])
        self.sheet.strokes([outline], colour or self._ink, self._line)

    def disc(self, x: float, y: float, radius: float, colour: str | None = None) -> None:
        """Fill a circle; its radius is a share of the height."""
        self.sheet.circle(*self.at(x, y), radius * self._box.height, colour or self._ink)

    def write(self, text: str, x: float, y: float, *, align: str = "center") -> None:
        """Write a label in faint ink."""
        self.sheet.write(text, *self.at(x, y), _LABEL, self.palette.faint_ink, align=align)
