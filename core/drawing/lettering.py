"""Letters on a drawing: measured without a canvas, fitted to their place, never taken for formulas.

Lengths are in points (1/72 inch), so that a layout holds at every resolution.
"""

import unicodedata
from functools import cache, lru_cache

from attrs import frozen
from matplotlib.font_manager import FontProperties, findfont, fontManager, get_font
from matplotlib.textpath import text_to_path

FAMILY = "DejaVu Sans"  # shipped with Matplotlib, the same on every machine
# Hinting on a coarse screen widens letters by up to this much over their design.
_HINTING = 1.045
_ELLIPSIS = "…"
# Latin, Greek and Cyrillic, and the signs used beside them.
_PLAIN_LETTERS_END = "\u0530"
_PLAIN_SIGNS = frozenset("–—‘’“”…′″−×→")
_NO_GLYPH = "□"
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


@cache
def _fallback_family(character: str) -> str | None:
    """Return an installed family that can write a character which the usual one cannot."""
    for entry in fontManager.ttflist:
        if entry.style != "normal" or entry.name.startswith("Last Resort"):
            continue
        try:
            font = get_font(entry.fname)
        except (OSError, RuntimeError):  # a font removed or broken since the list was made
            continue
        if font.scalable and font.get_char_index(ord(character)):
            return str(entry.name)
    return None


def _is_written(character: str) -> bool:
    return bool(get_font(findfont(FontProperties(family=FAMILY))).get_char_index(ord(character)))


@lru_cache(maxsize=4096)
def legible(text: str) -> str:
    """Return a text as it can be drawn: one line, no control marks, a box for what no font can write."""
    letters = []
    for character in " ".join(text.split()):
        kind = unicodedata.category(character)
        if kind.startswith("C") and character not in _JOINERS:
            continue
        known = character.isascii() or _is_written(character) or _fallback_family(character)
        letters.append(character if known else _NO_GLYPH)
    return "".join(letters)


@lru_cache(maxsize=4096)
def is_plain(text: str) -> bool:
    """Tell whether a text's letters stand side by side and do not change one another."""
    return all(letter < _PLAIN_LETTERS_END or letter in _PLAIN_SIGNS for letter in text)


@lru_cache(maxsize=4096)
def families(text: str) -> tuple[str, ...]:
    """Return the font families that are needed to write a text, the usual one first."""
    strange = (character for character in text if not character.isascii() and not _is_written(character))
    others = (_fallback_family(character) for character in strange)
    return (FAMILY, *dict.fromkeys(family for family in others if family is not None))


@lru_cache(maxsize=4096)
def font_of(text: str, lettering: Lettering) -> FontProperties:
    """Return the font that a text is written in."""
    weight = "bold" if lettering.bold else "normal"
    return FontProperties(family=list(families(text)), size=lettering.size, weight=weight)


@lru_cache(maxsize=8192)
def width_of(text: str, lettering: Lettering) -> float:
    """Return the width of a line of text, points, as wide as it gets on any screen."""
    if not text:
        return 0.0
    if is_plain(text):
        width = sum(_advance(letter, lettering) for letter in text)
    else:
        width = _measured(text, lettering)
    return width * _HINTING + 0.5


@cache
def _advance(letter: str, lettering: Lettering) -> float:
    """Return how far a letter moves the next one on, points: the same in every word, but for a hair."""
    return _measured(2 * letter, lettering) - _measured(letter, lettering)


def _measured(text: str, lettering: Lettering) -> float:
    width, _, _ = text_to_path.get_text_width_height_descent(text, font_of(text, lettering), ismath=False)
    return float(width)


@lru_cache(maxsize=4096)
def fitted(text: str, lettering: Lettering, width: float) -> str:
    """Return a text that is no wider than ``width`` points, cut with an ellipsis if it must be.

    Empty when there is no place for even one letter.
    """
    if width_of(text, lettering) <= width:
        return text
    low, high = 0, len(text)
    while low < high:
        middle = (low + high + 1) // 2
        if width_of(text[:middle].rstrip() + _ELLIPSIS, lettering) <= width:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + _ELLIPSIS if low else ""


def wrapped(text: str, lettering: Lettering, width: float) -> tuple[str, ...]:
    """Return a text as lines no wider than ``width`` points; a word wider than that is cut."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, lettering) <= width:
            lines[-1] = longer
        else:
            lines.append(fitted(word, lettering, width))
    return tuple(lines)
