"""What verdicts at the eyepiece teach about tonight's air.

A belief over the overhead blur is changed by each verdict on a step from one power to another, fades towards
the first look as time goes by, and tells for any planet, height and telescope how much power the air is
likely to bear.

Grounds: seeing is told apart by 10 % at best (Watson and Ahumada 2011) and loses its memory in tens of
minutes (Racine 1996, PASP 108, 372). Gains and widths are ours, checked by simulation.
"""

import math
from collections.abc import Iterable
from functools import cache
from statistics import NormalDist
from typing import Final

import numpy as np
from attrs import evolve, field, frozen
from numpy.typing import ArrayLike

from core.air.blur import blur_at
from core.air.finest_detail import detail_arcsec, power_showing
from core.air.mirror import combined_blur_arcsec
from core.air.usual_air import USUAL_BLUR_ARCSEC
from core.arrays import Floats
from core.record.log_entry import Verdict

SPREAD: Final = 0.43  # standard deviation of ln(blur) before any verdict
# The grid of ln(overhead blur in arcsec), counted from that of the first look: even to both sides, so that
# the first look itself is the middle of the belief, and no verdict has to make up for a grid that is cut.
_FROM_PRIOR: Final = np.linspace(-4.0 * SPREAD, 4.0 * SPREAD, 161)
_EDGES: Final = np.concatenate([[-np.inf], (_FROM_PRIOR[1:] + _FROM_PRIOR[:-1]) / 2.0, [np.inf]])

# A verdict fades to 1/e in this time.
MEMORY_S: Final = 3600.0
# It fades by full minutes, as the ladder is shown: else the seconds before a verdict could move the ceiling
# against what the verdict says.
_FADES_EACH_S: Final = 60.0
# How surely a step is judged, in standard deviations: so many for each square of ln(power), from the size of
# the step times how far its middle lies from what the air bears; never more than the surest.
GAIN: Final = 6.0
SUREST: Final = 2.5
# Within so many standard deviations of even, "no change" is said; so large a share of all verdicts is chance.
NO_CHANGE: Final = 0.4
CARELESS: Final = 0.05
# What a verdict weighs with a filter in, and while the mirror cools.
FILTER_WEIGHT: Final = 0.3
COOLING_WEIGHT: Final = 0.5
# A pair judged again so soon is one piece of evidence.
SAME_PAIR_S: Final = 120.0
_SAME_POWER: Final = 0.01

# The shares of the belief between which tonight's blur is likely to be.
BAND: Final = (0.15, 0.85)
# The least chance of more detail for which a step up is offered; also one that was given up.
STEP_UP_FROM: Final = 0.4
TRY_AGAIN_FROM: Final = 0.5
_LONGEST_WAIT_S: Final = 4 * 3600.0
_WAIT_STEP_S: Final = 300.0

# How far the table of the normal distribution reaches, and its steps for each standard deviation.
_FURTHEST: Final = 8.0
_PER_ONE: Final = 1000


@frozen(kw_only=True)
class LineOfSight:
    """The line of sight of one telescope: what turns an overhead blur into a power.

    ``path`` is the air path, ``dispersion_arcsec`` the spread of the colours there, ``mirror_arcsec`` the
    blur of a warm mirror.
    """

    aperture_mm: float
    path: float
    dispersion_arcsec: float = 0.0
    mirror_arcsec: float = 0.0

    def power(self, overhead_arcsec: ArrayLike) -> Floats:
        """Return the power that aperture and air bear together, not cut, at overhead blurs, any shape."""
        air = np.asarray(overhead_arcsec, dtype=float) * blur_at(1.0, self.path)
        blur = combined_blur_arcsec(air, self.mirror_arcsec)
        return power_showing(detail_arcsec(self.aperture_mm, blur, self.dispersion_arcsec))


@frozen(kw_only=True)
class Evidence:
    """One verdict: the step, what it did, when (Unix seconds), and what makes it weigh less."""

    unix_s: float
    line: LineOfSight
    from_power: float
    to_power: float
    verdict: Verdict
    filter_in: bool = False
    mirror_cooling: bool = False
    warm_air: bool = False

    @property
    def weight(self) -> float:
        """How much it weighs, 0 to 1."""
        if self.warm_air or self.verdict is Verdict.CANNOT_TELL or self.from_power == self.to_power:
            return 0.0
        return (FILTER_WEIGHT if self.filter_in else 1.0) * (COOLING_WEIGHT if self.mirror_cooling else 1.0)

    @property
    def upwards(self) -> "Evidence":
        """The same verdict told as a step up: stepping down reverses what was said."""
        if self.to_power >= self.from_power:
            return self
        return evolve(self, from_power=self.to_power, to_power=self.from_power, verdict=self.verdict.reversed)


