"""The Height view: the evening's chart with each body at a moment, a planet's year, a search for dates."""

from datetime import datetime
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.situation.situation import Situation
from core.words.body_readings import (
    CeilingBasis,
    is_sun_up,
    moment_words,
    read_bodies,
    readings_note,
    readings_text,
)
from core.words.cautions import SUN_IS_UP
from core.words.evening_cautions import cautious_steps
from core.words.evening_told import evening_heading, evening_told
from core.words.finding import HEADING, findings_text
from core.words.looks import brief_words
from core.words.site_clock import clock_of
from core.words.tips import NO_SITE_FOR_CHART
from gui.height.cells import BodyCells
from gui.height.chart import HeightCanvas
from gui.height.steps_list import STEPS_FROM, StepsList
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.all_lines import AllLines
from gui.widgets.in_room import InRoom
from gui.widgets.in_sight import InSight
from gui.widgets.one_page import OnePage
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_tip import plain_tip
from gui.widgets.reading_area import reading_label

if TYPE_CHECKING:
    from gui.height.dates_panel import DatesPanel
    from gui.height.year_panel import YearPanel

EVENING, YEAR, DATES = range(3)
# What is told under the chart follows from these.
_READ_FROM = (
    *(Situation.night, Situation.time, Situation.following_now, Situation.preferences),
    *(Situation.evening_steps, Situation.planet, Situation.scope, Situation.mirror_course),
    *(Situation.blur_now, Situation.usual_air, Situation.happenings),
)
# The chart stays at least so wide beside the steps.
_LEAST_CHART_PX = 820
# Under so many lines of text a window is low.
_LOW_LINES = 44
# From so many letters across on there is room for all cells in a row, and for the buttons beside the note.
_CELLS_LETTERS, _HEAD_LETTERS = 120, 105


