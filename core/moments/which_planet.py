"""Which planet an evening serves best."""

from datetime import timedelta

from core.moments.best_minutes import (
    SHORTEST_USEFUL,
    SMALLEST_SHOWN_ARCSEC,
    WORTH_A_CLIMB,
    BestMinutes,
    find_best_minutes,
    highest_within,
    is_worth_a_climb,
    worth,
)
from core.sky.bodies import Body
from core.sky.night import BodyNight, Grade, Night, WhyNot

# The kinds of reason for having no window, from the one that is furthest from a view to the nearest.
_NEARNESS = (WhyNot.NEVER_UP, WhyNot.SUN_UP, WhyNot.NO_DARK_SKY, WhyNot.TOO_LOW, WhyNot.BLOCKED)


def best_planet(night: Night) -> Body | None:
    """Return the planet that an evening serves best, None when nothing has a window.

    Ours: planets in clean air above 30 degrees for 20 minutes come before all others, then those with a
    disc of at least 5 arcsec, then those with 20 minutes at all; among equals the longest time above 45
    degrees, the longest above 30, the greatest height. The Moon is taken only when no planet has a window.
    """
    offered = [(body, best) for body in night.bodies if (best := find_best_minutes(night, body.body))]
    planets = [(body, best) for body, best in offered if body.body is not Body.MOON]
    chosen = max(planets or offered, key=lambda each: _service(night, *each), default=None)
    return None if chosen is None else chosen[0].body


def evening_planet(night: Night) -> Body:
    """Return the planet that an evening serves best, else the body that comes nearest to a view."""
    return best_planet(night) or max(
        (body.body for body in night.bodies), key=lambda each: _nearness(night, each)
    )


def _nearness(night: Night, body: Body) -> tuple[int, float]:
    missed = night.of(body)
    kind = missed.why_not_kind
    return -1 if kind is None else _NEARNESS.index(kind), missed.highest.altitude_deg


def _service(
    night: Night, body: BodyNight, best: BestMinutes
) -> tuple[bool, bool, bool, timedelta, timedelta, float]:
    clean = [window for window in body.windows if worth(window) >= WORTH_A_CLIMB]
    above_45 = sum((w.end - w.start for w in clean if w.grade is Grade.BEST), timedelta())
    above_30 = sum((w.end - w.start for w in clean), timedelta())
    return (
        is_worth_a_climb(best),
        body.diameter_arcsec >= SMALLEST_SHOWN_ARCSEC,
        best.duration >= SHORTEST_USEFUL,
        above_45,
        above_30,
        highest_within(night, body.body, best).altitude_deg,
    )
