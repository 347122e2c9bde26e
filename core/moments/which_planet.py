"""Which planet an evening serves best, by its worth in the owner's hours; ``worth`` has the rule."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from typing import Final

import numpy as np

from core.moments.best_minutes import SHORTEST_USEFUL, joined, offered_windows, within
from core.moments.details import Sharpness, details_along
from core.moments.hours import HoursOut
from core.moments.worth import (
    FAINT_SHARE,
    LOWEST_DEG,
    EveningWorth,
    choose_body,
    evening_worth,
    step_times_s,
    step_worth,
)
from core.sky.bodies import Body
from core.sky.night import Night
from core.sky.why_not import WhyNot
from core.sky.windows import Grade, Window

# The kinds of reason for having no window, from the one that is furthest from a view to the nearest.
_NEARNESS = (WhyNot.NEVER_UP, WhyNot.SUN_UP, WhyNot.NO_DARK_SKY, WhyNot.TOO_LOW, WhyNot.BLOCKED)


# Of bodies that are equally near to a view, the height alone would often name one of these, which few miss.
_SELDOM_THE_FIRST: Final = frozenset({Body.MERCURY, Body.URANUS, Body.NEPTUNE})


def evening_worths(
    night: Night, *, hours: HoursOut, sharpness: Sharpness, since: datetime | None = None
) -> dict[Body, EveningWorth]:
    """Return what an evening is worth on every body that has a window from ``since`` on."""
    worths = {}
    for body_night in night.bodies:
        body = body_night.body
        windows = offered_windows(night, body, since=since)
        if windows:
            unix_s = step_times_s(tuple(_spans_s(windows, hours)))
            details, altitude_deg = details_along(night, body, unix_s, sharpness)
            worths[body] = evening_worth(
                body,
                unix_s=unix_s,
                details=details,
                altitude_deg=altitude_deg,
                hours_s=(hours.start.timestamp(), hours.end.timestamp()),
            )
    return worths


def best_planet(worths: dict[Body, EveningWorth]) -> Body | None:
    """Return the body that an evening serves best, None when nothing has a window."""
    chosen = choose_body(worths)
    return None if chosen is None else chosen.body


def highest_planet(night: Night, now: datetime) -> Body | None:
    """Return the planet that stands highest at a moment, above 45 degrees in clean air; None for none."""
    seen = [
        body.body
        for body in night.bodies
        if body.body is not Body.MOON
        for window in body.windows
        if window.holds(now) and window.grade is Grade.BEST and window.warm_air is None
    ]
    return max(seen, key=lambda body: night.position(body, now).altitude_deg, default=None)


def planet_showing_most(night: Night, now: datetime, *, sharpness: Sharpness) -> Body | None:
    """Return the planet worth most at a moment, of those in sight for 20 minutes on; None for none."""
    most, found = 0.0, None
    for body in (each.body for each in night.bodies if each.body is not Body.MOON):
        spans = joined(offered_windows(night, body, since=now))
        if not spans or spans[0].start > now or spans[0].end - now < SHORTEST_USEFUL:
            continue
        details, altitude_deg = details_along(night, body, np.array([now.timestamp()]), sharpness)
        worth = FAINT_SHARE.get(body, 1.0) * float(step_worth(details)[0])
        if altitude_deg[0] >= LOWEST_DEG and worth > most:
            most, found = worth, body
    return found


def nearest_to_a_view(night: Night) -> Body:
    """Return the body that comes nearest to a view in an evening on which nothing has a window."""
    return max((body.body for body in night.bodies), key=lambda each: _nearness(night, each))


def _nearness(night: Night, body: Body) -> tuple[int, bool, float]:
    missed = night.of(body)
    kind = missed.why_not_kind
    return (
        -1 if kind is None else _NEARNESS.index(kind),
        body not in _SELDOM_THE_FIRST,
        missed.highest.altitude_deg,
    )


def _spans_s(windows: Sequence[Window], hours: HoursOut) -> Iterator[tuple[float, float]]:
    """Yield the spans of windows, joined where they touch, cut where the hours begin and end."""
    first, last = windows[0].start, windows[-1].end
    for start, end in ((first, hours.start), (hours.start, hours.end), (hours.end, last)):
        for span in joined(within(windows, start, end)):
            yield span.start.timestamp(), span.end.timestamp()
