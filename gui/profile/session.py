"""What the window remembers between two starts; nothing in it is precious."""

import json
import os
from pathlib import Path
from typing import Any

import attrs
import platformdirs
from attrs import frozen

from core.drawing.palette import PALETTES
from core.problems import ProblemsError
from core.record.files import is_file, read_text, same_file, set_aside, write_atomically
from core.situation.choices import MOST_DIMMED
from core.words.files import settings_damaged_words
from core.words.missing_letters import LETTER_PACKAGES
from core.words.tour import TOUR

FOLDER_VARIABLE = "STILLAIR_STATE_FOLDER"
TEXT_SCALES = (0.9, 1.0, 1.15, 1.3, 1.5, 1.75, 2.0)
_RECENT_LIMIT = 8
_FILE_NAME = "session.json"


def state_folder() -> Path:
    """Return the folder for the session and the drafts; ``STILLAIR_STATE_FOLDER`` overrides the usual one."""
    given = os.environ.get(FOLDER_VARIABLE)
    return Path(given) if given else platformdirs.user_state_path("stillair", appauthor=False)


@frozen(kw_only=True)
class Session:
    """The palette, size of text, files opened last (newest first), choices in hand, place of the window."""

    palette: str = "day"
    text_scale: float = 1.0
    dimmer: int = 0
    recent: tuple[str, ...] = ()
    site: str = ""
    scope: str = ""
    place: str = ""
    tour_step: int = 0
    tour_is_done: bool = False
    # Packages of letters that were missing, so that each is named once and not at every start.
    letters_told: tuple[str, ...] = ()

    def with_opened(self, path: Path) -> "Session":
        """Return the session with a file at the head of the recent ones."""
        opened = str(path.absolute())
        others = tuple(name for name in self.recent if not same_file(Path(name), path))
        return attrs.evolve(self, recent=(opened, *others)[:_RECENT_LIMIT])

    def without(self, name: str) -> "Session":
        """Return the session without a recent file that can no longer be opened."""
        return attrs.evolve(self, recent=tuple(other for other in self.recent if other != name))


class SessionFile:
    """The session on disk, tolerant of damage: what cannot be understood falls back to its default."""

    def __init__(self, folder: Path) -> None:
        self.path = folder / _FILE_NAME

    def read(self) -> tuple[Session, str]:
        """Return the session, and what to tell when the file was damaged: a sentence, or nothing."""
        if not is_file(self.path):
            return Session(), ""
        try:
            data = json.loads(read_text(self.path))
        except (ProblemsError, ValueError, RecursionError):
            data = None
        if not isinstance(data, dict):
            return Session(), self._set_aside()
        return _understood(data), ""

    def write(self, session: Session) -> str:
        """Keep the session; return why it cannot be kept, nothing when it was."""
        try:
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            write_atomically(self.path, json.dumps(attrs.asdict(session), indent=1), is_private=True)
        except (ProblemsError, OSError) as error:
            return str(getattr(error, "strerror", None) or error)
        return ""

    def _set_aside(self) -> str:
        try:
            return settings_damaged_words(set_aside(self.path))
        except ProblemsError:
            return settings_damaged_words(None)


def _understood(data: dict[str, Any]) -> Session:
    """Take from a file what has the right type and range."""
    taken: dict[str, Any] = {}
    if data.get("palette") in PALETTES:
        taken["palette"] = data["palette"]
    if data.get("text_scale") in TEXT_SCALES:
        taken["text_scale"] = float(data["text_scale"])
    if data.get("dimmer") in range(MOST_DIMMED + 1):
        taken["dimmer"] = int(data["dimmer"])
    recent = data.get("recent")
    if isinstance(recent, list):
        names = [name for name in recent if isinstance(name, str) and name and "\0" not in name]
        taken["recent"] = tuple(names[:_RECENT_LIMIT])
    told = data.get("letters_told")
    if isinstance(told, list):
        taken["letters_told"] = tuple(name for name in told if name in LETTER_PACKAGES)
    for key in ("site", "scope", "place"):
        if isinstance(data.get(key), str):
            taken[key] = data[key]
    if data.get("tour_step") in range(len(TOUR)):
        taken["tour_step"] = int(data["tour_step"])
    taken["tour_is_done"] = data.get("tour_is_done") is True
    return Session(**taken)
