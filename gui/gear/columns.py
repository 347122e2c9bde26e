"""The columns of the gear view: side by side, or where letters are too large for that one below the other."""

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QWidget

from gui.widgets.in_room import NO_LIMIT_PX

_GAP_PX: Final = 16
_FIRST_SIZES_PX: Final = (228, 345, 427)
_STRETCHES: Final = (3, 5, 9)
# Below each other each of them has at least so many lines; the page scrolls to the next.
_LEAST_LINES: Final = 14


class Columns(QSplitter):
    """Three columns with handles between them."""

    def __init__(self, columns: Sequence[QWidget]) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self._limits: dict[QWidget, int] = {}
        self.setHandleWidth(_GAP_PX)
        self.setChildrenCollapsible(False)
        for position, (column, stretch) in enumerate(zip(columns, _STRETCHES, strict=True)):
            self.addWidget(column)
            self.setStretchFactor(position, stretch)
        self.setSizes(list(_FIRST_SIZES_PX))

    def minimumSizeHint(self) -> QSize:
        least = self._least_sizes()
        width = max(size.width() for size in least)
        heights = [size.height() for size in least]
        if self.orientation() is Qt.Orientation.Vertical:
            return QSize(width, sum(heights) + (len(heights) - 1) * _GAP_PX)
        return QSize(width, max(heights))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fold()

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        # Columns ask for another width when their letters have changed.
        if event.type() is QEvent.Type.LayoutRequest:
            self._fold()
        return done

    def _fold(self) -> None:
        least = self._least_sizes()
        needed = sum(size.width() for size in least) + (len(least) - 1) * _GAP_PX
        wanted = Qt.Orientation.Horizontal if needed <= self.width() else Qt.Orientation.Vertical
        if wanted is Qt.Orientation.Vertical:
            self._lift_limits()
        if wanted is self.orientation():
            return
        is_folded = wanted is Qt.Orientation.Vertical
        for column in self._columns():
            lines = _LEAST_LINES if is_folded else 0
            column.setMinimumHeight(lines * self.fontMetrics().lineSpacing())
        self.setOrientation(wanted)
        if not is_folded:
            for column, limit_px in self._limits.items():
                column.setMaximumWidth(limit_px)
            share = self.width() / sum(_FIRST_SIZES_PX)
            self.setSizes([round(size * share) for size in _FIRST_SIZES_PX])
        self.updateGeometry()

    def _lift_limits(self) -> None:
        """Let columns that are rows now be as wide as the page; Qt takes the narrowest limit for all."""
        for column in self._columns():
            if column.maximumWidth() < NO_LIMIT_PX:
                self._limits[column] = column.maximumWidth()
                column.setMaximumWidth(NO_LIMIT_PX)

    def _least_sizes(self) -> list[QSize]:
        return [column.minimumSizeHint().expandedTo(column.minimumSize()) for column in self._columns()]

    def _columns(self) -> list[QWidget]:
        found = [self.widget(position) for position in range(self.count())]
        return [column for column in found if column is not None]
