"""The line that tells since when the telescope stands outside, so that a warm mirror is reckoned with."""

from datetime import UTC, datetime, time, timedelta

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QWidget

from core.gear.figures import parse_temperature_difference_c
from core.problems import ProblemsError
from core.situation.given import to_minute
from core.situation.situation import Situation
from core.sky.night import Night
from core.words.answer import carry_out_told
from core.words.controls import (
    OUTSIDE_BUTTON,
    OUTSIDE_COUNTS_FOR,
    SAY_OUTSIDE,
    STILL_TO_COME,
    WARMER_BY,
    WHEN_TO_CARRY_OUT,
)
from core.words.cooling import brief_outside_text
from core.words.evening import item_words
from core.words.names import as_sentence
from core.words.site_clock import SiteClock, clock_of
from core.words.tips import WHY_TEMPERATURES
from core.words.units import Units
from core.words.warmth import as_planned_words, taken_out_words, warmth_sentences
from gui.state import AppState, Change
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.fitting_label import FittingLabel
from gui.widgets.folding_row import FoldingRow
from gui.widgets.pickers import TimePicker
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit
from gui.widgets.plain_tip import plain_tip
from gui.window.temperatures_dialog import TemperaturesDialog

_NOON = time(12)
_NOTE_LETTERS = 60


