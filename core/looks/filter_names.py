"""Filters by the names that people write and say: "#25A", "Wratten 80", "light blue", "Moon filter"."""

import re
from typing import Final

from core.looks.filters import wratten_table

NEUTRAL: Final = "96-0.9"
# Colours as filters are sold and spoken of (common practice, no source); two words before one.
_BY_NAME: Final = {
    "moon filter": NEUTRAL,
    "lunar filter": NEUTRAL,
    "neutral density": NEUTRAL,
    "neutral grey": NEUTRAL,
    "neutral gray": NEUTRAL,
    "minus blue": "12",
    "yellow green": "11",
    "light yellow": "8",
    "medium yellow": "12",
    "deep yellow": "15",
    "dark yellow": "15",
    "light red": "23A",
    "deep red": "29",
    "dark red": "29",
    "light blue": "82A",
    "pale blue": "82A",
    "medium blue": "80A",
    "deep blue": "38A",
    "dark blue": "38A",
    "blue green": "44A",
    "light green": "56",
    "dark green": "58",
    "deep green": "61",
    "skylight": "1A",
    "neutral": NEUTRAL,
    "grey": NEUTRAL,
    "gray": NEUTRAL,
    "moon": NEUTRAL,
    "yellow": "12",
    "orange": "21",
    "red": "25",
    "blue": "80A",
    "green": "58",
    "violet": "47",
    "purple": "47",
}
_MARKED: Final = re.compile(
    r"(?:#|№|\bwratten|\bw|\bno\b\.?|\bnr\b\.?)\s*#?\s*(\d{1,2})\s*([a-e]?)\b(-\d\.\d)?"
)
_BARE: Final = re.compile(
    r"(?<![\d.,])(\d{1,2})\s?([a-e]?)\b(-\d\.\d)?(?!\s*(?:mm|%|in\b|inch|[.,]?\d|[\"″]))"
)


def wratten_number(text: str) -> str | None:
    """Return the Wratten number of the table that a text names, or None.

    "25A" is "25", and "80" is "80A", since each is sold under both. A number goes before a colour; a colour
    alone means the filter usually sold as such.

    >>> wratten_number("no. 82a"), wratten_number("light blue"), wratten_number("mud")
    ('82A', '82A', None)
    """
    plain = " ".join(text.casefold().replace("_", " ").split())
    for pattern in (_MARKED, _BARE):
        for match in pattern.finditer(plain):
            found = _known(match[1], match[2].upper(), match[3] or "")
            if found is not None:
                return found
    spoken = plain.replace("-", " ")
    for name, number in _BY_NAME.items():
        # A filter that takes a colour away is none of that colour.
        if re.search(rf"(?<!minus )\b{name}\b", spoken):
            return number
    return None


def _known(digits: str, letter: str, density: str) -> str | None:
    table = wratten_table()
    number = digits + letter + density
    if number in table:
        return number
    if letter == "A" and digits in table:
        return digits
    if not letter and not density:
        return next((each for each in table if each in (f"{digits}A", f"{digits}-0.9")), None)
    return None


def wratten_typed(text: str) -> str:
    """Return what a text typed as a number is kept as: the number of the table that it names.

    A single word with a figure stays as it is written ("25A"), and so does what names nothing known.
    """
    plain = text.strip()
    is_number = len(plain.split()) == 1 and any(letter.isdigit() for letter in plain)
    return plain if is_number else wratten_number(plain) or plain


def filter_completions() -> tuple[str, ...]:
    """Return what may be offered while a filter is typed: numbers with their colours, then spoken names."""
    table = wratten_table()
    numbers = (f"{facts.wratten}, {facts.colour}" for facts in table.values())
    return (*numbers, *(f"{name}, {number}" for name, number in _BY_NAME.items()))
