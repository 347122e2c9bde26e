"""The telescopes' own warmth this evening: when each is ready, and what its mirror blurs until then."""

from datetime import date, datetime, timedelta

from core.air.cooling import READY_WITHIN_C, USUAL_WARMTH_C
from core.air.dew_outlook import DewOutlook, dew_outlook, shelter_of
from core.air.mirror import AirCourse
from core.air.mirror_course import MirrorCourse
from core.air.mirror_of import mirror_of
from core.air.readiness import Readiness, readiness_in, readiness_in_still_air
from core.air.temperatures import Temperatures
from core.air.usual_air import LIFTED_AIR_POWER, USUAL_AIR_POWER
from core.gear.owned import Telescope
from core.lazy import lazy
from core.situation.choices import EveningSteps, EveningTemperatures, ScopeOutside
from core.situation.tonights_air import TonightsAir
from core.tonight.preparation import taken_to_be_out_from
from core.tonight.steps import ItemKind

_STILL_AIR = AirCourse(minutes=(0.0,), celsius=(0.0,))


class Warmth(TonightsAir):
    """What stands outside since when, how warm the air is, and what follows for each telescope."""

    @lazy
    def usual_air(self) -> float:
        """The usual limit of the air as a power; lifted for one evening at most."""
        return LIFTED_AIR_POWER if self._lifted_on == self.evening else USUAL_AIR_POWER

    @lazy
    def spot(self) -> tuple[date, str, str]:
        """The evening, the id of the site and that of the scope for which a scope outside is noted."""
        return self.evening, self._site_here, self.scope.id if self.scope else ""

    @lazy
    def step_notes(self) -> EveningSteps:
        """What was done with the steps of this evening at this site."""
        here = self.evening, self._site_here
        found = next((notes for notes in self._step_notes if notes.is_of(*here)), None)
        return found or EveningSteps(evening=here[0], site_id=here[1])

    @lazy
    def outside(self) -> ScopeOutside | None:
        """What was said of the scope in hand standing outside this evening."""
        spot = self.spot
        return next((note for note in self._outside_notes if note.is_of(*spot)), None)

    @lazy
    def outside_since(self) -> datetime | None:
        """Since when the scope in hand stands outside this evening, as far as that was said."""
        return None if self.outside is None else self.outside.since

    @lazy
    def temperatures_told(self) -> EveningTemperatures | None:
        """What was told of this evening's temperatures, and when."""
        here = self.evening, self._site_here
        return next((told for told in self._temperature_notes if told.is_of(*here)), None)

    @lazy
    def temperatures(self) -> Temperatures | None:
        """What is known of this evening's temperatures."""
        return None if self.temperatures_told is None else self.temperatures_told.temperatures

    @lazy
    def air_course(self) -> AirCourse | None:
        """How the air runs, in minutes from when it was told, None where that is not known."""
        told = self.temperatures_told
        if told is None:
            return None
        sun = None if self.night is None else self.night.sun
        return told.temperatures.course(
            dusk_minutes=None if sun is None else _minutes(told.told_at, sun.set),
            sunrise_minutes=None if sun is None else _minutes(told.told_at, sun.rise),
        )

    @lazy
    def warmth_is_assumed(self) -> bool:
        """Whether nobody has said how warm the scope in hand was."""
        return self.scope is None or self._said_warmth_c(self.scope) is None

    @lazy
    def warmer_by_c(self) -> float:
        """How much warmer than the air the scope in hand is taken to have been when it was carried out."""
        return USUAL_WARMTH_C if self.scope is None else self._warmer_by_c(self.scope)

    @lazy
    def mirror_course(self) -> MirrorCourse | None:
        """How the mirror of the scope in hand follows the air; None for a lens or without temperatures."""
        return None if self.scope is None else self.mirror_course_of(self.scope)

    @lazy
    def readiness(self) -> Readiness | None:
        """When the scope in hand is ready, counted from when it is carried out.

        None while it was not and no temperatures are known.
        """
        if self.scope is None or (self.outside is None and self.air_course is None):
            return None
        return self.readiness_of(self.scope)

    @lazy
    def ready_at(self) -> datetime | None:
        """When the scope that stands outside is likely usable, None where it never is or nothing was said."""
        if self.readiness is None or self.outside_since is None:
            return None
        return self.readiness.usable_at(self.outside_since)

    def mirror_is_cooling(self, moment: datetime) -> bool:
        """Tell whether the scope in hand is known to be over 1 °C warmer than the air at a moment."""
        if self.mirror_course is not None:
            return self.mirror_course.excess_c(moment) > READY_WITHIN_C
        return self.outside_since is not None and (self.ready_at is None or moment < self.ready_at)

    @lazy
    def dew(self) -> DewOutlook | None:
        """When dew settles on the scope in hand, from now or sunset on; None where the damp is not known."""
        told, air, night, scope = self.temperatures_told, self.air_course, self.night, self.scope
        damp = None if told is None else told.temperatures.damp
        if told is None or air is None or damp is None or night is None or scope is None:
            return None
        return dew_outlook(
            damp,
            air,
            shelter=shelter_of(scope),
            epoch=told.told_at,
            # What is warmer than the air stays dry.
            start=max(told.told_at, night.sun.set or night.start, self.ready_at or told.told_at),
            end=night.sun.rise or night.end,
        )

    def readiness_of(self, scope: Telescope) -> Readiness:
        """Return when one of the owner's telescopes is ready, counted from when it is carried out."""
        course = self.mirror_course_of(scope)
        if course is not None:
            return readiness_in(course, scope, blur=self.blur_now, usual_air=self.usual_air)
        return readiness_in_still_air(scope, blur=self.blur_now, warmer_by_c=self._warmer_by_c(scope))

    def mirror_course_of(self, scope: Telescope) -> MirrorCourse | None:
        """Return how a telescope's mirror follows the air.

        One that nobody said to be out goes out in time for the first target, or at once; a good while into
        that it is taken to have gone as planned. None for a lens, and where temperatures were not told.
        """
        mirror, warmer_by_c, night = mirror_of(scope), self._said_warmth_c(scope), self.night
        if mirror is None or warmer_by_c is None or night is None:
            return None
        out_at = self._out_at(scope)
        told, air = self.temperatures_told, self.air_course
        if told is None or air is None:
            epoch, air = out_at, _STILL_AIR
        else:
            epoch = told.told_at
        out_minutes = (out_at - epoch).total_seconds() / 60.0
        return MirrorCourse(
            mirror=mirror,
            air=air,
            epoch=epoch,
            start_c=float(air.at(out_minutes)) + warmer_by_c,
            out_at=out_at,
            end=max(night.sun.rise or night.end, out_at),
        )

    def mirror_arcsec(self, scope: Telescope, moment: datetime | None = None) -> float:
        """Return the blur in arcsec that a telescope's own mirror adds, 0 where it is not known.

        At a moment, without one at that which is looked at.
        """
        course = self.mirror_course_of(scope)
        return 0.0 if course is None else course.blur_arcsec(moment or self.time)

    def _out_at(self, scope: Telescope) -> datetime:
        """Return when a telescope was carried out, as said or as planned; one that is late goes out now."""
        note, now = self._note_of(scope), self.present
        if note is not None:
            return note.since
        planned = self._planned_out(scope)
        return planned if now is None or now >= self._taken_out_from(scope) else max(planned, now)

    def _planned_out(self, scope: Telescope) -> datetime:
        """Return when a telescope is to be carried out, in time for the first target."""
        night, first_look = self.night, self._looks[0]
        assert night is not None
        moved = None
        if self.scope is not None and scope.id == self.scope.id:
            moved = self.step_notes.marks.time_of(ItemKind.CARRY_OUT, night)
        if moved is not None or first_look is None:
            return moved or night.start
        return max(night.start, first_look - timedelta(minutes=self._lead_minutes(scope)))

    def _taken_out_from(self, scope: Telescope) -> datetime:
        """Return from when on a telescope is taken to have been carried out as planned."""
        assert self.night is not None
        first_look, last_look = self._looks
        if first_look is None or last_look is None:
            return self.night.end
        return taken_to_be_out_from(first_look, last_look, lead_minutes=self._lead_minutes(scope))

    def _lead_minutes(self, scope: Telescope) -> float:
        warmer_by_c = USUAL_WARMTH_C if self._warmer_inside_c is None else self._warmer_inside_c
        return readiness_in_still_air(scope, blur=self.blur, warmer_by_c=warmer_by_c).lead_minutes

    @lazy
    def _looks(self) -> tuple[datetime | None, datetime | None]:
        """When the first target is looked at, and when the last one ends."""
        spans = [target.minutes for target in self.targets] or [
            each for each in (self.best or self.whole_best,) if each is not None
        ]
        return (
            min((span.start for span in spans), default=None),
            max((span.end for span in spans), default=None),
        )

    @lazy
    def taken_out_at(self) -> datetime | None:
        """When the scope in hand is taken to have gone out as planned, for nobody said so; else None."""
        scope, now = self.scope, self.present
        if scope is None or now is None or self.outside is not None or self.mirror_course is None:
            return None
        return self._planned_out(scope) if now >= self._taken_out_from(scope) else None

    def _warmer_by_c(self, scope: Telescope) -> float:
        said = self._said_warmth_c(scope)
        return USUAL_WARMTH_C if said is None else said

    def _said_warmth_c(self, scope: Telescope) -> float | None:
        """Return how much warmer than the air a telescope is when it is carried out, as far as known."""
        note, temperatures, air = self._note_of(scope), self.temperatures, self.air_course
        if note is not None and note.warmer_by_c is not None:
            return note.warmer_by_c
        told = self.temperatures_told
        if temperatures is None or temperatures.indoor_c is None or told is None or air is None:
            return None
        if self.night is None:
            return self._warmer_inside_c
        minutes = (self._out_at(scope) - told.told_at).total_seconds() / 60.0
        return temperatures.indoor_c - float(air.at(minutes))

    @lazy
    def _warmer_inside_c(self) -> float | None:
        """How much warmer than the air it was inside when that was told."""
        told = self.temperatures
        if told is None or told.indoor_c is None or told.air_c is None:
            return None
        return told.indoor_c - told.air_c

    @lazy
    def _site_here(self) -> str:
        return self.site.id if self.site else ""

    def _note_of(self, scope: Telescope) -> ScopeOutside | None:
        spot = self.evening, self._site_here, scope.id
        return next((note for note in self._outside_notes if note.is_of(*spot)), None)


def _minutes(since: datetime, moment: datetime | None) -> float | None:
    return None if moment is None else (moment - since).total_seconds() / 60.0
