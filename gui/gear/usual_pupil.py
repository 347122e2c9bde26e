"""Fills in the widest pupil that is typical at an age, for who has never measured it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from core.gear.numbers import parse_number
from core.gear.pupil_by_age import usual_pupil_mm
from core.problems import ProblemsError
from core.words.eye import UNKNOWN_AGE, usual_pupil_text
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit

_LETTERS = 4
YOUNGEST, OLDEST = 5.0, 110.0


class UsualPupil(QWidget):
    """An age to type, what is typical at it, and a button that takes it; the age is not kept.

    Signals
    -------
    wanted
        The person asks for this pupil, in mm.
    """

    wanted = Signal(float)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.age = PlainLineEdit(self, letters=_LETTERS)
        self.age.setAccessibleName("Age in years, for the typical pupil")
        label = PlainLabel("Typical at &age")
        label.setBuddy(self.age)
        self.use = QPushButton("Use it")
        self.words = PlainLabel(UNKNOWN_AGE, role="small", wraps=True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(label)
        row.addWidget(self.age)
        row.addWidget(self.use)
        row.addStretch(1)
        self._pupil_mm: float | None = None
        self.age.textEdited.connect(self._read)
        self.age.returnPressed.connect(self._ask)
        self.use.clicked.connect(self._ask)
        self._read("")

    def _read(self, text: str) -> None:
        self._pupil_mm = None
        words = UNKNOWN_AGE
        if text.strip():
            try:
                age = parse_number(text, low=YOUNGEST, high=OLDEST, what="The age", unit="years")
            except ProblemsError as error:
                words = str(error.problems[0])
            else:
                self._pupil_mm = round(usual_pupil_mm(age), 1)
                words = usual_pupil_text(age, self._pupil_mm)
        self.words.setText(words)
        self.use.setEnabled(self._pupil_mm is not None)
        described = "" if self._pupil_mm is None else words
        self.use.setAccessibleName("Use the pupil that is typical at this age")
        self.use.setAccessibleDescription(described)

    def _ask(self) -> None:
        if self._pupil_mm is not None:
            self.wanted.emit(self._pupil_mm)
