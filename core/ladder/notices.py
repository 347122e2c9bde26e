"""What deserves a word about a rung or a kit: facts with their figures; a notice is advice, never a lock.

Thresholds are common practice without a source unless a comment says otherwise. The sentences stand in
``core/words/notices.py``.
"""

import math
from collections.abc import Iterator, Sequence
from enum import StrEnum

from attrs import frozen

from core.air.limits import Limits
from core.air.usual_air import LIFTED_AIR_POWER
from core.gear.aperture import working_aperture_mm
from core.gear.binoviewer import eyepiece_pairs
from core.gear.combinations import MOST_COMBINATIONS, Combination, chain_factor
from core.gear.eye import GLASSES_RELIEF_MM, Eye
from core.gear.fields import usable_stop_mm, widest_stop_mm
from core.gear.optics import is_past_limit
from core.gear.owned import Eyepiece, Telescope

FLOATERS_BEGIN_MM = 1.0
FLOATERS_COMMON_MM = 0.7
FLOATERS_STRONG_MM = 0.5
FAR_TOO_MUCH_PER_MM = 3.0
# Below this exit pupil so little of the eye's lens is used that most astigmatism no longer shows.
ASTIGMATISM_PUPIL_MM = 2.0
# The rear opening of common 8-inch catadioptrics, about the widest circle of light that a reducer is fed.
REAR_OPENING_MM = 38.0
LONG_EYEPIECE_MM = 32.0


class NoticeKind(StrEnum):
    """What there is to say; those of the kit as a whole come first."""

    NO_EYEPIECE = "no_eyepiece"
    NOTHING_FITS = "nothing_fits"
    NOTHING_UNDER_CEILING = "nothing_under_ceiling"
    MASKED_MIRROR = "masked_mirror"
    MASKED_LENS = "masked_lens"
    TOO_MANY_COMBINATIONS = "too_many_combinations"
    BINOVIEWER_PAIR = "binoviewer_pair"
    BINOVIEWER_WITHOUT_PAIR = "binoviewer_without_pair"
    FAR_OVER_APERTURE = "far_over_aperture"
    OVER_APERTURE = "over_aperture"
    OVER_USUAL_AIR = "over_usual_air"
    OVER_LIFTED_AIR = "over_lifted_air"
    OVER_TONIGHTS_AIR = "over_tonights_air"
    WORTH_A_TRY = "worth_a_try"
    FLOATERS_STRONG = "floaters_strong"
    FLOATERS_COMMON = "floaters_common"
    FLOATERS_BEGIN = "floaters_begin"
    LIGHT_WASTED = "light_wasted"
    TWO_BARLOWS = "two_barlows"
    REDUCER = "reducer"
    VIGNETTING = "vignetting"
    MEASURED_FACTOR = "measured_factor"
    FIELD_CUT = "field_cut"
    GLASSES_OFF = "glasses_off"
    GLASSES_OFF_SMALL_PUPIL = "glasses_off_small_pupil"
    LONGER_EYEPIECE = "longer_eyepiece"
    RELIEF_UNKNOWN_OFF = "relief_unknown_off"
    RELIEF_UNKNOWN_SMALL_PUPIL = "relief_unknown_small_pupil"
    RELIEF_UNKNOWN_LONGER_EYEPIECE = "relief_unknown_longer_eyepiece"


@frozen(kw_only=True)
class Notice:
    """One thing that deserves a word, with the figures that its kind speaks of; the others are None.

    ``scope`` and ``combination`` are the owner's names. ``used_aperture_mm`` is what an eye narrower than the
    exit pupil leaves of the aperture, ``stop_mm`` the widest field stop that a barrel leaves room for.
    """

    kind: NoticeKind
    scope: str | None = None
    combination: str | None = None
    power: float | None = None
    limit: float | None = None
    aperture_mm: float | None = None
    used_aperture_mm: float | None = None
    exit_pupil_mm: float | None = None
    eye_pupil_mm: float | None = None
    eye_relief_mm: float | None = None
    barrel_mm: float | None = None
    stop_mm: float | None = None
    factor: float | None = None
    measured_factor: float | None = None
    count: int | None = None


def rung_notices(
    combination: Combination, *, scope: Telescope, limits: Limits, eye: Eye
) -> tuple[Notice, ...]:
    """Return what deserves a word about one combination, the weightiest first."""
    return (
        *_limit_notices(combination.power, scope, limits),
        *_exit_pupil_notices(combination, eye),
        *_lens_notices(combination),
        *_field_notices(combination),
        *_glasses_notices(combination, eye),
    )


def kit_notices(
    lowest: Combination | None,
    *,
    scope: Telescope,
    eyepieces: Sequence[Eyepiece],
    ceiling_power: float | None,
    is_cut: bool = False,
) -> tuple[Notice, ...]:
    """Return what deserves a word about a kit whose lowest power is ``lowest``, None where nothing fits.

    ``is_cut`` tells that it gives more combinations than are looked at.
    """
    if lowest is None:
        kind = NoticeKind.NOTHING_FITS if eyepieces else NoticeKind.NO_EYEPIECE
        return (Notice(kind=kind, scope=scope.name),)
    return (
        *_ceiling_notices(lowest, scope, ceiling_power),
        *_mask_notices(scope),
        *((Notice(kind=NoticeKind.TOO_MANY_COMBINATIONS, count=MOST_COMBINATIONS),) if is_cut else ()),
        *_binoviewer_notices(scope, eyepieces),
    )


def _ceiling_notices(lowest: Combination, scope: Telescope, ceiling_power: float | None) -> Iterator[Notice]:
    if is_past_limit(lowest.power, ceiling_power):
        yield Notice(
            kind=NoticeKind.NOTHING_UNDER_CEILING,
            combination=lowest.label,
            power=lowest.power,
            limit=ceiling_power,
            aperture_mm=working_aperture_mm(scope),
        )


