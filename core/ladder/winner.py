"""Which of two telescopes has more of something, and when the difference cannot be told."""

from enum import StrEnum
from typing import Final

# Differences smaller than these cannot be told at the eyepiece (common practice).
DETAIL_TIE: Final = 1.05
LIGHT_TIE: Final = 1.05
FIELD_TIE: Final = 1.1
COOLING_TIE: Final = 1.1
# A gain smaller than this is called slight.
SLIGHT_GAIN: Final = 1.25


class Winner(StrEnum):
    """Which of the two has more of something."""

    A = "a"
    B = "b"
    TIE = "tie"


def winner(a: float | None, b: float | None, *, tie: float, smaller_wins: bool = False) -> Winner | None:
    """Return who has more (or less), a tie within a ratio, None where either is unknown.

    >>> winner(200.0, 195.0, tie=1.05), winner(200.0, 150.0, tie=1.05)
    (<Winner.TIE: 'tie'>, <Winner.A: 'a'>)
    """
    if a is None or b is None:
        return None
    if max(a, b) <= min(a, b) * tie:
        return Winner.TIE
    return Winner.A if (a < b) == smaller_wins else Winner.B
