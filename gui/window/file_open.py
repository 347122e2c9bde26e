"""What the system asks the running program to open: on macOS a double-click comes as an event."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtGui import QFileOpenEvent
from PySide6.QtWidgets import QApplication


class FileOpen(QObject):
    """Hands every file that the system asks for to ``open_path``."""

    def __init__(self, app: QApplication, open_path: Callable[[Path], None]) -> None:
        super().__init__(app)
        self._open_path = open_path
        app.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QFileOpenEvent) and event.file():
            # The question about unsaved edits must not hold the system up.
            QTimer.singleShot(0, self, partial(self._open_path, Path(event.file())))
            return True
        return False
