"""Every power of the scope in hand as a table: a row for each rung of its ladder and each alternative."""

from typing import Any

from PySide6.QtCore import QAbstractTableModel, Qt

from core.gear.eye import Eye
from core.ladder.ladder import Ladder
from core.words.ladder import part_sentence
from core.words.units import USUAL_UNITS, Units
from gui.gear.powers_columns import COLUMNS, POWER, WORDS, PowersColumn
from gui.gear.powers_entries import Entry, entries_of
from gui.widgets.model_index import NO_INDEX, AnyIndex

ENTRY_ROLE = Qt.ItemDataRole.UserRole


class PowersModel(QAbstractTableModel):
    """The rows of a ladder, sorted by one column, which an arrow in its heading tells."""

    def __init__(self) -> None:
        super().__init__()
        self.ladder: Ladder | None = None
        self.units = USUAL_UNITS
        self.entries: tuple[Entry, ...] = ()
        self.sorted_by = POWER
        self.goes_up = True

    def show(self, ladder: Ladder | None, eye: Eye, units: Units) -> None:
        """Show the rows of a ladder as an eye sees them, told in some units, or none."""
        self.beginResetModel()
        self.ladder, self.units = ladder, units
        self.entries = self._in_order(entries_of(ladder, eye, units) if ladder else ())
        self.endResetModel()

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        self.beginResetModel()
        self.sorted_by, self.goes_up = column, order is Qt.SortOrder.AscendingOrder
        self.entries = self._in_order(self.entries)
        self.endResetModel()

    def _in_order(self, entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
        by_power = sorted(entries, key=lambda entry: entry.rung.power)
        key = COLUMNS[self.sorted_by].sorts_by
        return tuple(sorted(by_power, key=key, reverse=not self.goes_up))

    def rowCount(self, parent: AnyIndex = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(self.entries)

    def columnCount(self, parent: AnyIndex = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(COLUMNS)

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401 - by role
        if not index.isValid():
            return None
        entry, column = self.entries[index.row()], COLUMNS[index.column()]
        if role == Qt.ItemDataRole.DisplayRole:
            return self.shown(entry, index.column())
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _alignment(column)
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            return self.shown(entry, WORDS)
        return entry if role == ENTRY_ROLE else None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:  # noqa: ANN401 - by role
        if orientation is Qt.Orientation.Vertical:
            return None
        column = COLUMNS[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return self.heading(section)
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return column.meaning
        return _alignment(column) if role == Qt.ItemDataRole.TextAlignmentRole else None

    def heading(self, column: int) -> str:
        """Return what stands over a column."""
        words = [COLUMNS[column].heading]
        if column == self.sorted_by:
            words.append("↑" if self.goes_up else "↓")
        return " ".join(words)

    def shown(self, entry: Entry, column: int) -> str:
        """Return what stands in a cell."""
        text = COLUMNS[column].text(entry)
        part = self.part_of(entry) if column == WORDS else ""
        return " ".join(filter(None, (part, text)))

    def part_of(self, entry: Entry) -> str:
        """Return what part a row plays tonight: where to start, how far to climb, or nothing."""
        if self.ladder is None or entry.same_as is not None:
            return ""
        return part_sentence(entry.rung, self.ladder)


def _alignment(column: PowersColumn) -> Qt.AlignmentFlag:
    side = Qt.AlignmentFlag.AlignRight if column.is_figure else Qt.AlignmentFlag.AlignLeft
    return side | Qt.AlignmentFlag.AlignVCenter
