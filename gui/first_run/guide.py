"""The guided set-up of an observer: four short steps, each of which can be gone back to."""

import itertools

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent, QKeyEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QDialog,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from core.record.observer import Profile
from core.words.set_up import AND_CLOSE, so_far_text, steps_text
from gui.first_run.eyepiece_step import EyepieceStep
from gui.first_run.filter_step import FilterStep
from gui.first_run.place_step import PlaceStep
from gui.first_run.scope_step import ScopeStep
from gui.first_run.step import Hold, Step
from gui.state import AppState
from gui.widgets.one_page import OnePage
from gui.widgets.plain_label import PlainLabel

_LETTERS_WIDE, _LINES_HIGH = 102, 37
# The smallest window there is, and what stays free around the set-up in it.
_SMALLEST, _AROUND = QSize(1000, 640), QSize(40, 60)
_STEP_NAME = "Set up a new observer"
# Two set-ups in a row are two steps to take back.
_GUIDES = itertools.count()


class _Pages(OnePage):
    """The steps, of which the one that is shown asks for the lines of its words and no more than that."""

    def heightForWidth(self, width: int) -> int:
        page = self.currentWidget()
        layout = None if page is None else page.layout()
        return -1 if layout is None else layout.totalMinimumHeightForWidth(width)


class Guide(QDialog):
    """Asks where, which telescope, which eyepieces and which filters.

    Every answer goes into the profile at once, as one step that can be taken back; closing half way
    therefore loses nothing.
    """

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._base = state.profile
        self._merge_key = f"{_STEP_NAME} {next(_GUIDES)}"
        self.place = PlaceStep(state.jobs)
        self.scope = ScopeStep()
        self.eyepieces = EyepieceStep()
        self.filters = FilterStep()
        self.steps: tuple[Step, ...] = (self.place, self.scope, self.eyepieces, self.filters)
        self.setWindowTitle("A new observer")
        self._pages = _Pages()
        self._where = PlainLabel(role="small")
        self._summary = PlainLabel(role="faint", wraps=True)
        self.told = PlainLabel(role="problem", wraps=True)
        self.told.setAccessibleName("What is missing")
        self._held_by: Hold | None = None
        self.back = QPushButton("&Back", self)
        self.later = QPushButton("&Close and finish later", self)
        self.onward = QPushButton("&Next", self)
        self._lay_out()
        self._show(0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            super().keyPressEvent(event)
            return
        # In a line or a list Return means "this one", and the step says itself when it is done.
        focused = self.focusWidget()
        if isinstance(focused, QPushButton):
            focused.click()
        elif isinstance(focused, QAbstractButton):
            self._go_on()

    def _lay_out(self) -> None:
        for step in self.steps:
            self._pages.addWidget(step)
            step.answered.connect(self._take_answers)
            step.answered.connect(self._hold_no_more)
            # Queued, so that a Return which a list has passed on finds its own step still here.
            step.done.connect(self._go_on, Qt.ConnectionType.QueuedConnection)
        buttons = QHBoxLayout()
        buttons.addWidget(self.later)
        buttons.addStretch(1)
        buttons.addWidget(self.back)
        buttons.addWidget(self.onward)
        column = QVBoxLayout(self)
        column.setContentsMargins(24, 18, 24, 16)
        column.setSpacing(12)
        column.addWidget(self._where)
        # With large letters on a small screen a step scrolls, and the buttons stay in sight.
        scroll = QScrollArea()
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidgetResizable(True)
        scroll.setWidget(self._pages)
        self._pages.setObjectName("page")
        column.addWidget(scroll, 1)
        column.addWidget(self._summary)
        column.addWidget(self.told)
        column.addLayout(buttons)
        for button in (self.back, self.later, self.onward):
            button.setAutoDefault(False)
        self.back.clicked.connect(lambda _checked: self._show(self._pages.currentIndex() - 1))
        self.onward.clicked.connect(lambda _checked: self._go_on())
        self.later.clicked.connect(lambda _checked: self.reject())
        parent, metrics = self.parentWidget(), self.fontMetrics()
        wanted = QSize(_LETTERS_WIDE * metrics.averageCharWidth(), _LINES_HIGH * metrics.lineSpacing())
        self.resize(wanted.boundedTo((_SMALLEST if parent is None else parent.size()) - _AROUND))

    def reject(self) -> None:
        if self._may_leave(AND_CLOSE):
            super().reject()

    def _may_leave(self, once_more: str = "") -> bool:
        """Let the step take what is typed; say what is missing, and let pass who asks for it again.

        ``once_more`` tells how to leave with what cannot be taken; without it that has to be mended first.
        """
        held_by = self._held_by
        hold = self.steps[self._pages.currentIndex()].settle()
        self._take_answers()
        if hold is None or (once_more and hold.may_pass):
            return True
        if hold == held_by and (hold.may_pass or once_more):
            return True
        self._held_by = hold
        self.told.setText(" ".join(filter(None, (hold.sentence, once_more))))
        self.told.show()
        QAccessible.updateAccessibility(QAccessibleEvent(self.told, QAccessible.Event.Alert))
        return False

    def _hold_no_more(self) -> None:
        self._held_by = None
        self.told.setText("")
        self.told.hide()

    def _go_on(self) -> None:
        if not self._may_leave():
            return
        if self._pages.currentIndex() == len(self.steps) - 1:
            self._take_answers()
            self.accept()
        else:
            self._show(self._pages.currentIndex() + 1)

    def _show(self, index: int) -> None:
        step = self.steps[index]
        self._hold_no_more()
        if step is self.eyepieces:
            # Not before, since what nobody has seen yet is no answer.
            self.eyepieces.take_kit(self.scope.kit)
        step.on_shown(self._profile(self.steps[:index]))
        self._pages.setCurrentIndex(index)
        self._where.setText(steps_text(tuple(each.title for each in self.steps), index))
        is_last = index == len(self.steps) - 1
        self.onward.setText("&Finish" if is_last else "&Next")
        self.back.setEnabled(index > 0)
        self._take_answers()
        step.setFocus()

    def _profile(self, steps: tuple[Step, ...]) -> Profile:
        profile = self._base
        for step in steps:
            profile = step.added_to(profile)
        return profile

    def _take_answers(self) -> None:
        profile = self._profile(self.steps)
        self._state.edit_profile(_STEP_NAME, profile, merge_key=self._merge_key)
        self._summary.setText(so_far_text(profile))
