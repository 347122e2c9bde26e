"""A part of the window that asks for the height that its words need at the width it has."""

from PySide6.QtCore import QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget


class AllLines(QWidget):
    """Holds words that wrap; without this they would be given the lines of some other width.

    Before it has a width of its own, ``least_width`` pixels count.
    """

    def __init__(self, parent: QWidget | None = None, *, least_width: int = 720) -> None:
        super().__init__(parent)
        self._least_width = least_width

    def minimumSizeHint(self) -> QSize:
        hint, layout = super().minimumSizeHint(), self.layout()
        if layout is None or not layout.hasHeightForWidth():
            return hint
        return QSize(hint.width(), layout.minimumHeightForWidth(max(self.width(), self._least_width)))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()
