"""A field to type in: each keystroke is read, and what was typed stays until it is left."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from core.words.controls import WITH_UNIT
from core.words.gear_edits import NEEDED
from gui.widgets.field import Choice, Field, Reading
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit

_PATIENCE_MS = 600


class TypedField(Field):
    """A line to type in, read on each keystroke.

    ``read`` turns a text that is not blank into a reading, ``write`` a value into text. A blank text means
    None, which an optional field allows. A text that is refused stays as typed, with its sentence under it;
    an accepted one is written anew when the field is left (``12,5`` becomes ``12.5``). The first sentence
    waits for a pause in the typing or for the field to be left, since a figure half typed is not wrong yet.
    ``settled`` is the value from before the typing: the digits on the way to a refused figure are nothing
    that anybody meant.
    """

    def __init__(
        self,
        name: str,
        label: str,
        *,
        read: Callable[[str], Reading[Any]],
        write: Callable[[Any], str],
        optional: bool = False,
        unit: str = "",
        letters: int | None = None,
        placeholder: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(name, label, parent=parent)
        self.optional = optional
        self._read = read
        self._write = write
        self._kept: Any = None
        self._settled: Any = None
        self._reading: Reading[Any] = self._blank_reading()
        self._line = PlainLineEdit(self, letters=letters)
        self._line.setPlaceholderText(placeholder)
        self._unit = PlainLabel(unit, self, role="faint")
        self._unit.setVisible(bool(unit))
        self._name_for_readers()
        self._row.addWidget(self._line)
        self._row.addWidget(self._unit)
        if letters is not None:
            self._row.addStretch(1)
        self.setFocusProxy(self._line)
        self._patience = QTimer(self)
        self._patience.setSingleShot(True)
        self._patience.setInterval(_PATIENCE_MS)
        self._patience.timeout.connect(self._complain)
        self._line.textEdited.connect(self._on_edited)
        self._line.editingFinished.connect(self._on_left)
        self._line.entered.connect(self._settle)
        self._line.entered.connect(self.entered)
        self._line.leaving.connect(self._complain)
        self._line.took_back.connect(self._take_back)

    @property
    def editor(self) -> PlainLineEdit:
        return self._line

    @property
    def text(self) -> str:
        """What stands in the line, letter by letter."""
        return self._line.text()

    @property
    def reading(self) -> Reading[Any]:
        return self._reading

    @property
    def is_blank(self) -> bool:
        """Whether nothing has been typed."""
        return not self._line.text().strip()

    @property
    def settled(self) -> Any:  # noqa: ANN401 - a field holds any kind of value
        return self._settled

    @property
    def unaccepted(self) -> str | None:
        return self._line.text() if self._line.holds_unaccepted else None

    @property
    def entry(self) -> str | None:
        return None if self.is_blank else self._line.text()

    def set_unit(self, unit: str) -> None:
        """Name the unit that the figures are in."""
        self._unit.show_words(unit)
        self._name_for_readers()

    def set_completions(self, words: tuple[str, ...]) -> None:
        """Offer words that contain what is typed."""
        self._line.set_completions(words).activated.connect(lambda text: self.choose(Choice(text, text)))

    def sync(self, value: object) -> None:
        # A refused text has itself brought the profile back to what was settled.
        news = value not in (self._kept, self._settled)
        self._kept = value
        if self._reading.is_good and self._reading.value == value:
            self.accept()
        elif news or not self._line.holds_unaccepted:
            self._show(value)

    def rewrite(self) -> None:
        """Write an accepted value anew, after the units have changed."""
        if not self._line.holds_unaccepted:
            self._show(self._reading.value)

    def reset(self) -> None:
        self._kept = None
        self._show(None)
        self.has_settled = False

    def restore(self, text: str) -> None:
        self._line.setText(text)
        self._take()
        self._complain()

    def choose(self, choice: Choice) -> None:
        self._line.setText(choice.text)
        self._line.setFocus()
        self._on_edited()
        self._complain()

    def refuse(self, sentence: str) -> None:
        """Mark what was typed as not accepted, for a reason outside the field."""
        self._line.holds_unaccepted = True
        self.say(sentence)

    def accept(self) -> None:
        """Take back a ``refuse``: together with the other fields the text is fine now."""
        if self._reading.is_good:
            self._line.holds_unaccepted = False
            self.say("")

    def _show(self, value: object) -> None:
        self._settled, self.has_settled = value, True
        self._reading = Reading(value) if value is not None else self._blank_reading()
        self._line.setText("" if value is None else self._write(value))
        self._line.setCursorPosition(0)
        self._patience.stop()
        self._line.holds_unaccepted = False
        self.say("")

    def _on_edited(self) -> None:
        self._take()
        self.edited.emit()

    def _take(self) -> None:
        """Read the text as it stands."""
        self._reading = self._blank_reading() if self.is_blank else self._read(self._line.text())
        self._line.holds_unaccepted = not self._reading.is_good
        if self._reading.is_good or self.message:
            self._complain()
        else:
            self._patience.start()

    def _complain(self) -> None:
        """Show what is wrong with the text, or that nothing is."""
        self._patience.stop()
        if self._line.holds_unaccepted and self._reading.is_good:
            # Refused for a reason outside the field, which is shown already.
            return
        self.say(self._reading.problem, self._reading.choices)

    def _settle(self) -> None:
        if self._reading.is_good and not self._line.holds_unaccepted:
            self._settled, self.has_settled = self._reading.value, True

    def _on_left(self) -> None:
        self._complain()
        self._settle()
        if self._reading.is_good and self._reading.value is not None and not self._line.holds_unaccepted:
            written = self._write(self._reading.value)
            if written != self._line.text():
                self._line.setText(written)

    def _take_back(self) -> None:
        self._show(self._kept)
        self.edited.emit()

    def _blank_reading(self) -> Reading[Any]:
        return Reading() if self.optional else Reading(problem=NEEDED.format(label=self.label))

    def _name_for_readers(self) -> None:
        unit = self._unit.text()
        self._line.setAccessibleName(WITH_UNIT.format(label=self.label, unit=unit) if unit else self.label)
