"""The year outlook: a planet's year of evenings at a glance, and the way to any of them."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.ephemeris import usable_dates
from core.words.pairs import meetings
from core.words.site_clock import SiteClock
from core.words.tips import NO_SITE_FOR_YEAR, POINT_AT_EVENING
from core.words.year import best_weeks_text, cautions, evening_text, light_nights_text
from core.words.year_notes import year_notes
from core.year.year import Year
from gui.height.mars_longitude import MarsLongitudeRow
from gui.height.search_page import SearchPage
from gui.height.year_canvas import YearCanvas
from gui.height.year_reader import YearReader, YearWanted
from gui.state import AppState
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel
from gui.widgets.reading_area import reading_label

_DEPENDS_ON = (
    *(Situation.preferences, Situation.site, Situation.evening, Situation.planet, Situation.has_sky),
    *(
        Situation.kit_powers,
        Situation.dark,
        Situation.scope,
        Situation.usual_blur_arcsec,
        Situation.mars_longitude_deg,
    ),
)
# From so many letters across on there is room for the reading and the buttons in a row.
_ROW_LETTERS = 90


class YearPanel(SearchPage):
    """The year of the planet in hand at the site in hand; worked out while the panel is in sight.

    Signals
    -------
    dates_wanted
        Evenings are to be found by what they must have.
    """

    dates_wanted = Signal()

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        reader = YearReader(state.jobs)
        super().__init__(state, reader, "Working out the year", depends_on=_DEPENDS_ON, parent=parent)
        self._reader = reader
        self._first: date | None = None
        self.sentence = PlainLabel(wraps=True)
        self.sentence.setAccessibleName("Best weeks of the year")
        self.caution = PlainLabel(role="caution", wraps=True)
        self.caution.setAccessibleName("Caution")
        self.caution.hide()
        self.notes = reading_label(role="small")
        self.notes.setAccessibleName("What else the year brings")
        self.notes.hide()
        # Without a parent it would be a window of its own for a moment.
        self.mars_longitude = MarsLongitudeRow(state, self)
        self.canvas = YearCanvas(state)
        self.reading = PlainLabel(POINT_AT_EVENING, role="small", wraps=True)
        self.reading.setAccessibleName("The evening under the pointer")
        self.go = QPushButton("&Go to this evening")
        self.go.setAccessibleDescription("Go to the evening under the pointer")
        self.to_dates = QPushButton("Find me a &date")
        self.to_dates.setAccessibleDescription("Find the next evenings by planets, heights, hours and Moon")
        self.back = QPushButton("&Back to the evening")
        self.back.setToolTip("Esc")
        self.setFocusProxy(self.canvas)
        self._lay_out()
        InRoom(self, self._arrange)
        self._connect()
        self._show_reading()

    def _lay_out(self) -> None:
        buttons = QHBoxLayout()
        buttons.setSpacing(12)
        buttons.addWidget(self.progress)
        for button in (self.go, self.to_dates, self.back):
            buttons.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        self._foot = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._foot.setSpacing(12)
        self._foot.addWidget(self.reading, 1)
        self._foot.addLayout(buttons)
        notes = QHBoxLayout()
        notes.setSpacing(12)
        notes.addWidget(self.mars_longitude)
        notes.addWidget(self.notes, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.sentence)
        column.addWidget(self.caution)
        column.addLayout(notes)
        column.addWidget(self.canvas, 1)
        column.addLayout(self._foot)

    def _arrange(self) -> None:
        """Set the buttons beside the reading, or below it where letters are too large for that."""
        is_row = self.width() >= _ROW_LETTERS * self.fontMetrics().averageCharWidth()
        directions = QBoxLayout.Direction
        self._foot.setDirection(directions.LeftToRight if is_row else directions.TopToBottom)

    def _connect(self) -> None:
        self._reader.found.connect(self._show_year)
        self._reader.refused.connect(self._show_refusal)
        self.canvas.pointed.connect(self._show_reading)
        self.canvas.chosen.connect(self._go_to)
        self.go.clicked.connect(lambda: self._go_to(self.canvas.marked))
        self.to_dates.clicked.connect(self.dates_wanted)
        self.back.clicked.connect(self.left)

    # The year.

    def want(self) -> None:
        state = self._state
        site, planet = state.situation.site, state.situation.planet
        if site is None or planet is None:
            self.progress.end()
            self._show_nothing("" if site else NO_SITE_FOR_YEAR)
            return
        self._first = _first_of_year(state.situation.evening, self._first)
        wanted = YearWanted(
            site=site,
            planet=planet,
            first=self._first,
            dark_below_deg=state.situation.dark.sun_altitude_deg_of(planet),
            sharpness=state.situation.usual_sharpness,
            mars_longitude_deg=state.situation.mars_longitude_deg if planet is Body.MARS else None,
        )
        year = self.canvas.year
        if year is not None and YearWanted.of(year) == wanted:
            self._reader.give_up()
            self.progress.end()
            self.notes.show_words(self._notes_of(year))
            self._show_reading()
            return
        self.progress.begin()
        self._reader.want_year(wanted)

    def _show_year(self, year: Year) -> None:
        self.progress.end()
        self.sentence.setText(" ".join(filter(None, [best_weeks_text(year), light_nights_text(year)])))
        self.caution.show_words(" ".join(cautions(year)))
        self.notes.show_words(self._notes_of(year))
        self.canvas.show_year(year)
        self._show_reading()

    def _notes_of(self, year: Year) -> str:
        clock, kit = self._clock(year), self._state.situation.kit_powers
        return " ".join((*year_notes(year, clock), *meetings(year, kit, clock)))

    def _clock(self, year: Year) -> SiteClock:
        return SiteClock(zone=year.site.zone, hours=self._state.profile.preferences.clock)

    def _show_refusal(self, sentence: str) -> None:
        self.progress.end()
        self._show_nothing(sentence)

    def _show_nothing(self, sentence: str) -> None:
        self.sentence.setText(sentence)
        self.caution.show_words("")
        self.notes.show_words("")
        self.canvas.show_year(None)
        self._show_reading()

    # One evening of it.

    def _show_reading(self, _day: date | None = None) -> None:
        year, state = self.canvas.year, self._state
        day = self.canvas.marked or state.situation.evening
        self.go.setEnabled(self.canvas.marked not in (None, state.situation.evening))
        words = POINT_AT_EVENING
        if year is not None and day in year.dates:
            words = evening_text(year, year.dates.index(day), self._clock(year))
        self.reading.setText(words)
        told = (self.sentence.text(), self.caution.text(), self.notes.text(), words)
        self.canvas.setAccessibleDescription(" ".join(filter(None, told)))
        changed = QAccessibleEvent(self.canvas, QAccessible.Event.DescriptionChanged)
        QAccessible.updateAccessibility(changed)

    def _go_to(self, day: date | None) -> None:
        if day is not None and self.go_to(day):
            self.left.emit()


def _first_of_year(evening: date, shown: date | None) -> date:
    """Return the first date to show: the one shown already while the evening lies in its year.

    Else it is the first of the evening's month, so that the chart stands still while evenings are chosen.
    """
    if shown is not None and shown <= evening < shown.replace(year=shown.year + 1):
        return shown
    return max(evening.replace(day=1), usable_dates()[0])
