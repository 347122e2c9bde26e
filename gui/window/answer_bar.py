"""The one answer on top of the views, with its reasons one click below."""

from PySide6.QtCore import QEvent, QSize, Qt
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QBoxLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from core.situation.situation import Situation
from core.words.answer import answer_detail, answer_headline, carry_out_told
from core.words.controls import REASON
from core.words.reasons import answer_reasons
from core.words.site_clock import clock_of
from core.words.tips import NO_SITE_YET
from core.words.units import Units
from gui.state import AppState, Change
from gui.widgets.all_lines import AllLines
from gui.widgets.plain_label import PlainLabel
from gui.widgets.reading_area import ReadingArea, reading_label
from gui.widgets.wrapped_text import whole_sentences

_MARGINS_PX = (18, 7, 14, 4)
# How many letters of the words are on a line, at least, beside the hours.
_LEAST_LETTERS = 45
_BESIDE_PX, _BELOW_PX = 16, 4
_MOST_LINES_FOLDED = 4
# How many lines of the reasons are seen at least, where there are so many.
_LEAST_LINES = 7


class AnswerBar(AllLines):
    """What is always true for the state in hand, and why it is so.

    In large letters which planet, when and where; under it the eyepieces and what limits them. ``hours``, for
    which it is true, stand beside it.
    """

    def __init__(self, state: AppState, hours: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._most_lines: int | None = None
        self._all_detail = ""
        self._first_to_do: tuple[str, ...] = ()
        self.sentence = PlainLabel(role="answer", wraps=True)
        self.sentence.setAccessibleName("The answer")
        self.sentence.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.detail = PlainLabel(wraps=True)
        self.detail.setAccessibleName("Eyepieces, and what limits them")
        self.detail.setTextInteractionFlags(self.sentence.textInteractionFlags())
        self.why = QPushButton("&Why")
        self.why.setCheckable(True)
        self.why.setAccessibleName("Why")
        self.why.setAccessibleDescription("Show or hide the reasons of the answer")
        self.reasons = reading_label()
        self.reasons.setAccessibleName("Reasons")
        self.panel = ReasonsPanel(self.reasons)
        self._controls = QWidget()
        controls = QHBoxLayout(self._controls)
        controls.setContentsMargins(0, 0, 0, 0)
        controls.setSpacing(16)
        controls.addWidget(hours)
        controls.addWidget(self.why)
        controls.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(*_MARGINS_PX)
        column.setSpacing(2)
        self._head, self._row = QHBoxLayout(), QBoxLayout(QBoxLayout.Direction.LeftToRight)
        # Put into their places before they are filled: PySide6 holds the items of a full layout for the
        # layout that takes it. Before 6.10 it takes an item that is gone, its widget having moved, for
        # whatever next lies there.
        column.addLayout(self._head)
        column.addLayout(self._row)
        self._head.setSpacing(_BESIDE_PX)
        self._head.addWidget(self.sentence, 1)
        self._row.addWidget(self.detail, 1)
        self._row.addWidget(self._controls)
        self._leave_reasons = QShortcut(QKeySequence(Qt.Key.Key_Escape), self)
        self._leave_reasons.setContext(Qt.ShortcutContext.WindowShortcut)
        self._leave_reasons.setEnabled(False)
        self._leave_reasons.activated.connect(self._hide_reasons)
        self.why.toggled.connect(self._on_toggled)
        state.changed.connect(self._on_changed)
        self._show()

    def _on_changed(self, change: Change) -> None:
        told_by = (Situation.answer, Situation.better, Situation.night_problem, Situation.preferences)
        if change.of(Situation.site, Situation.carry_out, *told_by):
            self._show()

    def _show(self) -> None:
        situation = self._state.situation
        answer, clock, units = situation.answer, clock_of(situation), Units(situation.preferences)
        self.sentence.setText(self._meanwhile() if answer is None else answer_headline(situation))
        self._all_detail = "" if answer is None else answer_detail(situation)
        self._first_to_do = carry_out_told(situation)
        reasons = () if answer is None else answer_reasons(answer, clock, units=units)
        self.reasons.setText("\n".join(REASON.format(reason=reason) for reason in reasons))
        self.why.setEnabled(bool(reasons))
        if not reasons:
            self.why.setChecked(False)
        self._arrange()
        self.panel.fit_words()

    def fold(self, most_lines: int | None) -> None:
        """Show the beginning of the detail in so many lines, without hours and reasons, or everything.

        Folded it tells too when to carry the telescope out, which else stands beside the views.
        """
        if most_lines == self._most_lines:
            return
        self._most_lines = most_lines
        if most_lines is not None:
            self.why.setChecked(False)
        self._controls.setVisible(most_lines is None)
        # The style sheet gives a folded one smaller letters.
        self.sentence.setProperty("folded", most_lines is not None)
        self.sentence.style().unpolish(self.sentence)
        self.sentence.style().polish(self.sentence)
        self._arrange()
        self.updateGeometry()

    def _meanwhile(self) -> str:
        """Return what to say while there is no answer."""
        if self._state.situation.site is None:
            return NO_SITE_YET
        return self._state.situation.night_problem or "Reading the sky tables …"

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self._arrange()

    def _arrange(self) -> None:
        """Put the hours beside the sentence, else beside the detail or, with large letters, below it."""
        self._show_detail()
        words = self.width() - self._controls.sizeHint().width()
        sentence = self.sentence.fontMetrics().horizontalAdvance(self.sentence.text())
        left, _top, right, _bottom = _MARGINS_PX
        is_at_head = sentence + _BESIDE_PX + left + right < words
        (self._head if is_at_head else self._row).addWidget(self._controls)
        is_beside = words >= _LEAST_LETTERS * self.fontMetrics().averageCharWidth()
        directions = QBoxLayout.Direction
        self._row.setDirection(directions.LeftToRight if is_beside else directions.TopToBottom)
        self._row.setSpacing(_BESIDE_PX if is_beside else _BELOW_PX)

    def _show_detail(self) -> None:
        """Tell the detail; folded only what goes into the lines whole, in more lines where nothing does."""
        left, _top, right, _bottom = _MARGINS_PX
        room = max(self.width() - left - right, 1)
        told = said = self._all_detail
        if self._most_lines is not None:
            told = said = " ".join((*self._first_to_do[:1], told))
            font, counts = self.detail.font(), range(self._most_lines, _MOST_LINES_FOLDED + 1)
            lines = (whole_sentences(told, font, room, most, ends=".;:") for most in counts)
            told = next((" ".join(each) for each in lines if each), told)
        self.detail.setText(told)
        self.detail.setAccessibleDescription(said)

    def _hide_reasons(self) -> None:
        self.why.setChecked(False)
        self.why.setFocus()

    def _on_toggled(self, on: bool) -> None:
        self.why.setText("Hide &why" if on else "&Why")
        self._leave_reasons.setEnabled(on)
        self.panel.show_reasons(on)


class ReasonsPanel(ReadingArea):
    """The reasons, between the answer and the view, which makes room for them: no control is covered."""

    def __init__(self, reasons: PlainLabel) -> None:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(14, 8, 14, 10)
        column.addWidget(reasons)
        column.addStretch(1)
        super().__init__(page)
        self.setProperty("role", "panel")
        self.setAccessibleName("Reasons of the answer")
        self.hide()

    def minimumSizeHint(self) -> QSize:
        # A view asks for whatever it can get; so many lines are not its to take.
        most = _LEAST_LINES * self.fontMetrics().lineSpacing()
        return super().minimumSizeHint().expandedTo(QSize(0, min(self.wanted_height, most)))

    def show_reasons(self, on: bool) -> None:
        """Show the reasons and give them the keyboard, or take them away."""
        self.setVisible(on)
        if on:
            self.fit_words()
            self.setFocus()

    def fit_words(self) -> None:
        """Ask for the height that the reasons need."""
        if self.isVisible():
            self.fit(self.width())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit_words()
