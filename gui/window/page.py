"""The page of the window: all that stands in it, which scrolls where the window is too small for it."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QScrollArea, QWidget


class _Content(QWidget):
    """Asks for no more height than it can do with, where Qt would ask for what it likes best."""

    def heightForWidth(self, _width: int) -> int:
        return self.minimumSizeHint().height()


class Page(QScrollArea):
    """Holds a column of widgets (``content``); with large letters on a small screen it scrolls."""

    def __init__(self) -> None:
        super().__init__()
        self.content = _Content()
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidget(self.content)
