"""What happens on a planet in one evening: what Jupiter's moons do, and when its red spot comes round."""

from datetime import datetime, timedelta
from typing import Final

from attrs import evolve, frozen

from core.sky.bodies import Body
from core.sky.moons import MoonEvent, moon_events
from core.sky.night import Night
from core.sky.red_spot import WELL_PLACED_MINUTES, RedSpotPasses


@frozen(kw_only=True)
class Happenings:
    """What happens on a planet in one evening.

    ``events`` are what Jupiter's moons do, ``events_to_see`` those of them that fall into the planet's
    windows; both are empty for the others, as ``red_spot`` is None for them.
    """

    events: tuple[MoonEvent, ...] = ()
    events_to_see: tuple[MoonEvent, ...] = ()
    red_spot: RedSpotPasses | None = None

    @property
    def spot_stays_away(self) -> bool:
        """Whether the red spot's longitude is known and it does not come round."""
        return self.red_spot is not None and not self.red_spot.times

    def between(self, start: datetime, end: datetime) -> "Happenings":
        """Return what of it there is to see between two times (aware)."""
        events = tuple(event for event in self.events_to_see if event.start < end and start < event.end)
        spot = self.red_spot
        if spot is not None:
            times = tuple(time for time in spot.times if start - _SPOT_FACES < time < end + _SPOT_FACES)
            spot = evolve(spot, times=times)
        return evolve(self, events_to_see=events, red_spot=spot)


# So long before and after it is in the middle the spot is well placed.
_SPOT_FACES: Final = timedelta(minutes=WELL_PLACED_MINUTES)
NOTHING_HAPPENS: Final = Happenings()


def find_happenings(night: Night, planet: Body, red_spot: RedSpotPasses | None = None) -> Happenings:
    """Return what happens on a planet in an evening; the same for every time of it.

    ``red_spot`` are the passages of that evening, where the spot's longitude is known.
    """
    if planet is not Body.JUPITER:
        return NOTHING_HAPPENS
    events = moon_events(night.start, night.end)
    return Happenings(
        events=events,
        events_to_see=tuple(event for event in events if _in_a_window(night, planet, event)),
        red_spot=red_spot,
    )


def _in_a_window(night: Night, planet: Body, event: MoonEvent) -> bool:
    windows = night.of(planet).windows
    return any(event.start < window.end and window.start < event.end for window in windows)
