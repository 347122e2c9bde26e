"""Keeps how the window was left for the next start, and says once where that cannot be kept."""

import attrs
from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from core.situation.situation import Situation
from core.words.files import NOTHING_KEPT
from gui.profile.documents import Documents
from gui.profile.session import SessionFile
from gui.state import AppState, Change
from gui.window.place import place_of
from gui.window.tour import TourBar


class SessionKeeper(QObject):
    """Writes the session of a window whenever something of it has changed; without a file nowhere."""

    def __init__(
        self, state: AppState, documents: Documents, tour: TourBar, file: SessionFile | None, window: QWidget
    ) -> None:
        super().__init__(window)
        self._window = window
        self._state = state
        self._documents = documents
        self._tour = tour
        self._file = file
        self._has_told = False
        tour.number = documents.session.tour_step
        state.changed.connect(self._on_changed)
        documents.session_changed.connect(self.keep)

    def keep(self) -> None:
        """Write the session as it is now."""
        situation = self._state.situation
        site, scope = situation.site, situation.scope
        before = self._documents.session
        self._documents.session = attrs.evolve(
            before,
            # One that was never seen has no place of its own.
            place=place_of(self._window) if self._window.isVisible() else before.place,
            palette=situation.palette_name,
            text_scale=situation.text_scale,
            dimmer=situation.dimmer,
            tour_step=self._tour.number,
            site=site.id if site else "",
            scope=scope.id if scope else "",
        )
        if self._file is not None:
            self._tell_once(self._file.write(self._documents.session), self._file)

    def end_tour(self) -> None:
        """Note that the tour has been seen to its end."""
        self._documents.session = attrs.evolve(self._documents.session, tour_is_done=True)
        self.keep()

    def keep_letters(self, packages: tuple[str, ...]) -> None:
        """Note which packages of letters have been named."""
        self._documents.session = attrs.evolve(self._documents.session, letters_told=packages)
        self.keep()

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.dimmer, Situation.palette_name, Situation.text_scale):
            self.keep()

    def _tell_once(self, trouble: str, file: SessionFile) -> None:
        if trouble and not self._has_told:
            self._has_told = True
            self._documents.note_told_unkept()
            self._state.tell(NOTHING_KEPT.format(folder=file.path.parent, trouble=trouble))
