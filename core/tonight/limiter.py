"""The one thing that limits the view, found in a fixed order from the state in hand."""

from datetime import datetime
from enum import StrEnum
from typing import Final

from core.air.finest_detail import LimitKind
from core.ladder.ladder import Ladder
from core.ladder.mount import shaking_bites
from core.ladder.notices import FLOATERS_STRONG_MM
from core.moments.best_minutes import TOUCHING
from core.sky.events import FAIR_DEG, LOWEST_USEFUL_DEG
from core.sky.why_not import WhyNot
from core.tonight.prospect import Prospect

# A climb that ends within this ratio of the ceiling is stopped by it; one that ends further off is stopped
# by what is owned. It is about the usual step from one rung to the next (ours).
NEAR_CEILING_RATIO = 1.4
# At the end of its last window a body that is no higher than this has sunk too low.
_SUNK_DEG = LOWEST_USEFUL_DEG + 0.05


class Limiter(StrEnum):
    """What can limit the view, in the order in which it is looked for; ``NOTHING`` while no kit is known."""

    NEVER_UP = "never_up"
    NO_DARK_SKY = "no_dark_sky"
    BLOCKED = "blocked"
    TOO_LOW = "too_low"
    OUTSIDE_HOURS = "outside_hours"
    MIRROR_WARM = "mirror_warm"
    WARM_AIR = "warm_air"
    HEIGHT = "height"
    SHAKES = "shakes"
    TONIGHT_AIR = "tonight_air"
    MIRROR_LAGS = "mirror_lags"
    USUAL_AIR = "usual_air"
    APERTURE = "aperture"
    EXIT_PUPIL = "exit_pupil"
    NO_RUNG_NEAR = "no_rung_near"
    NOTHING = "nothing"


# The answers that another date may better.
POOR: Final = frozenset(
    {
        Limiter.NEVER_UP,
        Limiter.NO_DARK_SKY,
        Limiter.BLOCKED,
        Limiter.TOO_LOW,
        Limiter.OUTSIDE_HOURS,
        Limiter.HEIGHT,
    }
)


def find_limiter(prospect: Prospect) -> Limiter:
    """Return the first limiter that bites."""
    if prospect.over is not None:
        return _what_ended(prospect)
    if prospect.best is None or prospect.position is None:
        kind = prospect.body.why_not_kind
        # A window of nothing but the last minutes before sunrise is none.
        return Limiter.NO_DARK_SKY if kind is None else _WITHOUT_WINDOW[kind]
    if not prospect.best.in_hours and not prospect.is_best_now:
        return Limiter.OUTSIDE_HOURS
    if _is_not_ready(prospect, prospect.position.time):
        return Limiter.MIRROR_WARM
    if prospect.warm_air is not None:
        return Limiter.WARM_AIR
    if prospect.position.altitude_deg < FAIR_DEG:
        return Limiter.HEIGHT
    if prospect.ladder is not None and shaking_bites(prospect.ladder):
        return Limiter.SHAKES
    return Limiter.NOTHING if prospect.ladder is None else _power_limiter(prospect.ladder)


_WITHOUT_WINDOW = {
    WhyNot.NEVER_UP: Limiter.NEVER_UP,
    WhyNot.SUN_UP: Limiter.NO_DARK_SKY,
    WhyNot.NO_DARK_SKY: Limiter.NO_DARK_SKY,
    WhyNot.BLOCKED: Limiter.BLOCKED,
    WhyNot.TOO_LOW: Limiter.TOO_LOW,
}
_LIMITERS = {
    LimitKind.TONIGHT_AIR: Limiter.TONIGHT_AIR,
    LimitKind.USUAL_AIR: Limiter.USUAL_AIR,
    LimitKind.MIRROR: Limiter.MIRROR_LAGS,
    LimitKind.APERTURE: Limiter.APERTURE,
    LimitKind.HEIGHT: Limiter.HEIGHT,
}


def _what_ended(prospect: Prospect) -> Limiter:
    """Return what put an end to a body's last window."""
    end = prospect.body.windows[-1].end
    if any(abs(span.start - end) <= TOUCHING for span in prospect.body.blocked):
        return Limiter.BLOCKED
    has_sunk = prospect.night.position(prospect.planet, end).altitude_deg <= _SUNK_DEG
    return Limiter.TOO_LOW if has_sunk else Limiter.NO_DARK_SKY


def _is_not_ready(prospect: Prospect, moment: datetime) -> bool:
    if prospect.readiness is not None and prospect.readiness.never:
        return True
    return prospect.ready_at is not None and moment < prospect.ready_at


def _power_limiter(ladder: Ladder) -> Limiter:
    """Return what stops the climb: the ceiling where the kit comes near it, else the kit."""
    ceiling = ladder.ceiling
    if not ladder.rungs or ceiling.power is None or ceiling.set_by is None:
        return Limiter.NO_RUNG_NEAR
    lowest = ladder.rungs[0]
    reached = ladder.climb_to if ladder.climb_to is not None else lowest.power
    if ceiling.power / NEAR_CEILING_RATIO <= reached <= ceiling.power * NEAR_CEILING_RATIO:
        return _LIMITERS[ceiling.set_by]
    if ladder.climb_to is None and lowest.exit_pupil_mm < FLOATERS_STRONG_MM:
        return Limiter.EXIT_PUPIL
    return Limiter.NO_RUNG_NEAR
