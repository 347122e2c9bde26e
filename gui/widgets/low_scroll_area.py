"""A part of the window that scrolls before it would ask the window to grow."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QScrollArea, QWidget

_LEAST_LETTERS = 16
_LEAST_LINES = 4


class LowScrollArea(QScrollArea):
    """Takes whatever height there is; where its page needs more it scrolls, following the keyboard."""

    def __init__(self, page: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        page.setObjectName("page")
        self.setWidget(page)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    def minimumSizeHint(self) -> QSize:
        metrics = self.fontMetrics()
        return QSize(_LEAST_LETTERS * metrics.averageCharWidth(), _LEAST_LINES * metrics.lineSpacing())

    def sizeHint(self) -> QSize:
        return self.minimumSizeHint()
