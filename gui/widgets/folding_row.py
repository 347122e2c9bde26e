"""A row of controls that folds onto further lines where it is too narrow for all of them."""

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class FoldingRow(QLayout):
    """Sets its items beside each other in the order they were added, as many on a line as fit."""

    def __init__(self, parent: QWidget, *, spacing: int) -> None:
        super().__init__(parent)
        self.setContentsMargins(0, 0, 0, 0)
        self.setSpacing(spacing)
        self._items: list[QLayoutItem] = []

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def count(self) -> int:
        return len(self._items)

    # Qt asks past the end to learn where it is, and takes None for that.
    def itemAt(self, index: int) -> QLayoutItem:
        return self._items[index] if 0 <= index < len(self._items) else None  # type: ignore[return-value]

    def takeAt(self, index: int) -> QLayoutItem:
        return self._items.pop(index) if 0 <= index < len(self._items) else None  # type: ignore[return-value]

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        heights = [height for _items, height in self._lines(width)]
        return sum(heights) + self.spacing() * max(len(heights) - 1, 0)

    def sizeHint(self) -> QSize:
        shown = [item.sizeHint() for item in self._items if not item.isEmpty()]
        width = sum(size.width() for size in shown) + self.spacing() * max(len(shown) - 1, 0)
        return QSize(width, max((size.height() for size in shown), default=0))

    def minimumSize(self) -> QSize:
        shown = [item.minimumSize() for item in self._items if not item.isEmpty()]
        width = max((size.width() for size in shown), default=0)
        return QSize(width, max((size.height() for size in shown), default=0))

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        top = rect.top()
        for items, height in self._lines(rect.width()):
            left = rect.left()
            for item in items:
                size = item.sizeHint().boundedTo(QSize(rect.width(), height))
                item.setGeometry(QRect(QPoint(left, top + (height - size.height()) // 2), size))
                left += size.width() + self.spacing()
            top += height + self.spacing()

    def _lines(self, width: int) -> list[tuple[list[QLayoutItem], int]]:
        """Return the items of each line and how high it is, at a width."""
        lines: list[tuple[list[QLayoutItem], int]] = []
        left = 0
        for item in self._items:
            if item.isEmpty():
                continue
            size = item.sizeHint()
            if not lines or left + size.width() > width:
                lines.append(([], 0))
                left = 0
            items, height = lines[-1]
            lines[-1] = ([*items, item], max(height, size.height()))
            left += size.width() + self.spacing()
        return lines
