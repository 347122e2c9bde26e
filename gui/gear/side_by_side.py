"""Two scopes under the same sky: both ladders on one scale, the figures, and what they come to."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QButtonGroup,
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from core.drawing.comparison_sheet import draw_comparison_sheet
from core.drawing.marks import Drawing, Page
from core.drawing.palette import PaletteName, load_palette
from core.drawing.side_by_side import draw_two_ladders
from core.ladder.compare import Comparison
from core.ladder.contenders import offered_picks
from core.problems import ProblemsError
from core.record.file_names import name_for_file
from core.words.advice import advice_text
from core.words.comparison import conditions_text, difference_texts
from core.words.comparison_rows import FigureRow, rows_of
from core.words.contenders import pick_names, used_with_words
from core.words.files import OUTPUT_NOT_SAVED, PICTURE_NOT_SAVED_TITLE, SAVED
from core.words.names import listed
from core.words.tips import CHOOSE_TWO
from core.words.units import Units
from gui.gear.comparison_file import write_sheet
from gui.gear.eyepiece_pair import EyepiecePair
from gui.gear.figures_table import FiguresTable
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.canvas import Canvas
from gui.widgets.combo_box import CalmComboBox
from gui.widgets.in_room import InRoom
from gui.widgets.pickers import Picker
from gui.widgets.plain_label import PlainLabel

_MARGIN_PX = 12
_GAP_PX = 16
# From so many letters across on there is room for drawings and figures beside each other.
_ROW_LETTERS, _ROW_LINES = 105, 48
# Longer names of telescopes end in dots.
_MOST_LETTERS = 20
# How high both are at least where there is not.
_DRAWING_LINES, _FIGURES_LINES = 18, 14
_KITS = ("their usual eyepieces", "my eyepieces")


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
        self.a = Picker("First scope", letters=12, most_letters=_MOST_LETTERS)
        self.b = Picker("Second scope", letters=12, most_letters=_MOST_LETTERS)
        self.swap = QPushButton("Swap")
        self.swap.setAccessibleName("Swap the two telescopes")
        self.save = QPushButton("Save picture")
        self.save.setToolTip("Ladders, pictures, verdict and figures on one page, as PNG, PDF or SVG")
        self.conditions = PlainLabel(role="small", wraps=True)
        self.usual_with = CalmComboBox()
        self.usual_with.setAccessibleName("Usual telescopes are used with")
        self.usual_with.addItems(_KITS)
        self.canvas = Canvas(self._draw)
        self.canvas.setAccessibleName("Both ladders on one scale of power")
        self.pair = EyepiecePair(state)
        self.pages = QStackedWidget()
        self.page_buttons = QButtonGroup(self)
        self.advice = PlainLabel(wraps=True)
        self.advice.setAccessibleName("Which of the two to take")
        self.verdict = PlainLabel(wraps=True)
        self.verdict.setAccessibleName("What else sets the two apart")
        self.figures = FiguresTable()
        self._comparison: Comparison | None = None
        self._rows: tuple[FigureRow, ...] = ()
        self._drawn: tuple[object, ...] = ()
        self._lay_out()
        InRoom(self, self._arrange)
        self.back.clicked.connect(self.left)
        self.swap.clicked.connect(state.swap_compared)
        self.save.clicked.connect(self._save)
        self.a.picked.connect(state.compare_first)
        self.b.picked.connect(state.compare_second)
        self.usual_with.activated.connect(lambda index: state.set_usual_eyepieces(index == 0))

    def refresh(self) -> None:
        """Show what the state gives now."""
        state, situation = self.state, self.state.situation
        for picker, pick, other in (
            (self.a, situation.first_pick, situation.second_pick),
            (self.b, situation.second_pick, situation.first_pick),
        ):
            offered = offered_picks(situation.profile, beside=other)
            picker.show_items(pick_names(offered, situation.profile), pick)
        self._show_usual()
        self._comparison = comparison = state.situation.comparison
        self._body.setVisible(comparison is not None)
        for button in (self.swap, self.save):
            button.setEnabled(comparison is not None)
        if comparison is None:
            self.conditions.setText(CHOOSE_TWO)
            return
        self.conditions.setText(self._conditions(comparison))
        self.advice.setText(advice_text(comparison.advice))
        self.verdict.setText("\n\n".join(difference_texts(comparison)))
        names = comparison.a.scope.name, comparison.b.scope.name
        units = Units(state.profile.preferences)
        self._rows = rows_of(comparison, units, to_buy=situation.compared_to_buy)
        self.figures.show_rows(("", *names), self._rows)
        self.pair.refresh(comparison)
        drawn = (comparison, situation.compared_wished, state.situation.palette_name)
        if drawn != self._drawn:
            self._drawn = drawn
            self.canvas.redraw()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        title, picks, under = QHBoxLayout(), QHBoxLayout(), QHBoxLayout()
        title.setSpacing(10)
        title.addWidget(self.back)
        title.addWidget(PlainLabel("Side by side", role="heading"))
        title.addWidget(self.save)
        title.addStretch(1)
        picks.setSpacing(10)
        picks.addWidget(self.a, 1)
        picks.addWidget(self.swap)
        picks.addWidget(self.b, 1)
        self._head = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._head.setSpacing(10)
        self._head.addLayout(title)
        self._head.addLayout(picks, 1)
        self._usual = PlainLabel("Usual telescopes with", role="small")
        self._usual.setBuddy(self.usual_with)
        under.addWidget(self._usual)
        under.addWidget(self.usual_with)
        under.addStretch(1)
        self._under = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._under.setSpacing(10)
        self._under.addWidget(self.conditions, 1)
        self._under.addLayout(under)
        page = QWidget()
        page.setObjectName("page")
        right = QVBoxLayout(page)
        right.setContentsMargins(0, 0, 0, 0)
        right.setSpacing(10)
        right.addWidget(self.advice)
        right.addWidget(self.figures)
        right.addWidget(self.verdict)
        right.addStretch(1)
        self._scroll = scroll = QScrollArea()
        scroll.setAccessibleName("Which to take, and the figures of both")
        scroll.setProperty("role", "reading")
        scroll.setWidget(page)
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._body = QWidget()
        self._parts = QBoxLayout(QBoxLayout.Direction.LeftToRight, self._body)
        self._parts.setContentsMargins(0, 0, 0, 0)
        self._parts.setSpacing(_GAP_PX)
        self._parts.addLayout(self._lay_out_pages(), 12)
        self._parts.addWidget(scroll, 10)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(_MARGIN_PX, _MARGIN_PX, _MARGIN_PX, _MARGIN_PX)
        layout.addLayout(self._head)
        layout.addLayout(self._under)
        layout.addWidget(self._body, 1)

    def _arrange(self) -> None:
        """Set drawings and figures beside each other, or below where letters are too large for that."""
        metrics = self.fontMetrics()
        # Narrow letters are no lower than wide ones, and drawings grow with their height.
        needed = max(_ROW_LETTERS * metrics.averageCharWidth(), _ROW_LINES * metrics.lineSpacing())
        is_row = self.width() >= needed
        directions = QBoxLayout.Direction
        for part in (self._head, self._under, self._parts):
            part.setDirection(directions.LeftToRight if is_row else directions.TopToBottom)
        # The page of the window scrolls then.
        for widget, lines in ((self.pages, _DRAWING_LINES), (self._scroll, _FIGURES_LINES)):
            widget.setMinimumHeight(0 if is_row else lines * metrics.lineSpacing())

    def _lay_out_pages(self) -> QVBoxLayout:
        """Return the drawings, one at a time, under a row of buttons that choose between them."""
        row = QHBoxLayout()
        row.setSpacing(4)
        for name, page in (("Ladders", self.canvas), ("In the eyepiece", self.pair)):
            number = self.pages.addWidget(page)
            button = QPushButton(name)
            button.setCheckable(True)
            # One of several, to a reader of the screen.
            button.setAutoExclusive(True)
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

    def _show_usual(self) -> None:
        """Ask with which eyepieces usual telescopes are used, where one is picked."""
        is_asked = bool(used_with_words(self.state.situation))
        self._usual.setVisible(is_asked)
        self.usual_with.setVisible(is_asked)
        with QSignalBlocker(self.usual_with):
            self.usual_with.setCurrentIndex(0 if self.state.situation.with_usual_eyepieces else 1)

    def _conditions(self, comparison: Comparison) -> str:
        """Return for what the comparison holds, and with what usual telescopes are used."""
        situation = self.state.situation
        return " ".join(
            filter(None, (conditions_text(comparison, situation.evening), used_with_words(situation)))
        )

    def _draw(self, page: Page) -> Drawing | str:
        palette = load_palette(self.state.situation.palette_name)
        if self._comparison is None:
            return palette.surface
        wished = self.state.situation.compared_wished
        return draw_two_ladders(page, self._comparison, palette=palette, wished=wished).drawing

    def _draw_sheet(self, page: Page) -> Drawing:
        assert self._comparison is not None
        return draw_comparison_sheet(
            page,
            self._comparison,
            # Paper is bright.
            palette=load_palette(PaletteName.DAY),
            conditions=self._conditions(self._comparison),
            rows=self._rows,
            wished=self.state.situation.compared_wished,
            pictures=self.pair.computed(self._comparison),
        )

    def _save(self) -> None:
        comparison, path = self._comparison, self.state.path
        if comparison is None:
            return
        wanted = name_for_file(listed((comparison.a.scope.name, comparison.b.scope.name)))
        chosen = dialogs.ask_picture(self.window(), path.parent if path else None, wanted)
        if chosen is None:
            return
        try:
            write_sheet(chosen, self._draw_sheet)
        except ProblemsError as error:
            heading = OUTPUT_NOT_SAVED.format(file=chosen.name)
            dialogs.show_text(self.window(), PICTURE_NOT_SAVED_TITLE, heading, str(error))
        else:
            self.state.tell(SAVED.format(path=chosen))
