"""How likely a feature of a size is to be seen: by the finest detail, and by how large it looks. Ours.

Chances run on a scale of steps from 0 to 1, a third for each of unlikely, possible and likely, so that
nothing jumps: what takes a promise away takes it away by parts of a step. The sizes of features come from
published elements; least sizes are ours, after common practice.
"""

import math
from enum import IntEnum, StrEnum
from typing import Final

import numpy as np
from attrs import frozen

STEP: Final = 1.0 / 3.0
# The middle of likely: nothing is surer than that, so that one step less is always one word less.
SURE: Final = 2.5 * STEP
# What is lost where a feature looks at these shares of its full size (ours).
_LOOKS: Final = (0.0, 0.35, 0.5, 0.7, 0.89, 1.0)
_LOST: Final = (1.0, 2.5 * STEP, 1.5 * STEP, STEP, 0.5 * STEP, 0.0)


class Likelihood(IntEnum):
    """How likely a feature is to be seen, the likeliest first."""

    LIKELY = 0
    POSSIBLE = 1
    UNLIKELY = 2


class Feature(StrEnum):
    """What there may be to see."""

    MOONS = "moons"
    MAIN_BELTS = "main_belts"
    THIN_BELTS = "thin_belts"
    RED_SPOT = "red_spot"
    MOON_SHADOW = "moon_shadow"
    RING = "ring"
    RING_LINE = "ring_line"
    RING_SPACE = "ring_space"
    RING_GAP = "ring_gap"
    FINE_GAP = "fine_gap"
    RING_SHADOW = "ring_shadow"
    GLOBE_SHADOW = "globe_shadow"
    GLOBE_BELT = "globe_belt"
    TITAN = "titan"
    DARK_MARKINGS = "dark_markings"
    NORTH_CAP = "north_cap"
    SOUTH_CAP = "south_cap"
    PHASE = "phase"
    FAINT_MARKINGS = "faint_markings"
    SMALL_DISC = "small_disc"
    RELIEF = "relief"
    RAYS = "rays"


class HeldBack(StrEnum):
    """What mostly stands in the way of a feature."""

    DETAIL = "detail"
    POWER = "power"
    APERTURE = "aperture"
    OPENING = "opening"
    UNLIT_SIDE = "unlit_side"
    TURNED_AWAY = "turned_away"
    DUST = "dust"
    PHASE = "phase"
    NEVER = "never"


@frozen(kw_only=True)
class FeatureRule:
    """From how many finest details a feature is likely and possible, and how large it must look, in arcsec.

    A feature that looks ``looks_arcsec`` wide loses nothing; of a phase that is the whole disc, for its
    outline shows it.
    """

    likely_from: float
    possible_from: float
    looks_arcsec: float


_SOFT_ARCSEC: Final = 180.0
_DARK_ARCSEC: Final = 60.0
# From about 90x (common practice, no source).
_GAP_ARCSEC: Final = 70.0
_SPACE_ARCSEC: Final = 110.0
_CAP_ARCSEC: Final = 55.0
_RING_ARCSEC: Final = 1100.0

