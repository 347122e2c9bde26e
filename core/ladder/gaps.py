"""What a thing not yet owned would give, and which eyepiece gives a wanted power.

A gap is the step between neighbouring powers from 50x to the ceiling, both ends counted. Alternatives of one
rung count as powers of their own.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice, pairwise

from attrs import frozen

from core.gear.combinations import (
    MOST_COMBINATIONS,
    barlow_chains,
    chain_factor,
    combinations,
    eyepiece_focal_lengths_mm,
    fits,
)
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.usual_powers import USEFUL_POWER

# Powers nearer than this to one already owned are duplicates (ours).
DUPLICATE_RATIO = 1.15


@frozen(kw_only=True)
class Gap:
    """The widest step of a ladder, from one power to the next."""

    low_power: float
    high_power: float

    @property
    def ratio(self) -> float:
        """How many times the upper power is the lower."""
        return self.high_power / self.low_power


@frozen(kw_only=True)
class WhatIf:
    """What one more thing would give: its powers, and the widest gap before and after it.

    ``duplicates`` counts its powers within 15 % of one already owned. The gaps are None when the ceiling
    leaves no room above 50x.
    """

    thing: Eyepiece | Barlow
    powers: tuple[float, ...]
    duplicates: int
    before: Gap | None
    after: Gap | None

    @property
    def improves(self) -> bool:
        """Whether the widest gap becomes strictly narrower."""
        if self.before is None or self.after is None:
            return False
        return self.after.ratio < self.before.ratio and not math.isclose(self.after.ratio, self.before.ratio)


@frozen(kw_only=True)
class WantedEyepiece:
    """The focal length that gives a wanted power behind one Barlow, a reducer, or none."""

    barlow: Barlow | None
    focal_length_mm: float


def widest_gap(powers: Iterable[float], ceiling: float) -> Gap | None:
    """Return the widest step in the powers from 50x to the ceiling, both ends counted.

    None when the ceiling is not above 50x. Of equal steps the lowest is told.

    >>> widest_gap((48.0, 120.0, 150.0), 200.0)
    Gap(low_power=50.0, high_power=120.0)
    """
    if ceiling <= USEFUL_POWER:
        return None
    inside = sorted(power for power in powers if USEFUL_POWER < power < ceiling)
    steps = [USEFUL_POWER, *inside, ceiling]
    gaps = [Gap(low_power=low, high_power=high) for low, high in pairwise(steps)]
    return max(gaps, key=lambda gap: gap.ratio)


def what_if(
    scope: Telescope,
    eyepieces: Sequence[Eyepiece],
    barlows: Sequence[Barlow],
    ceiling: float,
    thing: Eyepiece | Barlow,
) -> WhatIf:
    """Return what an eyepiece or a Barlow not yet owned would add under a ceiling given as a power."""
    owned = [combination.power for combination in combinations(scope, eyepieces, barlows)]
    added = tuple(sorted(islice(_added_powers(scope, eyepieces, barlows, thing), MOST_COMBINATIONS)))
    return WhatIf(
        thing=thing,
        powers=added,
        duplicates=sum(_has_duplicate(power, owned) for power in added),
        before=widest_gap(owned, ceiling),
        after=widest_gap([*owned, *added], ceiling),
    )


def eyepieces_for_power(
    scope: Telescope, barlows: Sequence[Barlow], power: float
) -> tuple[WantedEyepiece, ...]:
    """Return the focal length in mm that gives a power, without and with each Barlow or reducer that fits."""
    if scope.focal_length_mm is None:
        return ()
    singles = [chain for chain in barlow_chains(scope, barlows) if len(chain) <= 1]
    return tuple(
        WantedEyepiece(
            barlow=chain[0] if chain else None,
            focal_length_mm=scope.focal_length_mm * chain_factor(chain) / power,
        )
        for chain in singles
    )


def _added_powers(
    scope: Telescope, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow], thing: Eyepiece | Barlow
) -> Iterator[float]:
    """Yield the powers that come with one more thing, and only those."""
    if scope.focal_length_mm is None:
        return
    if isinstance(thing, Barlow):
        chains = [chain for chain in barlow_chains(scope, [*barlows, thing]) if thing in chain]
        users: Sequence[Eyepiece] = eyepieces
    else:
        chains = barlow_chains(scope, barlows)
        users = [thing]
    for eyepiece in users:
        for chain in chains:
            if fits(scope, eyepiece, chain):
                for focal_length_mm in eyepiece_focal_lengths_mm(eyepiece):
                    yield scope.focal_length_mm * chain_factor(chain) / focal_length_mm


def _has_duplicate(power: float, owned: Sequence[float]) -> bool:
    """Tell whether a power is as good as there already among those owned, lowest first."""
    lowest = bisect_left(owned, power / DUPLICATE_RATIO)
    return lowest < len(owned) and owned[lowest] <= power * DUPLICATE_RATIO
