"""What a comparison of two telescopes comes to: which wins where, where they tie, what it depends on.

The sentences name the telescopes and come in an order of their own, so they stay the same when the two
change places. All figures are rules of thumb.
"""

from collections.abc import Iterator
from enum import StrEnum

import numpy as np

from core.air.atmosphere import air_path
from core.air.cooling import rounded_span
from core.air.steadiness import BLUR_EXPONENT, LimitKind
from core.gear.owned import TelescopeKind
from core.ladder.ladder import Ladder, Rung
from core.ladder.side import Side, built_in_power, usable_power
from core.words.ladder import no_ceiling_text
from core.words.quantities import field_text, power_text, two_figures

# Differences smaller than these cannot be told at the eyepiece (common practice).
DETAIL_TIE = 1.05
LIGHT_TIE = 1.05
FIELD_TIE = 1.1
COOLING_TIE = 1.1
# A gain smaller than this is called slight.
SLIGHT_GAIN = 1.25

_STOPPED_BY = {
    LimitKind.APERTURE: "its aperture",
    LimitKind.USUAL_AIR: "what the air usually allows",
    LimitKind.TONIGHT_AIR: "tonight's air",
}


class Winner(StrEnum):
    """Which of the two has more of something."""

    A = "a"
    B = "b"
    TIE = "tie"


def winner(a: float | None, b: float | None, *, tie: float, smaller_wins: bool = False) -> Winner | None:
    """Return who has more (or less), a tie within a ratio, None where either is unknown."""
    if a is None or b is None:
        return None
    if max(a, b) <= min(a, b) * tie:
        return Winner.TIE
    return Winner.A if (a < b) == smaller_wins else Winner.B


def verdict(a: Side, b: Side) -> tuple[str, ...]:
    """Return the verdict on two telescopes under the same sky."""
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


def _name(side: Side) -> str:
    return side.scope.name


def _detail(smaller: Side, larger: Side) -> Iterator[str]:
    fine, coarse = larger, smaller
    outcome = winner(
        smaller.limiting_blur_arcsec, larger.limiting_blur_arcsec, tie=DETAIL_TIE, smaller_wins=True
    )
    if outcome is None:
        reason = no_ceiling_text(smaller.ladder)
        yield f"{reason}. Neither telescope shows fine detail there."
        return
    if outcome is Winner.TIE:
        yield from _detail_tie(smaller, larger)
        return
    if outcome is Winner.A:
        fine, coarse = smaller, larger
    assert fine.limiting_blur_arcsec is not None
    assert coarse.limiting_blur_arcsec is not None
    slight = coarse.limiting_blur_arcsec < fine.limiting_blur_arcsec * SLIGHT_GAIN
    yield (
        f"{_name(fine)} shows {'slightly ' if slight else ''}finer detail here, about "
        f"{two_figures(fine.limiting_blur_arcsec)}″ against {two_figures(coarse.limiting_blur_arcsec)}″: "
        f"{_climb(fine)}; {_climb(coarse)}."
    )


def _detail_tie(smaller: Side, larger: Side) -> Iterator[str]:
    both = f"{_name(smaller)} and {_name(larger)}"
    assert larger.limiting_blur_arcsec is not None
    blur = f"{two_figures(larger.limiting_blur_arcsec)}″"
    limits = larger.ladder.limits
    if winner(smaller.resolution_arcsec, larger.resolution_arcsec, tie=DETAIL_TIE) is Winner.TIE:
        yield f"{both} tie in detail, about {blur}: their apertures are alike."
        if limits.tonight_air is not None and limits.aperture < limits.tonight_air:
            yield from _contrast(smaller, larger)
    elif limits.tonight_air is not None and built_in_power(larger.scope) is None:
        stop = power_text(min(limits.tonight_air, limits.usual_air))
        yield (
            f"{both} tie in detail: tonight's air (seeing) blurs to about {blur} at this height, "
            f"whichever is used, and {_name(larger)} gains nothing above about {stop}."
        )
    else:
        yield f"{both} tie in detail, about {blur}."


def _contrast(smaller: Side, larger: Side) -> Iterator[str]:
    """Speak of obstruction where nothing else tells two telescopes apart (common practice)."""
    ratios = smaller.scope.obstruction_ratio, larger.scope.obstruction_ratio
    if abs(ratios[0] - ratios[1]) >= 0.15:
        clearer = smaller if ratios[0] < ratios[1] else larger
        yield f"{_name(clearer)} has less in the way of its light, a small gain in contrast."


def _climb(side: Side) -> str:
    ladder = side.ladder
    assert ladder.ceiling.power is not None
    assert ladder.ceiling.set_by is not None
    usable = usable_power(ladder, ladder.ceiling.power)
    stop = _STOPPED_BY[ladder.ceiling.set_by]
    if usable < ladder.ceiling.power:
        stop = "its built-in power"
    return f"{_name(side)} may climb to {power_text(usable)}, where {stop} stops it"


def _depends(smaller: Side, larger: Side) -> Iterator[str]:
    """Say in which air and at which height the larger aperture begins to show more."""
    path = smaller.ladder.aim.path
    if path is None or smaller.ladder.ceiling.power is None:
        return
    if TelescopeKind.FIXED in (smaller.scope.kind, larger.scope.kind):
        return
    if winner(smaller.resolution_arcsec, larger.resolution_arcsec, tie=DETAIL_TIE) is Winner.TIE:
        return
    worst_blur = smaller.resolution_arcsec / path**BLUR_EXPONENT
    yield (
        f"It depends on the air: at this height {_name(larger)} shows more only while the blur overhead "
        f"is under about {two_figures(worst_blur)}″; in worse air the two tie."
    )
    yield _depends_on_height(smaller, larger)


