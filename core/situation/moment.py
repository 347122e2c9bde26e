"""The best minutes of the planet in hand, what comes next, and where the scope points."""

from datetime import UTC, datetime, timedelta

from core.ladder.aim import Aim, aim_altitude, aim_overhead
from core.lazy import lazy
from core.moments.aiming import aim_at, aim_at_best
from core.moments.best_minutes import (
    WORTH_A_CLIMB,
    BestMinutes,
    find_best_minutes,
    highest_within,
)
from core.moments.elsewhen import AS_HIGH_DEG, rising_on
from core.moments.next_change import NextChange, next_change
from core.moments.still_to_come import NOTHING, StillToCome, still_to_come, waiting
from core.moments.targets import TargetTime
from core.moments.which_planet import highest_planet
from core.problems import ProblemsError
from core.situation.given import to_minute
from core.situation.planet_in_hand import PlanetInHand
from core.sky.bodies import Body
from core.sky.civil import evening_span
from core.sky.events import BEST_DEG
from core.sky.track import Position
from core.tonight.prospect import Standing

_MINUTE = timedelta(minutes=1)
# So long without anything to look at is told (ours).
_LONG_TO_COME = timedelta(minutes=45)
# How long a telescope has stood outside is counted in steps of so many minutes, as an estimate deserves.
_STEP_OUTSIDE_MINUTES = 5


