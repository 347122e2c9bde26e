"""The guided set-up of an observer: four short steps, each of which can be gone back to."""

import itertools

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QDialog,
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from core.record.observer import Profile
from gui.first_run.eyepiece_step import EyepieceStep
from gui.first_run.filter_step import FilterStep
from gui.first_run.place_step import PlaceStep
from gui.first_run.scope_step import ScopeStep
from gui.first_run.step import Step
from gui.state import AppState
from gui.widgets.plain_label import PlainLabel

_STEP_NAME = "Set up a new observer"
# Two set-ups in a row are two steps to take back.
_GUIDES = itertools.count()


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
        self._pages = QStackedWidget(self)
        self._where = PlainLabel(role="small")
        self._summary = PlainLabel(role="faint", wraps=True)
        self.back = QPushButton("&Back", self)
        self.later = QPushButton("&Close, go on later", self)
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
        column.addWidget(self._pages, 1)
        column.addWidget(self._summary)
        column.addLayout(buttons)
        for button in (self.back, self.later, self.onward):
            button.setAutoDefault(False)
        self.back.clicked.connect(lambda _checked: self._show(self._pages.currentIndex() - 1))
        self.onward.clicked.connect(lambda _checked: self._go_on())
        self.later.clicked.connect(lambda _checked: self.reject())
        self.resize(720, 520)

    def _go_on(self) -> None:
        if self._pages.currentIndex() == len(self.steps) - 1:
            self._take_answers()
            self.accept()
        else:
            self._show(self._pages.currentIndex() + 1)

    def _show(self, index: int) -> None:
        step = self.steps[index]
        self.eyepieces.take_kit(self.scope.kit)
        step.on_shown(self._profile(self.steps[:index]))
        self._pages.setCurrentIndex(index)
        names = "  ·  ".join(
            f"{number}. {each.title}" + (" (now)" if each is step else "")
            for number, each in enumerate(self.steps, 1)
        )
        self._where.setText(names)
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
        self._summary.setText(_so_far(profile))


def _so_far(profile: Profile) -> str:
    """Return in words what the profile holds, so that a helper can read it out."""
    parts = [
        *(site.name for site in profile.sites),
        *(scope.name for scope in profile.telescopes),
        ", ".join(eyepiece.name for eyepiece in profile.eyepieces),
        ", ".join(f"{barlow.name} Barlow" for barlow in profile.barlows),
        ", ".join(each.name for each in profile.filters),
    ]
    told = "; ".join(part for part in parts if part)
    return f"So far: {told}." if told else "Nothing yet. You can close at any time and go on in Gear."
