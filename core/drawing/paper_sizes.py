"""The sizes of paper that a sheet can have."""

from enum import StrEnum
from typing import Final

from core.gear.numbers import MM_PER_INCH

POINTS_PER_INCH: Final = 72.0
_POINTS_PER_MM: Final = POINTS_PER_INCH / MM_PER_INCH


class Paper(StrEnum):
    """The sizes of paper there are (ISO 216; ANSI Y14.1)."""

    A4 = "a4"
    LETTER = "letter"

    @property
    def width(self) -> float:
        """Its width, points."""
        return _SIZES[self][0]

    @property
    def height(self) -> float:
        """Its height, points."""
        return _SIZES[self][1]


_SIZES: Final = {
    Paper.A4: (210.0 * _POINTS_PER_MM, 297.0 * _POINTS_PER_MM),
    Paper.LETTER: (8.5 * POINTS_PER_INCH, 11.0 * POINTS_PER_INCH),
}
PAPERS: Final = tuple(size.value for size in Paper)
