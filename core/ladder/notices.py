"""What deserves a word about a rung, in calm sentences; a notice is advice, never a lock.

Thresholds are common practice without a source unless a comment says otherwise.
"""

import math
from collections.abc import Iterator, Sequence

from attrs import frozen

from core.air.steadiness import LIFTED_AIR_POWER, Limits
from core.gear.combinations import Combination
from core.gear.optics import aperture_limit
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.words.quantities import length_text, per_mm_text, power_text, pupil_text

FLOATERS_BEGIN_MM = 1.0
FLOATERS_COMMON_MM = 0.7
FLOATERS_STRONG_MM = 0.5
FAR_TOO_MUCH_PER_MM = 3.0
GLASSES_RELIEF_MM = 15.0
# Below this exit pupil so little of the eye's lens is used that most astigmatism no longer shows.
ASTIGMATISM_PUPIL_MM = 2.0
# The rear opening of common 8-inch catadioptrics, about the widest circle of light that a reducer is fed.
REAR_OPENING_MM = 38.0
LONG_EYEPIECE_MM = 32.0
_AGAINST_FLOATERS = "less power, both eyes, or a larger aperture at the same power helps"


@frozen(kw_only=True)
class Wearer:
    """What the notices need to know of the observer's eye."""

    eye_pupil_mm: float = 7.0
    glasses: bool = False
    astigmatism: bool = False


def over(power: float, limit: float | None) -> bool:
    """Tell whether a power is past a limit; equal up to rounding is not past it."""
    return limit is not None and power > limit and not math.isclose(power, limit, rel_tol=1e-9)


def rung_notices(
    combination: Combination, *, scope: Telescope, limits: Limits, wearer: Wearer
) -> tuple[str, ...]:
    """Return what deserves a word about one combination, the weightiest first."""
    return (
        *_limit_notices(combination.power, scope, limits),
        *_exit_pupil_notices(combination, wearer),
        *_lens_notices(combination),
        *_glasses_notices(combination, wearer),
    )


def nothing_fits_notice(scope: Telescope) -> str:
    """Return the sentence for a ladder without rungs."""
    return f"No eyepiece owned fits {scope.name}, so there is no power to show yet."


def nothing_under_ceiling_notice(best: Combination, ceiling_power: float, aperture_mm: float) -> str:
    """Return the sentence for a kit whose lowest power is past the ceiling; it names the best of it."""
    shown = f"{best.label} at {power_text(best.power)}, {per_mm_text(best.power, aperture_mm)}"
    return (
        f"Nothing owned stays under the ceiling of {power_text(ceiling_power)}. "
        f"The best of it is {shown}: expect a soft view."
    )


def claimed_power_notice(claimed_power: float, aperture_mm: float) -> str:
    """Return a maker's claimed greatest power beside what the aperture bears."""
    limit = aperture_limit(aperture_mm)
    claim = f"{power_text(claimed_power)} is {per_mm_text(claimed_power, aperture_mm)}"
    if over(claimed_power, limit):
        return f"{claim}; {length_text(aperture_mm)} of aperture bears about {power_text(limit)}."
    return f"{claim}, within the {power_text(limit)} that {length_text(aperture_mm)} of aperture bears."


def misfit_notices(
    scope: Telescope, eyepieces: Sequence[Eyepiece], barlows: Sequence[Barlow]
) -> tuple[str, ...]:
    """Return one sentence for each thing whose barrel is too wide for the focuser, or that cannot be used."""
    if scope.kind is TelescopeKind.FIXED:
        return ()
    things: list[Eyepiece | Barlow] = [*eyepieces, *barlows]
    return tuple(
        f"{thing.name} has a {length_text(thing.barrel_mm)} barrel and does not fit the "
        f"{length_text(scope.barrel_mm)} focuser of {scope.name}."
        for thing in things
        if thing.barrel_mm > scope.barrel_mm
    )


def barlow_notice(barlow: Barlow) -> str:
    """Return how far the factor of a Barlow or a reducer can be trusted."""
    if barlow.measured_factor is not None:
        return f"Counted with the measured {barlow.measured_factor:g}x, not the marked {barlow.factor:g}x."
    kind = "reducer" if barlow.is_reducer else "Barlow"
    return (
        f"A {kind}'s factor changes with its distance to the eyepiece, so {barlow.factor:g}x is approximate."
    )


