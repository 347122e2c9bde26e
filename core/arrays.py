"""The arrays that the rooms hand to one another: names for them, and what is asked of several."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Truths = NDArray[np.bool_]
Whole = NDArray[np.intp]
# Brightness and the like, where so many are needed that half the digits must do.
Values = NDArray[np.float32]


def runs(numbers: Whole, *, bridged: int = 0) -> list[Whole]:
    """Return rising numbers (N,) as runs (M,) without a gap; up to ``bridged`` missing ones are no gap."""
    parts = np.split(numbers, np.flatnonzero(np.diff(numbers) > bridged + 1) + 1)
    return [part for part in parts if len(part)]
