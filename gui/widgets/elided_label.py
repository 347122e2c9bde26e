"""A one-line label that gives way in a narrow place, with an ellipsis."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from gui.widgets.plain_label import PlainLabel

_LEAST_LETTERS = 5
_MOST_LETTERS = 18


class ElidedLabel(PlainLabel):
    """Shows as much of its text as there is room for; readers of the screen get all of it.

    It asks for the room of so many ``letters`` at most.
    """

    def __init__(
        self, text: str = "", parent: QWidget | None = None, *, role: str = "", letters: int = _MOST_LETTERS
    ) -> None:
        super().__init__(text, parent, role=role)
        self._letters = letters

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        return QSize(min(hint.width(), self._letters * self.fontMetrics().averageCharWidth()), hint.height())

    def minimumSizeHint(self) -> QSize:
        hint = super().minimumSizeHint()
        return QSize(min(hint.width(), _LEAST_LETTERS * self.fontMetrics().averageCharWidth()), hint.height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        shown = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, self.width())
        flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextSingleLine
        painter.drawText(self.rect(), flags, shown)
        painter.end()
