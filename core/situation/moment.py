"""Where, when and at what: the place, the evening, the planet and the moment that are looked at."""

from contextlib import suppress
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING, TypeVar

from core.air.first_look import USUAL_BLUR_ARCSEC
from core.air.steadiness import Blur, BlurSource
from core.gear.eye import Eye
from core.gear.owned import Barlow, Eyepiece, Filter, Telescope
from core.ladder.aim import Aim, aim_altitude, aim_overhead
from core.ladder.experience import UsualAir
from core.lazy import lazy
from core.moments.aiming import aim_at, aim_at_best
from core.moments.best_minutes import BestMinutes, find_best_minutes
from core.moments.details import Sharpness
from core.moments.elsewhen import Elsewhen, find_elsewhen
from core.moments.hours import (
    USUAL_FROM,
    USUAL_UNTIL,
    Dusks,
    Hour,
    HoursOut,
    Twilight,
    hours_out,
    typed_hours,
)
from core.moments.targets import TargetTime, evening_targets
from core.moments.which_planet import best_planet, evening_worths, nearest_to_a_view
from core.moments.worth import EveningWorth
from core.problems import ProblemsError
from core.record.observer import DarkEnough, Preferences, RedSpot
from core.situation.choices import EveningHours
from core.situation.given import Given, to_minute
from core.sky.bodies import Body
from core.sky.civil import evening_span, tonight
from core.sky.night import Night, compute_night
from core.sky.site import Site

if TYPE_CHECKING:
    from core.sky.red_spot import RedSpotPasses

T = TypeVar("T", Site, Telescope)

# Before this hour of the site's clock, "tonight" is taken to be the night in progress.
_NIGHT_ENDS_H = 6
_MINUTE = timedelta(minutes=1)
# How long a telescope has stood outside is counted in steps of so many minutes, as an estimate deserves.
_STEP_OUTSIDE_MINUTES = 5


