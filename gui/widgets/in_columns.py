"""Controls in columns, as many as there is room for."""

from collections.abc import Sequence

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QGridLayout, QWidget

from gui.widgets.in_room import InRoom

_GAP_PX = 6


class InColumns(QWidget):
    """Sets controls in at most so many columns.

    They follow each other down the columns, which are no wider than they must be; where they ``fill`` the
    width, across the rows.
    """

    def __init__(
        self, controls: Sequence[QWidget], *, most: int, fill: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._controls, self._most, self._fill = list(controls), most, fill
        self._shown = 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(_GAP_PX)
        self._arrange()
        InRoom(self, self._arrange)

    def minimumSizeHint(self) -> QSize:
        return QSize(self._widest(), super().minimumSizeHint().height())

    def _widest(self) -> int:
        return max(control.minimumSizeHint().width() for control in self._controls)

    def _arrange(self) -> None:
        fitting = (self.width() + _GAP_PX) // (self._widest() + _GAP_PX)
        columns = min(max(fitting, 1), self._most) if self.isVisible() else self._most
        if columns == self._shown:
            return
        self._shown = columns
        rows = -(-len(self._controls) // columns)
        for number, control in enumerate(self._controls):
            place = divmod(number, columns) if self._fill else (number % rows, number // rows)
            self._grid.addWidget(control, *place)
        for column in range(self._most + 1):
            stretches = column < columns if self._fill else column == columns
            self._grid.setColumnStretch(column, int(stretches))
        self.updateGeometry()