class HeightView(QWidget):
    """Altitude against time for the evening, with a time cursor and a read-out; behind it, the year."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.canvas = HeightCanvas(state)
        self.moment = PlainLabel(role="heading")
        self.moment.setAccessibleName("Moment of the read-out")
        self.now = QPushButton("&Now")
        self.now.setAccessibleName("Back to now")
        self.now.setToolTip("Home")
        self.note = reading_label(role="small")
        self.appearance_line = reading_label()
        self.appearance_line.setAccessibleName("How the planet in hand looks")
        self.all_looks = QPushButton("How it loo&ks")
        self.all_looks.setAccessibleDescription("Show all that is known of the disc, and what happens on it")
        self.to_find = QPushButton("How to fin&d it")
        self.to_find.setAccessibleDescription(
            "Show where each body stands and from what it is found, as text"
        )
        self.to_year = QPushButton("The &year")
        self.to_year.setAccessibleDescription("Show the planet's year, and go from there to any evening")
        self.in_words = QPushButton("In w&ords")
        self.in_words.setAccessibleDescription("Show what to prepare, each target and when to stop, as text")
        self.caution = reading_label(SUN_IS_UP, role="caution")
        self.cells = BodyCells()
        # Without a parent it would be a window of its own for a moment.
        self.steps = StepsList(state, self)
        self.pages = OnePage()
        self._lay_out()
        InRoom(self, self._share_room)
        self.now.clicked.connect(state.show_tonight)
        self.in_words.clicked.connect(self._tell_evening)
        self.to_find.clicked.connect(self._tell_ways_to_find)
        self.all_looks.clicked.connect(self._tell_looks)
        self.cells.chosen.connect(state.set_planet)
        self.canvas.pointed.connect(self._show_reading)
        self.to_year.clicked.connect(lambda: self.show_page(YEAR))
        InSight(self, state, STEPS_FROM, self.steps.show_situation)
        InSight(self, state, _READ_FROM, self._show_reading)
        self._show_reading()

    def _lay_out(self) -> None:
        said, buttons = QHBoxLayout(), QHBoxLayout()
        said.setSpacing(12)
        said.addWidget(self.moment)
        said.addWidget(self.now)
        said.addWidget(self.caution, 1)
        said.addWidget(self.note, 1)
        for button in (self.to_year, self.to_find, self.all_looks, self.in_words):
            buttons.addWidget(button)
        self._head = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._head.addLayout(said, 1)
        self._head.addLayout(buttons)
        evening = AllLines()
        below = QVBoxLayout(evening)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(5)
        self._chart_and_steps = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._chart_and_steps.setSpacing(8)
        self._chart_and_steps.addWidget(self.canvas, 1)
        self._chart_and_steps.addWidget(self.steps)
        below.addLayout(self._chart_and_steps, 1)
        below.addLayout(self._head)
        below.addWidget(self.appearance_line)
        below.addWidget(self.cells)
        self.pages.addWidget(evening)
        self.pages.add_later(lambda: self.year)
        self.pages.add_later(lambda: self.dates)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 4, 12, 10)
        column.addWidget(self.pages, 1)
        self.show_page(EVENING)

    def show_page(self, number: int) -> None:
        """Show the evening's chart, the planet's year or the search for a date; the keyboard goes there."""
        self.pages.show_page(number)
        hands_at: QWidget = self.canvas
        if number != EVENING:
            hands_at = self.year if number == YEAR else self.dates
        self.setFocusProxy(hands_at)
        if self.isVisible():
            hands_at.setFocus()

    @cached_property
    def year(self) -> "YearPanel":
        """The planet's year, made when it is first shown."""
        from gui.height.year_panel import YearPanel

        year = YearPanel(self._state)
        year.left.connect(lambda: self.show_page(EVENING))
        year.dates_wanted.connect(lambda: self.show_page(DATES))
        return year

    @cached_property
    def dates(self) -> "DatesPanel":
        """The search for a date, made when it is first shown."""
        from gui.height.dates_panel import DatesPanel

        dates = DatesPanel(self._state)
        dates.left.connect(lambda: self.show_page(YEAR))
        dates.went.connect(lambda: self.show_page(EVENING))
        return dates

    def _share_room(self) -> None:
        """Put the steps beside the chart where both have room there; in a low view fold steps and cells."""
        is_beside = self.width() - self.steps.wide_width >= _LEAST_CHART_PX
        directions = QBoxLayout.Direction
        self._chart_and_steps.setDirection(directions.LeftToRight if is_beside else directions.TopToBottom)
        letters = self.width() / self.fontMetrics().averageCharWidth()
        is_row = letters >= _HEAD_LETTERS
        self._head.setDirection(directions.LeftToRight if is_row else directions.TopToBottom)
        self._head.setSpacing(12 if is_row else 4)
        self.steps.fold(not is_beside)
        is_low = self.window().height() < _LOW_LINES * self.fontMetrics().lineSpacing()
        self.cells.fold(is_low or letters < _CELLS_LETTERS)

    def _show_reading(self, pointed: datetime | None = None) -> None:
        night, state = self._state.situation.night, self._state
        clock = clock_of(state.situation)
        moment = pointed or self.canvas.hovered or state.situation.time
        self.now.setVisible(not state.situation.following_now)
        for button in (self.all_looks, self.to_find):
            button.setEnabled(night is not None)
        # What was read of another profile's sky is not shown beside a chart without one.
        self.cells.setVisible(night is not None)
        if night is None or clock is None:
            self.moment.setText("")
            self.note.setText("")
            self.canvas.setAccessibleDescription("" if state.situation.site else NO_SITE_FOR_CHART)
            self.appearance_line.setText("")
            self.caution.hide()
            return
        when = clock.time(moment)
        follows = state.situation.following_now and moment == state.situation.time
        self.moment.setText(moment_words(when, is_now=follows))
        sun_is_up = is_sun_up(night, moment)
        self.caution.setVisible(sun_is_up)
        self.note.setVisible(not sun_is_up)
        self.note.setText(readings_note(state.situation.scope, state.situation.blur_now))
        appearance = state.situation.appearance_at(moment)
        self.appearance_line.setText(brief_words(appearance, clock) if appearance is not None else "")
        self.appearance_line.setToolTip(plain_tip(self.appearance_line.text()))
        scope = state.situation.scope
        basis = CeilingBasis(
            scope=scope,
            blur=state.situation.blur_now,
            usual_air=state.situation.usual_air,
            mirror_arcsec=0.0 if scope is None else state.situation.mirror_arcsec(scope, moment),
        )
        readings = read_bodies(night, moment, basis, clock)
        self.cells.show_readings(readings, state.situation.planet)
        cautions = cautious_steps(state.situation, clock)
        self.canvas.setAccessibleDescription(" ".join((readings_text(readings, when), *cautions)))
        changed = QAccessibleEvent(self.canvas, QAccessible.Event.DescriptionChanged)
        QAccessible.updateAccessibility(changed)

    def _tell_evening(self) -> None:
        """Show the items of the evening's strip with all that is to be said about them."""
        situation = self._state.situation
        night, clock = situation.night, clock_of(situation)
        if night is not None and clock is not None:
            told = evening_told(situation, night, clock)
            dialogs.show_text(self, "The evening in words", evening_heading(night), told)

    def _tell_ways_to_find(self) -> None:
        """Show how each body is found at the moment looked at, or at its best."""
        situation = self._state.situation
        if situation.night is None:
            return
        dialogs.show_text(self, HEADING, evening_heading(situation.night), findings_text(situation))

    def _tell_looks(self) -> None:
        """Show how the planet in hand looks at its best, or at a chosen moment while it is up."""
        appearance, clock = self._state.situation.best_appearance, clock_of(self._state.situation)
        if appearance is not None and clock is not None:
            # Its picture takes a while to load, and most evenings begin without it.
            from gui.widgets.looks_dialog import LooksDialog, show_looks

            show_looks(LooksDialog(self._state, appearance, clock, self))