def _limit_notices(power: float, scope: Telescope, limits: Limits) -> Iterator[str]:
    if over(power, limits.aperture):
        ratio, aperture = per_mm_text(power, scope.aperture_mm), length_text(scope.aperture_mm)
        bound = f"{power_text(limits.aperture)}, 2x per mm"
        if power / scope.aperture_mm >= FAR_TOO_MUCH_PER_MM:
            yield f"Far too much for {aperture} of aperture: {ratio}. The limit is {bound}."
        else:
            yield f"Over the aperture limit of {bound}: at {ratio} the view grows dimmer and shows no more."
    if over(power, limits.usual_air):
        if limits.usual_air >= LIFTED_AIR_POWER:
            yield f"Over {power_text(limits.usual_air)}, more than even a rare steady night allows."
        else:
            yield f"Over {power_text(limits.usual_air)}, the most that the air usually allows any aperture."
    if limits.tonight_air is not None and over(power, limits.tonight_air):
        bound = power_text(limits.tonight_air)
        yield f"Over what tonight's air (seeing) allows at this height, about {bound}."


def _exit_pupil_notices(combination: Combination, wearer: Wearer) -> Iterator[str]:
    pupil_mm = combination.exit_pupil_mm
    shown = f"Exit pupil {pupil_text(pupil_mm)}"
    if pupil_mm < FLOATERS_STRONG_MM:
        yield f"{shown}: floaters in the eye trouble most people; {_AGAINST_FLOATERS}."
    elif pupil_mm < FLOATERS_COMMON_MM:
        yield f"{shown}: floaters in the eye are a common complaint; {_AGAINST_FLOATERS}."
    elif pupil_mm < FLOATERS_BEGIN_MM:
        yield f"{shown}: floaters in the eye begin to show."
    elif over(pupil_mm, wearer.eye_pupil_mm):
        used_mm = wearer.eye_pupil_mm * combination.power
        yield (
            f"{shown} is wider than your pupil of {pupil_text(wearer.eye_pupil_mm)}: some light is wasted, "
            f"as if the aperture were {used_mm:.0f} mm."
        )


def _lens_notices(combination: Combination) -> Iterator[str]:
    if combination.approximate:
        yield "Two Barlows together: the power is approximate, since their spacing changes it."
    if combination.has_reducer:
        yield "A reducer's factor changes with spacing, so this power is approximate."
        if _may_vignette(combination):
            yield "With the reducer the edge of this field may be dim or cut off (vignetting)."


def _may_vignette(combination: Combination) -> bool:
    """Tell whether eyepiece and reducer ask for a wider circle of light than a usual rear opening passes."""
    eyepiece, focal_length_mm = combination.eyepiece, combination.eyepiece_focal_length_mm
    assert eyepiece is not None
    assert focal_length_mm is not None
    factor = math.prod(barlow.working_factor for barlow in combination.barlows)
    stop_mm = None if eyepiece.is_zoom else eyepiece.field_stop_mm
    if stop_mm is None:
        if combination.apparent_field_deg is None:
            return focal_length_mm >= LONG_EYEPIECE_MM
        stop_mm = focal_length_mm * math.radians(combination.apparent_field_deg)
    return stop_mm / factor > REAR_OPENING_MM


def _glasses_notices(combination: Combination, wearer: Wearer) -> Iterator[str]:
    eyepiece = combination.eyepiece
    if not wearer.glasses or eyepiece is None:
        return
    relief_mm = eyepiece.eye_relief_mm
    if relief_mm is not None and relief_mm >= GLASSES_RELIEF_MM:
        return
    if relief_mm is None:
        relief = "Eye relief unknown, so whether glasses can stay on is unknown too"
    else:
        relief = f"Eye relief {length_text(relief_mm)} is too short for glasses, which want 15 to 20 mm"
    if not wearer.astigmatism:
        yield f"{relief}; without astigmatism take them off and refocus."
    elif combination.exit_pupil_mm < ASTIGMATISM_PUPIL_MM:
        yield f"{relief}; with so small an exit pupil most astigmatism does not show, so try without them."
    else:
        yield f"{relief}; with astigmatism a longer eyepiece in a Barlow is the usual cure."
