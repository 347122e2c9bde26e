"""What a comparison of two telescopes comes to: which wins where, where they tie, what it depends on.

The findings come in an order of their own, so they stay the same when the two change places. All figures are
rules of thumb. The sentences stand in ``core/words/comparison.py``.
"""

import math
from collections.abc import Iterator
from enum import StrEnum

import numpy as np
from attrs import frozen

from core.air.atmosphere import air_path
from core.air.finest_detail import MOSTLY, LimitKind
from core.air.steadiness import BLUR_EXPONENT
from core.gear.owned import TelescopeKind
from core.ladder.side import Side, built_in_power

# Differences smaller than these cannot be told at the eyepiece (common practice).
DETAIL_TIE = 1.05
LIGHT_TIE = 1.05
FIELD_TIE = 1.1
COOLING_TIE = 1.1
# In worse air than this nobody compares telescopes (ours).
WORST_NIGHT_ARCSEC = 4.0
# A gain smaller than this is called slight.
SLIGHT_GAIN = 1.25
# A difference of the obstructions, as shares of the aperture, from which it is worth a word.
OBSTRUCTION_DIFFERENCE = 0.15
# A kit that reaches less than this share of its ceiling falls short of it.
SHORT_OF_CEILING = 0.8


class Winner(StrEnum):
    """Which of the two has more of something."""

    A = "a"
    B = "b"
    TIE = "tie"


class FindingKind(StrEnum):
    """What there is to say of two telescopes."""

    NO_DETAIL = "no_detail"
    FINER_DETAIL = "finer_detail"
    SLIGHTLY_FINER_DETAIL = "slightly_finer_detail"
    APERTURES_ALIKE = "apertures_alike"
    AIR_TIES_THEM = "air_ties_them"
    DETAIL_ALIKE = "detail_alike"
    LESS_OBSTRUCTED = "less_obstructed"
    FINER_WHILE_STEADY = "finer_while_steady"
    FINER_AT_NO_HEIGHT = "finer_at_no_height"
    FINER_AT_ANY_HEIGHT = "finer_at_any_height"
    FINER_FROM_HEIGHT = "finer_from_height"
    LIGHT_ALIKE = "light_alike"
    LITTLE_MORE_LIGHT = "little_more_light"
    MORE_LIGHT = "more_light"
    NOTHING_UNDER_CEILING = "nothing_under_ceiling"
    SHORT_OF_CEILING = "short_of_ceiling"
    WIDER_FIELD = "wider_field"
    READY_SOONER = "ready_sooner"
    FOLLOWS = "follows"
    FOLLOWS_WITH_DRIFT = "follows_with_drift"
    COLLIMATION = "collimation"
    OBSTRUCTION_ASSUMED = "obstruction_assumed"


@frozen(kw_only=True)
class Finding:
    """One thing that a comparison comes to.

    ``side`` is the one that it is told of, mostly the one with more of it. ``figure`` is what the sides do
    not hold themselves: a power, a blur overhead in arcsec, an altitude in degrees or a drift in seconds.
    """

    kind: FindingKind
    side: Side
    other: Side
    figure: float | None = None


def winner(a: float | None, b: float | None, *, tie: float, smaller_wins: bool = False) -> Winner | None:
    """Return who has more (or less), a tie within a ratio, None where either is unknown."""
    if a is None or b is None:
        return None
    if max(a, b) <= min(a, b) * tie:
        return Winner.TIE
    return Winner.A if (a < b) == smaller_wins else Winner.B


def find_verdict(a: Side, b: Side) -> tuple[Finding, ...]:
    """Return what two telescopes under the same sky come to."""
    smaller, larger = sorted(
        (a, b), key=lambda side: (side.scope.aperture_mm, side.scope.name, side.scope.id)
    )
    return (
        *_detail(smaller, larger),
        *_depends(smaller, larger),
        *_light(smaller, larger),
        *_reach(smaller, larger),
        *_field(smaller, larger),
        *_cooling(smaller, larger),
        *_following(smaller, larger),
        *_collimation(smaller, larger),
        *_assumed(smaller, larger),
    )