def _mask_notices(scope: Telescope) -> Iterator[Notice]:
    if scope.mask_mm is not None:
        kind = NoticeKind.MASKED_LENS if scope.has_lens else NoticeKind.MASKED_MIRROR
        yield Notice(kind=kind, aperture_mm=scope.aperture_mm, used_aperture_mm=scope.mask_mm)


def _binoviewer_notices(scope: Telescope, eyepieces: Sequence[Eyepiece]) -> Iterator[Notice]:
    if scope.binoviewer_factor is None:
        return
    pairs = eyepiece_pairs(scope, eyepieces)
    for pair in pairs:
        yield Notice(
            kind=NoticeKind.BINOVIEWER_PAIR,
            combination=pair.eyepiece.name,
            power=pair.power,
            factor=scope.binoviewer_factor,
        )
    if not pairs:
        yield Notice(kind=NoticeKind.BINOVIEWER_WITHOUT_PAIR)


def _limit_notices(power: float, scope: Telescope, limits: Limits) -> Iterator[Notice]:
    if is_past_limit(power, limits.aperture):
        far = power / working_aperture_mm(scope) >= FAR_TOO_MUCH_PER_MM
        yield Notice(
            kind=NoticeKind.FAR_OVER_APERTURE if far else NoticeKind.OVER_APERTURE,
            power=power,
            limit=limits.aperture,
            aperture_mm=working_aperture_mm(scope),
        )
    if is_past_limit(power, limits.usual_air):
        lifted = limits.usual_air >= LIFTED_AIR_POWER
        kind = NoticeKind.OVER_LIFTED_AIR if lifted else NoticeKind.OVER_USUAL_AIR
        yield Notice(kind=kind, limit=limits.usual_air)
    if limits.band is not None and is_past_limit(power, limits.together):
        is_too_much = is_past_limit(power, limits.band[1])
        kind = NoticeKind.OVER_TONIGHTS_AIR if is_too_much else NoticeKind.WORTH_A_TRY
        yield Notice(kind=kind, limit=limits.together)


def _exit_pupil_notices(combination: Combination, eye: Eye) -> Iterator[Notice]:
    pupil_mm = combination.exit_pupil_mm
    if pupil_mm < FLOATERS_STRONG_MM:
        yield Notice(kind=NoticeKind.FLOATERS_STRONG, exit_pupil_mm=pupil_mm)
    elif pupil_mm < FLOATERS_COMMON_MM:
        yield Notice(kind=NoticeKind.FLOATERS_COMMON, exit_pupil_mm=pupil_mm)
    elif pupil_mm < FLOATERS_BEGIN_MM:
        yield Notice(kind=NoticeKind.FLOATERS_BEGIN, exit_pupil_mm=pupil_mm)
    elif is_past_limit(pupil_mm, eye.pupil_mm):
        yield Notice(
            kind=NoticeKind.LIGHT_WASTED,
            exit_pupil_mm=pupil_mm,
            eye_pupil_mm=eye.pupil_mm,
        )


def _lens_notices(combination: Combination) -> Iterator[Notice]:
    if combination.approximate:
        yield Notice(kind=NoticeKind.TWO_BARLOWS)
    if combination.has_reducer:
        yield Notice(kind=NoticeKind.REDUCER)
        if _may_vignette(combination):
            yield Notice(kind=NoticeKind.VIGNETTING)
    for lens in combination.barlows:
        if lens.measured_factor is not None and not math.isclose(lens.measured_factor, lens.factor):
            yield Notice(
                kind=NoticeKind.MEASURED_FACTOR, factor=lens.factor, measured_factor=lens.measured_factor
            )


def _field_notices(combination: Combination) -> Iterator[Notice]:
    if combination.is_field_cut:
        assert combination.eyepiece is not None  # a built-in field has no barrel to cut it
        barrel_mm = combination.eyepiece.barrel_mm
        yield Notice(kind=NoticeKind.FIELD_CUT, barrel_mm=barrel_mm, stop_mm=widest_stop_mm(barrel_mm))


def _may_vignette(combination: Combination) -> bool:
    """Tell whether eyepiece and reducer ask for a wider circle of light than a usual rear opening passes."""
    eyepiece, focal_length_mm = combination.eyepiece, combination.eyepiece_focal_length_mm
    assert eyepiece is not None
    assert focal_length_mm is not None
    stop_mm = usable_stop_mm(eyepiece, focal_length_mm, combination.apparent_field_deg)
    if stop_mm is None:
        return focal_length_mm >= LONG_EYEPIECE_MM
    return stop_mm / chain_factor(combination.barlows) > REAR_OPENING_MM


def _glasses_notices(combination: Combination, eye: Eye) -> Iterator[Notice]:
    eyepiece = combination.eyepiece
    if not eye.glasses or eyepiece is None:
        return
    relief_mm = eyepiece.eye_relief_mm
    if relief_mm is not None and relief_mm >= GLASSES_RELIEF_MM:
        return
    unknown = relief_mm is None
    if not eye.astigmatism:
        kind = NoticeKind.RELIEF_UNKNOWN_OFF if unknown else NoticeKind.GLASSES_OFF
    elif combination.exit_pupil_mm < ASTIGMATISM_PUPIL_MM:
        kind = NoticeKind.RELIEF_UNKNOWN_SMALL_PUPIL if unknown else NoticeKind.GLASSES_OFF_SMALL_PUPIL
    else:
        kind = NoticeKind.RELIEF_UNKNOWN_LONGER_EYEPIECE if unknown else NoticeKind.LONGER_EYEPIECE
    yield Notice(kind=kind, eye_relief_mm=relief_mm)
