"""The row that asks what a step did to the view, and writes the answer into the log."""

from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from core.record.log_entry import Verdict
from core.situation.situation import Situation
from core.words.controls import KEY, VERDICT_KEY
from core.words.log import VERDICT_LABELS
from core.words.verdicts import VERDICT_KEYS, asked_words
from gui.profile.log_book import LogBook
from gui.state import AppState, Change
from gui.widgets.in_columns import InColumns
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_tip import plain_tip

_SHOWN_FROM = (
    *(Situation.rung, Situation.power_before, Situation.verdict_on_step, Situation.can_be_judged),
    *(Situation.scope, Situation.last_call),
)


class VerdictRow(QWidget):
    """Four large buttons, each with a bare key: more detail, no change, less detail, cannot tell."""

    def __init__(self, state: AppState, log_book: LogBook, keys_in: QWidget) -> None:
        super().__init__()
        self._state = state
        self._log_book = log_book
        self.asked = PlainLabel(role="small", wraps=True)
        self.buttons = {verdict: QPushButton(_capital(label)) for verdict, label in VERDICT_LABELS.items()}
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.asked)
        column.addWidget(InColumns(list(self.buttons.values()), most=2, fill=True))
        for verdict, button in self.buttons.items():
            key = VERDICT_KEYS[verdict]
            button.setProperty("role", "verdict")
            button.setToolTip(plain_tip(KEY.format(key=key)))
            button.setAccessibleDescription(VERDICT_KEY.format(key=key))
            button.clicked.connect(partial(self._give, verdict))
            shortcut = QShortcut(QKeySequence(key), keys_in)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(button.click)
        state.changed.connect(self._on_changed)
        self._show()

    def _give(self, verdict: Verdict) -> None:
        self._log_book.give(verdict)

    def _on_changed(self, change: Change) -> None:
        if change.of(*_SHOWN_FROM):
            self._show()

    def _show(self) -> None:
        situation = self._state.situation
        self.asked.setText(asked_words(situation))
        for button in self.buttons.values():
            button.setEnabled(situation.can_be_judged)


def _capital(label: str) -> str:
    return label[:1].upper() + label[1:]
