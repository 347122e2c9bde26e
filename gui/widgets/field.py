"""What every field of a form has in common: a value, what was typed, and one sentence under it."""

from typing import Any, Generic, TypeVar

from attrs import frozen
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.words.names import labelled
from gui.ampersands import with_ampersands
from gui.widgets.plain_label import PlainLabel

V = TypeVar("V")


@frozen
class Choice:
    """One thing that a doubtful text may have meant: words for a button, and the text it stands for."""

    label: str
    text: str


@frozen
class Reading(Generic[V]):
    """What a typed text means: a value, or a sentence that says why it is not one.

    ``choices`` are offered when the text may have meant several things.
    """

    value: V | None = None
    problem: str = ""
    choices: tuple[Choice, ...] = ()

    @property
    def is_good(self) -> bool:
        """Whether the text has been understood and allowed."""
        return not self.problem


class Field(QWidget):
    """One field of a form.

    ``reading`` is what stands in it now. ``sync`` brings in the profile's value and leaves alone a text that
    means the same, or that is being typed while the value stays as it was.

    Signals
    -------
    edited
        The person changed it.
    entered
        The keyboard came to it, so that what is typed next is a step of its own.
    """

    edited = Signal()
    entered = Signal()

    has_settled = False

    def __init__(self, name: str, label: str, *, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = name
        self.label = label
        self._row = QHBoxLayout()
        self._row.setSpacing(6)
        self._message = PlainLabel(role="problem", wraps=True)
        self._message.hide()
        self._choices = QHBoxLayout()
        self._offered: tuple[Choice, ...] = ()
        self._choice_buttons: list[QPushButton] = []
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        layout.addLayout(self._row)
        layout.addWidget(self._message)
        layout.addLayout(self._choices)

    @property
    def editor(self) -> QWidget:
        """The control that takes the keyboard."""
        raise NotImplementedError

    @property
    def reading(self) -> Reading[Any]:
        """What stands in the field."""
        raise NotImplementedError

    def sync(self, value: object) -> None:
        """Bring in the profile's value."""
        raise NotImplementedError

    def reset(self) -> None:
        """Empty the field for a new thing."""
        raise NotImplementedError

    @property
    def settled(self) -> Any:  # noqa: ANN401 - a field holds any kind of value
        """The value to go back to when what is being typed is refused, where ``has_settled``."""
        return None

    @property
    def unaccepted(self) -> str | None:
        """What was typed but is not in the profile, to be kept for later; None when there is nothing."""
        return None

    @property
    def entry(self) -> str | None:
        """What has been put in, accepted or not, as text; None for a field left as it was for a new thing."""
        raise NotImplementedError

    def restore(self, text: str) -> None:
        """Put back what ``unaccepted`` or ``entry`` gave."""
        raise NotImplementedError

    @property
    def message(self) -> str:
        """The sentence under the field; empty when there is none."""
        return self._message.text()

    def say(self, sentence: str, choices: tuple[Choice, ...] = ()) -> None:
        """Show one sentence under the field with a button for each choice; an empty one clears it."""
        self._message.show_words(sentence)
        self.editor.setAccessibleDescription(sentence)
        if self.editor.property("problem") != bool(sentence):
            self.editor.setProperty("problem", bool(sentence))
            # A style sheet looks at properties only when it is told to.
            self.editor.style().unpolish(self.editor)
            self.editor.style().polish(self.editor)
        self._offer(choices)

    def choose(self, choice: Choice) -> None:
        """Take one of the choices that were offered."""
        raise NotImplementedError

    def add_beside(self, widget: QWidget) -> None:
        """Put a small widget to the right of the editor, or of what stands there already."""
        # The last item is the room that is left over.
        self._row.insertWidget(self._row.count() - 1, widget)

    def _offer(self, choices: tuple[Choice, ...]) -> None:
        # Buttons that stay keep the keyboard.
        if choices == self._offered:
            return
        self._offered = choices
        for button in self._choice_buttons:
            self._choices.removeWidget(button)
            button.hide()
            button.deleteLater()
        self._choice_buttons = []
        previous: QWidget = self.editor
        for choice in choices:
            button = QPushButton(with_ampersands(choice.label), self)
            button.setProperty("role", "choice")
            button.setAccessibleName(labelled(self.label, choice.label))
            button.clicked.connect(lambda _checked=False, choice=choice: self.choose(choice))
            self._choices.addWidget(button)
            # A layout would show it only later, too late for a Tab that is on its way.
            button.show()
            self._choice_buttons.append(button)
            QWidget.setTabOrder(previous, button)
            previous = button
