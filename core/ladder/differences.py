"""What tells two telescopes apart: powers, light, contrast, field and the rest.

They come in an order of their own, so they stay the same when the two change places. All figures are
rules of thumb. The sentences stand in ``core/words/comparison.py``.
"""

import math
from collections.abc import Iterator
from enum import StrEnum

import numpy as np
from attrs import frozen

from core.air.atmosphere import LOWEST_PATH_ALTITUDE_DEG, air_path
from core.air.blur import BLUR_EXPONENT
from core.air.finest_detail import MOSTLY
from core.gear.aperture import working_aperture_mm, working_obstruction_ratio
from core.gear.owned import TelescopeKind
from core.ladder.advice import Advice, AdviceKind, clearer_of, in_order
from core.ladder.notices import FLOATERS_BEGIN_MM
from core.ladder.side import Side
from core.ladder.winner import COOLING_TIE, DETAIL_TIE, FIELD_TIE, LIGHT_TIE, SLIGHT_GAIN, Winner, winner
from core.sky.events import LOWEST_USEFUL_DEG

# In air that boils worse than this overhead nobody compares telescopes (ours).
WORST_NIGHT_ARCSEC = 3.0
# A kit that reaches less than this share of its ceiling falls short of it.
SHORT_OF_CEILING = 0.8


class DifferenceKind(StrEnum):
    """What there is to say of two telescopes."""

    CLIMBS = "climbs"
    FINER_WHILE_STEADY = "finer_while_steady"
    FINER_AT_NO_HEIGHT = "finer_at_no_height"
    FINER_AT_ANY_HEIGHT = "finer_at_any_height"
    FINER_FROM_HEIGHT = "finer_from_height"
    LIGHT_ALIKE = "light_alike"
    LITTLE_MORE_LIGHT = "little_more_light"
    MORE_LIGHT = "more_light"
    WIDER_PUPIL = "wider_pupil"
    WIDER_PUPIL_FEWER_FLOATERS = "wider_pupil_fewer_floaters"
    UNOBSTRUCTED = "unobstructed"
    LESS_OBSTRUCTED = "less_obstructed"
    NOTHING_UNDER_CEILING = "nothing_under_ceiling"
    SHORT_OF_CEILING = "short_of_ceiling"
    WIDER_FIELD = "wider_field"
    READY_SOONER = "ready_sooner"
    FOLLOWS = "follows"
    FOLLOWS_WITH_DRIFT = "follows_with_drift"
    COLLIMATION = "collimation"
    OBSTRUCTION_ASSUMED = "obstruction_assumed"


@frozen(kw_only=True)
class Difference:
    """One thing that a comparison comes to.

    ``side`` is the one that it is told of, mostly the one with more of it. ``figure`` is what the sides do
    not hold themselves: a power, a blur overhead in arcsec, an altitude in degrees or a drift in seconds.
    """

    kind: DifferenceKind
    side: Side
    other: Side
    figure: float | None = None


def find_differences(a: Side, b: Side, advice: Advice) -> tuple[Difference, ...]:
    """Return what two telescopes under the same sky come to, beside the advice which of them to take."""
    smaller, larger = in_order(a, b)
    return (
        *_powers(smaller, larger),
        *_depends(smaller, larger),
        *_light(smaller, larger),
        # The advice may have told it already.
        *(() if advice.kind is AdviceKind.ALIKE_BUT_CLEARER else _contrast(smaller, larger)),
        *_reach(smaller, larger),
        *_field(smaller, larger),
        *_cooling(smaller, larger),
        *_following(smaller, larger),
        *_collimation(smaller, larger),
        *_assumed(smaller, larger),
    )


def _powers(smaller: Side, larger: Side) -> Iterator[Difference]:
    """Say how far each may climb."""
    if smaller.usable_power is not None:  # under one aim both have a ceiling, or neither
        yield Difference(kind=DifferenceKind.CLIMBS, side=larger, other=smaller)


def _contrast(smaller: Side, larger: Side) -> Iterator[Difference]:
    """Say which has less in the way of its light, where that is worth a word."""
    clearer = clearer_of(smaller, larger)
    if clearer is not None:
        side, other = clearer
        is_clear = working_obstruction_ratio(side.scope) == 0.0
        kind = DifferenceKind.UNOBSTRUCTED if is_clear else DifferenceKind.LESS_OBSTRUCTED
        yield Difference(kind=kind, side=side, other=other)


def _depends(smaller: Side, larger: Side) -> Iterator[Difference]:
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
        yield Difference(
            kind=DifferenceKind.FINER_WHILE_STEADY, side=larger, other=smaller, figure=overhead_arcsec
        )
        yield _depends_on_height(smaller, larger, worst_arcsec)


def _worst_blur_arcsec(smaller: Side, larger: Side) -> float:
    """Return the blur through which the larger aperture keeps a lead that can be told (``DETAIL_TIE``)."""
    tie = DETAIL_TIE**2
    rest = (smaller.resolution_arcsec**2 - tie * larger.resolution_arcsec**2) / (tie - 1.0)
    return math.sqrt(max(rest, 0.0)) / MOSTLY


