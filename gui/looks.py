"""How the planet in hand looks: computed when asked for, and kept until its causes change."""

from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING

from core.ladder.ladder import Ladder
from core.sky.bodies import Body
from core.sky.night import Night
from gui.derived import Kept

if TYPE_CHECKING:
    from core.looks.looks import Happenings, Looks
    from gui.readable_state import ReadableState

# Moments that stay at hand while a pointer moves to and fro, and bodies whose evening does.
_KEPT_MOMENTS = 32
_KEPT_HAPPENINGS = 8
_KEPT_LADDERS = 4


class PlanetLooks:
    """The looks that follow from a ``ReadableState``; all are None while there is no sky.

    What they are found with is loaded when it is first needed, so that the window itself comes up at once.
    """

    def __init__(self, state: "ReadableState") -> None:
        self._state = state
        self._happenings: Kept[Happenings] = Kept(_KEPT_HAPPENINGS)
        self._moments: Kept[Looks] = Kept(_KEPT_MOMENTS)
        self._ladders: Kept[Looks] = Kept(_KEPT_LADDERS)

    def happenings(self, planet: Body) -> "Happenings | None":
        """Return what happens on a planet this evening."""
        night = self._state.night
        return None if night is None else self._happenings_of(night, planet)

    def at(self, moment: datetime) -> "Looks | None":
        """Return how the planet in hand looks at a moment of the evening, whatever the telescope."""
        night, planet = self._state.night, self._state.planet
        if night is None or planet is None:
            return None
        from core.looks.looks import find_looks

        happenings = self._happenings_of(night, planet)
        find = partial(find_looks, night, planet, at=moment, happenings=happenings)
        return self._moments.get((night.site, night.evening, planet, moment, happenings), find)

    def through(self, ladder: Ladder | None) -> "Looks | None":
        """Return how the planet that a ladder points at looks through its telescope."""
        night = self._state.night
        if night is None or ladder is None or ladder.aim.planet is None:
            return None
        planet = ladder.aim.planet
        from core.looks.looks import find_looks

        happenings = self._happenings_of(night, planet)
        find = partial(find_looks, night, planet, ladder=ladder, happenings=happenings)
        return self._ladders.get((night.site, night.evening, ladder, happenings), find)

    def _happenings_of(self, night: Night, planet: Body) -> "Happenings":
        from core.looks.looks import find_happenings

        red_spot = self._state.profile.red_spot
        find = partial(find_happenings, night, planet, red_spot)
        return self._happenings.get((night.site, night.evening, planet, red_spot), find)
