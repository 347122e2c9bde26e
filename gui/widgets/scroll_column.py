"""A column that scrolls where its words need more lines than there is room for."""

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QVBoxLayout, QWidget

from gui.widgets.low_scroll_area import LowScrollArea


class _Content(QWidget):
    """Asks for all the lines of its words, and for no more of everything else than it can do with."""

    def heightForWidth(self, width: int) -> int:
        layout = self.layout()
        return -1 if layout is None else layout.totalMinimumHeightForWidth(width)


class ScrollColumn(LowScrollArea):
    """Holds one widget, never narrower than that can be; the keyboard goes to what is in it."""

    def __init__(self, widget: QWidget) -> None:
        self._content = _Content()
        column = QVBoxLayout(self._content)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(widget)
        super().__init__(self._content)

    def minimumSizeHint(self) -> QSize:
        width = self._content.minimumSizeHint().width() + self.verticalScrollBar().sizeHint().width()
        return QSize(width, super().minimumSizeHint().height())