class Moment(PlanetInHand):
    """The best minutes of the planet in hand, and where the scope points."""

    @lazy
    def turn_of_another(self) -> TargetTime | None:
        """The target whose turn it is now, where the planet in hand has had its own or is past its best."""
        now, planet = self.present, self.planet
        if now is None:
            return None
        own = next((target for target in self.targets if target.body is planet), None)
        if self.past_best_since is None and (own is None or now < own.minutes.end):
            return None
        turn = next((target for target in self.targets if target.minutes.holds(now)), None)
        return None if turn is None or turn.body is planet else turn

    @lazy
    def next_target(self) -> TargetTime | None:
        """The target that follows the planet in hand, while it is that one's turn or nobody's."""
        now, planet, turn, hours = self.present, self.planet, self.planet_in_turn, self.hours
        if now is None or planet is None or hours is None:
            return None
        if turn is not planet and (turn is not None or self.chosen_planet is not None or now < hours.start):
            return None
        after = next((target for target in self.targets if target.minutes.start > now), None)
        is_next = after is not None and after.body is not planet and after.minutes.in_hours
        return after if is_next else None

    @lazy
    def first_target(self) -> TargetTime | None:
        """What the evening begins with, before the hours, where another is the planet in hand in them."""
        now, hours, targets = self.present, self.hours, self.targets
        if hours is None or (now is not None and now >= hours.start) or self.chosen_planet is not None:
            return None
        own = next((target for target in targets if target.body is self.planet), None)
        if own is None or own is targets[0] or self.best is None or not self.best.in_hours:
            return None
        return targets[0]

    @lazy
    def nothing_before(self) -> datetime | None:
        """When the first target of the hours comes, where that is the planet in hand and long to come."""
        now, hours, targets, best = self.present, self.hours, self.targets, self.best
        if hours is None or not targets or self.chosen_planet is not None or best is None:
            return None
        first, begins = targets[0], hours.start if now is None else max(now, hours.start)
        is_long = first.minutes.start - begins >= _LONG_TO_COME
        return first.minutes.start if is_long and first.body is self.planet and best.in_hours else None

    @lazy
    def minutes_outside(self) -> tuple[tuple[str, float], ...]:
        """The id of each telescope that stands outside here this evening, and for how many minutes by now."""
        site_id = "" if self.site is None else self.site.id
        here = [note for note in self._outside_notes if note.is_of(self.evening, site_id, note.scope_id)]
        if not here or self.present is None:
            return ()
        step = timedelta(minutes=_STEP_OUTSIDE_MINUTES)
        return tuple(
            (note.scope_id, float(_STEP_OUTSIDE_MINUTES * max(0, (self.present - note.since) // step)))
            for note in here
        )

    @lazy
    def whole_best(self) -> BestMinutes | None:
        """The planet's best minutes of the whole evening."""
        night, planet = self.night, self.planet
        return None if night is None or planet is None else find_best_minutes(night, planet, hours=self.hours)

    @lazy
    def _still_to_come(self) -> StillToCome:
        night, planet, hours = self.night, self.planet, self.hours
        if night is None or planet is None or hours is None:
            return NOTHING
        to_come = still_to_come(night, planet, now=self.present, hours=hours)
        return waiting(night, planet, to_come, now=self.present, hours=hours)

    @lazy
    def best(self) -> BestMinutes | None:
        """The planet's best minutes that are still to come."""
        return self._still_to_come.best

    @lazy
    def past_best_since(self) -> datetime | None:
        """When the planet's best minutes of this evening ended, where poorer ones are left of them."""
        return self._still_to_come.past_since

    @lazy
    def rising_on(self) -> Position | None:
        """Where the planet stands highest after the hours, where it is still rising as they end."""
        night, planet, hours = self.night, self.planet, self.hours
        if night is None or planet is None or hours is None or self.hours_are_over:
            return None
        return rising_on(night, planet, hours=hours)

    @lazy
    def standing(self) -> Standing:
        """Whether the planet is about as high as at its best, or on the way to there or from there."""
        night, planet, now, whole = self.night, self.planet, self.present, self.whole_best
        if night is None or planet is None or now is None or whole is None:
            return Standing.HIGH
        if self.hours_are_over:
            # Then the rest of the night counts.
            whole = find_best_minutes(night, planet) or whole
        highest = self.rising_on or highest_within(night, planet, whole)
        here_deg = night.position(planet, now).altitude_deg
        if here_deg >= BEST_DEG or highest.altitude_deg - here_deg < AS_HIGH_DEG:
            return Standing.HIGH
        return Standing.RISING if now < highest.time else Standing.SINKING

    @lazy
    def better_later(self) -> BestMinutes | None:
        """The planet's best minutes where those come later and it is poorer now."""
        better = self._still_to_come.better
        if better is None or self.planet is self.own_planet:
            return better
        # What is in hand in passing is nothing to wait or to stay up for beyond its turn.
        turn = next((target for target in self.targets if target.body is self.planet), None)
        return None if turn is not None and better.start >= turn.minutes.end else better

    @lazy
    def meanwhile(self) -> Body | None:
        """The planet that stands highest now, above 45 degrees, where the one in hand is low until later."""
        night, now = self.night, self.present
        if night is None or now is None or self.better_later is None or self.best is None:
            return None
        if self.best.rank >= WORTH_A_CLIMB or self.planet_in_turn is self.planet:
            return None
        return highest_planet(night, now)

    @lazy
    def best_aim(self) -> Aim:
        """Where the scope points in the planet's best moment: now where that is one of the best minutes.

        When they are over, they are taken all the same.
        """
        night, planet, now = self.night, self.planet, self.present
        if night is None or planet is None:
            return aim_overhead()
        if now is not None and self.best is not None and self.best.holds(now):
            return aim_at(night, planet, now)
        return aim_at_best(night, planet, self.best or self.whole_best)

    @lazy
    def time(self) -> datetime:
        """The moment that is looked at: chosen, or the present minute, or the best one of another evening."""
        if self.chosen_time is not None:
            return self._within_evening(self.chosen_time)
        if self.follows_tonight:
            return self.minute
        best = self.best_aim.at
        if best is not None:
            return self._full_minute(best)
        if self.site is None:
            return self.minute
        start, end = evening_span(self.site, self.evening)
        return to_minute(start + (end - start) / 2)

    @lazy
    def aim(self) -> Aim:
        """Where the scope points: at the planet in a moment that was chosen, or now, else in its best moment.

        Now counts only inside one of the planet's windows; a moment that was chosen gives way where the
        planet is down then, unless the person asks for just that.
        """
        if self.chosen_altitude_deg is not None:
            return aim_altitude(self.chosen_altitude_deg)
        night, planet = self.night, self.planet
        if night is None or planet is None:
            return aim_overhead()
        if self.chosen_time is not None:
            chosen = aim_at(night, planet, self.time)
            return self.best_aim if chosen.path is None and not self._time_is_asked else chosen
        windows = night.of(planet).windows
        if self.following_now and any(window.holds(self.time) for window in windows):
            now = aim_at(night, planet, self.time)
            if now.is_offered and not now.sunrise_is_near:
                return now
        return self.best_aim

    @lazy
    def next_change(self) -> NextChange | None:
        """What happens next to the view of the planet in hand; None unless it is looked at now."""
        night, planet, now = self.night, self.planet, self.present
        if night is None or planet is None or now is None or not self.following_now:
            return None
        return next_change(night, planet, now)

    def _full_minute(self, best: datetime) -> datetime:
        """Return the full minute nearest a best moment that is one of the best minutes, else the moment."""
        minutes, minute = self.best or self.whole_best, to_minute(best)
        inside = (full for full in (minute, minute + _MINUTE) if minutes is not None and minutes.holds(full))
        return next(inside, best)

    def _within_evening(self, moment: datetime) -> datetime:
        """Return a moment, or the end of the evening that it lies beyond."""
        if self.site is None:
            return moment
        try:
            start, end = evening_span(self.site, self.evening)
        except ProblemsError:
            return moment
        return min(max(moment.astimezone(UTC), start), end - _MINUTE)
