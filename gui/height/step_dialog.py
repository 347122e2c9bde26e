"""The small form for a step of the evening: another time, and for an own one its words."""

from datetime import datetime, time
from enum import Enum, auto

from attrs import frozen
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.moments.hours import Dusks
from core.sky.night import Night
from core.words.site_clock import SiteClock
from core.words.tips import BEFORE_NOON, STEP_WITHOUT_WORDS
from gui.widgets.pickers import TimePicker, captioned
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit
from gui.widgets.sized_dialog import SizedDialog

_LETTERS = 56
LONGEST_STEP = 120


class Wanted(Enum):
    """What the person wants done with a step."""

    KEEP = auto()
    USUAL_TIME = auto()
    REMOVE = auto()


@frozen(kw_only=True)
class StepAsked:
    """What a person asked for: ``text`` is None for a step whose words are not the owner's."""

    wanted: Wanted
    at: datetime
    text: str | None


class StepDialog(SizedDialog):
    """Asks for the time of a step; ``text`` is that of an own one, None where the words are not the owner's.

    With ``can_go_back`` it offers the usual time, with ``can_be_removed`` to take the step out.
    """

    def __init__(
        self,
        night: Night,
        clock: SiteClock,
        heading: str,
        at: datetime,
        *,
        text: str | None = None,
        can_go_back: bool = False,
        can_be_removed: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent, letters=_LETTERS)
        self._night, self._dusks = night, Dusks.of(night)
        self._wanted = Wanted.KEEP
        self._at = at
        self.setWindowTitle("A step of the evening")
        self.words = PlainLineEdit()
        self.words.setText(text or "")
        self.words.setMaxLength(LONGEST_STEP)
        self.words.setAccessibleName("What to do")
        self.time = TimePicker("Time of the step")
        self.time.show_time(at.astimezone(clock.zone).time(), hours=clock.hours)
        self.problem = PlainLabel(role="problem", wraps=True)
        self.box = QDialogButtonBox()
        self.usual = QPushButton("Its &usual time")
        self.remove = QPushButton("&Remove")
        self._has_words = text is not None
        self._lay_out(heading, can_go_back=can_go_back, can_be_removed=can_be_removed)
        self.usual.clicked.connect(lambda: self._finish(Wanted.USUAL_TIME))
        self.remove.clicked.connect(lambda: self._finish(Wanted.REMOVE))

    def _lay_out(self, heading: str, *, can_go_back: bool, can_be_removed: bool) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 18, 20, 16)
        column.setSpacing(12)
        column.addWidget(PlainLabel(heading, role="heading", wraps=True))
        if self._has_words:
            column.addWidget(captioned("&What to do", self.words))
            column.addWidget(self.words)
        row = QHBoxLayout()
        row.addWidget(captioned("&Time", self.time))
        row.addWidget(self.time)
        row.addWidget(PlainLabel(BEFORE_NOON, role="small", wraps=True), 1)
        column.addLayout(row)
        column.addWidget(self.problem)
        self.problem.hide()
        roles = QDialogButtonBox.ButtonRole
        ok = self.box.addButton("OK", roles.AcceptRole)
        ok.setDefault(True)
        self.box.addButton("Cancel", roles.RejectRole)
        if can_go_back:
            self.box.addButton(self.usual, roles.ActionRole)
        if can_be_removed:
            self.box.addButton(self.remove, roles.ActionRole)
        self.box.accepted.connect(lambda: self._finish(Wanted.KEEP))
        self.box.rejected.connect(self.reject)
        column.addWidget(self.box)
        (self.words if self._has_words else self.time).setFocus()

    @property
    def asked(self) -> StepAsked:
        """What was asked for; of use once it was accepted."""
        chosen = self.time.time()
        at = self._dusks.at(time(chosen.hour(), chosen.minute()))
        text = self.words.text().strip() if self._has_words else None
        return StepAsked(wanted=self._wanted, at=at, text=text)

    def _finish(self, wanted: Wanted) -> None:
        if wanted is Wanted.KEEP and self._has_words and not self.words.text().strip():
            self.problem.setText(STEP_WITHOUT_WORDS)
            self.problem.show()
            self.words.setFocus()
            return
        self._wanted = wanted
        self.accept()


def ask_step(dialog: StepDialog) -> StepAsked | None:
    """Ask, and return what was asked for, None where the person thought better of it."""
    return dialog.asked if dialog.exec() == QDialog.DialogCode.Accepted else None
