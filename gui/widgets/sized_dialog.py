"""A dialog that is as large as its words need in the letters that it has, and no larger than its window."""

from PySide6.QtCore import QEvent, QSize
from PySide6.QtWidgets import QDialog, QWidget

# The smallest window there is, and what stays free around a dialog in it.
_SMALLEST, _AROUND = QSize(1000, 640), QSize(40, 60)


class SizedDialog(QDialog):
    """Takes a width of so many ``letters``, and the height of its words there, at least so many ``lines``."""

    def __init__(self, parent: QWidget | None = None, *, letters: int, lines: int = 0) -> None:
        super().__init__(parent)
        self._letters, self._lines = letters, lines

    def setVisible(self, visible: bool) -> None:
        if visible and not self.isVisible():
            self.fit()
        super().setVisible(visible)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange and self.isVisible():
            self.fit()

    def fit(self) -> None:
        """Grow to what the words need now; what is larger already stays as it is."""
        for widget in self.findChildren(QWidget):
            widget.ensurePolished()  # else its letters are not yet its own
        metrics, parent, layout = self.fontMetrics(), self.parentWidget(), self.layout()
        room = (_SMALLEST if parent is None else parent.window().size()) - _AROUND
        width = min(
            max(self._letters * metrics.averageCharWidth(), self.minimumSizeHint().width()), room.width()
        )
        height = self._lines * metrics.lineSpacing()
        if layout is not None:
            needed = layout.totalHeightForWidth(width) if layout.hasHeightForWidth() else -1
            height = max(height, needed, layout.totalMinimumSize().height())
        wanted = QSize(width, height)
        if self.isVisible():
            wanted = wanted.expandedTo(self.size())
        self.resize(wanted.boundedTo(room))
