"""The one answer on top of the views, with its reasons one click below."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from gui.state import AppState, Aspect
from gui.widgets.plain_label import PlainLabel

_LISTED_AT_MOST_PX = 170


class AnswerBar(QWidget):
    """One sentence that is always true for the state in hand, and why it is so."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.sentence = PlainLabel(role="answer", wraps=True)
        self.sentence.setAccessibleName("The answer")
        self.sentence.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.why = QPushButton("&Why")
        self.why.setCheckable(True)
        self.why.setAccessibleName("Why")
        self.why.setAccessibleDescription("Show or hide the reasons of the answer")
        self.reasons = PlainLabel(wraps=True)
        self.reasons.setAccessibleName("Reasons")
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setWidget(self.reasons)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._scroll.setAccessibleName("Reasons of the answer")
        self._scroll.hide()
        row = QHBoxLayout()
        row.setSpacing(16)
        row.addWidget(self.sentence, 1)
        row.addWidget(self.why, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(18, 9, 14, 4)
        column.setSpacing(6)
        column.addLayout(row)
        column.addWidget(self._scroll)
        self.why.toggled.connect(self._on_toggled)
        state.changed.connect(self._on_changed)
        self._show()

    def _on_changed(self, aspects: frozenset[Aspect]) -> None:
        # With the clock too: best minutes pass while the window stands open.
        if aspects != {Aspect.PALETTE}:
            self._show()

    def _show(self) -> None:
        answer = self._state.answer
        self.sentence.setText(answer.sentence if answer else self._meanwhile())
        reasons = answer.reasons if answer else ()
        self.reasons.setText("\n".join(f"–  {reason}" for reason in reasons))
        self.why.setEnabled(bool(reasons))
        if not reasons:
            self.why.setChecked(False)
        self._fit()

    def _meanwhile(self) -> str:
        """Return what to say while there is no answer."""
        if self._state.site is None:
            return "Begin under Gear with your observing site; then this line says what tonight can give."
        return self._state.night_problem or "Reading the sky tables …"

    def _on_toggled(self, on: bool) -> None:
        self.why.setText("Hide &why" if on else "&Why")
        self._scroll.setVisible(on)
        self._fit()

    def _fit(self) -> None:
        height = self.reasons.heightForWidth(max(self.width() - 60, 200)) + 8
        self._scroll.setFixedHeight(min(height, _LISTED_AT_MOST_PX))
