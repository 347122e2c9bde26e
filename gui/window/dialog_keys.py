"""Keys of the whole window that work in its dialogs too: full screen, palette, dimmer, text, words."""

from collections.abc import Sequence

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction, QGuiApplication
from PySide6.QtWidgets import QApplication, QDialog, QWidget

from gui.window.frameless_dialogs import is_dialog_of


class DialogKeys(QObject):
    """Gives some actions of a window to each of its dialogs, as it comes to the front."""

    def __init__(self, window: QWidget, actions: Sequence[QAction]) -> None:
        super().__init__(window)
        self._window = window
        self._actions = list(actions)
        app = QGuiApplication.instance()
        assert isinstance(app, QGuiApplication)
        app.focusWindowChanged.connect(self._give)

    def _give(self) -> None:
        dialog = QApplication.activeModalWidget()
        if isinstance(dialog, QDialog) and is_dialog_of(dialog, self._window):
            dialog.addActions(self._actions)