@frozen(kw_only=True, eq=False)
class Belief:
    """A belief over ln(overhead blur): the share of each point of the grid, (161,), at one time.

    ``unix_s`` (Unix seconds) is None before any verdict; ``prior_ln`` is the mean to which it fades, and the
    middle of the grid.
    """

    prior_ln: float
    share: Floats = field(repr=False)
    unix_s: float | None = None

    @property
    def ln_blur(self) -> Floats:
        """The grid, ln of overhead blurs in arcsec, (161,): four spreads to both sides of the prior."""
        return np.asarray(self.prior_ln + _FROM_PRIOR)

    @property
    def _blurs_arcsec(self) -> Floats:
        return np.exp(self.ln_blur)

    def faded(self, unix_s: float) -> "Belief":
        """Return what is left of it in the full minute of a later time; before any verdict nothing fades."""
        unix_s = math.floor(unix_s / _FADES_EACH_S) * _FADES_EACH_S
        if self.unix_s is None or unix_s <= self.unix_s:
            return self
        kept = math.exp(-(unix_s - self.unix_s) / MEMORY_S)
        middles = kept * _FROM_PRIOR
        width = SPREAD * math.sqrt(1.0 - kept**2)
        # Whole cells, so that nothing is lost between the points where the spread is narrower than they are
        # apart.
        below = _below((_EDGES[np.newaxis, :] - middles[:, np.newaxis]) / width)
        return evolve(self, share=_whole(self.share @ np.diff(below, axis=1)), unix_s=unix_s)

    def learned(self, evidence: Evidence) -> "Belief":
        """Return it after one verdict, faded over the time since the one before."""
        now = self.faded(evidence.unix_s)
        minute_s = math.floor(evidence.unix_s / _FADES_EACH_S) * _FADES_EACH_S
        at = minute_s if self.unix_s is None else max(minute_s, self.unix_s)
        share = now.share * likelihood_of(evidence, self._blurs_arcsec) ** evidence.weight
        return evolve(now, share=_whole(share), unix_s=at)

    def blur_arcsec(self, quantile: float) -> float:
        """Return the overhead blur in arcsec below which a share (0 to 1) of the belief lies."""
        return math.exp(float(np.interp(quantile, np.cumsum(self.share) - self.share / 2.0, self.ln_blur)))

    def chance_better(self, line: LineOfSight, from_power: float, to_power: float) -> float:
        """Return the chance, 0 to 1, that a higher power shows more than a lower one."""
        return float(self.share[line.power(self._blurs_arcsec) > math.sqrt(from_power * to_power)].sum())

    def try_again_at_s(self, line: LineOfSight, from_power: float, to_power: float) -> float | None:
        """Return when (Unix seconds) a power given up is worth another try, None within four hours.

        As the belief fades the chance that it is better comes back; a try is worth it from one half.
        """
        if self.unix_s is None:
            return None
        for wait_s in np.arange(0.0, _LONGEST_WAIT_S + 1.0, _WAIT_STEP_S):
            later_s = self.unix_s + float(wait_s)
            if self.faded(later_s).chance_better(line, from_power, to_power) >= TRY_AGAIN_FROM:
                return later_s
        return None


def first_belief(overhead_arcsec: float | None = None) -> Belief:
    """Return the belief of a first look (overhead blur in arcsec), or with nothing said."""
    middle = math.log(USUAL_BLUR_ARCSEC if overhead_arcsec is None else overhead_arcsec)
    return Belief(prior_ln=middle, share=_whole(np.exp(-((_FROM_PRIOR / SPREAD) ** 2) / 2.0)))


def believe(evidence: Iterable[Evidence], *, first_look_arcsec: float | None = None) -> Belief:
    """Return the belief after verdicts in the order of time.

    The same pair of powers judged again within two minutes is one piece of evidence: the last word counts.
    """
    belief = first_belief(first_look_arcsec)
    for piece in _pieces(evidence):
        belief = belief.learned(piece)
    return belief


def likelihood_of(evidence: Evidence, overhead_arcsec: ArrayLike) -> Floats:
    """Return how likely a verdict is at overhead blurs in arcsec, any shape; its weight is left out."""
    up = evidence.upwards
    bears = np.log(up.line.power(overhead_arcsec))
    step = math.log(up.to_power / up.from_power)
    margin = bears - 0.5 * math.log(up.from_power * up.to_power)
    z = np.clip(GAIN * step * margin, -SUREST, SUREST)
    more, less = _below(z - NO_CHANGE), _below(-z - NO_CHANGE)
    told = {Verdict.MORE: more, Verdict.LESS: less, Verdict.NO_CHANGE: 1.0 - more - less}
    if up.verdict not in told:
        return np.ones_like(bears)
    return np.asarray((1.0 - CARELESS) * told[up.verdict] + CARELESS / 3.0)


def _pieces(evidence: Iterable[Evidence]) -> list[Evidence]:
    pieces: list[Evidence] = []
    for each in evidence:
        before = pieces[-1] if pieces else None
        if before is not None and _same_piece(before, each):
            # With the weight of the better conditions, else a second "more" could teach less than the first.
            better = max(before, each, key=lambda piece: piece.weight)
            pieces[-1] = evolve(better.upwards, unix_s=before.unix_s, verdict=each.upwards.verdict)
        else:
            pieces.append(each)
    return pieces


def same_step(evidence: Evidence, low: float, high: float) -> bool:
    """Tell whether evidence is on the step between two powers, whichever way it was gone."""
    up = evidence.upwards
    pairs = ((up.from_power, low), (up.to_power, high))
    return all(math.isclose(one, other, rel_tol=_SAME_POWER) for one, other in pairs)


def _same_piece(one: Evidence, other: Evidence) -> bool:
    if other.warm_air or one.line.aperture_mm != other.line.aperture_mm:
        return False
    if other.unix_s - one.unix_s > SAME_PAIR_S:
        return False
    first = one.upwards
    return same_step(other, first.from_power, first.to_power)


@cache
def _normal_below() -> Floats:
    """Return the normal distribution at equal steps: between them it is right to one part in ten million."""
    steps = range(int(2 * _FURTHEST * _PER_ONE) + 1)
    return np.array([NormalDist().cdf(step / _PER_ONE - _FURTHEST) for step in steps])


def _below(z: Floats) -> Floats:
    """Return the share of the normal distribution below z, any shape."""
    table = _normal_below()
    place = np.clip((z + _FURTHEST) * _PER_ONE, 0.0, len(table) - 1.001)
    step = place.astype(np.intp)
    below = table[step]
    return np.asarray(below + (place - step) * (table[step + 1] - below))


def _whole(share: Floats) -> Floats:
    return np.asarray(share / share.sum())
