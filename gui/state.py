"""The one state of the window: every view shows its situation, every choice and edit goes through it."""

from datetime import date, datetime, timedelta

from attrs import evolve

from core.air.blur import Blur, judged_blur
from core.air.first_look import FirstLook, Judged, ScaleStep, scale_arcsec
from core.air.temperatures import Temperatures
from core.air.usual_air import LIFTED_AIR_POWER
from core.gear.owned import Barlow, Eyepiece
from core.ladder.climb import PASSED_BY, rung_above, rung_below
from core.ladder.contenders import Pick
from core.ladder.experience import UsualAir
from core.looks.picture.stillness import Stillness
from core.moments.hours import Dusks, Hour, stepped, typed_hours
from core.problems import ProblemsError
from core.record.log_entry import LogEntry
from core.situation.choices import (
    MOST_DIMMED,
    EveningHours,
    EveningSteps,
    EveningTemperatures,
    ScopeOutside,
)
from core.situation.given import to_minute
from core.sky.bodies import TARGETS, Body
from core.sky.civil import evening_span
from core.sky.ephemeris import check_date
from core.tonight.steps import ItemKind
from core.year.dates import DateWishes
from gui.situation_holder import Change, SituationHolder

__all__ = ["AppState", "Change"]


class AppState(SituationHolder):
    """What a person can choose, each with a method of its own; there is no other way of changing anything."""

    # Place, evening and moment.

    def set_site(self, site_id: str) -> None:
        """Choose the site by its id."""
        self._choose(site_id=site_id)

    def set_evening(self, evening: date) -> None:
        """Choose the evening by its date; any but tonight's is looked at in its best moment.

        Raises ``ProblemsError`` for a date that the sky tables or the site's calendar do not have.
        """
        if evening == self.situation.tonight:
            self.show_tonight()
            return
        check_date(evening)
        if self.situation.site is not None:
            evening_span(self.situation.site, evening)
        self._choose(evening=evening, time=None)

    def step_evening(self, days: int) -> None:
        """Go some evenings on, or with a negative number back; step over a date that the site skipped."""
        for number in (days, 2 * days):
            try:
                self.set_evening(self.situation.evening + timedelta(days=number))
            except ProblemsError as error:
                self.tell(str(error))
            else:
                return

    def show_tonight(self) -> None:
        """Go back to tonight and follow the clock."""
        self._choose(evening=None, time=None)

    def set_time(self, time: datetime) -> None:
        """Look at one moment of the evening."""
        # On its own a moment of tonight would wander off into the next evening at sunrise.
        self._choose(time=time, evening=self.situation.chosen_evening)

    # Planet, scope and air.

    def set_planet(self, planet: Body | None) -> None:
        """Choose the planet, or with None leave the choice to the evening."""
        self._choose(planet=planet)

    def step_planet(self, by: int) -> None:
        """Choose the next body of the list of targets, or with -1 the one before."""
        planet = self.situation.planet
        number = TARGETS.index(planet) + by if planet else 0
        self.set_planet(TARGETS[number % len(TARGETS)])

    def set_scope(self, scope_id: str) -> None:
        """Choose the scope by its id."""
        self._choose(scope_id=scope_id)

    def set_rung(self, power: float) -> None:
        """Take the rung of a power in hand; it is judged against the one before it that was looked at."""
        situation, now = self.situation, self.clock()
        before = None if situation.rung is None else situation.rung.power
        if before == power:
            return
        since, is_judged = self.choices.rung_since, situation.verdict_on_step is not None
        if since is not None and now - since < PASSED_BY and not is_judged:
            before = self.choices.power_before
        self._choose(rung_power=power, power_before=before, rung_since=now, rung_planet=situation.planet)

    def step_rung(self, by: int) -> None:
        """Take the next rung in hand that is worth a step, or with -1 the one before."""
        ladder, rung = self.situation.ladder, self.situation.rung
        if ladder is None or rung is None:
            return
        other = rung_above(ladder, rung) if by > 0 else rung_below(ladder, rung)
        if other is not None:
            self.set_rung(other.power)

    def put_in_filter(self, filter_id: str) -> None:
        """Say which of the owner's filters is in, with nothing that none is."""
        self._choose(filter_id=filter_id)

    def set_verdicts(self, verdicts: tuple[LogEntry, ...]) -> None:
        """Take note of the verdicts of the last evenings as the log has them."""
        self._choose(verdicts=verdicts)

    def set_usual_airs(self, usual_airs: tuple[UsualAir, ...]) -> None:
        """Take note of what the log tells of the usual air of the sites."""
        self._choose(usual_airs=usual_airs)

    def set_first_look(self, look: FirstLook) -> None:
        """Take tonight's blur from a first look at the air where the telescope points."""
        self._judge(look, self.profile.air.arcsec_of(look))

    def set_scale_step(self, step: ScaleStep) -> None:
        """Take tonight's blur from a step of a scale, judged where the telescope points."""
        self._judge(step, scale_arcsec(step))

    def set_blur(self, blur: Blur) -> None:
        """Take tonight's blur overhead as given."""
        self._choose(blur=blur)

    def _judge(self, by: FirstLook | ScaleStep, seen_arcsec: float) -> None:
        aim = self.situation.aim
        altitude_deg = None if aim.path is None or aim.overhead else aim.altitude_deg
        judged = Judged(by=by, altitude_deg=altitude_deg)
        self.set_blur(judged_blur(seen_arcsec, judged, path=aim.path))

    def set_usual_air(self, power: float) -> None:
        """Set the usual air limit for this evening."""
        self._choose(lifted_on=self.situation.evening if power >= LIFTED_AIR_POWER else None)

    def set_outside(self, since: datetime | None, warmer_by_c: float | None = None) -> None:
        """Say since when the scope in hand stands outside, or with None that it does not.

        Without ``warmer_by_c`` its warmth is assumed. It counts for this evening, site and scope alone.
        """
        evening, site_id, scope_id = spot = self.situation.spot
        note = None
        if since is not None:
            note = ScopeOutside(
                evening=evening, site_id=site_id, scope_id=scope_id, since=since, warmer_by_c=warmer_by_c
            )
        self._take(self.choices.with_outside(spot, note))

    def set_temperatures(self, temperatures: Temperatures | None) -> None:
        """Say how warm inside and air are this evening at this site, or with None take that back.

        The air counts as so warm at the present minute, until another figure is told for it.
        """
        evening, site_id, _scope_id = self.situation.spot
        before, told = self.situation.temperatures_told, None
        if temperatures is not None:
            is_same_air = before is not None and before.temperatures.now_c == temperatures.now_c
            told_at = before.told_at if before is not None and is_same_air else to_minute(self.situation.now)
            told = EveningTemperatures(
                evening=evening, site_id=site_id, told_at=told_at, temperatures=temperatures
            )
        self._take(self.choices.with_temperatures(evening, site_id, told))

    def set_steps(self, steps: EveningSteps) -> None:
        """Say what was done with the steps of an evening."""
        self._take(self.choices.with_steps(steps))

    def tick_step(self, key: str, *, done: bool) -> None:
        """Tick a step of this evening off, or no longer; whoever carries the telescope out has it outside."""
        situation = self.situation
        if key == ItemKind.CARRY_OUT and situation.follows_tonight and situation.present is not None:
            self.set_outside(situation.present if done else None)
        else:
            self.set_steps(situation.step_notes.ticked(key, done=done))

    def set_hours(self, start: Hour, end: Hour) -> None:
        """Say the hours outside of this evening alone; ProblemsError unless they end after they start."""
        situation, evening = self.situation, self.situation.evening
        if situation.night is None:
            return
        typed_hours(Dusks.of(situation.night), start=start, end=end)
        hours = EveningHours(evening=evening, start=start, end=end)
        self._take(self.choices.with_hours(evening, hours))

    def take_usual_hours(self) -> None:
        """Go back to the usual hours outside for this evening."""
        self._take(self.choices.with_hours(self.situation.evening, None))

    def step_hours(self, half_hours: int) -> None:
        """Stay outside some half hours longer, or with a negative number shorter, this evening alone."""
        situation = self.situation
        if situation.night is None or situation.hours is None:
            return
        dusks, (start, end) = Dusks.of(situation.night), situation.wanted_hours
        later = stepped(situation.hours, half_hours, dusks)
        if later is not None and later != end:
            self.set_hours(start, later)

    def set_date_wishes(self, wishes: DateWishes) -> None:
        """Say what a date must have that is sought."""
        self._take(evolve(self.choices, date_wishes=wishes))

    # Two telescopes, and one more thing.

    def compare_first(self, pick: Pick) -> None:
        """Take another first telescope of a comparison; one of the owner's is taken in hand with it."""
        if pick.kit is None:
            self._choose(first=None, scope_id=pick.scope_id)
        else:
            self._choose(first=pick)

    def compare_second(self, pick: Pick | None) -> None:
        """Take another second telescope of a comparison, or none."""
        self._choose(second=pick)

    def swap_compared(self) -> None:
        """Let the two telescopes change places."""
        first, second = self.situation.first_pick, self.situation.second_pick
        if first is None or second is None:
            return
        if second.kit is None:
            self._choose(first=None, scope_id=second.scope_id, second=first)
        else:
            self._choose(first=second, second=first)

    def set_usual_eyepieces(self, usual: bool) -> None:
        """Compare usual telescopes with what mostly comes with them, or with the owner's eyepieces."""
        self._choose(with_usual_eyepieces=usual)

    def try_out(self, thing: Eyepiece | Barlow | None) -> None:
        """Show what a thing not owned would give, or with None go back to what would help most."""
        self._choose(tried=thing)

    def set_stillness(self, stillness: Stillness) -> None:
        """Show the picture in the eyepiece as it mostly looks, or in a calm moment."""
        self._choose(stillness=stillness)

    def set_mars_longitude(self, longitude_deg: float | None) -> None:
        """Seek the evenings on which a west longitude on Mars faces us, or with None do not."""
        self._choose(mars_longitude_deg=longitude_deg)

    # How the window itself is dressed.

    def set_palette(self, name: str) -> None:
        """Choose the palette by its name."""
        self._choose(palette_name=name)

    def set_text_scale(self, scale: float) -> None:
        """Choose how many times as large as usual letters are."""
        self._choose(text_scale=scale)

    def set_dimmer(self, step: int) -> None:
        """Choose by how many steps the night palette is dimmed, 0 to 3; what lies beyond is cut."""
        self._choose(dimmer=min(max(step, 0), MOST_DIMMED))
