"""Noticing that another program has changed the profile's file."""

from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject, QTimer, Signal
from PySide6.QtWidgets import QApplication

from core.problems import ProblemsError
from core.record.files import read_text
from gui.state import AppState

# Editors write a file in several steps; what is read in between would be half a file.
_SETTLE_MS = 300


class FileWatch(QObject):
    """Watches the file of the profile in hand.

    Signals
    -------
    changed_elsewhere
        The file's content differs from the one that was last read or written here.
    """

    changed_elsewhere = Signal()

    def __init__(self, state: AppState) -> None:
        super().__init__(state)
        self._state = state
        self._content: str | None = None
        self._path: Path | None = None
        self._watcher = QFileSystemWatcher(self)
        self._settle = QTimer(self)
        self._settle.setSingleShot(True)
        self._settle.setInterval(_SETTLE_MS)
        self._settle.timeout.connect(self._look)
        # A file replaced by renaming is a new file: its folder tells of it.
        self._watcher.fileChanged.connect(lambda _path: self._settle.start())
        self._watcher.directoryChanged.connect(lambda _path: self._settle.start())
        state.file_changed.connect(self._on_file_changed)
        self.note()

    def note(self) -> None:
        """Take the file as it is now for the one known here; called after each open and save."""
        self._path = self._state.path
        self._content = _content_of(self._path)
        self._watch()

    @property
    def differs(self) -> bool:
        """Whether the file holds anything but what is known here; a file that is gone does not count."""
        content = _content_of(self._path)
        return content is not None and content != self._content

    def _watch(self) -> None:
        watched = self._watcher.files() + self._watcher.directories()
        if watched:
            self._watcher.removePaths(watched)
        if self._path is not None:
            # A link tells nothing of what its target's folder sees.
            folders = {self._path.parent, self._path.resolve().parent}
            self._watcher.addPaths([str(self._path), *map(str, folders)])

    def _on_file_changed(self) -> None:
        if self._state.path != self._path:
            self.note()

    def _look(self) -> None:
        if QApplication.activeModalWidget() is not None:
            # One question at a time.
            self._settle.start()
            return
        self._watch()
        if self.differs:
            self._content = _content_of(self._path)
            self.changed_elsewhere.emit()


def _content_of(path: Path | None) -> str | None:
    """Return a file's text, or why it has none; None for no file."""
    if path is None:
        return None
    try:
        return read_text(path)
    except ProblemsError as error:
        return str(error) if path.exists() else None