def _depends_on_height(smaller: Side, larger: Side) -> str:
    longest_path = (smaller.resolution_arcsec / smaller.ladder.blur.overhead_arcsec) ** (1 / BLUR_EXPONENT)
    altitudes_deg = np.linspace(5.0, 90.0, 171)
    paths = air_path(altitudes_deg)
    if longest_path < paths[-1]:
        return f"In tonight's air {_name(larger)} shows no finer detail at any height."
    if longest_path > paths[0]:
        return f"In tonight's air {_name(larger)} shows finer detail at any useful height."
    # np.interp wants rising abscissae; the path falls as the altitude rises.
    lowest_deg = float(np.interp(longest_path, paths[::-1], altitudes_deg[::-1]))
    return f"In tonight's air {_name(larger)} shows finer detail only above about {lowest_deg:.0f}°."


def _light(smaller: Side, larger: Side) -> Iterator[str]:
    outcome = winner(smaller.light_ratio_to_other, larger.light_ratio_to_other, tie=LIGHT_TIE**2)
    if outcome is Winner.TIE:
        yield "They gather about the same light."
        return
    brighter = smaller if outcome is Winner.A else larger
    ratio = brighter.light_ratio_to_other
    if ratio < SLIGHT_GAIN:
        yield f"{_name(brighter)} gathers a little more light."
        return
    yield (
        f"{_name(brighter)} gathers {two_figures(ratio)} times the light: at the same power its view is "
        "brighter, and its wider exit pupil shows fewer floaters."
    )


def _reach(smaller: Side, larger: Side) -> Iterator[str]:
    """Say what the kit in hand reaches, where that is another matter than the ceiling."""
    for side in (smaller, larger):
        ladder = side.ladder
        if not ladder.rungs or ladder.ceiling.power is None:
            continue
        if ladder.climb_to is None:
            yield f"None of its eyepieces stays under the ceiling of {_name(side)}."
        elif built_in_power(side.scope) is None and ladder.climb_to < 0.8 * ladder.ceiling.power:
            yield (
                f"With its eyepieces {_name(side)} reaches only {power_text(ladder.climb_to)} "
                f"of its {power_text(ladder.ceiling.power)}."
            )


def _field(smaller: Side, larger: Side) -> Iterator[str]:
    outcome = winner(smaller.widest_field_deg, larger.widest_field_deg, tie=FIELD_TIE)
    if outcome is None or outcome is Winner.TIE:
        return
    wide, narrow = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    assert wide.widest_field_deg is not None
    assert narrow.widest_field_deg is not None
    yield (
        f"{_name(wide)} shows the wider field, {field_text(wide.widest_field_deg)} against "
        f"{field_text(narrow.widest_field_deg)}: easier for finding."
    )


def _cooling(smaller: Side, larger: Side) -> Iterator[str]:
    if smaller.cooling_minutes is None or larger.cooling_minutes is None:
        return
    outcome = winner(
        smaller.cooling_minutes[1], larger.cooling_minutes[1], tie=COOLING_TIE, smaller_wins=True
    )
    if outcome is Winner.TIE:
        return
    quick, slow = (smaller, larger) if outcome is Winner.A else (larger, smaller)
    assert quick.cooling_minutes is not None
    assert slow.cooling_minutes is not None
    yield (
        f"{_name(quick)} is ready sooner: about {_minutes(quick.cooling_minutes)} minutes to cool against "
        f"{_minutes(slow.cooling_minutes)}."
    )


def _minutes(cooling: tuple[float, float, float]) -> str:
    return rounded_span(cooling[0], cooling[2])


def _following(smaller: Side, larger: Side) -> Iterator[str]:
    if smaller.scope.driven == larger.scope.driven:
        return
    driven, still = (smaller, larger) if smaller.scope.driven else (larger, smaller)
    sentence = f"{_name(driven)} follows the sky; {_name(still)} must be nudged along by hand"
    rung = _highest_useful_rung(still.ladder)
    if rung is not None and rung.drift_s is not None:
        sentence += f", every {rung.drift_s:.0f} s or so at {power_text(rung.power)}"
    yield f"{sentence}."


def _highest_useful_rung(ladder: Ladder) -> Rung | None:
    return next((rung for rung in ladder.rungs if rung.power == ladder.climb_to), None)


def _collimation(smaller: Side, larger: Side) -> Iterator[str]:
    mirrors = (TelescopeKind.REFLECTOR, TelescopeKind.CATADIOPTRIC)
    needs = smaller.scope.kind in mirrors, larger.scope.kind in mirrors
    if needs[0] != needs[1]:
        careful = smaller if needs[0] else larger
        yield f"{_name(careful)} wants its collimation checked; the other needs none."


def _assumed(smaller: Side, larger: Side) -> Iterator[str]:
    """Say what stands in for a secondary mirror's size that the owner has not told."""
    for scope in dict.fromkeys((smaller.scope, larger.scope)):
        if scope.obstruction_is_assumed:
            share = f"{scope.obstruction_ratio:.0%}"
            yield f"{scope.name}'s secondary mirror is taken as {share} of its aperture wide (assumed)."