def _detail(smaller: Side, larger: Side) -> Iterator[Finding]:
    outcome = winner(
        smaller.finest_detail_arcsec, larger.finest_detail_arcsec, tie=DETAIL_TIE, smaller_wins=True
    )
    if outcome is None:
        yield Finding(kind=FindingKind.NO_DETAIL, side=smaller, other=larger)
        return
    if outcome is Winner.TIE:
        yield from _detail_tie(smaller, larger)
        return
    fine, coarse = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    assert fine.finest_detail_arcsec is not None
    assert coarse.finest_detail_arcsec is not None
    slight = coarse.finest_detail_arcsec < fine.finest_detail_arcsec * SLIGHT_GAIN
    kind = FindingKind.SLIGHTLY_FINER_DETAIL if slight else FindingKind.FINER_DETAIL
    yield Finding(kind=kind, side=fine, other=coarse)


def _detail_tie(smaller: Side, larger: Side) -> Iterator[Finding]:
    limits = larger.ladder.limits
    if winner(smaller.resolution_arcsec, larger.resolution_arcsec, tie=DETAIL_TIE) is Winner.TIE:
        yield Finding(kind=FindingKind.APERTURES_ALIKE, side=smaller, other=larger)
        if larger.ladder.ceiling.set_by is LimitKind.APERTURE:
            yield from _contrast(smaller, larger)
    elif limits.together is not None and built_in_power(larger.scope) is None:
        stop = min(limits.together, limits.usual_air)
        yield Finding(kind=FindingKind.AIR_TIES_THEM, side=smaller, other=larger, figure=stop)
    else:
        yield Finding(kind=FindingKind.DETAIL_ALIKE, side=smaller, other=larger)


def _contrast(smaller: Side, larger: Side) -> Iterator[Finding]:
    """Speak of obstruction where nothing else tells two telescopes apart (common practice)."""
    ratios = smaller.scope.obstruction_ratio, larger.scope.obstruction_ratio
    if abs(ratios[0] - ratios[1]) >= OBSTRUCTION_DIFFERENCE:
        clearer, other = (smaller, larger) if ratios[0] < ratios[1] else (larger, smaller)
        yield Finding(kind=FindingKind.LESS_OBSTRUCTED, side=clearer, other=other)


def _depends(smaller: Side, larger: Side) -> Iterator[Finding]:
    """Say in which air and at which height the larger aperture begins to show more."""
    path = smaller.ladder.aim.path
    if path is None or smaller.ladder.ceiling.power is None:
        return
    if TelescopeKind.FIXED in (smaller.scope.kind, larger.scope.kind):
        return
    if winner(smaller.resolution_arcsec, larger.resolution_arcsec, tie=DETAIL_TIE) is Winner.TIE:
        return
    worst_arcsec = _worst_blur_arcsec(smaller, larger)
    overhead_arcsec = worst_arcsec / path**BLUR_EXPONENT
    if overhead_arcsec <= WORST_NIGHT_ARCSEC:
        yield Finding(kind=FindingKind.FINER_WHILE_STEADY, side=larger, other=smaller, figure=overhead_arcsec)
        yield _depends_on_height(smaller, larger, worst_arcsec)


def _worst_blur_arcsec(smaller: Side, larger: Side) -> float:
    """Return the blur through which the larger aperture keeps a lead that can be told (``DETAIL_TIE``)."""
    tie = DETAIL_TIE**2
    rest = (smaller.resolution_arcsec**2 - tie * larger.resolution_arcsec**2) / (tie - 1.0)
    return math.sqrt(max(rest, 0.0)) / MOSTLY


