"""The head of the window: strip, answer and views; folded where letters leave it little room."""

from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.situation.situation import Situation
from core.words.controls import FOLD_HEAD, LESS, MORE, UNFOLD_HEAD
from core.words.strip_told import strip_parts, strip_told
from gui.state import AppState, Change
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel
from gui.window.answer_bar import AnswerBar
from gui.window.notice_line import NoticeLine
from gui.window.strip import Strip
from gui.window.views_row import ViewsRow

# A page of fewer lines of text is low: strip and answer would take more than half of it.
_LOW_LINES: Final = 26
_MARGINS_PX: Final = (18, 3, 14, 3)
_GAP_PX: Final = 14


class Head(QWidget):
    """What stands above the views. On a low page the view is what is seen, and ``more`` unfolds the rest."""

    def __init__(
        self,
        state: AppState,
        strip: Strip,
        answer_bar: AnswerBar,
        notices: NoticeLine,
        views_row: ViewsRow,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.line = HeadLine(state)
        self.more = self.line.more
        self._strip, self._answer_bar, self._views_row = strip, answer_bar, views_row
        self._is_low = False
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.line)
        column.addWidget(strip)
        column.addWidget(answer_bar)
        reasons = QHBoxLayout()
        reasons.setContentsMargins(14, 2, 14, 4)
        reasons.addWidget(answer_bar.panel)
        column.addLayout(reasons)
        column.addWidget(notices)
        column.addWidget(views_row)
        self.more.toggled.connect(self._arrange)
        self._arrange()

    @property
    def is_folded(self) -> bool:
        """Whether strip, hours, reasons and most of the answer's detail are out of sight."""
        return self._is_low and not self.more.isChecked()

    def fit_page(self, height_px: int) -> None:
        """Take note how high the page is that head and view share."""
        is_low = height_px < _LOW_LINES * self.fontMetrics().lineSpacing()
        if is_low != self._is_low:
            self._is_low = is_low
            self.more.setChecked(False)
            self._arrange()

    def _arrange(self) -> None:
        is_folded = self.is_folded
        self.line.setVisible(self._is_low)
        self.line.tell(is_folded)
        self._strip.setVisible(not is_folded)
        self._answer_bar.fold(is_folded)
        self._views_row.fold(is_folded)


class HeadLine(QWidget):
    """One line in place of the strip, and the button that brings the strip back."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.told = ElidedLabel(role="small", letters=100)
        self.clock = PlainLabel(role="heading")
        self.clock.setAccessibleName("Clock at the site")
        self.more = QPushButton(MORE)
        self.more.setCheckable(True)
        self.more.setProperty("role", "step")
        self.more.setAccessibleDescription(UNFOLD_HEAD)
        row = QHBoxLayout(self)
        row.setContentsMargins(*_MARGINS_PX)
        row.setSpacing(_GAP_PX)
        row.addWidget(self.told, 1)
        row.addStretch(0)
        row.addWidget(self.clock)
        row.addWidget(self.more)
        state.changed.connect(self._on_changed)
        InRoom(self, self._show)

    def tell(self, is_folded: bool) -> None:
        """Tell what the strip tells, or leave that to the strip."""
        self.told.setVisible(is_folded)
        self.clock.setVisible(is_folded)
        self.more.setText(MORE if is_folded else LESS)
        self.more.setAccessibleDescription(UNFOLD_HEAD if is_folded else FOLD_HEAD)
        self._show()

    def _on_changed(self, change: Change) -> None:
        told_by = (Situation.profile, Situation.site, Situation.scope, Situation.minute)
        if change.of(Situation.evening, Situation.preferences, *told_by):
            self._show()

    def _show(self) -> None:
        """Tell as many parts as go into the line, the most important first."""
        *parts, clock = strip_parts(self._state.situation)
        self.clock.setText(clock)
        left, _top, right, _bottom = _MARGINS_PX
        beside = self.clock.sizeHint().width() + self.more.sizeHint().width() + 2 * _GAP_PX + left + right
        while len(parts) > 1 and self._width_of(parts) > self.width() - beside:
            parts.pop()
        self.told.setText(strip_told(parts))
        self.told.setAccessibleName(strip_told(parts))

    def _width_of(self, parts: list[str]) -> int:
        return self.told.fontMetrics().horizontalAdvance(strip_told(parts))
