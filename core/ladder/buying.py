"""The one thing that would help most, over many nights and not for tonight's air. Ours.

Each night has a best power, the least of 232 / theta without dispersion, 1.6x per mm and the usual air limit.
A kit's loss on it is c ln²(P / P*) of its nearest power, c = 1 below and 2 above; the mean over the nights,
with a finding power wanted, is the loss of the kit. One more thing is chosen by the loss that it leaves, with
a small penalty for what it costs in money, comfort or care. Never a brand or a price.
"""

import math
from collections.abc import Iterator, Sequence
from enum import StrEnum
from typing import Final

import numpy as np
from attrs import frozen

from core.air.blur import blur_at
from core.air.finest_detail import ceiling_power
from core.air.usual_air import USUAL_AIR_POWER, USUAL_BLURS, BlurDistribution
from core.arrays import Floats
from core.gear.aperture import working_aperture_mm
from core.gear.combinations import barlow_chains, chain_factor, combinations, fits
from core.gear.eye import GLASSES_RELIEF_MM, USUAL_EYE, Eye
from core.gear.owned import USUAL_BARREL_MM, Barlow, Eyepiece, Telescope, TelescopeKind

# What is commonly sold (common practice, no source).
FOCAL_LENGTHS_MM: Final = (
    *(2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 12.5, 13.0, 15.0, 17.0, 18.0, 20.0),
    *(22.0, 24.0, 25.0, 30.0, 32.0, 35.0, 40.0),
)
FACTORS: Final = (2.0, 2.5, 3.0)
ZOOMS_MM: Final = ((8.0, 24.0), (7.0, 21.0))
ZOOM_SETTINGS: Final = 7

# The nights: so many equally likely airs, each along paths from near overhead to 34 degrees up.
AIRS: Final = 25
PATHS: Final = tuple(float(path) for path in np.linspace(1.05, 1.8, 7))
BEST_POWER_PER_MM: Final = 1.6
_TOO_MUCH: Final = 2.0  # a power above the best counts twice
# The exit pupils of a power to find a planet with, and the loss of a kit without one.
FINDING_PUPILS_MM: Final = (2.0, 6.0)
NO_FINDING_POWER: Final = 0.02

# Penalties, in the unit of the loss: for the money, for an eye close to the glass, for the care it asks.
SHORT_EYEPIECE: Final = 0.0015
SHORT_EYEPIECE_MM: Final = 5.0
A_BARLOW: Final = 0.005
A_ZOOM: Final = 0.008
# For a thing of whose gain more than this share hangs on a Barlow that is owned.
BEHIND_A_BARLOW: Final = 0.003
BEHIND_A_BARLOW_SHARE: Final = 0.3
TIGHT_FOR_GLASSES: Final = 0.01
# A plain eyepiece lets the eye stand about this share of its focal length away (common practice, no source).
_RELIEF_OVER_FOCAL_LENGTH: Final = 0.75

# A kit of a lower loss needs nothing: a usual miss of 12 % in power. Else a thing must take away this share.
GOOD_ENOUGH_LOSS: Final = 0.015
LEAST_GAIN: Final = 0.3


class BuyKind(StrEnum):
    """The kinds of things that are suggested."""

    EYEPIECE = "eyepiece"
    ZOOM = "zoom"
    BARLOW = "barlow"


@frozen(kw_only=True)
class Candidate:
    """A thing not owned yet: an eyepiece, a zoom (both ends in mm), or a Barlow."""

    kind: BuyKind
    focal_length_mm: float | None = None
    to_focal_length_mm: float | None = None
    factor: float | None = None


@frozen(kw_only=True)
class Purchase:
    """What to buy, and what for.

    ``powers`` are those that it adds. It is for nights that bear ``from_power`` to ``to_power``, between
    which the kit has nothing; ``from_power`` is None where all that is owned gives more, ``to_power`` where
    all gives less. ``for_finding`` tells that it is wanted to find a planet with, not to climb,
    ``finds_too`` that it is wanted for both. Losses are before penalties; 0.015 is a usual miss of 12 % in
    power.
    """

    thing: Candidate
    powers: tuple[float, ...]
    from_power: float | None
    to_power: float | None
    for_finding: bool
    finds_too: bool
    loss_before: float
    loss_after: float