class Moment(Given):
    """The place and the kit in hand, the evening, the planet, and where the scope points."""

    # Place, kit and evening.

    @lazy
    def site(self) -> Site | None:
        """The site in hand: the chosen one, else the first."""
        return _with_id(self.profile.sites, self._site_id)

    @lazy
    def scope(self) -> Telescope | None:
        """The scope in hand: the chosen one, else the first."""
        return _with_id(self.profile.telescopes, self._scope_id)

    @lazy
    def preferences(self) -> Preferences:
        """How figures and times are shown."""
        return self.profile.preferences

    @lazy
    def dark(self) -> DarkEnough:
        """How far the Sun must be down for each body to be worth a look."""
        return self.profile.dark

    @lazy
    def red_spot(self) -> RedSpot | None:
        """Where the owner last read that the red spot is, None without a longitude."""
        return self.profile.red_spot

    @lazy
    def eye(self) -> Eye:
        """The observer's eye."""
        return self.profile.eye

    @lazy
    def eyepieces(self) -> tuple[Eyepiece, ...]:
        """The owner's eyepieces."""
        return self.profile.eyepieces

    @lazy
    def barlows(self) -> tuple[Barlow, ...]:
        """The owner's Barlows and reducers."""
        return self.profile.barlows

    @lazy
    def tonight(self) -> date:
        """Tonight's date at the site; a guess by the hour until the sky tables have been read."""
        site = self.site
        if site is not None and self.has_sky:
            with suppress(ProblemsError):
                return tonight(site, self.minute)
        local = self.minute.astimezone(site.zone if site else UTC)
        return (local - timedelta(hours=_NIGHT_ENDS_H)).date()

    @lazy
    def follows_tonight(self) -> bool:
        """Whether the evening is tonight's and moves on with the calendar."""
        return self.chosen_evening is None

    @lazy
    def following_now(self) -> bool:
        """Whether the moment looked at moves with the clock."""
        return self.follows_tonight and self.chosen_time is None

    @lazy
    def evening(self) -> date:
        """The evening's date: from noon to noon, site time."""
        return self.tonight if self.chosen_evening is None else self.chosen_evening

    @lazy
    def _night_or_problem(self) -> tuple[Night | None, str]:
        site = self.site
        if site is None or not self.has_sky:
            return None, ""
        try:
            return compute_night(site, self.evening, dark_enough=self.dark.sun_altitudes_deg()), ""
        except ProblemsError as error:
            # A machine's clock or a change of site can lead to an evening that cannot be had.
            return None, str(error)

    @lazy
    def night(self) -> Night | None:
        """The evening at the site, or None without a site or before the sky tables have been read."""
        return self._night_or_problem[0]

    @lazy
    def night_problem(self) -> str:
        """Why there is no night although there are a site and a sky, as a sentence; else nothing."""
        return self._night_or_problem[1]

    @lazy
    def red_spot_passes(self) -> "RedSpotPasses | None":
        """When the red spot can be looked at this evening, else next; None without its longitude."""
        night, spot = self.night, self.red_spot
        if night is None or spot is None:
            return None
        from core.moments.spot_seen import spot_passes_seen

        return spot_passes_seen(night, spot, dark_enough=self.dark.sun_altitudes_deg())

    @lazy
    def filter_in(self) -> Filter | None:
        """The owner's filter that is in, None without one."""
        return next((each for each in self.profile.filters if each.id == self._filter_id), None)

    @lazy
    def usual_air_here(self) -> UsualAir | None:
        """What the log tells of the site's usual air, None before five nights."""
        return next((each for each in self._usual_airs if self.site and each.site_id == self.site.id), None)

    @lazy
    def blur(self) -> Blur:
        """Tonight's blur overhead before any verdict: as given, else usual here, else assumed."""
        said, usual = self.said_blur, self.usual_air_here
        if said.source is not BlurSource.ASSUMED or usual is None:
            return said
        return Blur(overhead_arcsec=usual.blur.median_arcsec, source=BlurSource.LOG)

    @lazy
    def usual_blur_arcsec(self) -> float:
        """The blur overhead on a usual night here, whatever tonight's is: the log's, else assumed."""
        usual = self.usual_air_here
        return USUAL_BLUR_ARCSEC if usual is None else usual.blur.median_arcsec

    # The hours outside.

    @lazy
    def said_hours(self) -> EveningHours | None:
        """The hours outside that were said for this evening, None where the usual ones count."""
        evening = self.evening
        return next((said for said in self._said_hours if said.evening == evening), None)

    @lazy
    def wanted_hours(self) -> tuple[Hour, Hour]:
        """From when and until when the owner is outside, in the words in which it was said."""
        said, usual = self.said_hours, self.preferences
        if said is not None:
            return said.start, said.end
        return usual.out_from_time or Twilight.DUSK, usual.out_until_time or Twilight.DAWN

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
        if (start, end) == (USUAL_FROM, USUAL_UNTIL):
            return hours_out(dusks)
        return hours_out(dusks, start=start, end=end)

    @lazy
    def hours_left(self) -> HoursOut | None:
        """The hours as they count now: whoever is outside at their end stays a little longer."""
        hours, now = self.hours, self.present
        return hours if hours is None or now is None else hours.held_open(now)

    @lazy
    def present(self) -> datetime | None:
        """The present minute where it lies in the evening."""
        night = self.night
        return self.minute if night is not None and night.start <= self.minute < night.end else None

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
        return evening_worths(night, hours=hours, sharpness=self.sharpness, since=self.present)

    @lazy
    def best_planet(self) -> Body | None:
        """The body that the evening serves best from now on, or served best; None where none has a window."""
        night, hours = self.night, self.hours
        if night is None or hours is None:
            return None
        if self.worths:
            return best_planet(self.worths)
        return best_planet(evening_worths(night, hours=hours, sharpness=self.sharpness))

    @lazy
    def planet(self) -> Body | None:
        """The planet in hand: the chosen one, else the evening's; None while there is no sky."""
        if self.chosen_planet is not None:
            return self.chosen_planet
        return None if self.night is None else self.best_planet or nearest_to_a_view(self.night)

    @lazy
    def elsewhen(self) -> Elsewhen | None:
        """What an hour outside the owner's own would give much of, None where there is nothing to tell."""
        night, planet, hours = self.night, self.planet, self.hours_left
        if night is None or planet is None or hours is None:
            return None
        return find_elsewhen(night, self.worths, planet=planet, hours=hours, since=self.present)

    @lazy
    def targets(self) -> tuple[TargetTime, ...]:
        """The evening's targets in their order."""
        night, hours = self.night, self.hours
        if night is None or hours is None:
            return ()
        return evening_targets(night, hours=hours, sharpness=self.sharpness, in_hand=self.planet)

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
    def best(self) -> BestMinutes | None:
        """The planet's best minutes that are still to come."""
        night, planet, now = self.night, self.planet, self.present
        if night is None or planet is None:
            return None
        if now is None:
            return self.whole_best
        return find_best_minutes(night, planet, since=now, hours=self.hours_left)

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
        if self.following_now and any(window.start <= self.time < window.end for window in windows):
            now = aim_at(night, planet, self.time)
            if now.is_offered and not now.sunrise_is_near:
                return now
        return self.best_aim

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


def _with_id(things: tuple[T, ...], wanted: str) -> T | None:
    return next((thing for thing in things if thing.id == wanted), things[0] if things else None)
