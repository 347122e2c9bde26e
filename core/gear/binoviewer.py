"""Pairs of equal eyepieces for a bino-viewer, and the power that its corrector lets them give.

The corrector works like a Barlow whose factor changes with spacing (geometric optics); that only equal
eyepieces go together is common practice, no source.
"""

from collections.abc import Sequence
from itertools import combinations as subsets

from attrs import evolve, frozen

from core.gear.combinations import fits
from core.gear.optics import power
from core.gear.owned import Eyepiece, Telescope


@frozen(kw_only=True)
class EyepiecePair:
    """Two equal eyepieces in the bino-viewer, told by the first of them, and their power."""

    eyepiece: Eyepiece
    power: float


def eyepiece_pairs(scope: Telescope, eyepieces: Sequence[Eyepiece]) -> tuple[EyepiecePair, ...]:
    """Return the pairs that a telescope's bino-viewer takes, lowest power first; none without one.

    Zooms are left out, since two of them are hardly ever turned alike.
    """
    if scope.binoviewer_factor is None or scope.focal_length_mm is None:
        return ()
    found: dict[float, EyepiecePair] = {}
    for one, other in subsets(eyepieces, 2):
        if one.focal_length_mm is None or not _are_equal(one, other) or not fits(scope, one):
            continue
        reached = power(scope.focal_length_mm, one.focal_length_mm, scope.binoviewer_factor)
        found.setdefault(reached, EyepiecePair(eyepiece=one, power=reached))
    return tuple(found[reached] for reached in sorted(found))


def _are_equal(one: Eyepiece, other: Eyepiece) -> bool:
    return evolve(one, id="", name="x") == evolve(other, id="", name="x")
