"""Letters on a drawing: measured by whoever draws, fitted to their place, never taken for formulas.

Lengths are in points (1/72 inch), so that a layout holds at every resolution.
"""

import unicodedata
from abc import ABC, abstractmethod

from attrs import frozen

_ELLIPSIS = "…"
# What stands for a letter that cannot be written.
NO_GLYPH = "□"
# Formatting marks that some scripts need between letters; all others are dropped.
_JOINERS = "\u200c\u200d"


@frozen
class Lettering:
    """A size of letters in points, and whether they are bold."""

    size: float
    bold: bool = False

    @property
    def line_height(self) -> float:
        """Height that one line takes, points."""
        return 1.18 * self.size


class Measure(ABC):
    """The measure of letters where they will be drawn: on a screen or on paper."""

    @abstractmethod
    def width(self, text: str, lettering: Lettering) -> float:
        """Return the width of a line of legible text, points, as wide as it may get there."""

    @abstractmethod
    def legible(self, text: str) -> str:
        """Return a text as it can be written there: one line without marks that do not print."""

    def fitted(self, text: str, lettering: Lettering, width: float) -> str:
        """Return a text that is no wider than ``width`` points, cut with an ellipsis if it must be.

        Empty when there is no place for even one letter.
        """
        if self.width(text, lettering) <= width:
            return text
        low, high = 0, len(text)
        while low < high:
            middle = (low + high + 1) // 2
            if self.width(text[:middle].rstrip() + _ELLIPSIS, lettering) <= width:
                low = middle
            else:
                high = middle - 1
        return text[:low].rstrip() + _ELLIPSIS if low else ""

    def wrapped(self, text: str, lettering: Lettering, width: float) -> tuple[str, ...]:
        """Return a text as lines no wider than ``width`` points; a word wider than that is cut."""
        lines: list[str] = []
        space, used = self.width(" ", lettering), 0.0
        for word in text.split():
            # To measure word by word is quick, and never too little; where that is too wide the line decides.
            wide = self.width(word, lettering)
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and (used + space + wide <= width or self.width(longer, lettering) <= width):
                lines[-1] = longer
                used += space + wide
            else:
                lines.append(self.fitted(word, lettering, width))
                used = wide
        return tuple(lines)


def one_line(text: str) -> str:
    """Return a text as one line, without marks that do not print."""
    line = " ".join(text.split())
    if line.isprintable():
        return line
    return "".join(
        character
        for character in line
        if character in _JOINERS or not unicodedata.category(character).startswith("C")
    )
