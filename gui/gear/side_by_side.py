"""Two scopes under the same sky: both ladders on one scale, the figures, and what they come to."""

from matplotlib.figure import Figure
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QButtonGroup,
    QFrame,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from core.drawing.palette import load_palette
from core.kit.compare import Comparison, Winner
from gui.gear.comparison_rows import Row, rows_of
from gui.gear.eyepiece_pair import EyepiecePair
from gui.gear.readings import Units
from gui.gear.spreadsheet import tab_separated
from gui.gear.words import aim_words
from gui.state import AppState
from gui.widgets.canvas import Canvas
from gui.widgets.pickers import Picker
from gui.widgets.plain_label import PlainLabel
from gui.widgets.roomy_delegate import RoomyDelegate

_MARGIN_PX = 12
_GAP_PX = 16
_MOST_LINES = 12


class FiguresTable(QTableWidget):
    """The figures of both scopes; the better one is set bold, and Ctrl+C copies all of them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, 3, parent)
        self._texts: list[tuple[str, str, str]] = []
        self.setAccessibleName("Figures of both scopes")
        self.setToolTip("Ctrl+C copies the table for a spreadsheet. The better figure is set bold.")
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
        header.setTextElideMode(Qt.TextElideMode.ElideRight)
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        header.sectionResized.connect(lambda *_sizes: self._fit())

    def show_rows(self, headings: tuple[str, str, str], rows: tuple[Row, ...]) -> None:
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

    def copy(self) -> None:
        """Put all the figures on the clipboard for a spreadsheet."""
        QGuiApplication.clipboard().setText(tab_separated(self._texts))

    def _fit(self) -> None:
        """Take the height of all rows, so that the page scrolls and not the table."""
        self.resizeRowsToContents()
        rows = sum(self.rowHeight(row) for row in range(self.rowCount()))
        self.setFixedHeight(rows + self.horizontalHeader().sizeHint().height() + 2 * self.frameWidth() + 4)


class SideBySide(QWidget):
    """The page of two scopes; ``refresh`` follows the state.

    Signals
    -------
    left
        The person goes back.
    """

    left = Signal()

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.state = state
        self.back = QPushButton("Back to gear")
        self.back.setToolTip("Esc")
        self.a = Picker("First scope", letters=12)
        self.b = Picker("Second scope", letters=12)
        self.conditions = PlainLabel(role="small", wraps=True)
        self.canvas = Canvas(self._draw)
        self.canvas.setAccessibleName("Both ladders on one scale of power")
        self.pair = EyepiecePair(state)
        self.pages = QStackedWidget()
        self.page_buttons = QButtonGroup(self)
        self.verdict = PlainLabel(wraps=True)
        self.verdict.setAccessibleName("What the comparison comes to")
        self.figures = FiguresTable()
        self._comparison: Comparison | None = None
        self._drawn: tuple[object, ...] = ()
        self._lay_out()
        self.back.clicked.connect(self.left)
        self.a.picked.connect(self._choose_a)
        self.b.picked.connect(self._choose_b)

    def refresh(self) -> None:
        """Show what the state gives now."""
        state = self.state
        scopes = [(scope.id, scope.name) for scope in state.profile.telescopes]
        self.a.show_items(scopes, state.scope.id if state.scope else None)
        self.b.show_items(scopes, state.other_scope.id if state.other_scope else None)
        self._comparison = comparison = state.comparison
        self._body.setVisible(comparison is not None)
        if comparison is None:
            self.conditions.setText("Two telescopes are needed to put side by side.")
            return
        ladder = comparison.a.ladder
        where = aim_words(ladder.aim)
        air = f"with a blur of {ladder.blur.overhead_arcsec:.2g}″ overhead ({ladder.blur.source.value})"
        self.conditions.setText(f"Both {where}, {air}. All figures are rules of thumb.")
        self.verdict.setText("\n\n".join(comparison.verdict))
        names = comparison.a.scope.name, comparison.b.scope.name
        self.figures.show_rows(("", *names), rows_of(comparison, Units(state.profile.preferences)))
        self.pair.refresh(comparison)
        drawn = (comparison, state.palette_name)
        if drawn != self._drawn:
            self._drawn = drawn
            self.canvas.redraw()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(10)
        head.addWidget(self.back)
        head.addWidget(PlainLabel("Side by side", role="heading"))
        head.addSpacing(8)
        head.addWidget(self.a, 1)
        head.addWidget(PlainLabel("and"))
        head.addWidget(self.b, 1)
        page = QWidget()
        page.setObjectName("page")
        right = QVBoxLayout(page)
        right.setContentsMargins(0, 0, 0, 0)
        right.setSpacing(10)
        right.addWidget(self.verdict)
        right.addWidget(self.figures)
        right.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidget(page)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._body = QWidget()
        body = QHBoxLayout(self._body)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(_GAP_PX)
        body.addLayout(self._lay_out_pages(), 11)
        body.addWidget(scroll, 10)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(_MARGIN_PX, _MARGIN_PX, _MARGIN_PX, _MARGIN_PX)
        layout.addLayout(head)
        layout.addWidget(self.conditions)
        layout.addWidget(self._body, 1)

    def _lay_out_pages(self) -> QVBoxLayout:
        """Return the drawings, one at a time, under a row of buttons that choose between them."""
        row = QHBoxLayout()
        row.setSpacing(4)
        for name, page in (("Ladders", self.canvas), ("In the eyepiece", self.pair)):
            number = self.pages.addWidget(page)
            button = QPushButton(name)
            button.setCheckable(True)
            button.setProperty("role", "page")
            self.page_buttons.addButton(button, number)
            row.addWidget(button)
        row.addStretch(1)
        self.page_buttons.button(0).setChecked(True)
        self.page_buttons.idClicked.connect(self.pages.setCurrentIndex)
        column = QVBoxLayout()
        column.setSpacing(4)
        column.addLayout(row)
        column.addWidget(self.pages, 1)
        return column

    def _draw(self, figure: Figure) -> None:
        from core.drawing.side_by_side import draw_two_ladders

        if self._comparison is not None:
            draw_two_ladders(figure, self._comparison, palette=load_palette(self.state.palette_name))

    def _choose_a(self, scope_id: str) -> None:
        """Take another first scope; one that was the second changes places with it."""
        first = self.state.scope
        if first is not None and self.state.other_scope is not None and self.state.other_scope.id == scope_id:
            self.state.set_other_scope(first.id)
        self.state.set_scope(scope_id)

    def _choose_b(self, scope_id: str) -> None:
        first, second = self.state.scope, self.state.other_scope
        if first is not None and first.id == scope_id and second is not None:
            self.state.set_scope(second.id)
        self.state.set_other_scope(scope_id)
