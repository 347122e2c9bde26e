"""A smooth curve through values at even steps, as polynomials through the eight nearest of them.

Polynomials of such a degree through so many even nodes are exact to many digits in the middle of them
(Lagrange); only the middle is used but at the two ends.
"""

from typing import Final

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from core.sky.ephemeris import Floats

NODES: Final = 8
# The piece that a polynomial serves lies between its two middle nodes.
_BEFORE: Final = NODES // 2 - 1
# From values at the nodes to coefficients of falling powers, with 0 and 1 at the two middle nodes.
_TO_COEFFICIENTS: Final = np.linalg.inv(np.vander(np.arange(NODES) - _BEFORE).astype(float))


class EvenCurve:
    """The curve through ``values`` (M, K), M at least 8, at ``start``, ``start + step`` and so on."""

    def __init__(self, start: float, step: float, values: Floats) -> None:
        self._start, self._step = start, step
        windows = sliding_window_view(values, NODES, axis=0)
        # One row of coefficients for each piece, (M - 7, 8, K).
        self._coefficients = np.ascontiguousarray(np.einsum("pn,mkn->mpk", _TO_COEFFICIENTS, windows))

    def __call__(self, at: Floats) -> Floats:
        """Return the values at times of any shape, with K as the last axis."""
        steps = (np.asarray(at, dtype=float) - (self._start + _BEFORE * self._step)) / self._step
        piece = np.clip(steps.astype(np.intp), 0, len(self._coefficients) - 1)
        part = (steps - piece)[..., np.newaxis]
        coefficients = self._coefficients[piece]
        found: Floats = coefficients[..., 0, :]
        for power in range(1, NODES):
            found = found * part
            found += coefficients[..., power, :]
        return found
