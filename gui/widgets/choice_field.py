"""Fields that are picked and not typed: one of a few, and yes or no."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtWidgets import QCheckBox, QComboBox, QWidget

from core.words.gear_edits import NEEDED
from gui.widgets.combo_box import CalmComboBox
from gui.widgets.field import Choice, Field, Reading


class ChoiceField(Field):
    """One of a few values, each with its words; with ``asks`` nothing is chosen for a new thing."""

    def __init__(
        self,
        name: str,
        label: str,
        choices: Sequence[tuple[Any, str]],
        *,
        asks: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(name, label, parent=parent)
        self._values: list[Any] = [value for value, _words in choices]
        self._asks = asks
        self._box = CalmComboBox(self)
        self._box.setAccessibleName(label)
        self._row.addWidget(self._box)
        self._row.addStretch(1)
        self.setFocusProxy(self._box)
        self._box.addItems([words for _value, words in choices])
        self._box.setPlaceholderText("choose")
        self.reset()
        self._box.activated.connect(lambda _index: self._on_activated())

    @property
    def editor(self) -> QComboBox:
        return self._box

    @property
    def reading(self) -> Reading[Any]:
        index = self._box.currentIndex()
        return (
            Reading(self._values[index]) if index >= 0 else Reading(problem=NEEDED.format(label=self.label))
        )

    @property
    def entry(self) -> str | None:
        is_as_new = self._box.currentIndex() == (-1 if self._asks else 0)
        return None if is_as_new else self._box.currentText()

    def restore(self, text: str) -> None:
        self._box.setCurrentText(text)

    def sync(self, value: object) -> None:
        if value in self._values:
            self._box.setCurrentIndex(self._values.index(value))
        self.say("")

    def reset(self) -> None:
        self._box.setCurrentIndex(-1 if self._asks else 0)
        self.say("")

    def choose(self, choice: Choice) -> None:
        self._box.setCurrentText(choice.text)
        self._on_activated()

    def _on_activated(self) -> None:
        self.entered.emit()
        self.edited.emit()


class SwitchField(Field):
    """Yes or no, with its words beside the box."""

    def __init__(self, name: str, label: str, *, parent: QWidget | None = None) -> None:
        super().__init__(name, label, parent=parent)
        self._box = QCheckBox(label, self)
        self._box.setAccessibleName(label.replace("&", ""))
        self._row.addWidget(self._box)
        self._row.addStretch(1)
        self.setFocusProxy(self._box)
        self._box.clicked.connect(lambda _checked: self._on_clicked())

    @property
    def editor(self) -> QCheckBox:
        return self._box

    @property
    def reading(self) -> Reading[bool]:
        return Reading(self._box.isChecked())

    @property
    def entry(self) -> str | None:
        return "yes" if self._box.isChecked() else None

    def restore(self, text: str) -> None:
        self._box.setChecked(bool(text))

    def sync(self, value: object) -> None:
        self._box.setChecked(bool(value))
        self.say("")

    def reset(self) -> None:
        self.sync(False)

    def _on_clicked(self) -> None:
        self.entered.emit()
        self.edited.emit()
