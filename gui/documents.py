"""The profile as a document: new, open, save, and what is not saved yet."""

from importlib import resources
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from core.problems import ProblemsError
from core.record.files import previous_copy, read_text
from core.record.observer import Profile
from core.record.profile import loads_profile, read_profile, save_profile
from gui import dialogs
from gui.session import Session
from gui.state import AppState


class Documents(QObject):
    """Opens and saves the state's profile.

    A profile that cannot be opened leaves the present one as it is; nothing unsaved is left without asking.

    Signals
    -------
    session_changed
        The recent files have changed.
    """

    session_changed = Signal()

    def __init__(self, state: AppState, session: Session, window: QWidget) -> None:
        super().__init__(window)
        self._state = state
        self._window = window
        self.session = session

    @property
    def name(self) -> str:
        """The name of the profile in hand, as in the title of the window."""
        if self._state.path:
            return self._state.path.name
        return self._state.profile.observer.strip() or "New profile"

    def new(self) -> bool:
        """Begin with nothing; tell whether that was wanted."""
        if not self.may_leave():
            return False
        self._state.load(Profile(), None)
        return True

    def open(self) -> None:
        """Ask for a file and open it."""
        if not self.may_leave():
            return
        path = dialogs.ask_open(self._window, self._folder())
        if path is not None:
            self._open(path)

    def open_path(self, path: Path) -> None:
        """Open a known file."""
        if self.may_leave():
            self._open(path)

    def open_example(self, name: str) -> None:
        """Take up one of the examples as a profile without a file."""
        if self.may_leave():
            text = resources.files("sample_profiles").joinpath(name).read_text("utf-8")
            self._state.load(loads_profile(text), None)

    def save(self) -> bool:
        """Save to the profile's file, asking where when it has none; tell whether it is saved."""
        if self._state.path is None:
            return self.save_as()
        return self._save(self._state.path)

    def save_as(self) -> bool:
        """Ask for a file and save to it; tell whether it is saved."""
        suggestion = self._state.path.name if self._state.path else "profile.toml"
        path = dialogs.ask_save(self._window, self._folder(), suggestion)
        return path is not None and self._save(path)

    def may_leave(self) -> bool:
        """Ask about unsaved changes, save if wanted, and tell whether to go on."""
        if not self._state.is_modified:
            return True
        wanted = dialogs.ask_unsaved(self._window, self.name)
        if wanted is dialogs.Unsaved.SAVE:
            return self.save()
        return wanted is dialogs.Unsaved.DISCARD

    def _open(self, path: Path) -> None:
        try:
            profile = read_profile(path)
        except ProblemsError as error:
            self._remember(self.session.without(str(path)))
            kept = f"{self.name} stays open as it was."
            heading = f"{path.name} could not be opened. {kept}"
            dialogs.show_text(self._window, "Could not open the profile", heading, str(error))
            return
        self._state.load(profile, path)
        self._remember(self.session.with_opened(path))

    def _save(self, path: Path) -> bool:
        replaces = path.is_file()
        try:
            save_profile(path, self._state.profile, previous=self._text_to_follow(path))
        except ProblemsError as error:
            heading = f"{path.name} could not be saved. Your changes are still here; try another place."
            dialogs.show_text(self._window, "Could not save the profile", heading, str(error))
            return False
        self._state.mark_saved(path)
        self._remember(self.session.with_opened(path))
        kept = f" The version before is kept as {previous_copy(path).name}." if replaces else ""
        self._state.tell(f"Saved as {path}.{kept}")
        return True

    def _text_to_follow(self, path: Path) -> str | None:
        """Return the text whose comments a copy under another name takes along."""
        if self._state.path is None or self._state.path == path:
            return None
        try:
            return read_text(self._state.path)
        except ProblemsError:
            return None

    def _folder(self) -> Path | None:
        return self._state.path.parent if self._state.path else None

    def _remember(self, session: Session) -> None:
        self.session = session
        self.session_changed.emit()


def example_names() -> list[str]:
    """Return the file names of the examples that come with the program."""
    folder = resources.files("sample_profiles")
    return sorted(entry.name for entry in folder.iterdir() if entry.name.endswith(".toml"))
