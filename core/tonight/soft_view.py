"""Why a view is soft: a few questions, and what is known already, to the likeliest cause.

Alignment, cooling, air, height, power, focus, dew and the eye all look alike. Each cause has a weight from
what is known; each answer weighs the causes by how often it would be given under each; the next question is
the one that tells most. The questions are common practice, no source; all weights are ours.
"""

import math
from collections.abc import Mapping
from enum import StrEnum
from typing import Final

from attrs import frozen

from core.air.cooling import SMALL_REFRACTOR_MM
from core.gear.owned import Stand, TelescopeKind
from core.ladder.ladder import Standing
from core.ladder.mount import TREMBLES_FROM_S
from core.ladder.notices import FLOATERS_BEGIN_MM, FLOATERS_COMMON_MM, FLOATERS_STRONG_MM
from core.sky.events import BEST_DEG, FAIR_DEG

MOST_QUESTIONS: Final = 5
# A cause this likely needs no further question, and one less likely than the other is no answer.
SURE: Final = 0.75
LEAST_LIKELY: Final = 0.4


class Cause(StrEnum):
    """What makes a view soft."""

    FOCUS = "focus"
    FOCUS_OUT_OF_REACH = "focus_out_of_reach"
    DEW = "dew"
    COLLIMATION = "collimation"
    COOLING = "cooling"
    OWN_WARMTH = "own_warmth"
    WARM_AIR = "warm_air"
    HEIGHT = "height"
    AIR = "air"
    POWER = "power"
    SMALL_PUPIL = "small_pupil"
    MOUNT = "mount"
    EYE = "eye"


class Question(StrEnum):
    """What is asked; each can be answered with yes, no or cannot tell."""

    SHARP_AFTER_FOCUSING = "sharp_after_focusing"
    FOCUS_PASSES = "focus_passes"
    LESS_POWER_HELPS = "less_power_helps"
    RING_IS_EVEN = "ring_is_even"
    SLOW_SWIRLS = "slow_swirls"
    STARS_TWINKLE = "stars_twinkle"
    GLOW = "glow"
    HIGH_STAR_IS_SOFT = "high_star_is_soft"
    CALMS_DOWN_UNTOUCHED = "calms_down_untouched"
    TURNS_WITH_THE_HEAD = "turns_with_the_head"
    CALMS_WHEN_STEPPING_ASIDE = "calms_when_stepping_aside"


class Reply(StrEnum):
    """An answer to a question."""

    YES = "yes"
    NO = "no"
    CANNOT_TELL = "cannot_tell"


@frozen(kw_only=True)
class KnownOfView:
    """What the program knows before anything is asked; None and False where it does not.

    ``cooling`` is 1 while the mirror is known to be warm, 0 when it is known to have settled;
    ``mirror_share`` is the mirror's blur over the air's. ``dew`` tells whether glass at risk takes dew.
    ``days_since_collimation`` counts from the date the owner gave.
    """

    kind: TelescopeKind
    aperture_mm: float | None = None
    focal_ratio: float | None = None
    standing: Standing | None = None
    exit_pupil_mm: float | None = None
    altitude_deg: float | None = None
    in_warm_air: bool = False
    is_cooling: bool | None = None
    mirror_share: float = 0.0
    blur_arcsec: float | None = None
    is_wet: bool | None = None
    days_since_collimation: float | None = None
    stands_on: Stand | None = None
    settles_s: float | None = None
    glasses: bool = False
    astigmatism: bool = False


@frozen(kw_only=True)
class LikelyCause:
    """The likeliest cause with its share of all, 0 to 1; ``cause`` is None where it cannot be judged."""

    cause: Cause | None
    share: float


_USUAL: Final[Mapping[Cause, float]] = {
    Cause.FOCUS: 1.5,
    Cause.FOCUS_OUT_OF_REACH: 0.4,
    Cause.DEW: 0.7,
    Cause.COLLIMATION: 1.5,
    Cause.COOLING: 1.5,
    Cause.OWN_WARMTH: 0.3,
    Cause.WARM_AIR: 0.5,
    Cause.HEIGHT: 0.5,
    Cause.AIR: 3.0,
    Cause.POWER: 1.5,
    Cause.SMALL_PUPIL: 0.5,
    Cause.MOUNT: 0.7,
    Cause.EYE: 0.4,
}

