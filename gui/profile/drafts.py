"""Unsaved edits that survive a kill: a copy of the profile in hand, beside the window's own settings."""

import json
import os
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from attrs import frozen
from PySide6.QtCore import QLockFile, QObject, QTimer

from core.problems import ProblemsError, refuse
from core.record.file_names import mark_of_place
from core.record.files import (
    LARGEST_BYTES,
    is_file,
    mark_of_text,
    read_text,
    same_file,
    set_aside,
    write_atomically,
)
from core.record.observer import Profile
from core.record.profile import dumps_profile, loads_profile
from core.situation.situation import Situation
from core.words.files import BRING_BACK_STEP, NOT_KEPT, brought_back_words, draft_set_aside_words
from gui.state import AppState, Change

_WAIT_MS = 700
UNSAVED_FOLDER = "unsaved"
_NAME_LETTERS = 16
# So many windows may have unsaved edits of one profile at a time.
_MOST_WINDOWS = 9
# A letter outside ASCII takes up to three times as many bytes in JSON.
_LARGEST_BYTES = 4 * LARGEST_BYTES


@frozen
class Draft:
    """A profile with edits never saved, its file, and a mark of the text that they were made over."""

    profile: Profile
    path: Path | None
    over: str

    def is_of(self, path: Path | None) -> bool:
        """Tell whether the edits are of a file, however its name is spelled, or with None of no file."""
        if path is None or self.path is None:
            return path is self.path
        return same_file(self.path, path)


class DraftPlace:
    """A place on disk for one draft, locked against other windows for as long as this program lives."""

    def __init__(self, folder: Path, name: str) -> None:
        self._file = folder / f"{name}.json"
        self._lock = QLockFile(str(folder / f"{name}.lock"))
        # However long ago it was taken: only a program that is gone loses its lock.
        self._lock.setStaleLockTime(0)
        # What was read, and of which state of the file: at a start several ask for it.
        self._read: tuple[os.stat_result, Draft | None] | None = None

    @property
    def is_used(self) -> bool:
        """Whether a draft lies here."""
        return is_file(self._file)

    def take(self) -> bool:
        """Lock the place; tell whether no other window has it."""
        if self._lock.tryLock(0):
            return True
        pid, _machine, _program = self._lock.getLockInfo()
        # A power cut may leave a lock that names nobody; that of a living window cannot be taken away.
        return not pid and self._lock.removeStaleLockFile() and self._lock.tryLock(0)

    def read(self) -> Draft | None:
        """Return the draft, None where there is none that can be understood."""
        try:
            there = self._file.stat()
        except OSError:
            return None
        if self._read is None or not _is_as_it_was(self._read[0], there):
            self._read = there, self._read_file()
        return self._read[1]

    def _read_file(self) -> Draft | None:
        try:
            kept = json.loads(read_text(self._file, largest_bytes=_LARGEST_BYTES))
            path = None if kept["path"] is None else Path(kept["path"])
            return Draft(loads_profile(kept["profile"]), path, str(kept["over"]))
        except (ProblemsError, ValueError, KeyError, TypeError, RecursionError):
            return None

    def write(self, profile: Profile, path: Path | None) -> None:
        """Keep a profile for its owner's eyes alone; ProblemsError where that cannot be done."""
        kept = {
            "path": str(path.absolute()) if path else None,
            "over": "" if path is None else mark_of_text(path),
            "profile": dumps_profile(profile),
        }
        # In ASCII, for the name of a file may have bytes that are no letters.
        write_atomically(self._file, json.dumps(kept), is_private=True)

    def clear(self) -> None:
        """Take the draft away, and let other windows have the place."""
        with suppress(OSError):
            self._file.unlink(missing_ok=True)
        self.let_go()

    def set_aside(self) -> Path | None:
        """Keep a damaged draft under another name and leave the place; return where, None where it stays."""
        try:
            aside = set_aside(self._file)
        except ProblemsError:
            self.let_go()
            return None
        self.clear()
        return aside

    def let_go(self) -> None:
        """Let other windows have the place, draft and all."""
        self._lock.unlock()


