"""Which of two telescopes to take: for tonight's air, and for steady nights. Ours, from the finest detail.

It is one short piece of advice that stays the same when the two change places. Detail decides where it can be
told; where it cannot, the one that is ready sooner is for tonight, and contrast tells like apertures apart.
The sentences stand in ``core/words/advice.py``.
"""

from enum import StrEnum

from attrs import frozen

from core.gear.aperture import working_aperture_mm, working_obstruction_ratio
from core.ladder.side import Side
from core.ladder.winner import DETAIL_TIE, SLIGHT_GAIN, Winner, winner

# A difference of the obstructions, as shares of the diameter, from which it is worth a word, and the blur at
# the height looked at from which the air hides what it does (ours).
OBSTRUCTION_DIFFERENCE = 0.05
CONTRAST_IS_SEEN_BELOW_ARCSEC = 2.5
# So much sooner one must be ready to be worth taking for a short look, though the other shows more (ours).
SOONER_FOR_A_SHORT_LOOK_MINUTES = 10.0


class AdviceKind(StrEnum):
    """Which to take."""

    NO_DETAIL = "no_detail"
    CLEARLY_FINER = "clearly_finer"
    CLEARLY_FINER_IN_STEADY_AIR = "clearly_finer_in_steady_air"
    LITTLE_FINER = "little_finer"
    LITTLE_FINER_IN_STEADY_AIR = "little_finer_in_steady_air"
    LITTLE_FINER_BUT_SLOW = "little_finer_but_slow"
    ONLY_ON_STEADY_NIGHTS = "only_on_steady_nights"
    FINER_ONLY_NOW = "finer_only_now"
    EACH_HAS_ITS_NIGHTS = "each_has_its_nights"
    ALIKE = "alike"
    ALIKE_BUT_CLEARER = "alike_but_clearer"


class OutsideKind(StrEnum):
    """What standing outside already changes."""

    READY = "ready"
    READY_SOON = "ready_soon"
    BOTH_WAIT = "both_wait"


@frozen(kw_only=True)
class Outside:
    """What standing outside already changes: minutes until ``side``, and ``other``, are likely ready."""

    kind: OutsideKind
    side: Side
    other: Side
    minutes: float
    other_minutes: float


@frozen(kw_only=True)
class Advice:
    """Which of two to take; ``side`` is the one that it is told of first.

    ``steady`` is the finest detail of both on a steady night in arcsec, ``side``'s first, None where it is
    not told.
    """

    kind: AdviceKind
    side: Side
    other: Side
    steady: tuple[float, float] | None = None
    outside: Outside | None = None


def in_order(a: Side, b: Side) -> tuple[Side, Side]:
    """Return the two by their aperture, the smaller first, whichever stands left."""
    smaller, larger = sorted(
        (a, b), key=lambda side: (working_aperture_mm(side.scope), side.scope.name, side.scope.id)
    )
    return smaller, larger


def find_advice(a: Side, b: Side) -> Advice:
    """Return which of two to take."""
    smaller, larger = in_order(a, b)
    outside = _outside(smaller, larger)
    now = winner(smaller.finest_detail_arcsec, larger.finest_detail_arcsec, tie=DETAIL_TIE, smaller_wins=True)
    steadily = winner(
        smaller.steady_detail_arcsec, larger.steady_detail_arcsec, tie=DETAIL_TIE, smaller_wins=True
    )
    if now is None or steadily is None:
        return Advice(kind=AdviceKind.NO_DETAIL, side=smaller, other=larger, outside=outside)
    sides = {Winner.A: (smaller, larger), Winner.B: (larger, smaller)}
    if now is Winner.TIE and steadily is Winner.TIE:
        return _alike(smaller, larger, outside)
    if now is Winner.TIE:
        fine, other = sides[steadily]
        kind = AdviceKind.ONLY_ON_STEADY_NIGHTS
    else:
        fine, other = sides[now]
        kind = _finer_kind(fine, other, now=now, steadily=steadily)
    return Advice(kind=kind, side=fine, other=other, steady=_steady(fine, other), outside=outside)