# How often yes is the answer under each cause; what is not named has the first figure.
_YES: Final[Mapping[Question, tuple[float, Mapping[Cause, float]]]] = {
    Question.SHARP_AFTER_FOCUSING: (0.03, {Cause.FOCUS: 0.95}),
    Question.FOCUS_PASSES: (0.95, {Cause.FOCUS_OUT_OF_REACH: 0.03}),
    Question.LESS_POWER_HELPS: (
        0.3,
        {
            Cause.POWER: 0.95,
            Cause.SMALL_PUPIL: 0.9,
            Cause.MOUNT: 0.7,
            Cause.AIR: 0.6,
            Cause.HEIGHT: 0.6,
            Cause.WARM_AIR: 0.6,
            Cause.COOLING: 0.5,
            Cause.OWN_WARMTH: 0.5,
            Cause.COLLIMATION: 0.4,
            Cause.DEW: 0.08,
            Cause.EYE: 0.08,
            Cause.FOCUS_OUT_OF_REACH: 0.15,
        },
    ),
    Question.RING_IS_EVEN: (
        0.75,
        {Cause.COLLIMATION: 0.06, Cause.COOLING: 0.35, Cause.OWN_WARMTH: 0.3, Cause.POWER: 0.92},
    ),
    Question.SLOW_SWIRLS: (
        0.08,
        {
            Cause.COOLING: 0.88,
            Cause.OWN_WARMTH: 0.8,
            Cause.WARM_AIR: 0.45,
            Cause.HEIGHT: 0.25,
            Cause.AIR: 0.12,
        },
    ),
    Question.STARS_TWINKLE: (0.3, {Cause.AIR: 0.82, Cause.POWER: 0.35}),
    Question.GLOW: (0.05, {Cause.DEW: 0.93, Cause.SMALL_PUPIL: 0.25, Cause.HEIGHT: 0.2}),
    Question.HIGH_STAR_IS_SOFT: (0.85, {Cause.HEIGHT: 0.06, Cause.WARM_AIR: 0.08, Cause.POWER: 0.7}),
    Question.CALMS_DOWN_UNTOUCHED: (0.07, {Cause.MOUNT: 0.93}),
    Question.TURNS_WITH_THE_HEAD: (0.04, {Cause.EYE: 0.92}),
    Question.CALMS_WHEN_STEPPING_ASIDE: (0.07, {Cause.OWN_WARMTH: 0.88}),
}


def weights_of(known: KnownOfView) -> dict[Cause, float]:
    """Return how likely each cause is before anything is asked, in sum 1."""
    weights = dict(_USUAL)
    factors = (
        _of_height(known),
        _of_power(known),
        _of_telescope(known),
        _of_glass(known),
        _of_air(known),
        _of_eye(known),
    )
    for factor in factors:
        for cause, by in factor.items():
            weights[cause] *= by
    return _whole(weights)


def after_replies(known: KnownOfView, replies: Mapping[Question, Reply]) -> dict[Cause, float]:
    """Return how likely each cause is after some answers, in sum 1; cannot tell changes nothing."""
    weights = weights_of(known)
    for question, reply in replies.items():
        if reply is not Reply.CANNOT_TELL:
            weights = {cause: share * _chance(question, cause, reply) for cause, share in weights.items()}
    return _whole(weights)


def next_question(known: KnownOfView, replies: Mapping[Question, Reply]) -> Question | None:
    """Return the question that would tell most, or None when enough is known or enough was asked.

    Focus comes first: it is done in a moment, and while it is off nothing else can be judged.
    """
    if not replies:
        return Question.SHARP_AFTER_FOCUSING
    if len(replies) >= MOST_QUESTIONS:
        return None
    weights = after_replies(known, replies)
    if max(weights.values()) >= SURE:
        return None
    left = [question for question in Question if question not in replies]
    return max(left, key=lambda question: _told_by(question, weights), default=None)


def find_cause(known: KnownOfView, replies: Mapping[Question, Reply]) -> LikelyCause:
    """Return the likeliest cause, or that it cannot be judged where none is likely enough."""
    weights = after_replies(known, replies)
    cause = max(weights, key=weights.__getitem__)
    share = weights[cause]
    return LikelyCause(cause=cause if share >= LEAST_LIKELY else None, share=share)


def _told_by(question: Question, weights: Mapping[Cause, float]) -> float:
    """Return how much doubt a question takes away on average, in nats."""
    left = 0.0
    for reply in (Reply.YES, Reply.NO):
        joint = {cause: share * _chance(question, cause, reply) for cause, share in weights.items()}
        chance = sum(joint.values())
        left += chance * _doubt(_whole(joint))
    return _doubt(weights) - left