class OutsideRow(QWidget):
    """One button while the telescope is not outside; then since when, and how much warmer than the air.

    Hidden on evenings other than the one in progress, and without a telescope. When to carry it out is told
    by ``carry_out``, which stands where there is room for it.
    """

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self._shown: tuple[datetime, SiteClock] | None = None
        self.carry_out = FittingLabel(role="next")
        self.carry_out.setAccessibleName(WHEN_TO_CARRY_OUT)
        self.carry_out.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.start = QPushButton(SAY_OUTSIDE)
        self.start.setProperty("role", "flat")
        self.start.setAccessibleDescription(OUTSIDE_BUTTON)
        self.start.setToolTip(OUTSIDE_COUNTS_FOR)
        self.as_planned = QPushButton()
        self.as_planned.setProperty("role", "flat")
        self.since = TimePicker("Telescope outside since")
        self.warmth = PlainLineEdit(letters=4)
        self.note = ElidedLabel(role="small", letters=_NOTE_LETTERS)
        self.note.setAccessibleName("When the telescope is usable")
        self.stop = QPushButton("Not outside")
        self.stop.setProperty("role", "flat")
        self.temperatures = QPushButton("Te&mperatures")
        self.temperatures.setProperty("role", "flat")
        self.temperatures.setAccessibleDescription("Say how warm inside and air are, and how damp")
        self.temperatures.setToolTip(WHY_TEMPERATURES)
        self._outside = (PlainLabel("Outside"), self.since, self.warmth, self.note, self.stop)
        row = FoldingRow(self, spacing=6)
        row.addWidget(self.start)
        row.addWidget(self.as_planned)
        for widget in self._outside:
            row.addWidget(widget)
        row.addWidget(self.temperatures)
        self.start.clicked.connect(self._take_out)
        self.as_planned.clicked.connect(self._went_as_planned)
        self.stop.clicked.connect(self._take_in)
        self.temperatures.clicked.connect(self._tell_temperatures)
        self.since.picked.connect(self._set_since)
        self.warmth.editingFinished.connect(self._set_warmth)
        self.warmth.took_back.connect(self._take_back)
        state.changed.connect(self._on_changed)
        self._show()
        self._show_carry_out()

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.carry_out, Situation.preferences, Situation.site):
            self._show_carry_out()
        told_by = (Situation.outside, Situation.taken_out_at, Situation.readiness, Situation.minute)
        if change.of(Situation.night, Situation.scope, Situation.preferences, *told_by):
            self._show()

    def _show(self) -> None:
        night, since = self._night(), self._state.situation.outside_since
        self.setVisible(night is not None)
        if night is None:
            return
        self.start.setVisible(since is None)
        self._offer_as_planned(night)
        for widget in self._outside:
            widget.setVisible(since is not None)
        if since is None:
            self.warmth.holds_unaccepted = False
            return
        clock = self._clock(night)
        if (since, clock) != self._shown:
            # Only then, since each showing ends the typing of a time.
            self._shown = since, clock
            self.since.show_time(since.astimezone(clock.zone).time(), hours=clock.hours)
        if self.warmth.holds_unaccepted:
            return
        if not self.warmth.hasFocus():
            self._show_warmth()
        self._tell(night, since)

    def _show_carry_out(self) -> None:
        """Tell when it goes out, while that is to come or put off; all that is said of it on the pointer."""
        situation = self._state.situation
        item, clock = situation.carry_out, clock_of(situation)
        self.carry_out.show_wordings(carry_out_told(situation))
        words = ""
        if item is not None and clock is not None:
            words = item_words(item, clock, unit=situation.preferences.temperature)
        self.carry_out.setToolTip(plain_tip(words) if words else "")
        self.carry_out.setAccessibleDescription(words)

    def _offer_as_planned(self, night: Night) -> None:
        """Offer to say in one press what is taken for granted: that it went out as planned."""
        taken = self._state.situation.taken_out_at
        self.as_planned.setVisible(taken is not None)
        if taken is not None:
            clock = self._clock(night)
            words = taken_out_words(taken, clock)
            self.as_planned.setText(as_planned_words(taken, clock))
            self.as_planned.setAccessibleDescription(words)
            self.as_planned.setToolTip(plain_tip(words))

    def _show_warmth(self) -> None:
        units = self._units()
        self.warmth.setText(units.difference_text(self._state.situation.warmer_by_c))
        self.warmth.setAccessibleName(WARMER_BY.format(unit=units.temperature))

    def _tell(self, night: Night, since: datetime) -> None:
        """Say what the figure is, and when the telescope is ready."""
        readiness, clock = self._state.situation.readiness, self._clock(night)
        if readiness is None:
            return
        situation = self._state.situation
        self.note.setText(
            brief_outside_text(
                situation.ready_at,
                situation.now,
                clock,
                unit=self._units().temperature,
                is_assumed=situation.warmth_is_assumed,
            )
        )
        words = " ".join((*warmth_sentences(situation), OUTSIDE_COUNTS_FOR))
        self.note.setToolTip(plain_tip(words))
        self.note.setAccessibleDescription(words)

    def _take_out(self) -> None:
        self._state.set_outside(to_minute(self._state.situation.now))
        self.since.setFocus()

    def _went_as_planned(self) -> None:
        self._state.set_outside(self._state.situation.taken_out_at)
        self.since.setFocus()

    def _take_in(self) -> None:
        self._state.set_outside(None)
        self.start.setFocus()

    def _tell_temperatures(self) -> None:
        """Open the form for the temperatures, and stay with it until it is closed."""
        TemperaturesDialog(self._state, self).exec()

    def _set_since(self, chosen: time) -> None:
        night = self._night()
        if night is None:
            return
        day = night.evening if chosen >= _NOON else night.evening + timedelta(days=1)
        since = datetime.combine(day, chosen, tzinfo=night.site.zone).astimezone(UTC)
        if since > self._state.situation.now:
            self._shown = None
            self._show()
            self._state.tell(STILL_TO_COME.format(time=self._clock(night).time(since)))
            return
        self._state.set_outside(since, self._said_warmth())

    def _set_warmth(self) -> None:
        """Take the figure when it is finished; an emptied field means that nothing is known."""
        text, units = self.warmth.text().strip(), self._units()
        if text == units.difference_text(self._state.situation.warmer_by_c):
            self._take_back()
            return
        try:
            warmer_by_c = (
                parse_temperature_difference_c(text, fahrenheit=units.is_fahrenheit) if text else None
            )
        except ProblemsError as error:
            # What is refused stays as typed, with its sentence.
            self.warmth.holds_unaccepted = True
            self.note.setText(as_sentence(str(error.problems[0])))
            return
        self.warmth.holds_unaccepted = False
        self._state.set_outside(self._state.situation.outside_since, warmer_by_c)
        self._show_warmth()

    def _take_back(self) -> None:
        self.warmth.holds_unaccepted = False
        self._show_warmth()
        self._show()

    def _said_warmth(self) -> float | None:
        return None if self._state.situation.warmth_is_assumed else self._state.situation.warmer_by_c

    def _night(self) -> Night | None:
        """Return the evening in progress, None while another one is shown or nothing can be outside."""
        night, now = self._state.situation.night, self._state.situation.now
        is_on = night is not None and self._state.situation.follows_tonight and night.holds(now)
        return night if is_on and self._state.situation.scope is not None else None

    def _clock(self, night: Night) -> SiteClock:
        return SiteClock(zone=night.site.zone, hours=self._state.profile.preferences.clock)

    def _units(self) -> Units:
        return Units(self._state.profile.preferences)