def _depends_on_height(smaller: Side, larger: Side, worst_arcsec: float) -> Finding:
    longest_path = (worst_arcsec / smaller.ladder.blur.overhead_arcsec) ** (1 / BLUR_EXPONENT)
    altitudes_deg = np.linspace(5.0, 90.0, 171)
    paths = air_path(altitudes_deg)
    if longest_path < paths[-1]:
        return Finding(kind=FindingKind.FINER_AT_NO_HEIGHT, side=larger, other=smaller)
    if longest_path > paths[0]:
        return Finding(kind=FindingKind.FINER_AT_ANY_HEIGHT, side=larger, other=smaller)
    # np.interp wants rising abscissae; the path falls as the altitude rises.
    lowest_deg = float(np.interp(longest_path, paths[::-1], altitudes_deg[::-1]))
    return Finding(kind=FindingKind.FINER_FROM_HEIGHT, side=larger, other=smaller, figure=lowest_deg)


def _light(smaller: Side, larger: Side) -> Iterator[Finding]:
    outcome = winner(smaller.light_ratio_to_other, larger.light_ratio_to_other, tie=LIGHT_TIE**2)
    if outcome is Winner.TIE:
        yield Finding(kind=FindingKind.LIGHT_ALIKE, side=smaller, other=larger)
        return
    brighter, dimmer = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    slight = brighter.light_ratio_to_other < SLIGHT_GAIN
    kind = FindingKind.LITTLE_MORE_LIGHT if slight else FindingKind.MORE_LIGHT
    yield Finding(kind=kind, side=brighter, other=dimmer)


def _reach(smaller: Side, larger: Side) -> Iterator[Finding]:
    """Say what the kit in hand reaches, where that is another matter than the ceiling."""
    for side, other in ((smaller, larger), (larger, smaller)):
        ladder = side.ladder
        if not ladder.rungs or ladder.ceiling.power is None:
            continue
        if ladder.climb_to is None:
            yield Finding(kind=FindingKind.NOTHING_UNDER_CEILING, side=side, other=other)
        elif built_in_power(side.scope) is None and ladder.climb_to < SHORT_OF_CEILING * ladder.ceiling.power:
            yield Finding(kind=FindingKind.SHORT_OF_CEILING, side=side, other=other, figure=ladder.climb_to)


def _field(smaller: Side, larger: Side) -> Iterator[Finding]:
    outcome = winner(smaller.widest_field_deg, larger.widest_field_deg, tie=FIELD_TIE)
    if outcome is None or outcome is Winner.TIE:
        return
    wide, narrow = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    yield Finding(kind=FindingKind.WIDER_FIELD, side=wide, other=narrow)


def _cooling(smaller: Side, larger: Side) -> Iterator[Finding]:
    if smaller.usable_minutes is None or larger.usable_minutes is None:
        return
    outcome = winner(smaller.usable_minutes[1], larger.usable_minutes[1], tie=COOLING_TIE, smaller_wins=True)
    if outcome is Winner.TIE:
        return
    quick, slow = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    yield Finding(kind=FindingKind.READY_SOONER, side=quick, other=slow)


def _following(smaller: Side, larger: Side) -> Iterator[Finding]:
    if smaller.scope.driven == larger.scope.driven:
        return
    driven, still = (smaller, larger) if smaller.scope.driven else (larger, smaller)
    top = next((rung for rung in still.ladder.rungs if rung.power == still.ladder.climb_to), None)
    if top is None or top.drift_s is None:
        yield Finding(kind=FindingKind.FOLLOWS, side=driven, other=still)
    else:
        yield Finding(kind=FindingKind.FOLLOWS_WITH_DRIFT, side=driven, other=still, figure=top.drift_s)


def _collimation(smaller: Side, larger: Side) -> Iterator[Finding]:
    if smaller.collimation.is_needed != larger.collimation.is_needed:
        careful, other = (smaller, larger) if smaller.collimation.is_needed else (larger, smaller)
        yield Finding(kind=FindingKind.COLLIMATION, side=careful, other=other)


def _assumed(smaller: Side, larger: Side) -> Iterator[Finding]:
    """Say what stands in for a secondary mirror's size that the owner has not told."""
    told = None
    for side, other in ((smaller, larger), (larger, smaller)):
        if side.scope.obstruction_is_assumed and side.scope != told:
            told = side.scope
            yield Finding(kind=FindingKind.OBSTRUCTION_ASSUMED, side=side, other=other)
