"""The head of the window: strip, answer and views; folded where letters leave it little room."""

from collections.abc import Callable, Iterator
from typing import Final

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from core.situation.situation import Situation
from core.words.controls import FOLD_HEAD, LESS, MORE, UNFOLD_HEAD
from core.words.strip_told import strip_parts, strip_told
from gui.state import AppState, Change
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel
from gui.window.answer_bar import AnswerBar
from gui.window.notice_line import NoticeLine
from gui.window.outside_row import OutsideRow
from gui.window.strip import Strip
from gui.window.views_row import ViewsRow

# A page of fewer lines of text is low: strip and answer would take more than half of it.
_LOW_LINES: Final = 26
# On one of fewer lines than that the detail of the answer has one line, else two.
_VERY_LOW_LINES: Final = 20
_GAP_PX: Final = 14


class Head(QObject):
    """What stands above the views. On a low page the view is what is seen, and ``more`` unfolds the rest."""

    def __init__(
        self,
        strip: Strip,
        answer_bar: AnswerBar,
        notices: NoticeLine,
        views_row: ViewsRow,
        outside: OutsideRow,
        line: "HeadLine",
        page: QWidget,
    ) -> None:
        super().__init__(page)
        self._page = page
        self.line = line
        self.more = line.more
        self._strip, self._answer_bar = strip, answer_bar
        self._notices, self._views_row = notices, views_row
        self._page_lines: float | None = None
        self._keys = [
            self._reach(letter, act)
            for part in (strip, answer_bar, outside)
            for letter, act in _ways_into(part)
            # What shares its letter has it when that has unfolded it.
            if letter != QKeySequence.mnemonic(MORE)
        ]
        self.more.toggled.connect(self._arrange)
        self._arrange()
        InRoom(page, self._fit_page)

    def lay_out(self, column: QVBoxLayout) -> None:
        """Add all of it to the column of the page, whose lines of words ask for their own height there."""
        column.addWidget(self._strip)
        column.addWidget(self._answer_bar)
        reasons = QHBoxLayout()
        reasons.setContentsMargins(14, 2, 14, 4)
        reasons.addWidget(self._answer_bar.panel)
        column.addLayout(reasons)
        column.addWidget(self._notices)
        column.addWidget(self._views_row)

    @property
    def is_folded(self) -> bool:
        """Whether strip, hours, reasons and most of the answer's detail are out of sight."""
        return self._is_low and not self.more.isChecked()

    @property
    def _is_low(self) -> bool:
        return self._page_lines is not None and self._page_lines < _LOW_LINES

    def _reach(self, letter: QKeySequence, act: Callable[[], None]) -> QShortcut:
        """Let the letter of something that is folded away unfold it and do what it always does."""

        def unfold() -> None:
            self.more.setChecked(True)
            act()

        key = QShortcut(letter, self._page)
        key.activated.connect(unfold)
        return key

    def _fit_page(self) -> None:
        """Take note how high the page is that head and view share."""
        was_low = self._is_low
        self._page_lines = self._page.height() / self._page.fontMetrics().lineSpacing()
        if self._is_low != was_low:
            self.more.setChecked(False)
        self._arrange()

    def _arrange(self) -> None:
        is_folded = self.is_folded
        is_very_low = is_folded and self._page_lines is not None and self._page_lines < _VERY_LOW_LINES
        for key in self._keys:
            key.setEnabled(is_folded)
        self.line.tell(is_folded)
        self._strip.setVisible(not is_folded)
        self._answer_bar.fold((1 if is_very_low else 2) if is_folded else None)
        self._notices.fold(is_very_low)
        self._views_row.fold(is_folded, has_line=self._is_low)


def _ways_into(part: QWidget) -> Iterator[tuple[QKeySequence, Callable[[], None]]]:
    """Yield the underlined letters of a part, and what each does: to go to a control or to press a button."""
    for label in part.findChildren(QLabel):
        # Qt may give none, whatever its types say.
        buddy: object = label.buddy()
        letter = QKeySequence.mnemonic(label.text())
        if isinstance(buddy, QWidget) and not letter.isEmpty():
            yield letter, buddy.setFocus
    for button in part.findChildren(QPushButton):
        letter = QKeySequence.mnemonic(button.text())
        if not letter.isEmpty():
            yield letter, button.click


class HeadLine(QWidget):
    """Evening, scope, site and clock in one line in place of the strip, and the button that unfolds it."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.told = ElidedLabel(role="small", letters=100)
        self.told.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.clock = PlainLabel(role="heading")
        self.clock.setAccessibleName("Clock at the site")
        self.more = QPushButton(MORE)
        self.more.setCheckable(True)
        self.more.setProperty("role", "step")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(_GAP_PX)
        row.addStretch(1)
        row.addWidget(self.told)
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
        room = self.width() - self.clock.sizeHint().width() - self.more.sizeHint().width() - 3 * _GAP_PX
        metrics = self.told.fontMetrics()
        while len(parts) > 1 and metrics.horizontalAdvance(strip_told(parts)) > room:
            parts.pop()
        self.told.setText(strip_told(parts))
