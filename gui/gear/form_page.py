"""The page of a form: fields in rows, headings between them, and a line that says what is missing."""

from PySide6.QtWidgets import QPushButton, QWidget

from gui.widgets.choice_field import SwitchField
from gui.widgets.field import Field
from gui.widgets.field_rows import FieldRows
from gui.widgets.plain_label import PlainLabel

_ABOVE_HEADING_PX = 8


class FormPage(QWidget):
    """Rows that a kind of form fills; ``fields`` holds those that can be edited, by name."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fields: dict[str, Field] = {}
        self._status = PlainLabel(role="hint", wraps=True)
        self._status.hide()
        self._more: QPushButton | None = None
        self._rows = FieldRows(self)
        # Room for the scroll bar on the right.
        self._rows.setContentsMargins(0, 0, 10, 0)
        self._rows.add_wide(self._status)

    def refresh(self) -> None:
        """Bring in what has changed; a text that is being typed stays."""
        raise NotImplementedError

    def connect_field(self, field: Field) -> None:
        """Listen to a field that joins the page."""
        raise NotImplementedError

    def say(self, words: str) -> None:
        """Say something above the fields, or with no words nothing."""
        self._status.show_words(words)

    def add(self, field: Field) -> None:
        """Add a field as the next row."""
        self.connect_field(field)
        if isinstance(field, SwitchField):
            self._rows.add_unlabelled(field)
        else:
            self._rows.add_row(field.label, field, field.editor)

    def add_wide(self, field: Field) -> None:
        """Add a field that takes the whole width, under a heading that names it."""
        self.connect_field(field)
        self._rows.add_wide(field)

    def add_heading(self, text: str) -> PlainLabel:
        """Add a heading over the rows that follow, and return it."""
        heading = PlainLabel(text, self, role="heading")
        heading.setContentsMargins(0, _ABOVE_HEADING_PX, 0, 0)
        self._rows.add_wide(heading)
        return heading

    def add_row(self, widget: QWidget) -> None:
        """Add a row that is no field."""
        self._rows.add_wide(widget)

    def add_beside_labels(self, widget: QWidget) -> None:
        """Add a row that is no field, in the column of the fields."""
        self._rows.add_unlabelled(widget)

    def add_more(self, words: str) -> None:
        """Add a button that shows what is seldom needed; ``shown`` asks ``wants_more``."""
        self._more = QPushButton(words, self)
        self._more.setCheckable(True)
        self._more.toggled.connect(lambda _is_on: self.refresh())
        self._rows.add_unlabelled(self._more)

    @property
    def wants_more(self) -> bool:
        """Whether what is seldom needed is shown."""
        return self._more is not None and self._more.isChecked()

    def show_row(self, widget: QWidget, is_shown: bool) -> None:
        """Show or hide the row of a heading or a field."""
        self._rows.show_row(widget, is_shown)

    def end_page(self) -> None:
        """Leave what room remains below the last row."""
        self._rows.end()