def _depends_on_height(smaller: Side, larger: Side, worst_arcsec: float) -> Difference:
    longest_path = (worst_arcsec / smaller.ladder.blur.overhead_arcsec) ** (1 / BLUR_EXPONENT)
    altitudes_deg = np.linspace(LOWEST_PATH_ALTITUDE_DEG, 90.0, 171)
    paths = air_path(altitudes_deg)
    if longest_path < paths[-1]:
        return Difference(kind=DifferenceKind.FINER_AT_NO_HEIGHT, side=larger, other=smaller)
    if longest_path > air_path(np.array(LOWEST_USEFUL_DEG)):
        return Difference(kind=DifferenceKind.FINER_AT_ANY_HEIGHT, side=larger, other=smaller)
    # np.interp wants rising abscissae; the path falls as the altitude rises.
    lowest_deg = float(np.interp(longest_path, paths[::-1], altitudes_deg[::-1]))
    return Difference(kind=DifferenceKind.FINER_FROM_HEIGHT, side=larger, other=smaller, figure=lowest_deg)


def _light(smaller: Side, larger: Side) -> Iterator[Difference]:
    outcome = winner(smaller.light_ratio_to_other, larger.light_ratio_to_other, tie=LIGHT_TIE**2)
    if outcome is Winner.TIE:
        yield Difference(kind=DifferenceKind.LIGHT_ALIKE, side=smaller, other=larger)
        return
    brighter, dimmer = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    if brighter.light_ratio_to_other < SLIGHT_GAIN:
        yield Difference(kind=DifferenceKind.LITTLE_MORE_LIGHT, side=brighter, other=dimmer)
        return
    power = _common_power(smaller, larger)
    if power is None:
        yield Difference(kind=DifferenceKind.MORE_LIGHT, side=brighter, other=dimmer)
        return
    floats = working_aperture_mm(dimmer.scope) / power < FLOATERS_BEGIN_MM
    kind = DifferenceKind.WIDER_PUPIL_FEWER_FLOATERS if floats else DifferenceKind.WIDER_PUPIL
    yield Difference(kind=kind, side=brighter, other=dimmer, figure=power)


def _common_power(smaller: Side, larger: Side) -> float | None:
    """Return the highest power that both bear; None where a built-in power or a kit leaves none."""
    if smaller.usable_power is None or larger.usable_power is None:
        return None
    if smaller.scope.highest_own_power is not None or larger.scope.highest_own_power is not None:
        return None
    return min(smaller.usable_power, larger.usable_power)


def _reach(smaller: Side, larger: Side) -> Iterator[Difference]:
    """Say what the kit in hand reaches, where that is another matter than the ceiling."""
    for side, other in ((smaller, larger), (larger, smaller)):
        ladder = side.ladder
        if not ladder.rungs or ladder.ceiling.power is None:
            continue
        if ladder.climb_to is None:
            yield Difference(kind=DifferenceKind.NOTHING_UNDER_CEILING, side=side, other=other)
        elif (
            side.scope.highest_own_power is None and ladder.climb_to < SHORT_OF_CEILING * ladder.ceiling.power
        ):
            yield Difference(
                kind=DifferenceKind.SHORT_OF_CEILING, side=side, other=other, figure=ladder.climb_to
            )


def _field(smaller: Side, larger: Side) -> Iterator[Difference]:
    outcome = winner(smaller.widest_field_deg, larger.widest_field_deg, tie=FIELD_TIE)
    if outcome is None or outcome is Winner.TIE:
        return
    wide, narrow = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    yield Difference(kind=DifferenceKind.WIDER_FIELD, side=wide, other=narrow)


def _cooling(smaller: Side, larger: Side) -> Iterator[Difference]:
    outcome = winner(smaller.ready_minutes, larger.ready_minutes, tie=COOLING_TIE, smaller_wins=True)
    if outcome is None:
        return
    if outcome is Winner.TIE:
        return
    quick, slow = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    yield Difference(kind=DifferenceKind.READY_SOONER, side=quick, other=slow)


def _following(smaller: Side, larger: Side) -> Iterator[Difference]:
    if smaller.scope.driven == larger.scope.driven:
        return
    driven, still = (smaller, larger) if smaller.scope.driven else (larger, smaller)
    top = next((rung for rung in still.ladder.rungs if rung.power == still.ladder.climb_to), None)
    if top is None or top.drift_s is None:
        yield Difference(kind=DifferenceKind.FOLLOWS, side=driven, other=still)
    else:
        yield Difference(kind=DifferenceKind.FOLLOWS_WITH_DRIFT, side=driven, other=still, figure=top.drift_s)


def _collimation(smaller: Side, larger: Side) -> Iterator[Difference]:
    if smaller.collimation.is_needed != larger.collimation.is_needed:
        careful, other = (smaller, larger) if smaller.collimation.is_needed else (larger, smaller)
        yield Difference(kind=DifferenceKind.COLLIMATION, side=careful, other=other)


def _assumed(smaller: Side, larger: Side) -> Iterator[Difference]:
    """Say what stands in for a secondary mirror's size that the owner has not told."""
    told = None
    for side, other in ((smaller, larger), (larger, smaller)):
        is_masked = side.scope.mask_mm is not None
        if side.scope.obstruction_is_assumed and not is_masked and side.scope != told:
            told = side.scope
            yield Difference(kind=DifferenceKind.OBSTRUCTION_ASSUMED, side=side, other=other)