class Drafts(QObject):
    """Keeps a copy of the profile while it has unsaved edits, shortly after the first of them.

    The copy goes once the edits are saved or taken back, or another profile is in hand. Each window that
    has unsaved edits of the same profile, or of one without a file, keeps a copy of its own.
    """

    def __init__(self, state: AppState, folder: Path) -> None:
        super().__init__(state)
        self._state = state
        self._folder = folder
        self._place: DraftPlace | None = None
        self.told_unkept = False
        self._path = state.path
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_WAIT_MS)
        self._timer.timeout.connect(self.keep)
        state.changed.connect(self._on_changed)
        state.file_changed.connect(self._keep)

    def keep(self) -> None:
        """Write the copy now, or take it away where there is nothing unsaved."""
        self._timer.stop()
        if not self._state.is_modified:
            self.drop()
            return
        if self._place is None:
            self._place = _free_place(self._folder, self._state.path)
        try:
            if self._place is None:
                raise refuse("cannot be written", where=str(self._folder))
            self._place.write(self._state.profile, self._state.path)
        except ProblemsError as error:
            # Neither a full disk nor a folder that is gone may get in the way of the edit itself.
            if not self.told_unkept:
                self.told_unkept = True
                self._state.tell(NOT_KEPT.format(problem=error))
        else:
            self.told_unkept = False

    def drop(self) -> None:
        """Take the copy away: its edits are saved, or are no longer wanted."""
        self._timer.stop()
        if self._place is not None:
            self._place.clear()
            self._place = None

    def bring_back(self, places: Sequence[DraftPlace] | None = None) -> str:
        """Put edits left unsaved on top of the profile in hand, as one step; return what to tell of it.

        A copy that cannot be read, of whichever file, is set aside before, and its place told. ``places`` are
        those of the folder where they are known already.
        """
        if places is None:
            places = used_places(self._folder)
        damaged = [draft_set_aside_words(aside) for aside in _set_damaged_aside(places)]
        return " ".join(filter(None, [*damaged, self._bring_back(places)]))

    def _bring_back(self, places: Sequence[DraftPlace]) -> str:
        place = place_left(places, self._state.path)
        draft = place.read() if place else None
        if place is None or draft is None:
            return ""
        if self._place is not None:
            self._place.let_go()
        self._place = place
        self._state.edit_profile(BRING_BACK_STEP, draft.profile)
        if not self._state.is_modified:
            self.drop()
            return ""
        path = self._state.path
        has_changed = path is not None and draft.over != mark_of_text(path)
        return brought_back_words(path, has_changed=has_changed)

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.profile):
            self._keep()

    def _keep(self) -> None:
        if self._state.path != self._path or not self._state.is_modified:
            self._path = self._state.path
            self.drop()
        # Not put off by what follows at once: whoever types on and on is no less safe.
        if self._state.is_modified and not self._timer.isActive():
            self._timer.start()


def place_left(places: Sequence[DraftPlace], path: Path | None) -> DraftPlace | None:
    """Return, locked, where a program that is gone has left edits of a file, or of a profile without one."""
    for place in places:
        draft = place.read()
        if draft is not None and draft.is_of(path) and place.take():
            if place.is_used:
                return place
            place.let_go()
    return None


def _set_damaged_aside(places: Sequence[DraftPlace]) -> list[Path]:
    """Set aside what cannot be read and no window writes; return where each lies now."""
    damaged = [place for place in places if place.read() is None and place.take()]
    return [aside for place in damaged if (aside := place.set_aside()) is not None]


def used_places(folder: Path) -> list[DraftPlace]:
    """Return where drafts lie in the state folder, of windows that live and of those that are gone."""
    place = folder / UNSAVED_FOLDER
    try:
        return [DraftPlace(place, file.stem) for file in sorted(place.glob("*.json"))]
    except OSError:
        return []


def _is_as_it_was(before: os.stat_result, now: os.stat_result) -> bool:
    """Tell whether a file is still the same: a write puts another in its place."""
    return os.path.samestat(before, now) and (before.st_mtime_ns, before.st_size) == (
        now.st_mtime_ns,
        now.st_size,
    )


def _free_place(folder: Path, path: Path | None) -> DraftPlace | None:
    """Return a place without a draft, locked; None where the folder cannot be written."""
    with suppress(OSError):
        (folder / UNSAVED_FOLDER).mkdir(mode=0o700, parents=True, exist_ok=True)
    name = "new" if path is None else mark_of_place(path)[:_NAME_LETTERS]
    places = (
        DraftPlace(folder / UNSAVED_FOLDER, f"{name}-{number}") for number in range(1, _MOST_WINDOWS + 1)
    )
    return next((place for place in places if not place.is_used and place.take()), None)
