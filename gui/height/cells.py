"""The bodies at the moment looked at, one cell each, under the height chart."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from core.sky.bodies import TARGETS, Body
from core.words.body_readings import BodyReading, all_below_words
from gui.widgets.all_lines import AllLines
from gui.widgets.folding_row import FoldingRow
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_tip import plain_tip
from gui.widgets.screen_readers import OwnControl

_SPACING_PX = 6
_CELL_LETTERS = 15
# Row, column, rows and columns in a cell: of name, altitude, direction, path, ceiling, remark.
_PLACES = ((0, 0, 1, 2), (1, 0, 2, 1), (1, 1), (2, 1), (3, 0, 1, 2), (4, 0, 1, 2))
_PLACES_FOLDED = tuple((0, column) for column in range(len(_PLACES)))


class BodyCell(OwnControl, QFrame):
    """One body at the moment looked at: its altitude large, the rest small; folded, all in one line.

    Signals
    -------
    chosen
        The person clicked on it, or pressed Space or Return.
    """

    chosen = Signal()
    reader_role = QAccessible.Role.RadioButton

    def __init__(self, body: Body, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "cell")
        self._is_folded = False
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.name = PlainLabel(body.heading, role="heading")
        self.altitude = PlainLabel(role="numeral")
        self.direction = PlainLabel(role="small")
        self.path = PlainLabel(role="small")
        self.ceiling = PlainLabel(role="small")
        self.remark = PlainLabel(role="small", wraps=True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._grid = QGridLayout(self)
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(0)
        self.fold(False)

    def show_reading(self, reading: BodyReading, *, in_hand: bool) -> None:
        """Show a reading."""
        self.altitude.setText(reading.altitude)
        self.direction.setText(reading.short_direction)
        self.remark.setText(reading.remark)
        self.altitude.setEnabled(reading.is_up)
        self.path.setText(reading.path)
        self.ceiling.setText(reading.ceiling)
        self._show_rest()
        self.setAccessibleName(reading.sentence)
        self.setToolTip(plain_tip(reading.sentence))
        if self.property("inHand") != in_hand:
            self.setProperty("inHand", in_hand)
            self.style().unpolish(self)
            self.style().polish(self)

    @property
    def is_chosen(self) -> bool:
        return bool(self.property("inHand"))

    def press(self) -> None:
        self.chosen.emit()

    def fold(self, folded: bool) -> None:
        """Show only how high and where, in one line, or everything; folded, the pointer tells the rest."""
        self._is_folded = folded
        places = _PLACES_FOLDED if folded else _PLACES
        labels = (self.name, self.altitude, self.direction, self.path, self.ceiling, self.remark)
        policies = QSizePolicy.Policy
        for label, place in zip(labels, places, strict=True):
            self._grid.addWidget(label, *place)
            across = policies.Preferred if folded or label is self.altitude else policies.Ignored
            label.setSizePolicy(across, policies.Preferred)
        self._grid.setColumnStretch(1, 0 if folded else 1)
        self._grid.setRowStretch(5, 0 if folded else 1)
        self._grid.setContentsMargins(*((8, 2, 8, 2) if folded else (8, 5, 6, 6)))
        self._show_rest()

    def _show_rest(self) -> None:
        self.path.setVisible(not self._is_folded)
        for label in (self.ceiling, self.remark):
            label.setVisible(not self._is_folded and bool(label.text()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.chosen.emit()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self.chosen.emit()


class BodyCells(AllLines):
    """All cells: in one row, or in two where letters are too large for that.

    Folded, those of the bodies that are up and of the planet in hand stand beside each other, a line each;
    the others are named after them.

    Signals
    -------
    chosen
        The body whose cell was clicked.
    """

    chosen = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._cells = {body: BodyCell(body) for body in TARGETS}
        self._down: frozenset[Body] = frozenset()
        self._columns = 0
        self._is_folded: bool | None = None
        self.below = PlainLabel(role="small")
        self._wide, self._low = QWidget(), QWidget()
        self._grid = QGridLayout(self._wide)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(_SPACING_PX)
        self._line = FoldingRow(self._low, spacing=_SPACING_PX)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self._wide)
        column.addWidget(self._low)
        for body, cell in self._cells.items():
            cell.chosen.connect(partial(self.chosen.emit, body))
        self.setAccessibleName("Each body at the moment of the read-out")
        self.fold(False)
        InRoom(self, self._arrange)

    def __getitem__(self, body: Body) -> BodyCell:
        return self._cells[body]

    def show_readings(self, readings: Sequence[BodyReading], in_hand: Body | None) -> None:
        """Show the readings of a moment, and which body is in hand."""
        for reading in readings:
            self._cells[reading.body].show_reading(reading, in_hand=reading.body is in_hand)
        self._down = frozenset(each.body for each in readings if not each.is_up and each.body is not in_hand)
        self.below.setText(all_below_words([each for each in readings if each.body in self._down]))
        self._show_some()

    def fold(self, folded: bool) -> None:
        """Show only how high and where of what is up, or everything of all."""
        if folded == self._is_folded:
            return
        self._is_folded = folded
        for cell in self._cells.values():
            cell.fold(folded)
            self._line.removeWidget(cell)
            self._grid.removeWidget(cell)
            if folded:
                self._line.addWidget(cell)
        if folded:
            # It comes last.
            self._line.removeWidget(self.below)
            self._line.addWidget(self.below)
        else:
            self._columns = 0
            self._arrange()
        self._wide.setVisible(not folded)
        self._low.setVisible(folded)
        self._show_some()

    def _show_some(self) -> None:
        for body, cell in self._cells.items():
            cell.setVisible(not (self._is_folded and body in self._down))
        self.below.setVisible(bool(self._is_folded and self.below.text()))
        self.updateGeometry()

    def _arrange(self) -> None:
        """Set the cells in one row, or in two where letters are too large for that."""
        if self._is_folded:
            return
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
