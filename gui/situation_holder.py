"""What the window holds: choices, clock and undo, and the situation that follows from them."""

from contextlib import suppress
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from attrs import evolve, frozen
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from core.lazy import Lazy
from core.problems import ProblemsError
from core.record.observer import Profile
from core.record.profile import with_ids
from core.situation.choices import (
    Choices,
)
from core.situation.situation import Situation
from core.sky.ephemeris import usable_dates
from core.sky.night import read_tables
from core.sky.site import Site
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


class SituationHolder(QObject):
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

    # The clock and the sky tables.

    def beat(self) -> None:
        """Take note of the clock: called each second by the window, at will by tests.

        With sunrise the next evening begins, afresh; what is looked at on another one stays.
        """
        before = self.situation.tonight
        self._take(self.choices)
        if self.situation.tonight > before and self.situation.follows_tonight:
            self._take(self.choices.of_a_new_evening())

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
        read_tables(site, min(max(evening, first), last))
