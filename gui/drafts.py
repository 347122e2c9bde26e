"""Unsaved edits that survive a kill: a copy of the profile in hand, beside the window's own settings."""

import hashlib
import json
from contextlib import suppress
from pathlib import Path

from attrs import frozen
from PySide6.QtCore import QObject, QTimer

from core.problems import ProblemsError
from core.record.files import read_text, write_atomically
from core.record.observer import Profile
from core.record.profile import dumps_profile, loads_profile
from gui.state import AppState, Aspect

_WAIT_MS = 700
_FOLDER = "unsaved"


@frozen
class Draft:
    """A profile with edits that were never saved, and the file it belongs to, None when it has none."""

    profile: Profile
    path: Path | None


class Drafts(QObject):
    """Keeps a copy of the profile while it has unsaved edits, shortly after each; gone once it is saved.

    There is one copy for each profile file and one for a profile without a file.
    """

    def __init__(self, state: AppState, folder: Path) -> None:
        super().__init__(state)
        self._state = state
        self._folder = folder / _FOLDER
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_WAIT_MS)
        self._timer.timeout.connect(self.keep)
        self._kept_for: Path | None = state.path
        state.changed.connect(self._on_changed)

    def keep(self) -> None:
        """Write the copy now, or take it away where there is nothing unsaved."""
        self._timer.stop()
        file = self._file_of(self._state.path)
        if not self._state.is_modified:
            self._remove(file)
            return
        with suppress(ProblemsError, OSError):  # a full disk must not get in the way of the edit itself
            self._folder.mkdir(parents=True, exist_ok=True)
            path = self._state.path
            kept = {"path": str(path) if path else None, "profile": dumps_profile(self._state.profile)}
            write_atomically(file, json.dumps(kept, ensure_ascii=False))

    def left_for(self, path: Path | None) -> Draft | None:
        """Return the edits that were left unsaved for a file, or for no file, the last time."""
        try:
            kept = json.loads(read_text(self._file_of(path)))
            return Draft(loads_profile(kept["profile"]), path)
        except (ProblemsError, ValueError, KeyError, TypeError):
            return None

    def forget(self) -> None:
        """Take the copy away, when the person has chosen to drop the edits."""
        self._timer.stop()
        self._remove(self._file_of(self._state.path))

    def _on_changed(self, aspects: frozenset[Aspect]) -> None:
        if not aspects & {Aspect.PROFILE, Aspect.FILE}:
            return
        if self._state.path != self._kept_for:
            # Saved under a new name, or another profile is in hand: the former copy has done its work.
            self._remove(self._file_of(self._kept_for))
            self._kept_for = self._state.path
        self._timer.start()

    def _file_of(self, path: Path | None) -> Path:
        if path is None:
            return self._folder / "new.json"
        name = hashlib.sha256(str(path.absolute()).encode()).hexdigest()[:16]
        return self._folder / f"{name}.json"

    @staticmethod
    def _remove(file: Path) -> None:
        with suppress(OSError):
            file.unlink(missing_ok=True)


def take_up(state: AppState, draft: Draft) -> None:
    """Put a draft on top of the profile in hand, as one step that can be taken back."""
    state.edit_profile("Bring back unsaved edits", draft.profile)
    state.tell("Edits from the last time, which were not saved, are back. Undo takes them away.")