def clearer_of(smaller: Side, larger: Side) -> tuple[Side, Side] | None:
    """Return the one whose light has less in its way, and the other; None where that is not worth a word.

    It is worth one where their apertures are not far apart and the air does not hide it (common practice).
    """
    ratios = working_obstruction_ratio(smaller.scope), working_obstruction_ratio(larger.scope)
    blur_arcsec = smaller.blur_there_arcsec
    if blur_arcsec is None or blur_arcsec >= CONTRAST_IS_SEEN_BELOW_ARCSEC:
        return None
    if winner(smaller.resolution_arcsec, larger.resolution_arcsec, tie=SLIGHT_GAIN) is not Winner.TIE:
        return None
    if abs(ratios[0] - ratios[1]) < OBSTRUCTION_DIFFERENCE:
        return None
    return (smaller, larger) if ratios[0] < ratios[1] else (larger, smaller)


def _finer_kind(fine: Side, other: Side, *, now: Winner, steadily: Winner) -> AdviceKind:
    if steadily is not now:
        return AdviceKind.FINER_ONLY_NOW if steadily is Winner.TIE else AdviceKind.EACH_HAS_ITS_NIGHTS
    is_steady_now = fine.is_steady_now
    assert fine.finest_detail_arcsec is not None
    assert other.finest_detail_arcsec is not None
    if other.finest_detail_arcsec >= fine.finest_detail_arcsec * SLIGHT_GAIN:
        return AdviceKind.CLEARLY_FINER_IN_STEADY_AIR if is_steady_now else AdviceKind.CLEARLY_FINER
    if is_steady_now:
        return AdviceKind.LITTLE_FINER_IN_STEADY_AIR
    if fine.waits_minutes is None or other.waits_minutes is None:
        return AdviceKind.LITTLE_FINER
    is_slow = fine.waits_minutes - other.waits_minutes >= SOONER_FOR_A_SHORT_LOOK_MINUTES
    return AdviceKind.LITTLE_FINER_BUT_SLOW if is_slow else AdviceKind.LITTLE_FINER


def _alike(smaller: Side, larger: Side, outside: Outside | None) -> Advice:
    clearer = clearer_of(smaller, larger)
    if clearer is None:
        return Advice(kind=AdviceKind.ALIKE, side=smaller, other=larger, outside=outside)
    side, other = clearer
    return Advice(kind=AdviceKind.ALIKE_BUT_CLEARER, side=side, other=other, outside=outside)


def _steady(side: Side, other: Side) -> tuple[float, float]:
    assert side.steady_detail_arcsec is not None  # else nobody could tell who is the finer
    assert other.steady_detail_arcsec is not None
    return side.steady_detail_arcsec, other.steady_detail_arcsec


def _outside(smaller: Side, larger: Side) -> Outside | None:
    """Return what changes because one or both stand outside; None where neither does, or both are ready."""
    waits = smaller.waits_minutes, larger.waits_minutes
    if waits[0] is None or waits[1] is None:
        return None
    first, second = (smaller, larger) if waits[0] <= waits[1] else (larger, smaller)
    minutes, other_minutes = min(waits[0], waits[1]), max(waits[0], waits[1])
    are_out = first.minutes_outside is not None, second.minutes_outside is not None
    if not any(are_out) or other_minutes <= 0.0:
        return None
    if all(are_out):
        kind = OutsideKind.READY if minutes <= 0.0 else OutsideKind.BOTH_WAIT
    elif not are_out[0]:  # the one outside is the slower all the same, which is told elsewhere
        return None
    else:
        kind = OutsideKind.READY if minutes <= 0.0 else OutsideKind.READY_SOON
    return Outside(kind=kind, side=first, other=second, minutes=minutes, other_minutes=other_minutes)