def _doubt(weights: Mapping[Cause, float]) -> float:
    return -sum(share * math.log(share) for share in weights.values() if share > 0.0)


def _chance(question: Question, cause: Cause, reply: Reply) -> float:
    usual, by_cause = _YES[question]
    yes = by_cause.get(cause, usual)
    return yes if reply is Reply.YES else 1.0 - yes


def _whole(weights: Mapping[Cause, float]) -> dict[Cause, float]:
    total = sum(weights.values())
    return {cause: weight / total for cause, weight in weights.items()}


def _of_height(known: KnownOfView) -> dict[Cause, float]:
    warm = {Cause.WARM_AIR: 16.0 if known.in_warm_air else 0.5}
    if known.altitude_deg is None:
        return warm
    for least_deg, by in ((BEST_DEG, 0.05), (FAIR_DEG, 0.8), (20.0, 6.0)):
        if known.altitude_deg >= least_deg:
            return warm | {Cause.HEIGHT: by}
    return warm | {Cause.HEIGHT: 14.0}


def _of_power(known: KnownOfView) -> dict[Cause, float]:
    by_standing = {
        Standing.ABOVE: 6.0,
        Standing.TRY: 2.0,
        Standing.GOOD: 0.3,
        Standing.BELOW: 0.05,
    }
    factors = {} if known.standing is None else {Cause.POWER: by_standing[known.standing]}
    if known.exit_pupil_mm is not None:
        bounds = ((FLOATERS_BEGIN_MM, 0.05), (FLOATERS_COMMON_MM, 1.0), (FLOATERS_STRONG_MM, 3.0))
        for least_mm, by in bounds:
            if known.exit_pupil_mm >= least_mm:
                return factors | {Cause.SMALL_PUPIL: by}
        return factors | {Cause.SMALL_PUPIL: 7.0}
    return factors


def _of_telescope(known: KnownOfView) -> dict[Cause, float]:
    if known.kind in (TelescopeKind.REFRACTOR, TelescopeKind.FIXED):
        collimation = 0.07
    else:
        collimation = 1.5 if known.focal_ratio is not None and known.focal_ratio < 6.0 else 1.0
        days = known.days_since_collimation
        collimation *= 1.3 if days is None or days > 90 else 0.5 if days <= 7 else 1.0
    mount = 3.0 if known.stands_on in (Stand.DECK, Stand.BALCONY) else 1.0
    if known.settles_s is not None:
        mount *= 2.0 if known.settles_s >= TREMBLES_FROM_S else 0.6
    return {Cause.COLLIMATION: collimation, Cause.MOUNT: mount}


def _of_glass(known: KnownOfView) -> dict[Cause, float]:
    cooling = 1.0
    if known.is_cooling is not None:
        cooling = 5.0 if known.is_cooling else 0.15
    if known.mirror_share > 1.0:
        cooling *= 3.0
    if known.kind is TelescopeKind.REFRACTOR and (known.aperture_mm or 0.0) <= SMALL_REFRACTOR_MM:
        cooling *= 0.4
    own_warmth = {TelescopeKind.REFLECTOR: 2.0, TelescopeKind.FIXED: 0.2}.get(known.kind, 0.6)
    dew = 1.0 if known.is_wet is None else 6.0 if known.is_wet else 0.15
    if known.kind is TelescopeKind.REFLECTOR:
        dew *= 0.6  # its mirror lies deep in the tube; the eyepiece and the small mirror still take dew
    return {Cause.COOLING: cooling, Cause.OWN_WARMTH: own_warmth, Cause.DEW: dew}


def _of_air(known: KnownOfView) -> dict[Cause, float]:
    if known.blur_arcsec is None:
        return {}
    return {Cause.AIR: 2.0 if known.blur_arcsec > 2.2 else 0.5 if known.blur_arcsec < 1.0 else 1.0}


def _of_eye(known: KnownOfView) -> dict[Cause, float]:
    by = 6.0 if known.astigmatism else 1.5 if known.glasses else 1.0
    if known.exit_pupil_mm is not None:
        by *= 0.05 if known.exit_pupil_mm < 1.2 else 0.5 if known.exit_pupil_mm < 2.0 else 1.5
    return {Cause.EYE: by}
