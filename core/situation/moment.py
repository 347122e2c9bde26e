"""When and at what: the hours outside, the planet, and the moment that is looked at."""

from contextlib import suppress
from datetime import UTC, datetime, timedelta

from core.ladder.aim import Aim, aim_altitude, aim_overhead
from core.lazy import lazy
from core.moments.aiming import aim_at, aim_at_best
from core.moments.best_minutes import (
    BEST_RANK,
    WORTH_A_CLIMB,
    BestMinutes,
    find_best_minutes,
    highest_within,
)
from core.moments.details import Sharpness
from core.moments.elsewhen import Elsewhen, find_elsewhen
from core.moments.hours import (
    Dusks,
    Hour,
    HoursOut,
    typed_hours,
    usual_ends,
    usual_hours,
)
from core.moments.last_call import LastCall, last_call
from core.moments.next_change import NextChange, next_change
from core.moments.still_to_come import NOTHING, StillToCome, still_to_come, waiting
from core.moments.targets import TargetTime, evening_targets
from core.moments.which_planet import (
    best_planet,
    evening_worths,
    highest_planet,
    nearest_to_a_view,
    planet_showing_most,
)
from core.moments.worth import LEAST_DETAILS, EveningWorth
from core.problems import ProblemsError
from core.situation.choices import EveningHours
from core.situation.given import to_minute
from core.situation.place import Place
from core.sky.bodies import Body
from core.sky.civil import evening_span
from core.tonight.prospect import Course, Served

_MINUTE = timedelta(minutes=1)
# How long a telescope has stood outside is counted in steps of so many minutes, as an estimate deserves.
_STEP_OUTSIDE_MINUTES = 5
# A planet is as high as in its best moment to within this.
_AS_HIGH_DEG = 4.0
# Whoever took a rung so short a time ago is climbing still, and the planet stays in hand.
_STILL_CLIMBING = timedelta(minutes=30)


