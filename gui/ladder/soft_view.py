"""The view is soft: why? A few questions in a dialog, one at a time, and the likeliest cause."""

from functools import partial
from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.tonight.soft_view import KnownOfView, Question, Reply, find_cause, next_question
from core.words.soft_view import A_GUIDE, TITLE, cause_text, question_text
from gui.widgets.plain_label import PlainLabel
from gui.widgets.sized_dialog import SizedDialog

_LETTERS, _LINES = 75, 15
_REPLIES: Final = {
    Reply.YES: ("&Yes", Qt.Key.Key_Y),
    Reply.NO: ("&No", Qt.Key.Key_N),
    Reply.CANNOT_TELL: ("&Cannot tell", Qt.Key.Key_C),
}


class SoftViewDialog(SizedDialog):
    """Asks until enough is known; each answer has a button and a bare key."""

    def __init__(self, known: KnownOfView, parent: QWidget | None = None) -> None:
        super().__init__(parent, letters=_LETTERS, lines=_LINES)
        self._known = known
        self._replies: dict[Question, Reply] = {}
        self.setWindowTitle(TITLE)
        self.heading = PlainLabel(TITLE, role="heading")
        self.question = PlainLabel(wraps=True)
        self.question.setAccessibleName("Question, or what was found")
        self.guide = PlainLabel(A_GUIDE, role="small", wraps=True)
        self.buttons = {reply: QPushButton(label) for reply, (label, _) in _REPLIES.items()}
        self.back = QPushButton("&Back")
        self.finish = QPushButton("C&lose")
        self._lay_out()
        for reply, button in self.buttons.items():
            button.clicked.connect(partial(self._answer, reply))
        self.back.clicked.connect(self._go_back)
        self.finish.clicked.connect(self.accept)
        self._show()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        for reply, (_, key) in _REPLIES.items():
            if event.key() == key and not event.modifiers():
                self._answer(reply)
                return
        super().keyPressEvent(event)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 18, 20, 16)
        column.setSpacing(12)
        column.addWidget(self.heading)
        column.addWidget(self.question, 1, Qt.AlignmentFlag.AlignTop)
        column.addWidget(self.guide)
        row = QHBoxLayout()
        for button in self.buttons.values():
            button.setProperty("role", "verdict")
            row.addWidget(button)
        row.addStretch(1)
        row.addWidget(self.back)
        row.addWidget(self.finish)
        column.addLayout(row)

    def _answer(self, reply: Reply) -> None:
        question = next_question(self._known, self._replies)
        if question is not None:
            self._replies[question] = reply
            self._show()

    def _go_back(self) -> None:
        if self._replies:
            self._replies.popitem()
            self._show()

    def _show(self) -> None:
        question = next_question(self._known, self._replies)
        for button in self.buttons.values():
            button.setVisible(question is not None)
        self.back.setEnabled(bool(self._replies))
        if question is None:
            self.question.setText(cause_text(find_cause(self._known, self._replies)))
            self.finish.setDefault(True)
            self.finish.setFocus()
        else:
            self.question.setText(question_text(question))
            self.buttons[Reply.YES].setFocus()
        if self.isVisible():
            self.fit()
