"""The figures of two scopes side by side as a table."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from core.ladder.winner import Winner
from core.words.comparison_rows import FigureRow
from core.words.tips import COPY_FIGURES
from gui.gear.spreadsheet import tab_separated
from gui.widgets.key_names import with_own_keys
from gui.widgets.roomy_delegate import RoomyDelegate
from gui.widgets.wrapped_text import wrapped_lines

_MOST_LINES = 12
_HEADING_SIDE_PX = 7  # of the style sheet, and the line below


class FiguresTable(QTableWidget):
    """The figures of both scopes; the better one is set bold, and Ctrl+C copies all of them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, 3, parent)
        self._texts: list[tuple[str, str, str]] = []
        self.setAccessibleName("Figures of both scopes")
        self.setToolTip(with_own_keys(COPY_FIGURES))
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setItemDelegate(RoomyDelegate(_MOST_LINES, self))
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setSectionsClickable(False)
        header.setTextElideMode(Qt.TextElideMode.ElideNone)
        alignment = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        header.setDefaultAlignment(alignment | Qt.AlignmentFlag(Qt.TextFlag.TextWordWrap))
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        # Only then has every column its width, on which the lines of a cell depend.
        header.geometriesChanged.connect(self._fit)
        header.sectionResized.connect(lambda *_sizes: self._fit())

    def show_rows(self, headings: tuple[str, str, str], rows: Sequence[FigureRow]) -> None:
        """Show these figures under these headings."""
        self._texts = [headings, *((row.label, row.a, row.b) for row in rows)]
        self.setHorizontalHeaderLabels(headings)
        self.setRowCount(len(rows))
        for number, row in enumerate(rows):
            for column, text in enumerate((row.label, row.a, row.b)):
                item = QTableWidgetItem(text)
                item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
                font = item.font()
                font.setBold(row.winner is (None, Winner.A, Winner.B)[column] and row.winner is not None)
                item.setFont(font)
                self.setItem(number, column, item)
        self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Copy):
            self.copy()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        # Only now has every column its width, on which the lines of a cell depend.
        self._fit()

    def copy(self) -> None:
        """Put all the figures on the clipboard for a spreadsheet."""
        QGuiApplication.clipboard().setText(tab_separated(self._texts))

    def _fit(self) -> None:
        """Take the height of all rows, so that the page scrolls and not the table."""
        self.resizeRowsToContents()
        header = self.horizontalHeader()
        metrics = header.fontMetrics()
        names = self._texts[0] if self._texts else ()
        lines = max(
            (
                len(wrapped_lines(name, header.font(), header.sectionSize(column) - 2 * _HEADING_SIDE_PX, 3))
                for column, name in enumerate(names)
            ),
            default=1,
        )
        header.setFixedHeight(max(lines, 1) * metrics.lineSpacing() + 2 * _HEADING_SIDE_PX)
        rows = sum(self.rowHeight(row) for row in range(self.rowCount()))
        self.setFixedHeight(rows + header.height() + 2 * self.frameWidth() + 4)
