"""Drop-down lists that leave undo to the window, and the wheel to what scrolls."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QKeyEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QWidget

from gui.widgets.plain_line_edit import is_undo_or_redo


class UndoPassingComboBox(QComboBox):
    """A drop-down list that passes undo and redo on."""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        # Undo is no letter to search for.
        if is_undo_or_redo(event):
            event.ignore()
        else:
            super().keyPressEvent(event)


class CalmComboBox(UndoPassingComboBox):
    """A drop-down list that the wheel turns only when it has the keyboard; else scrolling would change it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)

    def minimumSizeHint(self) -> QSize:
        # Where there is little room the words in it are cut, and not the form.
        hint = super().minimumSizeHint()
        return QSize(min(hint.width(), 12 * self.fontMetrics().averageCharWidth()), hint.height())

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()
