"""The Ladder view: the rungs with their limits, the picture in the eyepiece, and what to do next."""

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from core.looks.picture.sight import Sight
from core.situation.situation import Situation
from core.situation.soft_view import known_of_view
from core.words.answer import nothing_offered_words
from core.words.tips import LOG
from gui.ladder.air import AirRow
from gui.ladder.at_eyepiece import AtEyepiece
from gui.ladder.canvas import DRAWN_FROM, LadderCanvas
from gui.ladder.climb_pane import ClimbPane
from gui.ladder.soft_view import SoftViewDialog
from gui.profile.log_book import LogBook
from gui.state import AppState
from gui.widgets.all_lines import AllLines
from gui.widgets.eyepiece_pane import EyepiecePane
from gui.widgets.in_room import InRoom
from gui.widgets.in_sight import InSight
from gui.widgets.one_page import OnePage
from gui.widgets.plain_label import PlainLabel

if TYPE_CHECKING:
    from gui.ladder.log_page import LogPage

_SHOWN_FROM = (
    *(Situation.answer, Situation.better, Situation.mirror_climb, Situation.best_aim, Situation.appearance),
    *(Situation.next_step, Situation.filter_offers, Situation.filter_in, Situation.profile),
)
# Shares of the width: drawing, picture, words; a wide window gives more to the first two.
_SHARES_NARROW, _SHARES_WIDE = (12, 9, 11), (11, 15, 11)
_SHARES_OF_TWO = (11, 12, 0)
_WIDE_PX = 1250
# From so many letters across on there is room for all three in a row.
_ROW_LETTERS = 115
# How high the parts are at least where they are not.
_PICTURE_LINES, _PANE_LINES = 14, 16


class LadderView(AllLines):
    """The ladder of the scope in hand for the planet in hand, in tonight's air."""

    def __init__(
        self, state: AppState, log_book: LogBook | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._state = state
        self.log_book = log_book or LogBook(state, parent=self)
        self.canvas = LadderCanvas(state)
        self.eyepiece = EyepiecePane(state)
        self.nothing = PlainLabel(wraps=True)
        self.nothing.setAccessibleName("Why there is no ladder")
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._climb = QWidget()
        self._is_row: bool | None = None
        self.pane = ClimbPane(state, self.log_book, keys_in=self._climb)
        self.air = AirRow(state)
        self.log_button = QPushButton("L&og")
        self.log_button.setCheckable(True)
        self.log_button.setToolTip(LOG)
        self.log_button.setProperty("role", "page")
        self.log_button.setAccessibleDescription("Show the log in place of the ladder, or the ladder again")
        self.setFocusProxy(self.canvas)
        self._lay_out()
        InRoom(self, self._arrange)
        self.eyepiece.canvas.chosen.connect(self._on_sight)
        self.log_button.toggled.connect(self._show_log)
        self.pane.soft.clicked.connect(self.ask_why_soft)
        self._add_key("W", self.pane.soft)
        self.pane.dark.clicked.connect(self.go_to_eyepiece)
        self._add_key("E", self.pane.dark)
        InSight(self, state, (*DRAWN_FROM, *_SHOWN_FROM), self._show)
        self._show()

    def ask_why_soft(self) -> None:
        """Ask a few questions about a soft view, and name the likeliest cause."""
        known = known_of_view(self._state.situation)
        if known is not None:
            SoftViewDialog(known, self).exec()

    def go_to_eyepiece(self) -> AtEyepiece:
        """Cover the window with a few large words, until Escape."""
        screen = AtEyepiece(self._state, self.log_book, self.window())
        screen.left.connect(self.canvas.setFocus)
        return screen

    def _arrange(self) -> None:
        """Set the three parts side by side; where letters are too large for that, the picture under them."""
        metrics = self.fontMetrics()
        # Before it is shown it has no size of its own.
        is_row = not self.isVisible() or self.width() >= _ROW_LETTERS * metrics.averageCharWidth()
        shares = _SHARES_WIDE if self.width() >= _WIDE_PX else _SHARES_NARROW
        if not is_row:
            shares = _SHARES_OF_TWO
        for number, share in enumerate(shares):
            self._parts.setColumnStretch(number, share)
        if is_row == self._is_row:
            return
        self._is_row = is_row
        for part in (self._rungs, self.eyepiece, self.pane):
            self._parts.removeWidget(part)
        self._parts.addWidget(self._rungs, 0, 0)
        self._parts.addWidget(self.pane, 0, 2 if is_row else 1)
        self._parts.addWidget(self.eyepiece, *((0, 1, 1, 1) if is_row else (1, 0, 1, 2)))
        # The page of the window scrolls then.
        for number, lines in enumerate((_PANE_LINES, _PICTURE_LINES)):
            self._parts.setRowMinimumHeight(number, 0 if is_row else lines * metrics.lineSpacing())

    def _show_log(self, on: bool) -> None:
        self.body.show_page(1 if on else 0)
        (self.log_page.search if on else self.canvas).setFocus()

    @cached_property
    def log_page(self) -> "LogPage":
        """The log, made when it is first shown."""
        from gui.ladder.log_page import LogPage

        return LogPage(self._state, self.log_book)

    def _add_key(self, key: str, button: QPushButton) -> None:
        """Let a bare key press a button while the ladder, and not the log, has the keyboard."""
        shortcut = QShortcut(QKeySequence(key), self._climb)
        shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        shortcut.activated.connect(button.click)

    def _lay_out(self) -> None:
        self._parts = QGridLayout(self._climb)
        self._parts.setContentsMargins(0, 0, 0, 0)
        self._parts.setHorizontalSpacing(12)
        self._parts.setRowStretch(0, 1)
        self._rungs = QStackedWidget()
        self._rungs.addWidget(self.canvas)
        self._rungs.addWidget(self.nothing)
        self._arrange()
        self.body = OnePage()
        self.body.addWidget(self._climb)
        self.body.add_later(lambda: self.log_page)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 4, 12, 10)
        column.setSpacing(4)
        column.addWidget(self.body, 1)
        foot = QHBoxLayout()
        foot.addWidget(self.air, 1)
        ways = QVBoxLayout()
        ways.setSpacing(0)
        for button in (self.log_button, self.pane.dark):
            ways.addWidget(button, 0, Qt.AlignmentFlag.AlignRight)
        ways.addStretch(1)
        foot.addLayout(ways)
        column.addLayout(foot)

    def _on_sight(self, sight: Sight) -> None:
        self._state.set_rung(sight.power)

    def _show(self) -> None:
        situation = self._state.situation
        ladder, rung = situation.ladder, situation.rung
        is_refused = ladder is not None and not ladder.aim.is_offered
        # A sentence takes the place of the rungs where nothing is offered.
        self.nothing.setText(nothing_offered_words(situation) if is_refused else "")
        self._rungs.setCurrentWidget(self.nothing if is_refused else self.canvas)
        self.pane.show_situation()
        step = situation.next_step
        self.eyepiece.show_appearance(
            situation.appearance,
            None if rung is None else rung.power,
            following=None if step is None or step.to is None else step.to.power,
        )
        self.canvas.say_rung()
        told = (self.pane.next, self.pane.notices)
        self.canvas.setAccessibleDescription(" ".join(label.text() for label in told).strip())
        self.canvas.redraw()
