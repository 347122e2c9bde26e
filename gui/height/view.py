"""The Height view: the chart of the evening, and under it each body at the moment looked at."""

from datetime import datetime
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent, QMouseEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from core.air.steadiness import BlurSource
from core.evening import EveningItem
from core.sky.bodies import TARGETS, Body
from core.wording import SiteClock, weekday_text
from gui import dialogs
from gui.height.chart import HeightCanvas
from gui.height.readout import Reading, Sight, in_words, is_sun_up, read_bodies
from gui.state import AppState, Aspect
from gui.widgets.plain_label import PlainLabel

_SUN_CAUTION = "The Sun is up: keep the telescope capped, and never point it near the Sun."


class BodyCell(QFrame):
    """One body at the moment looked at: its altitude large, the rest small.

    Signals
    -------
    chosen
        The person clicked on it.
    """

    chosen = Signal()

    def __init__(self, body: Body, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "cell")
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.name = PlainLabel(body.heading, role="heading")
        self.altitude = PlainLabel(role="numeral")
        self.direction = PlainLabel(role="small")
        self.path = PlainLabel(role="small")
        self.ceiling = PlainLabel(role="small")
        self.remark = PlainLabel(role="small", wraps=True)
        grid = QGridLayout(self)
        grid.setContentsMargins(8, 5, 6, 6)
        grid.setHorizontalSpacing(6)
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(1, 1)
        grid.addWidget(self.name, 0, 0, 1, 2)
        grid.addWidget(self.altitude, 1, 0, 2, 1)
        grid.addWidget(self.direction, 1, 1)
        grid.addWidget(self.path, 2, 1)
        grid.addWidget(self.ceiling, 3, 0, 1, 2)
        grid.addWidget(self.remark, 4, 0, 1, 2)
        grid.setRowStretch(5, 1)
        for label in (self.name, self.direction, self.path, self.ceiling, self.remark):
            label.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def show_reading(self, reading: Reading, *, in_hand: bool) -> None:
        """Show a reading."""
        self.altitude.setText(reading.altitude)
        self.direction.setText(reading.short_direction)
        self.remark.setText(reading.remark)
        self.altitude.setEnabled(reading.is_up)
        self.path.setText(reading.path)
        self.ceiling.setText(reading.ceiling)
        for label in (self.ceiling, self.remark):
            label.setVisible(bool(label.text()))
        self.setAccessibleName(reading.sentence)
        if self.property("inHand") != in_hand:
            self.setProperty("inHand", in_hand)
            self.style().unpolish(self)
            self.style().polish(self)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self.chosen.emit()


class HeightView(QWidget):
    """Altitude against time for the state's evening, with a time cursor and a read-out."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.canvas = HeightCanvas(state)
        self.moment = PlainLabel(role="heading")
        self.moment.setAccessibleName("Moment of the read-out")
        self.now = QPushButton("&Now")
        self.now.setAccessibleName("Back to now")
        self.now.setToolTip("Home")
        self.note = PlainLabel(role="small", wraps=True)
        self.in_words = QPushButton("Evening in w&ords")
        self.in_words.setAccessibleDescription("Show what to prepare, each target and when to stop, as text")
        self.caution = PlainLabel(_SUN_CAUTION, role="warning")
        self.cells = {body: BodyCell(body) for body in TARGETS}
        self.setFocusProxy(self.canvas)
        self._lay_out()
        self.now.clicked.connect(state.follow_now)
        self.in_words.clicked.connect(self._tell_evening)
        self.canvas.pointed.connect(self._show_reading)
        state.changed.connect(self._on_changed)
        self._show_reading()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(self.moment)
        head.addWidget(self.now)
        head.addWidget(self.caution)
        head.addWidget(self.note, 1)
        head.addWidget(self.in_words)
        cells = QHBoxLayout()
        cells.setSpacing(6)
        for body, cell in self.cells.items():
            cell.chosen.connect(partial(self._state.set_planet, body))
            cells.addWidget(cell, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 4, 12, 10)
        column.setSpacing(6)
        column.addWidget(self.canvas, 1)
        column.addLayout(head)
        column.addLayout(cells)

    def _on_changed(self, aspects: frozenset[Aspect]) -> None:
        if aspects - {Aspect.NOW, Aspect.PALETTE, Aspect.FILE}:
            self._show_reading()

    def _show_reading(self, pointed: datetime | None = None) -> None:
        night, state = self._state.night, self._state
        moment = pointed or self.canvas.hovered or state.time
        self.now.setVisible(not state.following_now)
        if night is None:
            self.moment.setText("")
            self.caution.hide()
            return
        clock = SiteClock(zone=night.site.zone, hours=state.profile.preferences.clock)
        when = clock.time(moment)
        follows = state.following_now and moment == state.time
        self.moment.setText(f"Now, {when}" if follows else f"At {when}")
        self.caution.setVisible(is_sun_up(night, moment))
        self.note.setText(self._note_words())
        sight = Sight(scope=state.scope, blur=state.blur, usual_air=state.usual_air)
        readings = read_bodies(night, moment, sight, clock)
        for reading in readings:
            self.cells[reading.body].show_reading(reading, in_hand=reading.body is state.planet)
        self.canvas.setAccessibleDescription(in_words(readings, when))
        changed = QAccessibleEvent(self.canvas, QAccessible.Event.DescriptionChanged)
        QAccessible.updateAccessibility(changed)

    def _tell_evening(self) -> None:
        """Show the items of the evening's strip with all that is to be said about them."""
        state, night = self._state, self._state.night
        if night is None:
            return
        clock = SiteClock(zone=night.site.zone, hours=state.profile.preferences.clock)
        lines = [f"{_when(item, clock)}  {item.title}\n{item.words}\n" for item in state.items]
        heading = f"{weekday_text(night.evening)}, {night.site.name}"
        nothing = "Nothing to prepare: no planet has good minutes this evening."
        dialogs.show_text(self, "The evening in words", heading, "\n".join(lines) or nothing)

    def _note_words(self) -> str:
        """Say which altitude is meant, and what the ceilings rest on."""
        words = "Altitudes are geometric; path: of the apparent altitude."
        scope = self._state.scope
        if scope is None:
            return words
        assumed = ", assumed" if self._state.blur.source is BlurSource.ASSUMED else ""
        blur = self._state.blur.overhead_arcsec
        return f"{words} Ceiling: an estimate for {scope.name}, air (seeing) {blur:g}″{assumed}."


def _when(item: EveningItem, clock: SiteClock) -> str:
    return clock.time(item.start) if item.start == item.end else clock.span(item.start, item.end)
