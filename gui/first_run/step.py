"""What the steps of the set-up have in common."""

from attrs import frozen
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.record.observer import Profile
from gui.widgets.plain_label import PlainLabel


@frozen
class Hold:
    """Why a step is not left yet: one sentence, and whether whoever asks once more may pass all the same."""

    sentence: str
    may_pass: bool = False


class Step(QWidget):
    """One step: a question, a line of advice, and the controls that answer it.

    A step never keeps a profile; ``added_to`` puts its answer on top of the earlier steps' answers, so
    that one can go back and change any of them.

    Signals
    -------
    answered
        The answer has changed.
    done
        The answer is whole and the person wants to go on.
    """

    title = ""
    question = ""
    advice = ""

    answered = Signal()
    done = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(8)
        self.column.addWidget(PlainLabel(self.question, role="title", wraps=True))
        self.column.addWidget(PlainLabel(self.advice, role="faint", wraps=True))

    def added_to(self, profile: Profile) -> Profile:
        """Return the profile with this step's answer in it."""
        raise NotImplementedError

    def on_shown(self, profile: Profile) -> None:
        """Prepare for being shown on top of the earlier steps' answers."""

    def settle(self) -> Hold | None:
        """Take what has been typed where it can mean one thing only; return what is missing, if anything."""
        raise NotImplementedError
