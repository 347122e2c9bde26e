"""The one thing that limits the view, found in a fixed order from the state in hand."""

from datetime import datetime
from enum import StrEnum

from attrs import frozen

from core.air.cooling import Readiness
from core.air.steadiness import LimitKind
from core.ladder.ladder import Ladder
from core.ladder.notices import FLOATERS_STRONG_MM
from core.moments.best_minutes import TOUCHING, BestMinutes
from core.sky.bodies import Body
from core.sky.events import FAIR_DEG, LOWEST_USEFUL_DEG
from core.sky.night import BodyNight, Night, Position, WhyNot

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
    MIRROR_WARM = "mirror_warm"
    WARM_AIR = "warm_air"
    HEIGHT = "height"
    TONIGHT_AIR = "tonight_air"
    USUAL_AIR = "usual_air"
    APERTURE = "aperture"
    EXIT_PUPIL = "exit_pupil"
    NO_RUNG_NEAR = "no_rung_near"
    NOTHING = "nothing"


@frozen(kw_only=True)
class Outlook:
    """The state in hand, as far as the answer is drawn from it.

    ``best`` are the best minutes still to come, None when there are none; ``over`` then holds those past.
    ``position`` is where the planet stands at the moment that the ladder is built for: now, if now is one
    of the best minutes, else when it is highest in them. ``ready_at`` is when a telescope that stands
    outside since ``outside_since`` is likely ready.
    """

    night: Night
    body: BodyNight
    now: datetime | None
    best: BestMinutes | None
    over: BestMinutes | None
    position: Position | None
    ladder: Ladder | None
    readiness: Readiness | None
    outside_since: datetime | None
    ready_at: datetime | None

    @property
    def planet(self) -> Body:
        """The body that is spoken of."""
        return self.body.body

    @property
    def is_best_now(self) -> bool:
        """Whether now is one of the best minutes."""
        return self.best is not None and self.now is not None and self.best.start <= self.now < self.best.end

    @property
    def warm_air(self) -> str | None:
        """What warms the air in the line of sight at the moment in question."""
        if self.best is None or self.position is None:
            return None
        return self.best.window_at(self.position.time).warm_air


def find_limiter(outlook: Outlook) -> Limiter:
    """Return the first limiter that bites."""
    if outlook.over is not None:
        return _what_ended(outlook)
    if outlook.best is None or outlook.position is None:
        kind = outlook.body.why_not_kind
        # A window of nothing but the last minutes before sunrise is none.
        return Limiter.NO_DARK_SKY if kind is None else _WITHOUT_WINDOW[kind]
    if _is_not_ready(outlook, outlook.position.time):
        return Limiter.MIRROR_WARM
    if outlook.warm_air is not None:
        return Limiter.WARM_AIR
    if outlook.position.altitude_deg < FAIR_DEG:
        return Limiter.HEIGHT
    return Limiter.NOTHING if outlook.ladder is None else _power_limiter(outlook.ladder)


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
    LimitKind.APERTURE: Limiter.APERTURE,
}


def _what_ended(outlook: Outlook) -> Limiter:
    """Return what put an end to a body's last window."""
    end = outlook.body.windows[-1].end
    if any(abs(span.start - end) <= TOUCHING for span in outlook.body.blocked):
        return Limiter.BLOCKED
    has_sunk = outlook.night.position(outlook.planet, end).altitude_deg <= _SUNK_DEG
    return Limiter.TOO_LOW if has_sunk else Limiter.NO_DARK_SKY


def _is_not_ready(outlook: Outlook, moment: datetime) -> bool:
    if outlook.readiness is not None and outlook.readiness.never:
        return True
    return outlook.ready_at is not None and moment < outlook.ready_at


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
