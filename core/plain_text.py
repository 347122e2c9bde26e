"""Plain text: nobody's text commands a terminal, columns keep their place, and every sign can be written."""

import textwrap
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from itertools import zip_longest
from typing import Final

WIDTH = 80
LEAST_WIDTH = 40

# These two join and part letters in several scripts and in emoji; they move nothing.
_JOINERS = "\N{ZERO WIDTH JOINER}\N{ZERO WIDTH NON-JOINER}"

# Stands behind a wide sign while lines are counted; no printable text holds it (Unicode's private use).
_FILLER: Final = "\uf8ff"

# What stands for signs that a code page may lack, where taking off an accent would not do.
_PLAINER: Final = str.maketrans(
    {
        "–": "-",
        "—": "-",
        "−": "-",
        "‑": "-",
        "…": "...",
        "″": '"',
        "′": "'",
        "°": " deg",
        "×": "x",
        "’": "'",
        "‘": "'",
        "“": '"',
        "”": '"',
        "·": "-",
        "≈": "about ",
        "≥": ">=",
        "≤": "<=",
        "→": "->",
        "\N{REPLACEMENT CHARACTER}": "?",
    }
)

# The code page that texts are laid out for, as `decimal` keeps its precision; None where every sign exists.
_CODE_PAGE: ContextVar[str | None] = ContextVar("code_page", default=None)


@contextmanager
def written_in(encoding: str) -> Iterator[None]:
    """Lay texts out for a code page, for the length of a ``with`` block.

    Signs that it lacks are replaced before anything is measured, so that columns keep their place.
    """
    token = _CODE_PAGE.set(encoding)
    try:
        yield
    finally:
        _CODE_PAGE.reset(token)


def writable(text: str) -> str:
    """Return a text in which only the signs that the code page lacks are replaced by plainer ones."""
    encoding = _CODE_PAGE.get()
    if encoding is None or _has(encoding, text):
        return text
    return "".join(sign if _has(encoding, sign) else _plainer(encoding, sign) for sign in text)


def _plainer(encoding: str, sign: str) -> str:
    """Return what stands for a sign: a plainer one, its letters without accents, else a question mark."""
    translated = sign.translate(_PLAINER)
    if _has(encoding, translated):
        return translated
    apart = unicodedata.normalize("NFKD", sign)
    kept = "".join(part for part in apart if not unicodedata.combining(part))
    if kept != sign and _has(encoding, kept):
        return kept
    return "" if unicodedata.combining(sign) or sign in _JOINERS else "?"


def _has(encoding: str, text: str) -> bool:
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        return False
    return True


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
    return sum(_width(character) for character in writable(text))


def _width(character: str) -> int:
    if character in _JOINERS or unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def cut(text: str, width: int) -> str:
    """Return a text in at most ``width`` columns, its lost end told by an ellipsis."""
    text, ellipsis = writable(text), writable("…")
    if width_of(text) <= width:
        return text
    kept = ""
    for character in text:
        if width_of(kept + character) > width - len(ellipsis):
            break
        kept += character
    return kept.rstrip() + ellipsis


def wrapped(text: str, width: int, *, indent: str = "") -> list[str]:
    """Return a paragraph as lines of at most ``width`` columns; the lines after the first are indented."""
    text = writable(text)
    # textwrap counts characters, so that a wide one is followed by a filler while it does.
    filled = "".join(sign + _FILLER * (_width(sign) - 1) for sign in text)
    lines = textwrap.wrap(filled, max(width, 10), subsequent_indent=indent) or [""]
    lines = [line.replace(_FILLER, "") for line in lines]
    if all(width_of(line) <= max(width, 10) for line in lines):
        return lines
    # A word wider than the line was broken in the middle of a sign.
    return textwrap.wrap(text, max(width // 2, 10), subsequent_indent=indent)


def fitted(line: str, width: int) -> list[str]:
    """Return an indented line as lines of at most ``width`` columns, less far indented where that will do."""
    words = line.lstrip()
    lead, room = len(line) - len(words), width - width_of(words)
    if lead <= room:
        return [line]
    if room > 0:
        return [f"{' ' * room}{words}"]
    # What is indented goes on a little further in, so that it is no new line of its list.
    return wrapped(line, width, indent=" " * (lead + 2) if lead else "")


def shown_name(text: str, longest: int = 28) -> str:
    """Return an owner's name as a terminal shows it: harmless, and cut where it is very long."""
    return cut(printable(text), longest)


def columns(rows: Sequence[Sequence[str]], *, right: Iterable[int] = (), gap: int = 2) -> list[str]:
    """Return rows of cells as lines, each column as wide as its widest cell; ``right`` ones end flush."""
    flush_right = set(right)
    rows = [[writable(cell) for cell in row] for row in rows]
    widths = [max(map(width_of, column)) for column in zip_longest(*rows, fillvalue="")]
    lines = []
    for row in rows:
        cells = []
        for position, cell in enumerate(row):
            blank = " " * (widths[position] - width_of(cell))
            cells.append(blank + cell if position in flush_right else cell + blank)
        lines.append((" " * gap).join(cells).rstrip())
    return lines


def table(rows: Sequence[Sequence[str]], width: int, *, right: Iterable[int] = ()) -> list[str]:
    """Return rows, the headings first, as columns where they fit into ``width``; else see `stacked`."""
    for gap in (2, 1):
        lines = columns(rows, right=right, gap=gap)
        if max(map(width_of, lines)) <= width:
            return lines
    headings, *others = rows
    return [line for row in others for line in stacked(headings, row, width)]


def stacked(headings: Sequence[str], row: Sequence[str], width: int) -> list[str]:
    """Return a row for a narrow terminal: its first cell, and below it the others, each after its heading."""
    first, *cells = row
    told = [
        f"{heading} {cell}".strip()
        for heading, cell in zip(headings[1:], cells, strict=False)
        if cell.strip()
    ]
    below: list[str] = []
    for part in told:
        if below and width_of(f"{below[-1]}, {part}") <= width - 3:
            below[-1] += f", {part}"
        else:
            below[-1:] = [f"{line}," for line in below[-1:]]
            below += wrapped(part, width - 3)
    return [cut(first, width), *(f"  {line}" for line in below)]
