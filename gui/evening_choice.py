"""Which evening and which moment are looked at, and whether they move with the clock."""

from datetime import UTC, date, datetime

from gui.clock import Clock, to_minute
from gui.derived import Derived


class EveningChoice:
    """The evening and the moment in hand.

    While ``follows_tonight`` the evening is tonight's and moves on at sunrise; while ``following_now`` the
    moment is the present minute.
    """

    def __init__(self, derived: Derived, clock: Clock) -> None:
        self._derived = derived
        self._clock = clock
        self.follows_tonight = True
        self.following_now = True
        self.time = to_minute(clock())
        self.evening = derived.tonight()

    def restart(self) -> None:
        """Go back to tonight and now."""
        self.follows_tonight = self.following_now = True
        self.time = to_minute(self._clock())
        self.evening = self._derived.tonight()

    def settle(self) -> bool:
        """Take the evening that tonight is by now, where it is followed; tell whether it is another one."""
        tonight = self._derived.tonight()
        if not self.follows_tonight or tonight == self.evening:
            return False
        self.evening = tonight
        return True

    def go_to(self, evening: date) -> None:
        """Look at an evening other than tonight's, in its best moment; ProblemsError if it cannot be had."""
        self._derived.check_evening(evening)
        self.evening = evening
        self.follows_tonight = self.following_now = False
        self.time = self._derived.best_moment()

    def look_at(self, time: datetime) -> bool:
        """Look at a moment of the evening, or at the end it lies beyond; tell whether it is another one."""
        time = self._derived.within_evening(time.astimezone(UTC))
        if time == self.time and not self.following_now:
            return False
        self.following_now = False
        self.time = time
        return True

    def keep_up(self) -> bool:
        """Move the moment on with the clock, where it is followed; tell whether it has moved."""
        minute = to_minute(self._clock())
        if not self.following_now or minute == self.time:
            return False
        self.time = minute
        return True
