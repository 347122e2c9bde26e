"""A smooth curve through values at even steps, as polynomials through the eight nearest of them.

Polynomials of such a degree through so many even nodes are exact to many digits in the middle of them
(Lagrange); only the middle is used but at the two ends.
"""

from itertools import pairwise
from typing import Final

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from core.arrays import Floats

NODES: Final = 8
# The piece that a polynomial serves lies between its two middle nodes.
_BEFORE: Final = NODES // 2 - 1
# Runs of times on one piece are worked out by themselves from so many times to a run.
_MANY_TIMES: Final = 64
# From values at the nodes to coefficients of climbing powers, with 0 and 1 at the two middle nodes.
_TO_COEFFICIENTS: Final = np.linalg.inv(np.vander(np.arange(NODES) - _BEFORE, increasing=True).astype(float))


class EvenCurve:
    """The curve through ``values`` (M, K), M at least 8, at ``start``, ``start + step`` and so on."""

    def __init__(self, start: float, step: float, values: Floats) -> None:
        self._start, self._step = start, step
        windows = sliding_window_view(values, NODES, axis=0)
        # The pieces, M - 7 of them, lie last, so that many times are worked out along them: (K, 8, M - 7).
        self._coefficients = np.ascontiguousarray(np.einsum("pn,mkn->kpm", _TO_COEFFICIENTS, windows))

    def __call__(self, at: Floats) -> Floats:
        """Return the values at times of any shape, with K as a new first axis."""
        steps = (np.asarray(at, dtype=float) - (self._start + _BEFORE * self._step)) / self._step
        piece = np.minimum(np.maximum(steps.astype(np.intp), 0), self._coefficients.shape[-1] - 1)
        powers = _powers(steps - piece)
        if piece.ndim == 1 and (runs := _long_runs(piece)):
            products = [self._coefficients[:, :, piece[run.start]] @ powers[:, run] for run in runs]
            return np.concatenate(products, axis=1)
        coefficients = np.take(self._coefficients, piece, axis=-1)
        return np.asarray(np.einsum("p...,kp...->k...", powers, coefficients))


def _long_runs(piece: NDArray[np.intp]) -> list[slice]:
    """Return the runs of times (N,) on one piece each, none where they are short.

    An evening's minutes share two pieces or three: one product for each takes half as long as to look the
    coefficients of every minute up.
    """
    changes = np.flatnonzero(piece[1:] != piece[:-1]) + 1
    if _MANY_TIMES * (len(changes) + 1) > len(piece):
        return []
    return [slice(*ends) for ends in pairwise([0, *changes.tolist(), len(piece)])]


def _powers(of: Floats) -> Floats:
    """Return the powers 0 to 7 along a new first axis; each step doubles how many there are."""
    powers = np.empty((NODES, *of.shape))
    powers[0], powers[1] = 1.0, of
    square = of * of
    np.multiply(powers[:2], square, out=powers[2:4])
    np.multiply(powers[:4], square * square, out=powers[4:])
    return powers
