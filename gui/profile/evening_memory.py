"""What was said and done of the last evenings, kept over a restart: nobody tells it twice in the cold."""

import re
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import attrs
from PySide6.QtCore import QObject

from core.air.blur import BlurSource
from core.problems import ProblemsError
from core.record.file_names import mark_of_place
from core.record.files import read_text, same_file, write_atomically
from core.sky.civil import tonight
from gui.profile.kept_evenings import Kept, dumps_kept, file_of_kept, loads_kept
from gui.state import AppState, Change

MEMORY_FOLDER = "evenings"
_KEPT_FOR = timedelta(days=2)
# The air and the rung in hand are still those of the same evening for so long (ours).
_SAME_EVENING = timedelta(hours=8)
_HALF_A_DAY = timedelta(hours=12)
_SAFE_NAME = re.compile(r"[0-9A-Za-z-]{1,64}")


class EveningMemory(QObject):
    """Writes what was said whenever it changes, one small file for each profile, and brings it back.

    What cannot be read is left out, and what is two days old dropped; a folder that cannot be written costs
    nothing but the memory.
    """

    def __init__(self, state: AppState, folder: Path) -> None:
        super().__init__(state)
        self._state = state
        self._folder = folder / MEMORY_FOLDER
        self._written = Kept()
        self._unsure_of: datetime | None = None
        state.loaded.connect(self.bring_back)
        state.changed.connect(self._on_changed)
        self.bring_back()

    def bring_back(self) -> None:
        """Take up again what was kept for the profile in hand."""
        choices, now = self._state.choices, self._state.situation.now
        kept, said_at = self._read()
        oldest = (now - _KEPT_FOR).date()
        notes: dict[str, Any] = {
            name: tuple(note for note in getattr(kept, name) if note.evening >= oldest)
            for name in ("outside", "temperatures", "hours", "steps")
        }
        notes["lifted_on"] = kept.lifted_on
        if said_at is not None and self._is_same_evening(said_at, now):
            if kept.blur is not None and choices.blur.source is BlurSource.ASSUMED:
                notes["blur"] = kept.blur
            if choices.planet is None:
                notes["planet"] = kept.planet
            if kept.scope_id in ("", choices.scope_id):
                notes |= {name: getattr(kept, name) for name in ("rung_power", "power_before", "filter_id")}
            if not self._state.situation.has_sky:
                # Whether the Sun rose since is known only then.
                self._unsure_of = said_at
        self._written = kept
        self._state.take_up(attrs.evolve(choices, **notes))

    def _is_same_evening(self, said_at: datetime, now: datetime) -> bool:
        """Tell whether no noon or sunrise of the site has passed, nor too long a time."""
        site = self._state.situation.site
        zone = UTC if site is None else site.zone
        said, present = ((moment.astimezone(zone) - _HALF_A_DAY).date() for moment in (said_at, now))
        if site is not None and self._state.situation.has_sky:
            with suppress(ProblemsError):
                said, present = (tonight(site, moment) for moment in (said_at, now))
        return said == present and timedelta() <= now - said_at < _SAME_EVENING

    def _on_changed(self, change: Change) -> None:
        said_at = self._unsure_of
        if said_at is not None and change.after.has_sky:
            self._unsure_of = None
            if not self._is_same_evening(said_at, change.after.now):
                self._state.take_up(self._state.choices.of_a_new_evening())
                return
        kept = Kept.of(self._state.choices)
        if kept != self._written:
            self._written = kept
            self._write(kept)

    def _path(self) -> Path | None:
        """Return the file of the profile in hand: by its id, before it has one by its own file.

        None for one that was never saved, which nothing tells from the next.
        """
        path = self._state.path
        if self._goes_by_id:
            return self._folder / f"{self._state.profile.id}.json"
        return None if path is None else self._path_by_file(path)

    @property
    def _goes_by_id(self) -> bool:
        return _SAFE_NAME.fullmatch(self._state.profile.id) is not None

    def _path_by_file(self, profile: Path) -> Path:
        """Return the memory of a profile's file, however that is spelled now and was spelled then."""
        usual = self._folder / f"{mark_of_place(profile)}.json"
        with suppress(OSError):  # such as one whose name is too long
            if usual.exists():
                return usual
            for kept in sorted(self._folder.glob("*.json")):
                if _is_of(kept, profile):
                    return kept
        return usual

    def _write(self, kept: Kept) -> None:
        path = self._path()
        if path is None:
            return
        of = None if self._goes_by_id else self._state.path
        with suppress(ProblemsError, OSError):
            self._folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            write_atomically(path, dumps_kept(kept, self._state.situation.now, of), is_private=True)

    def _read(self) -> tuple[Kept, datetime | None]:
        """Return what is kept and when it was said; nothing where the file cannot be read."""
        path, profile = self._path(), self._state.path
        try:
            if path is not None and profile is not None and not path.exists():
                # Its first save has given it an id since.
                path = self._path_by_file(profile)
            return (Kept(), None) if path is None else loads_kept(read_text(path))
        except (ProblemsError, OSError):
            return Kept(), None


def _is_of(kept: Path, profile: Path) -> bool:
    """Tell whether a memory is that of a profile's file."""
    with suppress(ProblemsError, OSError):
        of = file_of_kept(read_text(kept))
        return of is not None and same_file(of, profile)
    return False
