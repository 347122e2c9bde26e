"""Every power of the scope in hand as a table: one row for each rung of its ladder."""

from collections.abc import Callable
from typing import Any

from attrs import frozen
from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from core.kit.ladder import Ladder, Rung, Standing
from core.kit.rounding import field_text, power_text, pupil_text

NO_INDEX = QModelIndex()
SORT_ROLE = Qt.ItemDataRole.UserRole
RUNG_ROLE = Qt.ItemDataRole.UserRole + 1

AnyIndex = QModelIndex | QPersistentModelIndex


@frozen
class Column:
    """One column: its heading, what is shown of a rung, by what it sorts, and its plain figure to copy."""

    heading: str
    text: Callable[[Rung], str]
    sorts_by: Callable[[Rung], Any]
    copied_heading: str
    copied: Callable[[Rung], str]
    is_figure: bool = True


def _figure(value: float | None, digits: int) -> str:
    return "" if value is None else f"{value:.{digits}g}"


def _field(rung: Rung) -> str:
    return "unknown" if rung.true_field_deg is None else field_text(rung.true_field_deg)


COLUMNS = (
    Column(
        "Power", lambda rung: power_text(rung.power), lambda rung: rung.power,
        "Power", lambda rung: _figure(rung.power, 4),
    ),
    Column(
        "Eyepiece", lambda rung: rung.label, lambda rung: rung.label.casefold(),
        "Eyepiece and Barlow", lambda rung: rung.label, is_figure=False,
    ),
    Column(
        "Exit pupil", lambda rung: pupil_text(rung.exit_pupil_mm), lambda rung: rung.exit_pupil_mm,
        "Exit pupil, mm", lambda rung: _figure(rung.exit_pupil_mm, 3),
    ),
    Column(
        "Field", _field, lambda rung: rung.true_field_deg or 0.0,
        "True field, degrees", lambda rung: _figure(rung.true_field_deg, 3),
    ),
    Column(
        "In words", lambda rung: " ".join(words_about(rung)), lambda rung: len(rung.notices),
        "Notices", lambda rung: " ".join(words_about(rung)), is_figure=False,
    ),
)  # fmt: skip

# The column of words, which a view may show in another way.
WORDS = len(COLUMNS) - 1


def words_about(rung: Rung) -> tuple[str, ...]:
    """Return what deserves a word about a rung: its notices, and what else gives nearly the same power."""
    words = list(rung.notices)
    if rung.alternatives:
        others = ", ".join(f"{other.label} ({power_text(other.power)})" for other in rung.alternatives)
        words.append(f"Nearly the same: {others}.")
    return tuple(words)


class PowersModel(QAbstractTableModel):
    """The rungs of a ladder, lowest power first; ``show`` brings in another ladder."""

    def __init__(self) -> None:
        super().__init__()
        self.ladder: Ladder | None = None
        self._rungs: tuple[Rung, ...] = ()

    def show(self, ladder: Ladder | None) -> None:
        """Show the rungs of a ladder, or none."""
        self.beginResetModel()
        self.ladder = ladder
        self._rungs = ladder.rungs if ladder else ()
        self.endResetModel()

    def rowCount(self, parent: AnyIndex = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(self._rungs)

    def columnCount(self, parent: AnyIndex = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(COLUMNS)

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401 - by role
        if not index.isValid():
            return None
        rung, column = self._rungs[index.row()], COLUMNS[index.column()]
        if role == Qt.ItemDataRole.DisplayRole:
            return self._shown(rung, index.column())
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.is_figure else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.AccessibleDescriptionRole:
            return self._shown(rung, WORDS)
        if role == SORT_ROLE:
            return column.sorts_by(rung)
        return rung if role == RUNG_ROLE else None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:  # noqa: ANN401 - by role
        if orientation is Qt.Orientation.Vertical:
            return None
        column = COLUMNS[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.heading
        if role == Qt.ItemDataRole.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.is_figure else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return None

    def _shown(self, rung: Rung, column: int) -> str:
        text = COLUMNS[column].text(rung)
        place = self.place_of(rung) if column == WORDS else ""
        return f"{place} {text}".strip()

    def place_of(self, rung: Rung) -> str:
        """Return what part the rung plays tonight: where to start, how far to climb, or nothing."""
        if self.ladder is None:
            return ""
        is_start, is_top = rung.power == self.ladder.start, rung.power == self.ladder.climb_to
        if is_start and is_top:
            return "Start here and stay."
        if is_start:
            return "Start here."
        if is_top:
            return "Climb to here."
        return "Low for a planet." if rung.standing is Standing.BELOW else ""
