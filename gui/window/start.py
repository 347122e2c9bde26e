"""Starting the window: the application, what it remembers, and the way out."""

import sys
from collections.abc import Sequence
from importlib import resources
from pathlib import Path

from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QApplication

from core.problems import ProblemsError
from core.record.files import kept_beside, sweep
from core.record.observer import Profile
from core.record.profile import read_profile
from core.situation.choices import Choices
from core.words.files import last_not_opened_words
from gui.profile.documents import in_short
from gui.profile.drafts import UNSAVED_FOLDER, DraftPlace, place_left, used_places
from gui.profile.evening_memory import MEMORY_FOLDER
from gui.profile.session import Session, SessionFile, state_folder
from gui.state import AppState
from gui.widgets.theme import Theme
from gui.window.errors import ErrorDoor
from gui.window.file_open import FileOpen
from gui.window.leaving import heeding_signals
from gui.window.place import take_place
from gui.window.shell import Shell
from gui.window.short_pauses import short_pauses


def run_window(path: Path | None = None) -> int:
    """Show the window until it is closed; return the exit code.

    Without a path it begins with what was in hand at the last time: edits without a file that were left
    unsaved, else the last profile; when that cannot be had, with an empty one, and it says why. Raises
    ProblemsError when the given path cannot be opened.
    """
    folder = state_folder()
    session_file = SessionFile(folder)
    session, told = session_file.read()
    drafts = used_places(folder)
    profile, path, trouble = _first_profile(path, session, drafts)
    own_folders = (folder, folder / UNSAVED_FOLDER, folder / MEMORY_FOLDER)
    for place in (*own_folders, *([path.parent] if path else [])):
        sweep(place)
    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    app.setApplicationName("Stillair")
    app.setDesktopFileName("stillair")
    app.setWindowIcon(QIcon(str(resources.files("resources").joinpath("stillair.svg"))))
    door = ErrorDoor(folder)
    with door.open():
        theme = Theme.of(app)
        theme.wear(session.palette, session.text_scale)
        state = AppState(
            Choices(
                profile=profile,
                palette_name=session.palette,
                text_scale=session.text_scale,
                dimmer=session.dimmer,
                site_id=session.site,
                scope_id=session.scope,
            ),
            path=path,
        )
        shell = Shell(state, theme, session=_opened(session, path), session_file=session_file)
        brought_back = shell.documents.bring_back(drafts)
        shell.first_run = not (path or session.recent or brought_back)
        door.raised.connect(state.tell)
        FileOpen(app, shell.documents.open_path)
        sentences = [sentence for sentence in (told, trouble, brought_back) if sentence]
        if sentences:
            state.tell(" ".join(sentences))
        take_place(shell, session.place, shell.screen().availableSize())
        shell.show()
        with short_pauses(shell), heeding_signals(shell, shell.leave_at_once):
            return app.exec()


def _first_profile(
    path: Path | None, session: Session, drafts: Sequence[DraftPlace]
) -> tuple[Profile, Path | None, str]:
    """Return the profile to begin with, its file, and what to tell when it is not the one expected."""
    if path is not None:
        return read_profile(path), path, ""
    left = place_left(drafts, None)
    if left is not None:
        left.let_go()
    if left is not None or not session.recent:
        return Profile(), None, ""
    last = Path(session.recent[0])
    try:
        return read_profile(last), last, ""
    except ProblemsError as error:
        return Profile(), None, _trouble_with(last, error)


def _trouble_with(path: Path, error: ProblemsError) -> str:
    """Return in a sentence or two why the last profile is not there, and where a good copy is."""
    return last_not_opened_words(path, in_short(error, path), kept_beside(path))


def _opened(session: Session, path: Path | None) -> Session:
    return session.with_opened(path) if path else session