def best_powers(aperture_mm: float, blurs: BlurDistribution = USUAL_BLURS) -> Floats:
    """Return the best power of each of many equally likely nights, (175,): 25 airs at 7 heights."""
    overhead, path = np.meshgrid(blurs.equally_likely_arcsec(AIRS), np.array(PATHS), indexing="ij")
    together = ceiling_power(aperture_mm, blur_at(1.0, path) * overhead, usual_air=USUAL_AIR_POWER)
    return np.minimum(together, BEST_POWER_PER_MM * aperture_mm).ravel()


def what_to_buy(
    scope: Telescope,
    eyepieces: Sequence[Eyepiece],
    barlows: Sequence[Barlow],
    *,
    eye: Eye = USUAL_EYE,
    blurs: BlurDistribution = USUAL_BLURS,
) -> Purchase | None:
    """Return the one thing that would help this telescope most, or None when there is nothing to buy.

    Nothing helps a fixed-power instrument. ``blurs`` are those of the site where its log tells them. The
    first thing of all must be one that a planet can be found with.
    """
    if scope.kind is TelescopeKind.FIXED or scope.focal_length_mm is None:
        return None
    owned = np.array([each.power for each in combinations(scope, eyepieces, barlows)])
    aperture_mm = working_aperture_mm(scope)
    nights = _Nights(aperture_mm=aperture_mm, best=best_powers(aperture_mm, blurs))
    missed = nights.misses(owned).min(axis=0) if len(owned) else np.full(nights.best.shape, np.inf)
    before = nights.loss(missed, owned)
    if before < GOOD_ENOUGH_LOSS:
        return None
    best: tuple[float, float, Candidate, Floats] | None = None
    for thing, powers, direct in _trials(scope, eyepieces, barlows):
        if not len(owned) and not nights.can_find(powers):
            continue
        after = nights.with_more(missed, owned, powers)
        cost = after + _penalty(thing, eye)
        if len(direct) < len(powers) and math.isfinite(before):
            alone = nights.with_more(missed, owned, direct)
            if alone - after > BEHIND_A_BARLOW_SHARE * (before - after):
                cost += BEHIND_A_BARLOW
        if best is None or cost < best[0] - 1e-12:
            best = (cost, after, thing, powers)
    if best is None or best[1] > (1.0 - LEAST_GAIN) * before:
        return None
    _, after, thing, powers = best
    return _purchase(nights, missed, owned, thing=thing, powers=powers, losses=(before, after))


@frozen
class _Nights:
    """Many nights, and what it costs to miss their best powers."""

    aperture_mm: float
    best: Floats

    def misses(self, powers: Floats) -> Floats:
        """Return the loss of each power on each night, (powers, nights)."""
        ratio = np.log(powers[:, np.newaxis] / self.best)
        return np.asarray(np.where(ratio > 0.0, _TOO_MUCH, 1.0) * ratio**2)

    def loss(self, missed: Floats, powers: Sequence[float] | Floats) -> float:
        """Return the mean loss of a kit, with what it costs to have no power for finding."""
        return float(missed.mean()) + (0.0 if self.can_find(powers) else NO_FINDING_POWER)

    def can_find(self, powers: Sequence[float] | Floats) -> bool:
        """Tell whether a power has an exit pupil of 2 to 6 mm."""
        pupils = self.aperture_mm / np.asarray(powers, dtype=float)
        low, high = FINDING_PUPILS_MM
        return bool(((pupils >= low * (1 - 1e-9)) & (pupils <= high * (1 + 1e-9))).any())

    def with_more(self, missed: Floats, owned: Floats, powers: Floats) -> float:
        """Return the loss of a kit with more powers."""
        if not len(powers):
            return self.loss(missed, owned)
        both = np.minimum(missed, self.misses(powers).min(axis=0))
        return self.loss(both, np.concatenate([owned, powers]))


