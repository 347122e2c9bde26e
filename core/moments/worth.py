"""How much an evening is worth on each planet, and which planet it serves best. Ours.

In steps of ten minutes, worth = w max(0, ln(N / 3)): N is how many finest details fit across the disc (across
2.27 of it for Saturn, whose ring counts), and w tells whether the owner is outside then.
"""

import math
from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import ArrayLike

from core.arrays import Floats
from core.sky.bodies import FACTS, Body
from core.sky.ring import OUTER_EDGE_KM

STEP_S: Final = 600.0
# Lower than this nothing counts.
LOWEST_DEG: Final = 12.0
# A planet is worth something from three details across.
LEAST_DETAILS: Final = 3.0
# The outer edge of the ring over the equator of the globe.
RING_OVER_DISC: Final = OUTER_EDGE_KM / FACTS[Body.SATURN].equatorial_radius_km
INSIDE_WEIGHT: Final = 1.0
EARLIER_WEIGHT: Final = 0.3
LATER_WEIGHT: Final = 0.1
BEST_STEPS: Final = 9
# 20 minutes inside the hours.
LEAST_STEPS_INSIDE: Final = 2
# Small faint discs tire sooner.
FAINT_SHARE: Final = {Body.URANUS: 0.5, Body.NEPTUNE: 0.5}


def details_across(body: Body, diameter_arcsec: ArrayLike, finest_arcsec: ArrayLike) -> Floats:
    """Return N, how many finest details (arcsec) fit across a body of an equatorial diameter, any shape.

    >>> details_across(Body.SATURN, 20.0, 1.0).round(1).item()
    45.4
    """
    width = RING_OVER_DISC if body is Body.SATURN else 1.0
    return np.asarray(
        width * np.asarray(diameter_arcsec, dtype=float) / np.asarray(finest_arcsec, dtype=float)
    )


def step_times_s(
    windows: Sequence[tuple[float, float]], *, since_s: float = -math.inf, stop_s: float = math.inf
) -> Floats:
    """Return the middles (Unix seconds, (N,)) of the ten-minute steps that lie wholly inside windows.

    Each window is counted from its own start. Nothing is earlier than ``since_s`` or later than ``stop_s``.
    """
    steps: list[Floats] = []
    for start_s, end_s in windows:
        begin, end = max(start_s, since_s), min(end_s, stop_s)
        count = math.floor((end - begin) / STEP_S + 1e-6) if end > begin else 0
        steps.append(np.asarray(begin + STEP_S * (np.arange(count) + 0.5)))
    return np.concatenate(steps) if steps else np.empty(0)


@frozen(kw_only=True)
class EveningWorth:
    """What one evening is worth on one body.

    ``total`` sums the best nine steps as they are weighted, ``inside``, ``earlier`` and ``later`` the best
    nine in the owner's hours, before and after them, unweighted. ``steps_inside`` counts the steps in the
    hours that are worth anything, ``most_details`` is the greatest N of all, 0 without a step.
    """

    body: Body
    total: float
    inside: float
    earlier: float
    later: float
    steps_inside: int
    most_details: float


def step_worth(details: ArrayLike) -> Floats:
    """Return the worth of steps before weighting, max(0, ln(N / 3)), any shape; NaN counts nothing.

    >>> step_worth([2.0, 30.0]).round(1).tolist()
    [0.0, 2.3]
    """
    across = np.nan_to_num(np.asarray(details, dtype=float), nan=0.0)
    return np.asarray(np.log(np.maximum(across / LEAST_DETAILS, 1.0)))


def evening_worth(
    body: Body,
    *,
    unix_s: Floats,
    details: Floats,
    altitude_deg: Floats,
    hours_s: tuple[float, float],
) -> EveningWorth:
    """Return the worth of an evening's steps, all arrays (N,), with the owner's hours in Unix seconds."""
    share = FAINT_SHARE.get(body, 1.0)
    worth = share * step_worth(details) * (altitude_deg >= LOWEST_DEG)
    before, after = unix_s < hours_s[0], unix_s >= hours_s[1]
    inside = ~before & ~after
    weight = np.where(inside, INSIDE_WEIGHT, np.where(before, EARLIER_WEIGHT, LATER_WEIGHT))
    return EveningWorth(
        body=body,
        total=_best_of(weight * worth),
        inside=_best_of(worth[inside]),
        earlier=_best_of(worth[before]),
        later=_best_of(worth[after]),
        steps_inside=int(np.count_nonzero(worth[inside] > 0.0)),
        most_details=float(np.nanmax(details[altitude_deg >= LOWEST_DEG], initial=0.0)),
    )


def _best_of(worths: Floats) -> float:
    return float(np.sort(worths)[-BEST_STEPS:].sum())


@frozen(kw_only=True)
class ChosenBody:
    """The body that an evening serves best; ``inside`` tells whether it does so in the owner's hours."""

    body: Body
    inside: bool


def choose_body(worths: Mapping[Body, EveningWorth]) -> ChosenBody | None:
    """Return the body to look at, of those that have a window; None where none has.

    A planet with 20 minutes of worth in the hours comes before one outside them, and any planet before the
    Moon. Where no planet is worth anything, the one with the most details is named, as outside.
    """
    planets = [each for body, each in worths.items() if body is not Body.MOON]
    inside = [each for each in planets if each.steps_inside >= LEAST_STEPS_INSIDE]
    if inside:
        return ChosenBody(body=max(inside, key=_service).body, inside=True)
    if planets:
        return ChosenBody(body=max(planets, key=_service).body, inside=False)
    return ChosenBody(body=Body.MOON, inside=worths[Body.MOON].steps_inside >= 1) if worths else None


def _service(worth: EveningWorth) -> tuple[float, float]:
    return worth.total, worth.most_details
