"""Which colour filters: the last step, which may be passed over."""

from attrs import evolve
from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from core.gear.owned import Filter
from core.looks.filters import wratten_table
from core.record.observer import Profile
from core.words.cautions import DARK_FILTERS_AND_SUN
from gui.first_run.step import Step
from gui.widgets.plain_label import PlainLabel

_COLUMNS = 2


class FilterStep(Step):
    """A box for each Wratten number that planets are looked at with."""

    title = "Filters"
    question = "Any colour filters?"
    advice = (
        "Most people have none, and none is fine: "
        "a filter gives a small gain in contrast and shows nothing new."
    )

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        known = [facts for facts in wratten_table().values() if facts.uses]
        self.filters = {
            facts.wratten: QCheckBox(f"No. {facts.wratten}, {facts.colour}", self) for facts in known
        }
        grid = QGridLayout()
        rows = -(-len(known) // _COLUMNS)
        for number, box in enumerate(self.filters.values()):
            grid.addWidget(box, number % rows, number // rows)
            box.clicked.connect(lambda _checked: self.answered.emit())
        grid.setColumnStretch(_COLUMNS, 1)
        self.column.addLayout(grid)
        self.column.addWidget(PlainLabel(DARK_FILTERS_AND_SUN, wraps=True))
        self.column.addStretch(1)
        self.setFocusProxy(next(iter(self.filters.values())))

    def added_to(self, profile: Profile) -> Profile:
        table = wratten_table()
        ticked = (number for number, box in self.filters.items() if box.isChecked())
        filters = tuple(
            Filter(name=f"No. {number}, {table[number].colour}", wratten=number) for number in ticked
        )
        return evolve(profile, filters=filters or profile.filters)
