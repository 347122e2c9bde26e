"""The one state of the window: every view shows it, every choice and edit goes through it."""

from datetime import date, datetime, timedelta
from pathlib import Path

from PySide6.QtCore import QObject

from core.air.steadiness import USUAL_AIR_POWER, Blur, FirstLook
from core.problems import ProblemsError
from core.record.observer import Profile
from core.record.profile import with_ids
from core.sky.bodies import TARGETS, Body
from gui.aspect import Aspect
from gui.beside import Beside, Pick
from gui.clock import Clock, utc_now
from gui.jobs import Jobs
from gui.profile.edits import ProfileEdit
from gui.readable_state import ReadableState

__all__ = ["AppState", "Aspect"]


class AppState(ReadableState):
    """The state with all that changes it: choices, edits that can be taken back, and the clock."""

    def __init__(
        self,
        profile: Profile | None = None,
        *,
        path: Path | None = None,
        clock: Clock = utc_now,
        jobs: Jobs | None = None,
        palette_name: str = "day",
        site_id: str = "",
        scope_id: str = "",
        parent: QObject | None = None,
    ) -> None:
        super().__init__(
            profile or Profile(),
            path=path,
            clock=clock,
            palette_name=palette_name,
            site_id=site_id,
            scope_id=scope_id,
            parent=parent,
        )
        self.jobs = jobs or Jobs(parent=self)
        self.beside = Beside(self, self._derived, self._emit)
        self.undo_stack.cleanChanged.connect(self._on_clean_changed)

    # Choices and edits.

    def edit_profile(self, label: str, after: Profile, *, merge_key: str | None = None) -> None:
        """Change the profile as one named step that can be taken back.

        Steps that follow each other under the same ``merge_key`` become one.
        """
        after = with_ids(after)
        if after != self._profile:
            command = ProfileEdit(label, self._profile, after, self._set_profile, merge_key=merge_key)
            self.undo_stack.push(command)

    def load(self, profile: Profile, path: Path | None) -> None:
        """Take up another profile; the steps of the former one can no longer be taken back."""
        self._profile = with_ids(profile)
        self._path = path
        self._site_id = self._scope_id = ""
        self.beside.reset()
        self._chosen_planet = None
        self._outside.forget()
        self.undo_stack.clear()
        self._when.restart()
        self._emit(*(set(Aspect) - {Aspect.NOW, Aspect.PALETTE, Aspect.SKY}))

    def mark_saved(self, path: Path) -> None:
        """Note that the profile now stands in the file."""
        self._path = path
        self.undo_stack.setClean()
        self._emit(Aspect.FILE)

    def set_site(self, site_id: str) -> None:
        """Choose the site by its id."""
        before = self.planet
        self._site_id = site_id
        self._when.settle()
        self._emit(Aspect.SITE, Aspect.EVENING, *self._planet_if_not(before))

    def set_evening(self, evening: date) -> None:
        """Choose the evening by its date; any but tonight's is looked at in its best moment.

        Raises ``ProblemsError`` for a date that the sky tables or the site's calendar do not have.
        """
        if evening == self._derived.tonight():
            self.show_tonight()
            return
        before = self.planet
        self._when.go_to(evening)
        self._usual_air = USUAL_AIR_POWER
        self._emit(Aspect.EVENING, Aspect.TIME, Aspect.AIR, *self._planet_if_not(before))

    def show_tonight(self) -> None:
        """Go back to tonight and follow the clock."""
        before = self.planet
        self._when.restart()
        self._emit(Aspect.EVENING, Aspect.TIME, *self._planet_if_not(before))

    def set_time(self, time: datetime) -> None:
        """Look at one moment of the evening."""
        if self._when.look_at(time):
            self._emit(Aspect.TIME)

    def follow_now(self) -> None:
        """Look at the present moment, and keep up with it; on another evening, go back to tonight first."""
        if self._when.follows_tonight:
            self._when.restart()
            self._emit(Aspect.TIME)
        else:
            self.show_tonight()

    def set_planet(self, planet: Body | None) -> None:
        """Choose the planet, or with None leave the choice to the evening."""
        self._chosen_planet = planet
        self._emit(Aspect.PLANET)

    def step_planet(self, by: int) -> None:
        """Choose the next body of the list of targets, or with -1 the one before."""
        planet = self.planet
        number = TARGETS.index(planet) + by if planet else 0
        self.set_planet(TARGETS[number % len(TARGETS)])

    def step_evening(self, days: int) -> None:
        """Go some evenings on, or with a negative number back; step over a date that the site skipped."""
        for number in (days, 2 * days):
            try:
                self.set_evening(self.evening + timedelta(days=number))
            except ProblemsError as error:
                self.tell(str(error))
            else:
                return

    def set_scope(self, scope_id: str) -> None:
        """Choose the scope by its id."""
        self._scope_id = scope_id
        self._emit(Aspect.SCOPE)

    def set_other_scope(self, scope_id: str | None) -> None:
        """Put another of the owner's scopes side by side, or with None none."""
        self.beside.choose_second(None if scope_id is None else Pick(scope_id))

    def set_first_look(self, look: FirstLook) -> None:
        """Take tonight's blur from a first look at the air."""
        self.set_blur(Blur.of_first_look(look))

    def set_blur(self, blur: Blur) -> None:
        """Take tonight's blur overhead as given."""
        self._blur = blur
        self._emit(Aspect.AIR)

    def set_usual_air(self, power: float) -> None:
        """Set the usual air limit for this evening."""
        self._usual_air = power
        self._emit(Aspect.AIR)

    def set_outside(self, since: datetime | None, warmer_by_c: float | None = None) -> None:
        """Say since when the scope in hand stands outside, or with None that it does not.

        Without ``warmer_by_c`` its warmth is assumed. It counts for this evening, site and scope alone.
        """
        self._outside.note(self._spot(), since, warmer_by_c)
        self._emit(Aspect.OUTSIDE)

    def set_palette(self, name: str) -> None:
        """Choose the palette by its name."""
        if name != self._palette_name:
            self._palette_name = name
            self._emit(Aspect.PALETTE)

    # The clock and the sky tables.

    def beat(self) -> None:
        """Take note of the clock: called each second by the window, at will by tests."""
        aspects = {Aspect.NOW}
        if self._sky_ready and self._when.settle():
            self._usual_air = USUAL_AIR_POWER
            aspects |= {Aspect.EVENING, Aspect.AIR, Aspect.PLANET}
        if self._when.keep_up():
            aspects.add(Aspect.TIME)
        self._emit(*aspects)

    def prepare_sky(self) -> None:
        """Read the sky tables away from the window's thread; ``Aspect.SKY`` tells when that is done."""
        self.jobs.submit("sky", self._derived.sky_reader(), self._on_sky_ready)

    def tell(self, sentence: str) -> None:
        """Say one plain sentence to the person at the window."""
        self.told.emit(sentence)

    def _on_sky_ready(self, _result: object) -> None:
        self._sky_ready = True
        self._when.settle()
        self._emit(Aspect.SKY, Aspect.EVENING, Aspect.PLANET)

    def _on_clean_changed(self, _is_clean: bool) -> None:
        self._emit(Aspect.FILE)

    def _set_profile(self, profile: Profile) -> None:
        before = (self.site, self.scope, self.other_scope, self.planet)
        self._profile = profile
        aspects = {Aspect.PROFILE}
        if self.site != before[0]:
            aspects |= {Aspect.SITE, Aspect.EVENING}
            self._when.settle()
        if (self.scope, self.other_scope) != before[1:3]:
            aspects.add(Aspect.SCOPE)
        self._emit(*aspects, *self._planet_if_not(before[3]))

    def _planet_if_not(self, before: Body | None) -> tuple[Aspect, ...]:
        return () if self.planet is before else (Aspect.PLANET,)

    def _emit(self, *aspects: Aspect) -> None:
        self.changed.emit(frozenset(aspects))
