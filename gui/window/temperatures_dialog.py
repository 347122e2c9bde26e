"""The form for what is known of the evening's temperatures, with what follows from it beneath."""

from typing import Any

import attrs
from PySide6.QtWidgets import QDialogButtonBox, QVBoxLayout, QWidget

from core.air.temperatures import Temperatures
from core.situation.situation import Situation
from core.words.tips import TEMPERATURES
from core.words.units import Units
from core.words.warmth import LOWEST_IS_TOO_WARM, warmth_sentences
from gui.state import AppState, Change
from gui.widgets.choice_field import SwitchField
from gui.widgets.field import Field
from gui.widgets.field_rows import FieldRows
from gui.widgets.plain_label import PlainLabel
from gui.widgets.readings import figure, reads_number, reads_temperature
from gui.widgets.sized_dialog import SizedDialog
from gui.widgets.typed_field import TypedField

_LETTERS = 6
_WIDE_LETTERS, _LINES = 75, 19
_DEGREES = {
    "indoor_c": "&Inside",
    "now_c": "Air &now",
    "dusk_c": "Air at &dusk",
    "lowest_c": "&Lowest of the night",
}


class TemperaturesDialog(SizedDialog):
    """Inside, air now, at dusk and at its lowest, humidity and breeze; each finished figure counts."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent, letters=_WIDE_LETTERS, lines=_LINES)
        self._state = state
        self._units = Units(state.profile.preferences)
        self.setWindowTitle("Temperatures this evening")
        self.fields: dict[str, Field] = {name: self._degrees(name) for name in _DEGREES}
        self.fields["humidity_pct"] = TypedField(
            "humidity_pct",
            "Humidity",
            read=reads_number(Temperatures, "humidity_pct", "The humidity"),
            write=figure,
            optional=True,
            unit="%",
            letters=_LETTERS,
        )
        self.fields["breeze"] = SwitchField("breeze", "A &breeze is blowing")
        self.what_follows = PlainLabel(wraps=True)
        self.what_follows.setAccessibleName("What follows for the telescope")
        self._lay_out()
        for field in self.fields.values():
            if isinstance(field, TypedField):
                # The 1 of a 12 is another temperature, so that a figure counts only when it is finished.
                field.editor.editingFinished.connect(self._take)
            else:
                field.edited.connect(self._take)
        state.changed.connect(self._on_changed)
        self._show()

    def done(self, result: int) -> None:
        # A figure in the middle of being typed is not lost with the form.
        self._take()
        super().done(result)

    def _degrees(self, name: str) -> TypedField:
        return TypedField(
            name,
            _DEGREES[name].replace("&", ""),
            read=reads_temperature(lambda: self._units),
            write=self._units.temperature_text,
            optional=True,
            unit=self._units.temperature,
            letters=_LETTERS,
        )

    def _lay_out(self) -> None:
        form = QWidget()
        self._rows = rows = FieldRows(form)
        labels = {**_DEGREES, "humidity_pct": "&Humidity"}
        for name, field in self.fields.items():
            if name in labels:
                rows.add_row(labels[name], field, field.editor)
            else:
                rows.add_unlabelled(field)
        rows.setContentsMargins(0, 0, 0, 0)
        box = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        box.rejected.connect(self.reject)
        # Return finishes a figure, and does not close the form.
        box.button(QDialogButtonBox.StandardButton.Close).setAutoDefault(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 18, 20, 16)
        column.setSpacing(12)
        column.addWidget(PlainLabel(TEMPERATURES, wraps=True))
        column.addWidget(form)
        column.addWidget(self.what_follows, 1)
        column.addWidget(box)

    def _on_changed(self, change: Change) -> None:
        told_by = (Situation.readiness, Situation.mirror_climb, Situation.dew, Situation.preferences)
        if change.of(Situation.temperatures, Situation.scope, *told_by):
            self._show()

    def _show(self) -> None:
        told = self._state.situation.temperatures or Temperatures()
        for name, field in self.fields.items():
            field.sync(getattr(told, name))
        self._rows.show_row(self.fields["dusk_c"], not self._dusk_is_past())
        self.what_follows.setText("\n".join(warmth_sentences(self._state.situation)))
        if self.isVisible():
            self.fit()

    def _dusk_is_past(self) -> bool:
        night, now = self._state.situation.night, self._state.situation.now
        return night is not None and night.sun.set is not None and now >= night.sun.set

    def _take(self) -> None:
        """Take every figure that is understood; what is refused keeps its last good value."""
        told = self._state.situation.temperatures or Temperatures()
        good: dict[str, Any] = {
            name: field.reading.value for name, field in self.fields.items() if field.reading.is_good
        }
        wanted = attrs.evolve(told, **good)
        lowest = self.fields["lowest_c"]
        assert isinstance(lowest, TypedField)
        if wanted.lowest_is_too_warm:
            lowest.refuse(LOWEST_IS_TOO_WARM)
            wanted = attrs.evolve(wanted, lowest_c=None)
        else:
            lowest.accept()
        self._state.set_temperatures(None if wanted == Temperatures() else wanted)
