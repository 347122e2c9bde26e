"""Which colour filters: the last step, which may be passed over."""

from attrs import evolve
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QCheckBox, QWidget

from core.gear.owned import Filter
from core.looks.filter_names import filter_completions, wratten_number
from core.looks.filters import wratten_table
from core.record.observer import Profile
from core.words.cautions import DARK_FILTERS_AND_SUN
from core.words.filters import FILTER_NUMBER_AND_COLOUR
from core.words.set_up import FILTER_ADVICE, FILTER_TICKED, NO_SUCH_FILTER
from gui.first_run.step import Hold, Step
from gui.widgets.folding_row import FoldingRow
from gui.widgets.in_columns import InColumns
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit

_COLUMNS = 2
_LETTERS = 24


class FilterStep(Step):
    """A box for each Wratten number that planets are looked at with."""

    title = "Filters"
    question = "Any colour filters?"
    advice = FILTER_ADVICE

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        known = [facts for facts in wratten_table().values() if facts.uses]
        self.filters = {
            facts.wratten: QCheckBox(
                FILTER_NUMBER_AND_COLOUR.format(number=facts.wratten, colour=facts.colour), self
            )
            for facts in known
        }
        for box in self.filters.values():
            box.clicked.connect(lambda _checked: self.answered.emit())
        self.column.addWidget(InColumns(list(self.filters.values()), most=_COLUMNS))
        self.name = PlainLineEdit(self, letters=_LETTERS)
        self.name.setPlaceholderText("25A, light blue, Moon filter")
        label = PlainLabel("What is &written on it")
        label.setBuddy(self.name)
        written = QWidget()
        row = FoldingRow(written, spacing=8)
        row.addWidget(label)
        row.addWidget(self.name)
        self.column.addWidget(written)
        self.found = PlainLabel(role="small", wraps=True)
        self.column.addWidget(self.found)
        self.name.returnPressed.connect(self._find)
        # The line takes the words of the list only after this signal.
        completions = self.name.set_completions(filter_completions())
        completions.activated.connect(lambda _text: QTimer.singleShot(0, self._find))
        self.column.addWidget(PlainLabel(DARK_FILTERS_AND_SUN, role="caution", wraps=True))
        self.column.addStretch(1)
        self.setFocusProxy(next(iter(self.filters.values())))

    def settle(self) -> Hold | None:
        words = self.name.text().strip()
        if not words or self._tick(words):
            return None
        return Hold(NO_SUCH_FILTER.format(words=words), may_pass=True)

    def _find(self) -> None:
        """Tick the box that the words mean; without words the step is done."""
        words = self.name.text().strip()
        if not words:
            self.done.emit()
        elif not self._tick(words):
            self.found.setText(NO_SUCH_FILTER.format(words=words))

    def _tick(self, words: str) -> bool:
        """Tick the box that the words mean; return whether there is one."""
        number = wratten_number(words)
        box = None if number is None else self.filters.get(number)
        if box is None:
            return False
        box.setChecked(True)
        self.found.setText(FILTER_TICKED.format(filter=box.text()))
        self.name.clear()
        self.answered.emit()
        return True

    def added_to(self, profile: Profile) -> Profile:
        table = wratten_table()
        ticked = (number for number, box in self.filters.items() if box.isChecked())
        filters = tuple(
            Filter(
                name=FILTER_NUMBER_AND_COLOUR.format(number=number, colour=table[number].colour),
                wratten=number,
            )
            for number in ticked
        )
        return evolve(profile, filters=filters or profile.filters)
