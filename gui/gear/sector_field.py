"""A small table of the sky that a site hides or spoils, one sector a row, edited by typing."""

from typing import Any, TypeVar

from PySide6.QtCore import QEvent, QSignalBlocker, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from core.gear.numbers import parse_within
from core.problems import ProblemsError
from core.sky.site import BlockedSky, WarmAir
from core.words.controls import SECTORS
from core.words.gear_edits import ROW_PROBLEM
from core.words.names import as_sentence
from core.words.tips import TYPE_SECTORS
from gui.widgets.field import Choice, Field, Reading
from gui.widgets.key_names import with_own_keys
from gui.widgets.readings import figure, range_of

Sector = BlockedSky | WarmAir
S = TypeVar("S", BlockedSky, WarmAir)

_FIGURES = ("azimuth_from_deg", "azimuth_to_deg", "below_altitude_deg")
_HEADINGS = ("From", "To", "Below", "What")
_LABELS = dict(zip(_FIGURES, ("From", "To", "Below"), strict=True))
_WHAT = 3
_HEATED = 4


class SectorTable(QTableWidget):
    """The rows, with an empty one at the end to type the next sector in.

    Delete empties a cell, Ctrl+Delete takes a row away, as in the picture of the horizon.
    """

    def __init__(self, has_heated: bool, parent: QWidget | None = None) -> None:
        headings = [*_HEADINGS, "Heated"] if has_heated else list(_HEADINGS)
        super().__init__(0, len(headings), parent)
        self.setHorizontalHeaderLabels(headings)
        self.verticalHeader().hide()
        self.setShowGrid(True)
        self.setTabKeyNavigation(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        # Coming by with Tab opens no editor: that would keep the keyboard in the table.
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(
            trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked | trigger.SelectedClicked
        )
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(_WHAT, QHeaderView.ResizeMode.Stretch)

    def texts(self, row: int) -> list[str]:
        """Return what stands in a row, the box as ``yes`` or nothing."""
        cells = [self.item(row, column) for column in range(self.columnCount())]
        texts = [cell.text().strip() if cell else "" for cell in cells]
        if len(texts) > _HEATED and (box := cells[_HEATED]) is not None:
            texts[_HEATED] = "yes" if box.checkState() is Qt.CheckState.Checked else ""
        return texts

    def set_rows(self, rows: list[list[str]]) -> None:
        """Show these rows and an empty one after them."""
        with QSignalBlocker(self):
            self.setRowCount(0)
            for texts in [*rows, []]:
                self._append(texts)
            self.fit()

    def keep_empty_row(self) -> None:
        """See to it that the last row is an empty one."""
        if any(self.texts(self.rowCount() - 1)):
            with QSignalBlocker(self):
                self._append([])
                self.fit()

    def fit(self) -> None:
        """Take the height of the rows, so that the form scrolls and not the table."""
        rows = sum(self.rowHeight(row) for row in range(self.rowCount()))
        self.setFixedHeight(rows + self.horizontalHeader().sizeHint().height() + 2 * self.frameWidth() + 4)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self.resizeRowsToContents()
            self.fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        control = Qt.KeyboardModifier.ControlModifier
        # Qt may give none, whatever its types say.
        cell: object = self.currentItem()
        if event.key() == Qt.Key.Key_Delete and event.modifiers() & control and self.currentRow() >= 0:
            self.removeRow(self.currentRow())
            if self.rowCount() == 0:
                self._append([])
            self.keep_empty_row()
            self.fit()
            self.cellChanged.emit(-1, -1)
        elif event.key() == Qt.Key.Key_Delete:
            if isinstance(cell, QTableWidgetItem) and cell.column() != _HEATED:
                cell.setText("")
        else:
            super().keyPressEvent(event)

    def _append(self, texts: list[str]) -> None:
        row = self.rowCount()
        self.insertRow(row)
        for column in range(self.columnCount()):
            text = texts[column] if column < len(texts) else ""
            item = QTableWidgetItem("" if column == _HEATED else text)
            if column == _HEATED:
                item.setFlags(
                    Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsUserCheckable | Qt.ItemFlag.ItemIsSelectable
                )
                item.setCheckState(Qt.CheckState.Checked if text else Qt.CheckState.Unchecked)
            elif column < _WHAT:
                item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.setItem(row, column, item)


class SectorField(Field):
    """Sectors of blocked sky, or of warm air."""

    def __init__(self, name: str, label: str, sector: type[Sector], *, parent: QWidget | None = None) -> None:
        super().__init__(name, label, parent=parent)
        self._sector = sector
        self._kept: tuple[Sector, ...] = ()
        self._table = SectorTable(sector is BlockedSky, self)
        self._table.setAccessibleName(SECTORS.format(label=label))
        self._table.setToolTip(with_own_keys(TYPE_SECTORS))
        self._row.addWidget(self._table)
        self.setFocusProxy(self._table)
        self._table.cellChanged.connect(lambda _row, _column: self._on_changed())
        self.reset()

    @property
    def editor(self) -> QTableWidget:
        return self._table

    @property
    def reading(self) -> Reading[tuple[Sector, ...]]:
        sectors = []
        for row in range(self._table.rowCount()):
            texts = self._table.texts(row)
            if any(texts):
                try:
                    sectors.append(self._parse(texts))
                except ProblemsError as error:
                    return Reading(
                        problem=as_sentence(
                            ROW_PROBLEM.format(number=row + 1, problem=error.problems[0].what)
                        )
                    )
        return Reading(tuple(sectors))

    @property
    def unaccepted(self) -> str | None:
        return None if self.reading.is_good else self.entry

    @property
    def entry(self) -> str | None:
        rows = [self._table.texts(row) for row in range(self._table.rowCount())]
        return "\n".join("\t".join(row) for row in rows if any(row)) or None

    def restore(self, text: str) -> None:
        rows = [line.split("\t") for line in text.splitlines()]
        self._table.set_rows([row for row in rows if any(row)])
        self.say(self.reading.problem)

    def sync(self, value: object) -> None:
        assert isinstance(value, tuple)
        reading = self.reading
        is_news = value != self._kept
        self._kept = value
        if (reading.is_good and reading.value != value) or (is_news and not reading.is_good):
            self._table.set_rows([_texts_of(sector) for sector in value])
            self.say("")

    def reset(self) -> None:
        self._kept = ()
        self._table.set_rows([])
        self.say("")

    def choose(self, choice: Choice) -> None:
        """Nothing is ever asked here."""

    def _on_changed(self) -> None:
        self._table.keep_empty_row()
        self.say(self.reading.problem)
        # Each cell is a step of its own.
        self.entered.emit()
        self.edited.emit()

    def _parse(self, texts: list[str]) -> Sector:
        figures: dict[str, Any] = {}
        for name, text in zip(_FIGURES, texts, strict=False):
            allowed = range_of(self._sector, name)
            figures[name] = parse_within(text.rstrip("°"), allowed, what=f"“{_LABELS[name]}”")
        if self._sector is WarmAir:
            return WarmAir(what=texts[_WHAT], **figures)
        return BlockedSky(what=texts[_WHAT], heated=bool(texts[_HEATED]), **figures)


def _texts_of(sector: Sector) -> list[str]:
    texts = [*(figure(getattr(sector, name)) for name in _FIGURES), sector.what]
    if isinstance(sector, BlockedSky):
        texts.append("yes" if sector.heated else "")
    return texts
