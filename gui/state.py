"""The one state of the window: every view shows its situation, every choice and edit goes through it."""

from contextlib import suppress
from datetime import date, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any

from attrs import evolve, frozen
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from core.air.first_look import judged_blur, scale_arcsec
from core.air.steadiness import LIFTED_AIR_POWER, Blur, FirstLook, Judged, ScaleStep
from core.air.temperatures import Temperatures
from core.gear.owned import Barlow, Eyepiece
from core.ladder.climb import PASSED_BY, rung_above, rung_below
from core.ladder.contenders import Pick
from core.ladder.experience import UsualAir
from core.lazy import Lazy
from core.looks.picture.stillness import Stillness
from core.moments.hours import Dusks, Hour, stepped, typed_hours
from core.problems import ProblemsError
from core.record.log_entry import LogEntry
from core.record.observer import Profile
from core.record.profile import with_ids
from core.situation.choices import (
    MOST_DIMMED,
    Choices,
    EveningHours,
    EveningSteps,
    EveningTemperatures,
    ScopeOutside,
)
from core.situation.given import to_minute
from core.situation.situation import Situation
from core.sky.bodies import TARGETS, Body
from core.sky.civil import evening_span
from core.sky.ephemeris import check_date, usable_dates
from core.sky.night import compute_night
from core.sky.site import Site
from core.tonight.steps import ItemKind
from core.year.dates import DateWishes
from gui.clock import Clock, utc_now
from gui.edits import ProfileEdit
from gui.jobs import Jobs

# Any place does for reading the tables.
_ANY_SITE = Site(name="Greenwich", latitude_deg=51.48, longitude_deg=0.0, time_zone="Europe/London")
# What was seen before one of these was changed is nothing to compare with.
_ONE_VIEW = ("site_id", "scope_id", "planet", "evening")


@frozen(eq=False)
class Change:
    """From one situation to the next."""

    before: Situation
    after: Situation

    def of(self, *values: Lazy[Any, Any]) -> bool:
        """Tell whether any of some values, such as ``Situation.night``, is another one now."""
        return self.after.differs_from(self.before, *values)


class AppState(QObject):
    """Choices, clock and undo; what follows from them is its ``situation``.

    Signals
    -------
    changed
        The ``Change`` from the situation before to the one now.
    file_changed
        The profile has another file, or other edits to save than before.
    loaded
        Another profile has been taken up; ``changed`` tells after it what differs.
    told
        One plain sentence for the person at the window.
    """

    changed = Signal(object)
    file_changed = Signal()
    loaded = Signal()
    told = Signal(str)

    def __init__(
        self,
        choices: Choices | None = None,
        *,
        path: Path | None = None,
        clock: Clock = utc_now,
        jobs: Jobs | None = None,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        choices = choices or Choices()
        self.clock = clock
        self.jobs = jobs or Jobs(parent=self)
        self.undo_stack = QUndoStack(self)
        self._path = path
        self.situation = Situation(evolve(choices, profile=with_ids(choices.profile)), clock(), has_sky=False)
        self._saved = self.profile

    @property
    def choices(self) -> Choices:
        """What is chosen."""
        return self.situation.choices

    @property
    def profile(self) -> Profile:
        """The observer and all that is owned."""
        return self.choices.profile

    @property
    def path(self) -> Path | None:
        """The profile's file, or None when it has never been saved."""
        return self._path

    @property
    def is_modified(self) -> bool:
        """Whether there is something to save."""
        return self.profile != self._saved

    # Edits and files.

    def edit_profile(self, label: str, after: Profile, *, merge_key: str | None = None) -> None:
        """Change the profile as one named step that can be taken back.

        Steps that follow each other under the same ``merge_key`` become one.
        """
        after = with_ids(after)
        if after != self.profile:
            command = ProfileEdit(label, self.profile, after, self._set_profile, merge_key=merge_key)
            self.undo_stack.push(command)

    def load(self, profile: Profile, path: Path | None) -> None:
        """Take up another profile; the steps of the former one can no longer be taken back."""
        self._path = path
        self.undo_stack.clear()
        before = self.situation
        self._look_again(self.choices.of_another_observer(with_ids(profile)))
        self._saved = self.profile
        self.loaded.emit()
        self.changed.emit(Change(before, self.situation))
        self.file_changed.emit()

    def take_up(self, choices: Choices) -> None:
        """Take up choices again that were kept from before."""
        if choices != self.choices:
            self._take(choices)

    def mark_saved(self, path: Path) -> None:
        """Note that the profile now stands in the file."""
        self._path = path
        self._saved = self.profile
        self.file_changed.emit()

    def _set_profile(self, profile: Profile) -> None:
        was_modified = self.is_modified
        self._take(self.choices.with_profile(profile))
        if self.is_modified != was_modified:
            self.file_changed.emit()

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

    def follow_now(self) -> None:
        """Look at the present moment, and keep up with it; on another evening, go back to tonight first."""
        self.show_tonight()

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
        self._choose(rung_power=power, power_before=before, rung_since=now)

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

    # The clock and the sky tables.

    def beat(self) -> None:
        """Take note of the clock: called each second by the window, at will by tests."""
        self._take(self.choices)

    def prepare_sky(self) -> None:
        """Read the sky tables away from the window's thread."""
        site = self.situation.site or _ANY_SITE
        read = partial(_read_sky, site, self.situation.evening)
        self.jobs.submit("sky", read, self._on_sky_read, self._on_sky_failed)

    def tell(self, sentence: str) -> None:
        """Say one plain sentence to the person at the window."""
        self.told.emit(sentence)

    def _on_sky_read(self, _result: object) -> None:
        self._take(self.choices, has_sky=True)

    def _on_sky_failed(self, error: Exception) -> None:
        """Show why there is no sky in place of the answer; what needs none goes on."""
        if not isinstance(error, ProblemsError):
            raise error
        self.tell(str(error))
        self._take(self.choices, has_sky=True)

    def _choose(self, **chosen: Any) -> None:  # noqa: ANN401 - the fields of Choices, which checks them
        choices = evolve(self.choices, **chosen)
        if any(getattr(choices, name) != getattr(self.choices, name) for name in _ONE_VIEW):
            # A step is judged on one planet through one telescope.
            choices = evolve(choices, power_before=None, rung_since=None)
        if choices != self.choices:
            self._take(choices)

    def _take(self, choices: Choices, *, has_sky: bool | None = None) -> None:
        """Take up what is chosen now, and tell the views."""
        before = self.situation
        self._look_again(choices, has_sky=has_sky)
        self.changed.emit(Change(before, self.situation))

    def _look_again(self, choices: Choices, *, has_sky: bool | None = None) -> None:
        """Let a new situation follow from what is chosen and from the clock."""
        before = self.situation
        is_read = before.has_sky if has_sky is None else has_sky
        self.situation = Situation(choices, self.clock(), has_sky=is_read, before=before)


def _read_sky(site: Site, evening: date) -> None:
    first, last = usable_dates()
    with suppress(ProblemsError):  # a date that the site skipped
        compute_night(site, min(max(evening, first), last))
