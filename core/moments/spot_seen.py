"""When Jupiter's red spot is in the middle of the disc while Jupiter can be looked at."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Final

from attrs import evolve

from core.moments.best_minutes import offered_windows
from core.problems import ProblemsError
from core.record.observer import RedSpot
from core.sky.bodies import Body
from core.sky.night import Night, compute_night
from core.sky.red_spot import RedSpotPasses, red_spot_passes

# Jupiter is out of sight near the Sun for some two months, longer far from the equator.
_LOOKED_AHEAD: Final = timedelta(days=240)
# While it has no window at all, evenings are passed over by so many.
_STEP_OUT_OF_SIGHT: Final = timedelta(days=4)
_DAY: Final = timedelta(days=1)


def spot_passes_seen(
    night: Night, red_spot: RedSpot, *, dark_enough: Mapping[Body, float] | None = None
) -> RedSpotPasses:
    """Return the passages of an evening that fall into Jupiter's windows, else the next one that does.

    ``dark_enough`` gives the altitude under which the Sun must stand on the evenings after it, where it is
    not the usual one. After 240 days without one, or where the planet tables end, there is none.
    """
    passes = red_spot_passes(red_spot.longitude_deg, red_spot.on, night.start, night.end)
    seen = tuple(time for time in passes.times if _in_a_window(night, time))
    if seen:
        return evolve(passes, times=seen)
    return evolve(passes, times=(), next_seen=_next_seen(night, red_spot, dark_enough))


def _next_seen(night: Night, red_spot: RedSpot, dark_enough: Mapping[Body, float] | None) -> datetime | None:
    known_to, last = night.evening, night.evening + _LOOKED_AHEAD
    day, one_by_one_to = known_to + _DAY, known_to
    below = {Body.JUPITER: dark_enough[Body.JUPITER]} if dark_enough else None
    while day <= last:
        try:
            later = compute_night(night.site, day, targets=[Body.JUPITER], dark_enough=below)
        except ProblemsError:  # a date that the zone skipped, or the end of the planet tables
            day += _DAY
            continue
        in_sight = bool(later.of(Body.JUPITER).windows)
        if in_sight and day > max(known_to + _DAY, one_by_one_to):
            # Perhaps it came into sight on an evening passed over: those are looked at one by one.
            day, one_by_one_to = known_to + _DAY, day
            continue
        passes = red_spot_passes(red_spot.longitude_deg, red_spot.on, later.start, later.end)
        found = next((time for time in passes.times if _in_a_window(later, time)), None)
        if found is not None:
            return found
        known_to = day
        day += _DAY if in_sight or day < one_by_one_to else _STEP_OUT_OF_SIGHT
    return None


def _in_a_window(night: Night, time: datetime) -> bool:
    return any(window.holds(time) for window in offered_windows(night, Body.JUPITER))
