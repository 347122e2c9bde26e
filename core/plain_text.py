"""Plain text: nobody's text commands a terminal, and columns keep their place."""

import textwrap
import unicodedata
from collections.abc import Iterable, Sequence
from itertools import zip_longest

WIDTH = 80

# These two join and part letters in several scripts and in emoji; they move nothing.
_JOINERS = "\N{ZERO WIDTH JOINER}\N{ZERO WIDTH NON-JOINER}"


def printable(text: str) -> str:
    """Return a text without control characters, line breaks or marks that turn the writing direction.

    Blanks of any kind become spaces, everything else that does not print becomes a replacement character.
    """
    return "".join(_printable(character) for character in text)


def _printable(character: str) -> str:
    if character.isprintable() or character in _JOINERS:
        return character
    return " " if character.isspace() else "\N{REPLACEMENT CHARACTER}"


def width_of(text: str) -> int:
    """Return how many columns a text takes; ideographs take two, combining marks none."""
    return sum(_width(character) for character in text)


def _width(character: str) -> int:
    if character in _JOINERS or unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def cut(text: str, width: int) -> str:
    """Return a text in at most ``width`` columns, its lost end told by an ellipsis."""
    if width_of(text) <= width:
        return text
    kept = ""
    for character in text:
        if width_of(kept + character) > width - 1:
            break
        kept += character
    return kept.rstrip() + "…"


def wrapped(text: str, width: int, *, indent: str = "") -> list[str]:
    """Return a paragraph as lines of at most ``width`` columns; the lines after the first are indented."""
    # textwrap counts characters; where some are wide the room is taken to be half as much.
    room = width if width_of(text) == len(text) else width * 2 // 3
    return textwrap.wrap(text, max(room, 10), subsequent_indent=indent) or [""]


def shown_name(text: str, longest: int = 28) -> str:
    """Return an owner's name as a terminal shows it: harmless, and cut where it is very long."""
    return cut(printable(text), longest)


def columns(rows: Sequence[Sequence[str]], *, right: Iterable[int] = (), gap: int = 2) -> list[str]:
    """Return rows of cells as lines, each column as wide as its widest cell; ``right`` ones end flush."""
    flush_right = set(right)
    widths = [max(map(width_of, column)) for column in zip_longest(*rows, fillvalue="")]
    lines = []
    for row in rows:
        cells = []
        for position, cell in enumerate(row):
            blank = " " * (widths[position] - width_of(cell))
            cells.append(blank + cell if position in flush_right else cell + blank)
        lines.append((" " * gap).join(cells).rstrip())
    return lines