class Moment(Place):
    """The hours outside, the planet, its best minutes, and where the scope points."""

    # The hours outside.

    @lazy
    def said_hours(self) -> EveningHours | None:
        """The hours outside that were said for this evening, None where the usual ones count."""
        evening = self.evening
        return next((said for said in self._said_hours if said.evening == evening), None)

    @lazy
    def wanted_hours(self) -> tuple[Hour, Hour]:
        """From when and until when the owner is outside, in the words in which it was said."""
        said = self.said_hours
        return self.usual_hours if said is None else (said.start, said.end)

    @lazy
    def usual_hours(self) -> tuple[Hour, Hour]:
        """From when and until when the owner is usually outside."""
        return usual_ends(self.preferences.out_from_time, self.preferences.out_until_time)

    @lazy
    def hours(self) -> HoursOut | None:
        """When the owner is outside: as said for this evening, else as usual; None without a night."""
        if self.night is None:
            return None
        dusks, (start, end) = Dusks.of(self.night), self.wanted_hours
        if self.said_hours is not None:
            with suppress(ProblemsError):
                # At another site the same words may make no hours.
                return typed_hours(dusks, start=start, end=end)
        return usual_hours(dusks, start=start, end=end)

    @lazy
    def hours_left(self) -> HoursOut | None:
        """The hours as they count now: whoever is outside at their end stays a little longer."""
        hours, now = self.hours, self.present
        return hours if hours is None or now is None else hours.held_open(now)

    @lazy
    def present(self) -> datetime | None:
        """The present minute where it lies in the evening."""
        night = self.night
        return self.minute if night is not None and night.holds(self.minute) else None

    @lazy
    def last_call(self) -> LastCall | None:
        """That it is time to stop, in the last minutes before sunrise."""
        return None if self.night is None else last_call(self.night, self.present)

    # The planet, its best minutes, and where the telescope points.

    @lazy
    def sharpness(self) -> Sharpness:
        """What limits detail through the scope in hand tonight."""
        return Sharpness.of(self.scope, self.blur)

    @lazy
    def worths(self) -> dict[Body, EveningWorth]:
        """What is left of the evening is worth on each body that has a window still."""
        night, hours = self.night, self.hours_left
        if night is None or hours is None:
            return {}
        # In the last call nothing else comes into hand: the planet stays that of its first minute.
        since = self.present if self.last_call is None else self.last_call.since
        return evening_worths(night, hours=hours, sharpness=self.sharpness, since=since)

    @lazy
    def best_planet(self) -> Body | None:
        """The body that the evening serves best from now on, or served best; None where none has a window."""
        night, hours = self.night, self.hours
        if night is None or hours is None:
            return None
        left = best_planet(self.worths)
        if left is not None and (left is Body.MOON or self.worths[left].most_details >= LEAST_DETAILS):
            return left
        # Where nothing that is left shows anything, the evening's best is told as over.
        return best_planet(evening_worths(night, hours=hours, sharpness=self.sharpness)) or left

    @lazy
    def planet(self) -> Body | None:
        """The planet in hand: the chosen one, else the evening's; None while there is no sky.

        Whoever is outside has the target whose turn it is, unless they are climbing on another; between two
        turns, while the evening's best is long to come, what shows most until then.
        """
        if self.chosen_planet is not None:
            return self.chosen_planet
        if self.night is None:
            return None
        return self._climbed_on or self._planet_in_turn or self._planet_until_then or self.own_planet

    @lazy
    def own_planet(self) -> Body | None:
        """The chosen planet, else the one that the evening serves best, whatever the minute shows."""
        if self.chosen_planet is not None or self.night is None:
            return self.chosen_planet
        return self.best_planet or nearest_to_a_view(self.night)

    @lazy
    def _climbed_on(self) -> Body | None:
        """The planet on which a rung was taken within the last half hour, while it can be seen."""
        night, now, body, since = self.night, self.present, self._rung_planet, self._rung_since
        if night is None or now is None or body is None or since is None or self.last_call is not None:
            return None
        if not timedelta() <= self._now - since < _STILL_CLIMBING:
            return None
        return body if any(window.holds(now) for window in night.of(body).windows) else None

    @lazy
    def _planet_in_turn(self) -> Body | None:
        """The target whose turn it is now, in the last call that of its first minute."""
        now = self.present if self.last_call is None else self.last_call.since
        if now is None:
            return None
        return next((target.body for target in self.targets if target.minutes.holds(now)), None)

    @lazy
    def _planet_until_then(self) -> Body | None:
        """What shows most to whoever is outside now, where the evening's own planet is best only later."""
        night, hours, now, served = self.night, self.hours, self.present, self.served
        if night is None or hours is None or now is None or served is None or self.last_call is not None:
            return None
        if not hours.holds(now) or not served.is_later_than(now):
            return None
        return planet_showing_most(night, now, sharpness=self.sharpness)

    @lazy
    def elsewhen(self) -> Elsewhen | None:
        """What an hour outside the owner's own would give much of, None where there is nothing to tell."""
        night, planet, hours = self.night, self.own_planet, self.hours
        if night is None or planet is None or hours is None:
            return None
        return find_elsewhen(night, self.worths, planet=planet, hours=hours, since=self.present)

    @lazy
    def targets(self) -> tuple[TargetTime, ...]:
        """The evening's targets in their order."""
        night, hours = self.night, self.hours
        if night is None or hours is None:
            return ()
        return evening_targets(night, hours=hours, sharpness=self.sharpness, in_hand=self.own_planet)

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
        now, planet, turn = self.present, self.planet, self._planet_in_turn
        if now is None or planet is None or self.best is None or not self.best.holds(now):
            return None
        if turn is not planet and (turn is not None or self.chosen_planet is not None):
            return None
        after = next((target for target in self.targets if target.minutes.start > now), None)
        return None if after is None or after.body is planet else after

    @lazy
    def first_target(self) -> TargetTime | None:
        """What the evening begins with, before that, where another is the planet in hand in the hours."""
        now, targets, best = self.present, self.targets, self.best
        if not targets or best is None or not best.in_hours or self.chosen_planet is not None:
            return None
        first, start = targets[0], targets[0].minutes.start
        has_begun = now is not None and now >= start
        return None if has_begun or first.body is self.planet or start >= best.start else first

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
    def course(self) -> Course:
        """Whether the planet is about as high as at its best, or on the way to there or from there."""
        night, planet, now, whole = self.night, self.planet, self.present, self.whole_best
        if night is None or planet is None or now is None or whole is None or whole.rank == BEST_RANK:
            return Course.HIGH
        highest = highest_within(night, planet, whole)
        if highest.altitude_deg - night.position(planet, now).altitude_deg < _AS_HIGH_DEG:
            return Course.HIGH
        return Course.RISING if now < highest.time else Course.SINKING

    @lazy
    def better_later(self) -> BestMinutes | None:
        """The planet's best minutes where those come later and it is poorer now."""
        better, hours, now = self._still_to_come.better, self.hours, self.present
        if better is None or hours is None or now is None or self.planet is self.own_planet:
            return better
        # What is in hand for its turn only is nothing to stay up for.
        return better if better.start < hours.end or now >= hours.end else None

    @lazy
    def meanwhile(self) -> Body | None:
        """The planet that stands highest now, above 45 degrees, where the one in hand is low until later."""
        night, now = self.night, self.present
        if night is None or now is None or self.better_later is None or self.best is None:
            return None
        if self.best.rank >= WORTH_A_CLIMB or self._planet_in_turn is self.planet:
            return None
        return highest_planet(night, now)

    @lazy
    def served(self) -> Served | None:
        """The body that the evening serves best from now on, whichever is in hand."""
        night, body, hours = self.night, self.best_planet, self.hours
        if night is None or body is None or hours is None:
            return None
        best = still_to_come(night, body, now=self.present, hours=hours).best
        return None if best is None else Served(body=body, best=best)

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
