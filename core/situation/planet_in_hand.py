"""Who is outside when, in which order what is looked at, and which planet is in hand."""

from contextlib import suppress
from datetime import datetime, timedelta

from core.lazy import lazy
from core.moments.details import Sharpness
from core.moments.elsewhen import Elsewhen, find_elsewhen
from core.moments.hours import (
    STAYS_AT_LEAST,
    Dusks,
    Hour,
    HoursOut,
    typed_hours,
    usual_ends,
    usual_hours,
)
from core.moments.last_call import LastCall, last_call
from core.moments.still_to_come import still_to_come
from core.moments.targets import TargetTime, evening_targets
from core.moments.which_planet import (
    best_planet,
    evening_worths,
    nearest_to_a_view,
    planet_showing_most,
)
from core.moments.worth import LEAST_DETAILS, EveningWorth
from core.problems import ProblemsError
from core.situation.choices import EveningHours
from core.situation.place import Place
from core.sky.bodies import Body
from core.tonight.prospect import Served

# Whoever took a rung so short a time ago is climbing still, and the planet stays in hand.
_STILL_CLIMBING = timedelta(minutes=30)


class PlanetInHand(Place):
    """The hours outside, the order of the evening's targets, and the planet in hand, which keeps to it."""

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
        return self._best_of_all or left

    @lazy
    def _best_of_all(self) -> Body | None:
        """The body that the evening as a whole serves best, whatever the minute."""
        night, hours = self.night, self.hours
        if night is None or hours is None:
            return None
        return best_planet(evening_worths(night, hours=hours, sharpness=self.sharpness))

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
        return self._climbed_on or self.planet_in_turn or self._planet_until_then or self.own_planet

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
    def planet_in_turn(self) -> Body | None:
        """The target whose turn it is now, in the last call that of its first minute.

        Whoever stays half an hour longer than the hours has the last one still.
        """
        now, night = self.present if self.last_call is None else self.last_call.since, self.night
        if now is None or night is None or not self.targets:
            return None
        turn = next((target for target in self.targets if target.minutes.holds(now)), None)
        if turn is not None:
            return turn.body
        ended = [target for target in self.targets if target.minutes.end <= now]
        if not ended or (len(ended) < len(self.targets) and self.hours is not None and now < self.hours.end):
            return None
        last = ended[-1]
        stays = now < last.minutes.end + STAYS_AT_LEAST
        is_up = any(window.holds(now) for window in night.of(last.body).windows)
        return last.body if stays and is_up else None

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
    def hours_are_over(self) -> bool:
        """Whether the hours have ended: apart from the minute, which what follows need not know."""
        return self.hours is not None and self.hours.are_over(self.present)

    @lazy
    def targets(self) -> tuple[TargetTime, ...]:
        """The evening's targets in their order."""
        night, hours = self.night, self.hours
        if night is None or hours is None:
            return ()
        kept = self.chosen_planet or self._best_of_all
        # Another comes in hand beyond the order only once the hours are over.
        in_hand = self.own_planet if self.hours_are_over or kept is None else kept
        return evening_targets(night, hours=hours, sharpness=self.sharpness, in_hand=in_hand, kept=kept)

    @lazy
    def served(self) -> Served | None:
        """The body that the evening serves best from now on, whichever is in hand."""
        night, body, hours = self.night, self.best_planet, self.hours
        if night is None or body is None or hours is None:
            return None
        best = still_to_come(night, body, now=self.present, hours=hours).best
        return None if best is None else Served(body=body, best=best)
