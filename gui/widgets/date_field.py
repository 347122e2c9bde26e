"""A field for a date that may stay empty."""

from collections.abc import Callable
from datetime import date

from PySide6.QtWidgets import QPushButton, QWidget

from core.words.controls import TODAY_OF
from core.words.tips import WRITE_THE_DATE
from gui.widgets.field import Choice, Reading
from gui.widgets.typed_field import TypedField


class DateField(TypedField):
    """A date, typed as year, month and day, with a button for today."""

    def __init__(
        self, name: str, label: str, *, today: Callable[[], date], parent: QWidget | None = None
    ) -> None:
        super().__init__(
            name,
            label,
            read=_read_date,
            write=date.isoformat,
            optional=True,
            letters=10,
            placeholder="2026-11-01",
            parent=parent,
        )
        button = QPushButton("Today")
        button.setAccessibleName(TODAY_OF.format(label=label))
        button.clicked.connect(lambda: self._choose_day(today()))
        self.add_beside(button)

    def _choose_day(self, day: date) -> None:
        self.entered.emit()
        self.choose(Choice("today", day.isoformat()))


def _read_date(text: str) -> Reading[date]:
    try:
        return Reading(date.fromisoformat(text.strip()))
    except ValueError:
        return Reading(problem=WRITE_THE_DATE)
