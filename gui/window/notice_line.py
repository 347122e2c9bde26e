"""The calm line under the answer that tells what is due now or in a few minutes, and goes by itself."""

from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.situation.situation import Situation
from core.words.notices_due import notice_words
from core.words.site_clock import clock_of
from gui.state import AppState, Change
from gui.widgets.all_lines import AllLines
from gui.widgets.plain_label import PlainLabel

# So many at a time; the others wait for their turn or pass.
_MOST = 2


class NoticeLine(AllLines):
    """Up to two sentences; hidden while nothing is due. It asks for nothing and takes no keyboard."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._most = _MOST
        self.text = PlainLabel(role="notice", wraps=True)
        self.text.setAccessibleName("Due now or soon")
        column = QVBoxLayout(self)
        column.setContentsMargins(18, 0, 14, 2)
        column.addWidget(self.text)
        state.changed.connect(self._on_changed)
        self._show()

    def fold(self, folded: bool) -> None:
        """Tell one at a time, or two."""
        most = 1 if folded else _MOST
        if most != self._most:
            self._most = most
            self._show()

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.notices, Situation.preferences):
            self._show()

    def _show(self) -> None:
        situation = self._state.situation
        clock = clock_of(situation)
        notices = () if clock is None else situation.notices[: self._most]
        words = " ".join(notice_words(notice, clock) for notice in notices if clock is not None)
        is_news = bool(words) and words != self.text.text()
        self.text.setText(words)
        self.setVisible(bool(words))
        if is_news:
            QAccessible.updateAccessibility(QAccessibleEvent(self.text, QAccessible.Event.Alert))
