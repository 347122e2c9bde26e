"""The table of powers: the figures of each rung in one line, and under them what deserves a word."""

import math
from collections.abc import Sequence

from attrs import frozen
from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import (
    QFont,
    QFontMetrics,
    QFontMetricsF,
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from core.gear.eye import Eye
from core.ladder.ladder import Ladder
from core.words.tips import SORT_POWERS
from core.words.units import Units
from gui.gear.powers_columns import COLUMNS, EYEPIECE, LEFT_OUT_FIRST, POWER, WORDS
from gui.gear.powers_entries import Entry
from gui.gear.powers_model import ENTRY_ROLE, PowersModel
from gui.gear.spreadsheet import tab_separated
from gui.widgets.key_names import with_own_keys
from gui.widgets.roomy_delegate import ABOVE_PX, SIDE_PX, RoomyDelegate, ink
from gui.widgets.wrapped_text import draw_lines, whole_sentences

# A row shows this many lines of words, or all of them where the table has room; for the row in hand all of
# them stand under the table.
_MOST_LINES = 2
_ALL_LINES = 12
_LEAST_LINES = 5
_MOST_EYEPIECE_LETTERS = 24
_SMALLER = 0.9


@frozen
class _Words:
    """The small print of a row: its lines, how far below the top they begin, and the height of it all."""

    lines: list[str]
    below_px: int
    height_px: int


class PowersTable(QTableView):
    """Every power of a ladder; the row in hand stays in hand when the figures change.

    In a narrow place some columns of figures are left out; copied rows have them all.

    Keys: 1 to 7 sort by a column, once more the other way round; Ctrl+C copies.

    Signals
    -------
    row_changed
        Another row is in hand, or none.
    """

    row_changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows = PowersModel()
        self._words: list[_Words] = []
        # Most rows stay as they were from one key to the next.
        # By how many lines the words may take.
        self._words_known: dict[int, dict[tuple[str, str], _Words]] = {}
        self._known_for: tuple[object, ...] = ()
        self._is_fitting = False
        self._fitted_to: QFont | None = None
        self.setModel(self._rows)
        self._delegate = RoomyDelegate(_MOST_LINES, self)
        self.setItemDelegate(self._delegate)
        self.setAccessibleName("What the scope in hand gives: every power")
        self.setToolTip(with_own_keys(SORT_POWERS))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().hide()
        self.verticalHeader().setMinimumSectionSize(1)
        self.setColumnHidden(WORDS, True)
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setSectionsClickable(True)
        header.setMinimumSectionSize(1)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        header.sectionClicked.connect(self.sort_by)
        self.selectionModel().currentRowChanged.connect(lambda *_rows: self.row_changed.emit())

    def minimumSizeHint(self) -> QSize:
        lines = _LEAST_LINES * self.fontMetrics().lineSpacing()
        return QSize(super().minimumSizeHint().width(), self.horizontalHeader().height() + lines)

    @property
    def whole_height(self) -> int:
        """The height at which all rows are seen with all of their words."""
        rows = sum(words.height_px for words in self._broken(self._shown_texts(), _ALL_LINES))
        return self.horizontalHeader().height() + rows + 2 * self.frameWidth()

    @property
    def entry(self) -> Entry | None:
        """The row in hand, or None."""
        index = self.currentIndex()
        entry = index.data(ENTRY_ROLE) if index.isValid() else None
        return entry if isinstance(entry, Entry) else None

    def entry_at(self, power: float | None) -> Entry | None:
        """Return the rung of a power, or None."""
        entries = (entry for entry in self._rows.entries if entry.same_as is None)
        return next((entry for entry in entries if entry.rung.power == power), None)

    def part_of(self, entry: Entry) -> str:
        """Return what part a row plays tonight."""
        return self._rows.part_of(entry)

    def show_ladder(self, ladder: Ladder | None, eye: Eye, units: Units) -> None:
        """Show another ladder as an eye sees it, told in some units, or none."""
        if ladder is self._rows.ladder and units == self._rows.units:
            return
        before = self.entry
        self._rows.show(ladder, eye, units)
        self._fit()
        if before is not None:
            self._choose(before.rung.label)

    def sort_by(self, column: int) -> None:
        """Sort by a column; once more turns the order round."""
        is_again = column == self._rows.sorted_by and self._rows.goes_up
        before = self.entry
        self._rows.sort(column, Qt.SortOrder.DescendingOrder if is_again else Qt.SortOrder.AscendingOrder)
        self._fit()
        if before is not None:
            self._choose(before.rung.label)

    def copy(self) -> None:
        """Put the chosen rows, or all of them, on the clipboard for a spreadsheet."""
        chosen = sorted({index.row() for index in self.selectionModel().selectedRows()})
        entries = [self._rows.entries[row] for row in chosen or range(self._rows.rowCount())]
        rows = [[column.copied(entry) for column in COLUMNS] for entry in entries]
        headings = [column.copied_heading for column in COLUMNS]
        QGuiApplication.clipboard().setText(tab_separated([headings, *rows]))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        number = event.key() - Qt.Key.Key_1.value
        is_bare = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        elif is_bare and 0 <= number < WORDS and not self.isColumnHidden(number):
            self.sort_by(number)
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        is_dressed = event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange)
        # Another palette dresses it anew and leaves its letters as they were.
        if is_dressed and self.font() != self._fitted_to:
            self._fit()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        painter = QPainter(self.viewport())
        painter.setFont(self._small_font())
        left = self._words_left()
        for row, words in enumerate(self._words):
            top = self.rowViewportPosition(row)
            if words.lines and top < self.viewport().height() and top + words.height_px > 0:
                painter.setPen(ink(is_chosen=self.selectionModel().isRowSelected(row), is_faint=True))
                draw_lines(painter, words.lines, left, top + words.below_px)
        painter.end()

    def _fit(self) -> None:
        """Give columns and rows their sizes; once more when a scroll bar comes or goes by that."""
        if self._is_fitting:
            return
        self._is_fitting = True
        self._fitted_to = self.font()
        for _attempt in range(2):
            width = self.viewport().width()
            self._fit_columns(width)
            self._fit_rows()
            if self.viewport().width() == width:
                break
        self._is_fitting = False
        self.viewport().update()

    def _fit_columns(self, room: int) -> None:
        """Give each column the width of its figures, and what is left to the eyepiece."""
        widths = {column: self._natural_width(column) for column in range(WORDS) if column != EYEPIECE}
        # A long name may take two lines.
        most = _MOST_EYEPIECE_LETTERS * self.fontMetrics().averageCharWidth()
        least = min(self._natural_width(EYEPIECE), most)
        for column in LEFT_OUT_FIRST:
            is_left_out = sum(widths.values()) + least > room
            if is_left_out:
                del widths[column]
            if self.isColumnHidden(column) != is_left_out:
                self.setColumnHidden(column, is_left_out)
        widths[EYEPIECE] = max(room - sum(widths.values()), 1)
        for column, width in widths.items():
            if self.columnWidth(column) != width:
                self.setColumnWidth(column, width)

    def _natural_width(self, column: int) -> int:
        # Rounded up: in a pixel less than that a name breaks into two lines.
        metrics = QFontMetricsF(self.font())
        texts = [COLUMNS[column].text(entry) for entry in self._rows.entries]
        widest = max(map(metrics.horizontalAdvance, [*texts, self._rows.heading(column)]))
        return math.ceil(widest) + 2 * SIDE_PX

    def _fit_rows(self) -> None:
        """Break the words into lines and give each row its height."""
        shown = self._shown_texts()
        for most_lines in (_ALL_LINES, _MOST_LINES):
            self._words = self._broken(shown, most_lines)
            if sum(words.height_px for words in self._words) <= self.viewport().height():
                break
        for row, words in enumerate(self._words):
            if self.rowHeight(row) != words.height_px:
                self.setRowHeight(row, words.height_px)

    def _shown_texts(self) -> list[tuple[str, str]]:
        """Return eyepiece and words of each row."""
        rows = self._rows
        return [(rows.shown(entry, EYEPIECE), rows.shown(entry, WORDS)) for entry in rows.entries]

    def _broken(self, shown: Sequence[tuple[str, str]], most_lines: int) -> list[_Words]:
        """Break eyepieces and words into lines; a row whose texts are as before keeps its own."""
        known_for = (
            self.font().toString(),
            self.columnWidth(EYEPIECE),
            self._words_left(),
            self.viewport().width(),
        )
        if known_for != self._known_for:
            self._known_for = known_for
            self._words_known.clear()
        known = self._words_known.get(most_lines, {})
        broken = [known.get(texts) or self._fit_words(*texts, most_lines) for texts in shown]
        self._words_known[most_lines] = dict(zip(shown, broken, strict=True))
        return broken

    def _fit_words(self, label: str, words: str, most_lines: int) -> _Words:
        names = self._delegate.lines(label, self.font(), self.columnWidth(EYEPIECE))
        small = self._small_font()
        room = self.viewport().width() - self._words_left() - SIDE_PX
        lines = whole_sentences(words, small, room, most_lines)
        below_px = ABOVE_PX + len(names) * self.fontMetrics().lineSpacing()
        height_px = below_px + len(lines) * QFontMetrics(small).lineSpacing() + ABOVE_PX
        return _Words(lines, below_px, height_px)

    def _words_left(self) -> int:
        """Return where the words begin: under the eyepiece."""
        return self.columnWidth(POWER) + SIDE_PX

    def _small_font(self) -> QFont:
        font = QFont(self.font())
        font.setPointSizeF(font.pointSizeF() * _SMALLER)
        return font

    def choose_power(self, power: float) -> None:
        """Take the row of a power in hand."""
        entry = self.entry_at(power)
        if entry is not None:
            self._choose(entry.rung.label)

    def _choose(self, label: str) -> None:
        for row, entry in enumerate(self._rows.entries):
            if entry.rung.label == label:
                self.setCurrentIndex(self._rows.index(row, 0))
                return