# A dark line or a bright cap shows even when it is finer than the finest detail, a pale band only when it is
# wider.
RULES: Final = {
    # Of moons the size is how far the widest one stands from the planet's edge.
    Feature.MOONS: FeatureRule(likely_from=4.0, possible_from=2.0, looks_arcsec=500.0),
    Feature.MAIN_BELTS: FeatureRule(likely_from=1.0, possible_from=0.5, looks_arcsec=_SOFT_ARCSEC),
    Feature.THIN_BELTS: FeatureRule(likely_from=1.2, possible_from=0.85, looks_arcsec=215.0),
    Feature.RED_SPOT: FeatureRule(likely_from=3.0, possible_from=1.6, looks_arcsec=400.0),
    Feature.MOON_SHADOW: FeatureRule(likely_from=0.8, possible_from=0.4, looks_arcsec=_DARK_ARCSEC),
    # Of the ring as a shape the size is its long axis.
    Feature.RING: FeatureRule(likely_from=4.0, possible_from=2.0, looks_arcsec=_RING_ARCSEC),
    # Nearly closed it is a line, or a longish shape.
    Feature.RING_LINE: FeatureRule(likely_from=4.0, possible_from=2.0, looks_arcsec=_RING_ARCSEC),
    Feature.RING_SPACE: FeatureRule(likely_from=0.6, possible_from=0.3, looks_arcsec=_SPACE_ARCSEC),
    Feature.RING_GAP: FeatureRule(likely_from=0.6, possible_from=0.3, looks_arcsec=_GAP_ARCSEC),
    Feature.FINE_GAP: FeatureRule(likely_from=0.3, possible_from=0.12, looks_arcsec=15.0),
    Feature.RING_SHADOW: FeatureRule(likely_from=0.35, possible_from=0.15, looks_arcsec=40.0),
    Feature.GLOBE_SHADOW: FeatureRule(likely_from=0.6, possible_from=0.25, looks_arcsec=_DARK_ARCSEC),
    Feature.GLOBE_BELT: FeatureRule(likely_from=1.6, possible_from=0.8, looks_arcsec=150.0),
    Feature.DARK_MARKINGS: FeatureRule(likely_from=1.25, possible_from=0.5, looks_arcsec=_SOFT_ARCSEC),
    Feature.NORTH_CAP: FeatureRule(likely_from=0.8, possible_from=0.4, looks_arcsec=_CAP_ARCSEC),
    Feature.SOUTH_CAP: FeatureRule(likely_from=0.8, possible_from=0.4, looks_arcsec=_CAP_ARCSEC),
    Feature.PHASE: FeatureRule(likely_from=0.55, possible_from=0.25, looks_arcsec=620.0),
    Feature.SMALL_DISC: FeatureRule(likely_from=1.7, possible_from=1.0, looks_arcsec=350.0),
}


def between(value: float, *, possible_from: float, likely_from: float) -> float:
    """Return where a value stands on the scale of steps, even in its logarithm, from 0 to ``SURE``.

    It is a third where the value is ``possible_from`` and two thirds where it is ``likely_from``.

    >>> between(0.4, possible_from=0.4, likely_from=0.8) == STEP
    True
    """
    if value <= 0.0:
        return 0.0
    # Logarithms apart: the smallest float over a bound would be nothing.
    above = math.log(value) - math.log(possible_from)
    steps = 1.0 + above / math.log(likely_from / possible_from)
    return min(max(steps * STEP, 0.0), SURE)


def by_detail(rule: FeatureRule, size_arcsec: float, finest_arcsec: float) -> float:
    """Return the scale of steps of a size in arcsec against the finest detail."""
    return between(
        size_arcsec / finest_arcsec, possible_from=rule.possible_from, likely_from=rule.likely_from
    )


def lost_by_power(rule: FeatureRule, size_arcsec: float, power: float) -> float:
    """Return what a power takes away because the feature looks small, on the scale of steps.

    Nothing from the full size on; soon below it what was sure is only possible, and below half of it
    unlikely.
    """
    looks = size_arcsec * power / rule.looks_arcsec
    return float(np.interp(looks, _LOOKS, _LOST))


def probability(steps: float) -> float:
    """Return the scale of steps as a smooth probability: 0.26 at possible, 0.74 at likely."""
    return steps * steps * (3.0 - 2.0 * steps)


def likelihood(steps: float) -> Likelihood:
    """Return the word for a place on the scale of steps; a bound up to rounding belongs to the better.

    >>> likelihood(STEP).name, likelihood(2 * STEP).name
    ('POSSIBLE', 'LIKELY')
    """
    if steps >= 2.0 * STEP - 1e-9:
        return Likelihood.LIKELY
    return Likelihood.POSSIBLE if steps >= STEP - 1e-9 else Likelihood.UNLIKELY
