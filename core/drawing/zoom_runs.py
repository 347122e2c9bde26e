"""The powers of one zoom on a ladder: drawn as one run from its lowest to its highest."""

import math
from collections.abc import Sequence

from attrs import evolve

from core.ladder.ladder import Ladder, Rung


def owned_runs(ladder: Ladder) -> list[tuple[Rung, tuple[float, float]]]:
    """Return each owned zoom, alone and behind a Barlow, as a rung of its own in the middle of its powers."""
    found: dict[tuple[int, ...], tuple[Rung, tuple[float, float]]] = {}
    for rung in ladder.rungs:
        reach = _zoom_reach(rung)
        if reach is not None:
            middle = evolve(rung, power=math.sqrt(reach[0] * reach[1]))
            found.setdefault(_parts(rung), (middle, reach))
    return list(found.values())


def stops_of(ladder: Ladder, run: Rung) -> list[Rung]:
    """Return the rungs that are settings of one zoom."""
    return [rung for rung in ladder.rungs if _parts(rung) == _parts(run)]


def _parts(rung: Rung) -> tuple[int, ...]:
    """Return what tells one eyepiece with its Barlows from another, whatever a zoom is set to."""
    return id(rung.combination.eyepiece), *(id(barlow) for barlow in rung.combination.barlows)


def wished_runs(wished: Sequence[Rung]) -> list[tuple[Rung, tuple[float, float] | None]]:
    """Return what is wished for, a zoom's powers as one rung with the lowest and the highest of them.

    Behind a Barlow it is another run only where that does not reach on from the one before.
    """
    found: list[tuple[Rung, tuple[float, float] | None]] = []
    zooms: dict[tuple[int, ...], tuple[Rung, tuple[float, float]]] = {}
    for rung in sorted(wished, key=lambda rung: rung.power):
        reach = _zoom_reach(rung)
        if reach is None:
            found.append((rung, None))
        else:
            zooms.setdefault(_parts(rung), (rung, reach))
    runs: list[tuple[Rung, tuple[float, float]]] = []
    for rung, reach in sorted(zooms.values(), key=lambda run: run[1]):
        if runs and reach[0] <= runs[-1][1][1]:
            first, (low, high) = runs.pop()
            runs.append((first, (low, max(high, reach[1]))))
        else:
            runs.append((rung, reach))
    return [*found, *runs]


def _zoom_reach(rung: Rung) -> tuple[float, float] | None:
    """Return the powers at both ends of the zoom that a rung is a setting of, None for any other rung."""
    eyepiece, focal_length_mm = rung.combination.eyepiece, rung.combination.eyepiece_focal_length_mm
    if eyepiece is None or focal_length_mm is None:
        return None
    short_mm, long_mm = eyepiece.focal_length_min_mm, eyepiece.focal_length_max_mm
    if short_mm is None or long_mm is None:
        return None
    return rung.power * focal_length_mm / long_mm, rung.power * focal_length_mm / short_mm
