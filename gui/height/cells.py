"""The bodies at the moment looked at, one cell each, under the height chart."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QEvent, QObject, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QScrollArea, QSizePolicy, QWidget

from core.sky.bodies import TARGETS, Body
from core.words.body_readings import BodyReading
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_tip import plain_tip

_SPACING_PX = 6
_CELL_LETTERS = 15


class BodyCell(QFrame):
    """One body at the moment looked at: its altitude large, the rest small.

    Signals
    -------
    chosen
        The person clicked on it.
    """

    chosen = Signal()

    def __init__(self, body: Body, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "cell")
        self._shows_all = True
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.name = PlainLabel(body.heading, role="heading")
        self.altitude = PlainLabel(role="numeral")
        self.direction = PlainLabel(role="small")
        self.path = PlainLabel(role="small")
        self.ceiling = PlainLabel(role="small")
        self.remark = PlainLabel(role="small", wraps=True)
        grid = QGridLayout(self)
        grid.setContentsMargins(8, 5, 6, 6)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(1, 1)
        grid.addWidget(self.name, 0, 0, 1, 2)
        grid.addWidget(self.altitude, 1, 0, 2, 1)
        grid.addWidget(self.direction, 1, 1)
        grid.addWidget(self.path, 2, 1)
        grid.addWidget(self.ceiling, 3, 0, 1, 2)
        grid.addWidget(self.remark, 4, 0, 1, 2)
        grid.setRowStretch(5, 1)
        for label in (self.name, self.direction, self.path, self.ceiling, self.remark):
            label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def show_reading(self, reading: BodyReading, *, in_hand: bool) -> None:
        """Show a reading."""
        self.altitude.setText(reading.altitude)
        self.direction.setText(reading.short_direction)
        self.remark.setText(reading.remark)
        self.altitude.setEnabled(reading.is_up)
        self.path.setText(reading.path)
        self.ceiling.setText(reading.ceiling)
        self.show_all(self._shows_all)
        self.setAccessibleName(reading.sentence)
        self.setToolTip(plain_tip(reading.sentence))
        if self.property("inHand") != in_hand:
            self.setProperty("inHand", in_hand)
            self.style().unpolish(self)
            self.style().polish(self)

    def show_all(self, all_of_it: bool) -> None:
        """Show everything, or only how high and where; then the pointer tells the rest."""
        self._shows_all = all_of_it
        self.path.setVisible(all_of_it)
        for label in (self.ceiling, self.remark):
            label.setVisible(all_of_it and bool(label.text()))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self.chosen.emit()


class BodyCells(QScrollArea):
    """All cells: in one row, or in two where letters are too large for that.

    Signals
    -------
    chosen
        The body whose cell was clicked.
    """

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._cells = {body: BodyCell(body) for body in TARGETS}
        self._columns = 0
        self._is_folded = False
        page = QWidget()
        page.setObjectName("page")
        self._grid = QGridLayout(page)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(_SPACING_PX)
        for body, cell in self._cells.items():
            cell.chosen.connect(partial(self.chosen.emit, body))
        self.setWidget(page)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.setAccessibleName("Each body at the moment of the read-out")
        # The chart's own description says the same; the keyboard comes here only to scroll.
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._arrange()

    def __getitem__(self, body: Body) -> BodyCell:
        return self._cells[body]

    def show_readings(self, readings: Sequence[BodyReading], in_hand: Body | None) -> None:
        """Show the readings of a moment, and which body is in hand."""
        for reading in readings:
            self._cells[reading.body].show_reading(reading, in_hand=reading.body is in_hand)
        self.updateGeometry()

    def fold(self, folded: bool) -> None:
        """Show only how high and where in each cell, or everything."""
        if folded != self._is_folded:
            self._is_folded = folded
            for cell in self._cells.values():
                cell.show_all(not folded)

    def sizeHint(self) -> QSize:
        return self.minimumSizeHint()

    def minimumSizeHint(self) -> QSize:
        # One row is seen whole; a second one has to be scrolled to, so that the chart keeps its room.
        rows = len(TARGETS) // max(self._columns, 1)
        return QSize(4 * _CELL_LETTERS * self.fontMetrics().averageCharWidth(), self._height() // rows)

    def _height(self) -> int:
        """Return the height of all rows at the present width."""
        width = max(self.viewport().width(), self._grid.minimumSize().width())
        if self._grid.hasHeightForWidth():
            return self._grid.totalHeightForWidth(width)
        return self._grid.totalMinimumSize().height()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.widget() and event.type() is QEvent.Type.LayoutRequest:
            # What the cells need has changed, and with it what all of them ask for.
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self._arrange()

    def _arrange(self) -> None:
        needed = len(TARGETS) * (_CELL_LETTERS * self.fontMetrics().averageCharWidth() + _SPACING_PX)
        columns = len(TARGETS) if not self.isVisible() or needed <= self.width() else len(TARGETS) // 2
        if columns == self._columns:
            return
        self._columns = columns
        for number, cell in enumerate(self._cells.values()):
            self._grid.addWidget(cell, number // columns, number % columns)
        for column in range(len(TARGETS)):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)
        self.updateGeometry()
