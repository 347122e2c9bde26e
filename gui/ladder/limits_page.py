"""The page of limits beside the ladder: the ceiling, what sets it, and how it climbs as the mirror cools."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from core.ladder.ladder import Ladder
from core.situation.situation import Situation
from core.words.cooling import mirror_climb_text
from core.words.limits import LimitLine, ladder_note, limit_lines
from core.words.quantities import power_text
from core.words.site_clock import clock_of
from core.words.warmth import taken_out_words
from gui.widgets.emptied import empty
from gui.widgets.plain_label import PlainLabel
from gui.widgets.reading_area import ReadingArea, reading_label


class LimitsPage(ReadingArea):
    """The ceiling, the three limits of power, and how the ceiling climbs as the mirror cools."""

    def __init__(self) -> None:
        page = QWidget()
        super().__init__(page)
        self.setAccessibleName("Limits of power")
        self.ceiling = PlainLabel(role="numeral")
        self.note = reading_label(role="small")
        self.climb = reading_label(role="small")
        self.climb.setAccessibleName("How the ceiling climbs as the mirror cools")
        self.grid = QGridLayout()
        self.grid.setHorizontalSpacing(10)
        self.grid.setVerticalSpacing(2)
        self.grid.setColumnStretch(0, 2)
        self.grid.setColumnStretch(2, 3)
        self._lines: tuple[LimitLine, ...] = ()
        column = QVBoxLayout(page)
        column.setContentsMargins(2, 0, 2, 0)
        top = QHBoxLayout()
        top.setSpacing(10)
        top.addWidget(self.ceiling)
        top.addWidget(self.note, 1)
        column.addLayout(top)
        column.addLayout(self.grid)
        column.addWidget(self.climb)
        column.addStretch(1)

    def show_situation(self, situation: Situation) -> None:
        """Show the limits of the ladder in hand."""
        ladder = situation.ladder
        power = None if ladder is None else ladder.ceiling.power
        self.ceiling.setText("" if power is None else power_text(power))
        self.note.setText(ladder_note(ladder))
        self._show_lines(ladder)
        climb, clock, words = situation.mirror_climb, clock_of(situation), ""
        taken = situation.taken_out_at
        # In the best moment the answer on top tells it.
        if climb is not None and clock is not None and situation.aim != situation.best_aim:
            words = mirror_climb_text(climb, clock, now=situation.present)
        if taken is not None and clock is not None:
            words = " ".join(filter(None, (taken_out_words(taken, clock), words)))
        self.climb.setText(words)
        self.climb.setVisible(bool(words))

    def _show_lines(self, ladder: Ladder | None) -> None:
        lines = limit_lines(ladder) if ladder is not None and ladder.aim.is_offered else ()
        if lines == self._lines:
            return
        # New labels show only after the next turn of events: without need they would make it flicker.
        self._lines = lines
        empty(self.grid)
        for row, line in enumerate(lines):
            role = "heading" if line.sets_ceiling else ""
            self.grid.addWidget(reading_label(line.name, role=role), row, 0)
            self.grid.addWidget(PlainLabel(line.power, role=role), row, 1, Qt.AlignmentFlag.AlignRight)
            self.grid.addWidget(reading_label(line.why, role="small"), row, 2)
