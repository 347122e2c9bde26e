"""Every power of the scope in hand as a table: a row for each rung of its ladder and each alternative."""

from collections.abc import Callable
from typing import Any

from attrs import frozen
from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from core.gear.eye import Eye
from core.gear.optics import moons_across, visible_detail_arcsec
from core.ladder.ladder import Ladder, Rung, rung_with
from core.words.ladder import part_sentence
from core.words.notices import factor_text, notice_texts, rung_notice_texts
from core.words.powers import same_as_words, same_words
from core.words.quantities import (
    UNKNOWN,
    drift_text,
    field_text,
    figures_text,
    power_text,
    pupil_text,
    rounded_text,
)

NO_INDEX = QModelIndex()
ENTRY_ROLE = Qt.ItemDataRole.UserRole

AnyIndex = QModelIndex | QPersistentModelIndex


@frozen
class Entry:
    """A row: a rung, or an alternative as a rung of its own with the one it is ``same_as``."""

    rung: Rung
    ladder: Ladder
    same_as: Rung | None = None

    @property
    def detail_arcsec(self) -> float:
        """The finest detail that the power shows, air left out."""
        return visible_detail_arcsec(self.ladder.scope.aperture_mm, self.rung.power)

    @property
    def moons(self) -> float | None:
        """How many Moons fit across the field."""
        field_deg = self.rung.true_field_deg
        return None if field_deg is None else moons_across(field_deg)


@frozen
class PowersColumn:
    """One column: its heading and what that means, what is shown, by what it sorts, and what is copied."""

    heading: str
    text: Callable[[Entry], str]
    sorts_by: Callable[[Entry], Any]
    copied_heading: str
    copied: Callable[[Entry], str]
    meaning: str = ""
    is_figure: bool = True


def _figure(value: float | None, digits: int) -> str:
    return "" if value is None else figures_text(value, digits)


def _moons(entry: Entry) -> str:
    return UNKNOWN if entry.moons is None else rounded_text(entry.moons, 1)


def drift_words(entry: Entry) -> str:
    """Return how long a planet takes through the field, or why it does not."""
    return drift_text(entry.rung.drift_s, driven=entry.ladder.scope.driven)


COLUMNS = (
    PowersColumn(
        "Power", lambda entry: power_text(entry.rung.power), lambda entry: entry.rung.power,
        "Power", lambda entry: _figure(entry.rung.power, 4),
    ),
    PowersColumn(
        "Eyepiece", lambda entry: entry.rung.label, lambda entry: entry.rung.label.casefold(),
        "Eyepiece and Barlow", lambda entry: entry.rung.label, is_figure=False,
    ),
    PowersColumn(
        "Exit pupil", lambda entry: pupil_text(entry.rung.exit_pupil_mm),
        lambda entry: entry.rung.exit_pupil_mm,
        "Exit pupil, mm", lambda entry: _figure(entry.rung.exit_pupil_mm, 3),
        "Width of the beam that leaves the eyepiece",
    ),
    PowersColumn(
        "Field", lambda entry: field_text(entry.rung.true_field_deg),
        lambda entry: entry.rung.true_field_deg or 0.0,
        "True field, degrees", lambda entry: _figure(entry.rung.true_field_deg, 3),
        "How much sky is seen",
    ),
    PowersColumn(
        "Moons", _moons, lambda entry: entry.moons or 0.0,
        "Moons across the field", lambda entry: _figure(entry.moons, 3),
        "How many Moons fit side by side across the field",
    ),
    PowersColumn(
        "Detail", lambda entry: f"{rounded_text(entry.detail_arcsec, 1)}″", lambda entry: entry.detail_arcsec,
        "Finest detail before the air, arcsec", lambda entry: _figure(entry.detail_arcsec, 3),
        "Finest detail that this power shows, before the air blurs it: 232″ over the power, and never finer "
        "than the aperture resolves (Dawes, 116″ over its mm)",
    ),
    PowersColumn(
        "Drift", drift_words, lambda entry: entry.rung.drift_s or 0.0,
        "Drift from edge to edge, s", lambda entry: _figure(entry.rung.drift_s, 3),
        "How long a planet takes from edge to edge of the field without a drive",
    ),
    PowersColumn(
        "In words", lambda entry: " ".join(words_about(entry)), lambda entry: len(words_about(entry)),
        "Notices", lambda entry: " ".join(words_about(entry)), is_figure=False,
    ),
)  # fmt: skip

# The column of words, which a view may show in another way, and those to leave out first in a narrow one.
WORDS = len(COLUMNS) - 1
EYEPIECE = 1
LEFT_OUT_FIRST = (5, 4, 6)


def words_about(entry: Entry) -> tuple[str, ...]:
    """Return what deserves a word about a row; an alternative says only what is not said of its rung."""
    if entry.same_as is None:
        return rung_notice_texts(entry.rung, entry.ladder)
    others = [notice for notice in entry.rung.notices if notice not in entry.same_as.notices]
    return (same_as_words(entry.same_as), *notice_texts(others))


def words_in_full(entry: Entry) -> tuple[str, ...]:
    """Return all that deserves a word about a row in hand: others like it, and how far its power is known."""
    words = [*words_about(entry)]
    if entry.rung.alternatives:
        words.append(same_words(entry.rung.alternatives))
    # What was measured, and what holds of every reducer, is among the notices already.
    marked = (
        barlow
        for barlow in entry.rung.combination.barlows
        if not barlow.is_reducer and barlow.measured_factor is None
    )
    words += [factor_text(barlow) for barlow in marked]
    return tuple(words)


def entries_of(ladder: Ladder, eye: Eye) -> tuple[Entry, ...]:
    """Return the rows of a ladder, lowest power first, alternatives after their rung."""
    entries = []
    for rung in ladder.rungs:
        entries.append(Entry(rung, ladder))
        entries += [
            Entry(rung_with(ladder, other, eye=eye), ladder, same_as=rung) for other in rung.alternatives
        ]
    return tuple(entries)


class PowersModel(QAbstractTableModel):
    """The rows of a ladder, sorted by one column, which an arrow in its heading tells."""

    def __init__(self) -> None:
        super().__init__()
        self.ladder: Ladder | None = None
        self.entries: tuple[Entry, ...] = ()
        self.sorted_by = 0
        self.goes_up = True

    def show(self, ladder: Ladder | None, eye: Eye) -> None:
        """Show the rows of a ladder as an eye sees them, or none."""
        self.beginResetModel()
        self.ladder = ladder
        self.entries = self._in_order(entries_of(ladder, eye) if ladder else ())
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
