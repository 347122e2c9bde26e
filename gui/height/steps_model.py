"""The steps of the evening as rows that can be ticked off."""

from collections.abc import Sequence
from typing import Any

from attrs import frozen
from PySide6.QtCore import QAbstractListModel, QObject, Qt, Signal

from core.drawing.signs import Sign
from core.words.controls import EVENING_STEP
from gui.widgets.model_index import NO_INDEX, AnyIndex
from gui.widgets.plain_tip import plain_tip

ROW_ROLE = Qt.ItemDataRole.UserRole


@frozen(kw_only=True)
class StepRow:
    """One step as it is shown: ``heard`` is what those are told who cannot see it; ``is_next`` comes next.

    ``caution`` marks what concerns safety, which its ``sign`` and its weight tell.
    """

    key: str
    when: str
    title: str
    words: str
    heard: str
    is_done: bool
    sign: Sign
    is_next: bool = False
    caution: bool = False


class StepsModel(QAbstractListModel):
    """Rows of steps; a tick is sent on, and shows once the steps themselves have changed.

    Signals
    -------
    ticked
        The key of a step, and whether it is done.
    """

    ticked = Signal(str, bool)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._rows: tuple[StepRow, ...] = ()

    @property
    def rows(self) -> tuple[StepRow, ...]:
        """The rows in their order."""
        return self._rows

    def show_rows(self, rows: Sequence[StepRow]) -> None:
        """Show other rows; what is in hand stays in hand where the same steps are still there."""
        after = tuple(rows)
        if after == self._rows:
            return
        same = [row.key for row in after] == [row.key for row in self._rows]
        if same:
            self._rows = after
            self.dataChanged.emit(self.index(0), self.index(len(after) - 1))
            return
        self.beginResetModel()
        self._rows = after
        self.endResetModel()

    def number_of(self, key: str) -> int | None:
        """Return the number of the row of a step, None without one."""
        return next((number for number, row in enumerate(self._rows) if row.key == key), None)

    def rowCount(self, parent: AnyIndex = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def flags(self, index: AnyIndex) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsUserCheckable

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401 - Qt's own
        if not index.isValid():
            return None
        row = self._rows[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return EVENING_STEP.format(times=row.when, title=row.title)
        if role == Qt.ItemDataRole.CheckStateRole:
            return Qt.CheckState.Checked if row.is_done else Qt.CheckState.Unchecked
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return row.heard
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(row.words)
        return row if role == ROW_ROLE else None

    def setData(self, index: AnyIndex, value: Any, role: int = Qt.ItemDataRole.EditRole) -> bool:  # noqa: ANN401
        if role != Qt.ItemDataRole.CheckStateRole or not index.isValid():
            return False
        self.ticked.emit(self._rows[index.row()].key, Qt.CheckState(value) is Qt.CheckState.Checked)
        return True
