"""What one planet has in prospect on one evening, for one telescope in one air."""

from datetime import datetime
from enum import StrEnum

from attrs import frozen

from core.air.readiness import Readiness
from core.ladder.ladder import Ladder
from core.ladder.mirror_climb import MirrorClimb
from core.moments.best_minutes import SHORTEST_USEFUL, BestMinutes
from core.moments.elsewhen import Elsewhen
from core.moments.hours import HoursOut
from core.moments.targets import TargetTime
from core.sky.bodies import Body
from core.sky.night import BodyNight, Night
from core.sky.track import Position


class Standing(StrEnum):
    """How high a body stands beside the best moment of its best minutes."""

    HIGH = "high"
    RISING = "rising"
    SINKING = "sinking"


@frozen(kw_only=True)
class Served:
    """The body that an evening serves best, with its best minutes."""

    body: Body
    best: BestMinutes

    def is_later_than(self, now: datetime) -> bool:
        """Tell whether its best minutes are still to come in the owner's hours, and not at once."""
        return self.best.in_hours and self.best.start - now >= SHORTEST_USEFUL


@frozen(kw_only=True)
class Prospect:
    """All that the answer is drawn from.

    ``now`` is the present moment where it lies in the evening. ``best`` are the best minutes still to come,
    None when there are none; ``over`` then holds those past. ``position`` is where the planet stands at the
    moment that the ladder is built for: now, if now is one of the best minutes, else when it is highest in
    them; ``standing`` tells whether it is about as high as that now, ``rising_on`` where it is highest after
    the hours, where it is still rising as they end. ``past_best_since`` is when the best minutes of the
    evening ended, where only poorer ones are left, ``better_later`` better ones to come where it is poorer
    now, and ``meanwhile`` what stands higher until then. ``targets`` are the evening's in their order,
    ``turn`` the one whose turn it is, where the planet in hand has had its own, ``following`` what comes next
    while it has it, ``first`` what the order begins with before another that is served best,
    ``nothing_before`` when it begins with the planet in hand after a long wait. ``elsewhen`` is what another
    hour than the owner's own would give much of, ``served`` the body that the evening serves best. ``hours``
    are those outside. ``ready_at`` is when a telescope that stands outside since ``outside_since`` is likely
    usable, ``mirror_climb`` how the ceiling climbs from then on as its mirror cools. ``in_passing`` where the
    planet is in hand for its turn only, and another is the evening's own.
    """

    night: Night
    body: BodyNight
    now: datetime | None = None
    best: BestMinutes | None = None
    over: BestMinutes | None = None
    past_best_since: datetime | None = None
    standing: Standing = Standing.HIGH
    rising_on: Position | None = None
    targets: tuple[TargetTime, ...] = ()
    better_later: BestMinutes | None = None
    meanwhile: Body | None = None
    hours: HoursOut | None = None
    elsewhen: Elsewhen | None = None
    served: Served | None = None
    turn: TargetTime | None = None
    following: TargetTime | None = None
    first: TargetTime | None = None
    nothing_before: datetime | None = None
    position: Position | None = None
    ladder: Ladder | None = None
    readiness: Readiness | None = None
    outside_since: datetime | None = None
    ready_at: datetime | None = None
    mirror_climb: MirrorClimb | None = None
    owns_eyepieces: bool = False
    in_passing: bool = False

    @property
    def planet(self) -> Body:
        """The body that is spoken of."""
        return self.body.body

    @property
    def hours_are_over(self) -> bool:
        """Whether the owner's hours have ended by now."""
        return self.hours is not None and self.hours.are_over(self.now)

    @property
    def is_best_now(self) -> bool:
        """Whether now is one of the best minutes."""
        return self.best is not None and self.now is not None and self.best.holds(self.now)

    @property
    def later(self) -> Served | None:
        """What the evening serves best later in the hours, where another body is looked at until then."""
        served, now = self.served, self.now
        if served is None or now is None or not self.is_best_now or served.body is self.planet:
            return None
        return served if served.is_later_than(now) else None

    @property
    def warm_air(self) -> str | None:
        """What warms the air in the line of sight at the moment in question."""
        if self.best is None or self.position is None:
            return None
        return self.best.window_at(self.position.time).warm_air