def _trials(
    scope: Telescope, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow]
) -> Iterator[tuple[Candidate, Floats, Floats]]:
    """Yield what might be bought, the powers that it adds, and those of them that need no Barlow owned."""
    assert scope.focal_length_mm is not None
    focal_length_mm = scope.focal_length_mm
    barrel_mm = min(USUAL_BARREL_MM, scope.barrel_mm)
    chains = barlow_chains(scope, barlows)
    one = Eyepiece(name="any", focal_length_mm=10.0, barrel_mm=barrel_mm)
    factors = np.array([chain_factor(chain) for chain in chains if fits(scope, one, chain)])

    def eyepiece(settings_mm: Floats) -> tuple[Floats, Floats]:
        alone = focal_length_mm / settings_mm
        return np.multiply.outer(factors, alone).ravel(), alone

    for length_mm in FOCAL_LENGTHS_MM:
        yield Candidate(kind=BuyKind.EYEPIECE, focal_length_mm=length_mm), *eyepiece(np.array([length_mm]))
    for low_mm, high_mm in ZOOMS_MM:
        thing = Candidate(kind=BuyKind.ZOOM, focal_length_mm=low_mm, to_focal_length_mm=high_mm)
        yield thing, *eyepiece(np.geomspace(low_mm, high_mm, ZOOM_SETTINGS))
    for factor in FACTORS:
        lens = Barlow(name="new", factor=factor, barrel_mm=barrel_mm)
        # Two of a kind may stand behind one another, so the new one is told apart by its place in the list.
        more = combinations(scope, eyepieces, [*barlows, lens])
        powers = np.array([each.power for each in more if any(one is lens for one in each.barlows)])
        yield Candidate(kind=BuyKind.BARLOW, factor=factor), powers, powers


def _penalty(thing: Candidate, eye: Eye) -> float:
    if thing.kind is BuyKind.BARLOW:
        return A_BARLOW
    if thing.kind is BuyKind.ZOOM:
        return A_ZOOM
    assert thing.focal_length_mm is not None
    penalty = SHORT_EYEPIECE if thing.focal_length_mm <= SHORT_EYEPIECE_MM else 0.0
    if eye.keeps_glasses_on and _RELIEF_OVER_FOCAL_LENGTH * thing.focal_length_mm < GLASSES_RELIEF_MM:
        penalty += TIGHT_FOR_GLASSES
    return penalty


def _purchase(
    nights: _Nights,
    missed: Floats,
    owned: Floats,
    *,
    thing: Candidate,
    powers: Floats,
    losses: tuple[float, float],
) -> Purchase:
    """Return a purchase with what it is for: where among the powers owned its most useful one falls."""
    before, after = losses
    each = np.minimum(nights.misses(powers), missed) if len(owned) else nights.misses(powers)
    helps = float(powers[int(np.argmin(each.mean(axis=1)))])
    lower, higher = owned[owned < helps], owned[owned > helps]
    climbing = float((missed - each.min(axis=0)).mean()) if len(owned) else 0.0
    lacks_finding = len(owned) > 0 and not nights.can_find(owned)
    # A planet is found with a wider exit pupil than 6 mm too, though some light is wasted.
    has_only_narrow = lacks_finding and nights.aperture_mm / owned.min() < FINDING_PUPILS_MM[0]
    for_finding = lacks_finding and climbing < NO_FINDING_POWER
    return Purchase(
        thing=thing,
        powers=tuple(sorted(float(power) for power in powers)),
        from_power=float(lower.max()) if len(lower) else None,
        to_power=float(higher.min()) if len(higher) else None,
        for_finding=for_finding,
        finds_too=bool(has_only_narrow) and not for_finding and nights.can_find(powers),
        loss_before=before,
        loss_after=after,
    )


def as_gear(thing: Candidate, *, scope: Telescope) -> Eyepiece | Barlow:
    """Return a candidate as a thing that fits a telescope, to try it in a ladder."""
    barrel_mm = min(USUAL_BARREL_MM, scope.barrel_mm)
    if thing.factor is not None:
        return Barlow(name=f"{thing.factor:g}x", factor=thing.factor, barrel_mm=barrel_mm)
    assert thing.focal_length_mm is not None
    if thing.to_focal_length_mm is None:
        name = f"{thing.focal_length_mm:g} mm"
        return Eyepiece(name=name, focal_length_mm=thing.focal_length_mm, barrel_mm=barrel_mm)
    return Eyepiece(
        name=f"{thing.focal_length_mm:g}-{thing.to_focal_length_mm:g} mm zoom",
        focal_length_min_mm=thing.focal_length_mm,
        focal_length_max_mm=thing.to_focal_length_mm,
        barrel_mm=barrel_mm,
    )
