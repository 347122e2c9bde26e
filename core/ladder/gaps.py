"""What to buy next, what a thing not yet owned would give, and which eyepiece gives a wanted power.

The rule is ours: make the largest logarithmic gap between neighbouring powers from 50x to the ceiling, both
ends counted, as small as one purchase can. Alternatives of one rung count as powers of their own. Only a
strict improvement is suggested; never a brand or a price.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from attrs import frozen

from core.gear.combinations import barlow_chains, combinations, eyepiece_focal_lengths_mm, fits
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.ladder import USEFUL_POWER

# What is commonly sold (common practice, no source).
USUAL_FOCAL_LENGTHS_MM = (
    *(2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 12.5, 13.0, 15.0, 17.0, 18.0, 20.0),
    *(22.0, 24.0, 25.0, 30.0, 32.0, 35.0, 40.0),
)
USUAL_FACTORS = (1.5, 2.0, 2.5, 3.0, 4.0, 5.0)
# Powers nearer than this to one already owned are duplicates.
DUPLICATE_RATIO = 1.15
_USUAL_BARREL_MM = 31.75


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
    return _what_if(scope, eyepieces, barlows, ceiling, thing, owned)


def suggest(
    scope: Telescope, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow], ceiling: float | None
) -> WhatIf | None:
    """Return the one purchase that narrows the widest gap most, or None when there is nothing to buy.

    Ties go to fewer duplicates, then to the longer eyepiece; a Barlow comes after any eyepiece, the weaker
    first.
    """
    if ceiling is None or scope.kind is TelescopeKind.FIXED:
        return None
    owned = [combination.power for combination in combinations(scope, eyepieces, barlows)]
    trials = (
        _what_if(scope, eyepieces, barlows, ceiling, thing, owned)
        for thing in candidates(scope, eyepieces, barlows)
    )
    return min((trial for trial in trials if trial.improves), key=_order, default=None)


def candidates(
    scope: Telescope, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow]
) -> Iterator[Eyepiece | Barlow]:
    """Yield the usual eyepieces and Barlows that fit and are not owned yet."""
    barrel_mm = min(_USUAL_BARREL_MM, scope.barrel_mm)
    owned_lengths = {eyepiece.focal_length_mm for eyepiece in eyepieces}
    for focal_length_mm in USUAL_FOCAL_LENGTHS_MM:
        if focal_length_mm not in owned_lengths:
            yield Eyepiece(
                name=f"{focal_length_mm:g} mm", focal_length_mm=focal_length_mm, barrel_mm=barrel_mm
            )
    owned_factors = {barlow.factor for barlow in barlows}
    for factor in USUAL_FACTORS:
        if factor not in owned_factors:
            yield Barlow(name=f"{factor:g}x", factor=factor, barrel_mm=barrel_mm)


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
            focal_length_mm=scope.focal_length_mm * _factor(chain) / power,
        )
        for chain in singles
    )


def _order(trial: WhatIf) -> tuple[float, int, bool, float]:
    assert trial.after is not None
    # Equal gaps may differ in the last bit; a part in a billion is a tie.
    gap = round(math.log(trial.after.ratio), 9)
    if isinstance(trial.thing, Barlow):
        return gap, trial.duplicates, True, trial.thing.factor
    return gap, trial.duplicates, False, -eyepiece_focal_lengths_mm(trial.thing)[-1]


def _what_if(
    scope: Telescope,
    eyepieces: Sequence[Eyepiece],
    barlows: Sequence[Barlow],
    ceiling: float,
    thing: Eyepiece | Barlow,
    owned: Sequence[float],
) -> WhatIf:
    added = tuple(sorted(_added_powers(scope, eyepieces, barlows, thing)))
    return WhatIf(
        thing=thing,
        powers=added,
        duplicates=sum(any(_is_duplicate(power, other) for other in owned) for power in added),
        before=widest_gap(owned, ceiling),
        after=widest_gap([*owned, *added], ceiling),
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
                    yield scope.focal_length_mm * _factor(chain) / focal_length_mm


def _is_duplicate(power: float, other: float) -> bool:
    return max(power, other) <= min(power, other) * DUPLICATE_RATIO


def _factor(chain: Sequence[Barlow]) -> float:
    return math.prod(barlow.working_factor for barlow in chain)
