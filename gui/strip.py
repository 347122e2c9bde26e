"""The slim strip on top: what all three views share."""

from collections.abc import Callable
from datetime import UTC, date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.problems import ProblemsError
from core.sky.bodies import TARGETS
from core.sky.ephemeris import usable_dates
from core.wording import SiteClock, weekday_text
from gui.clock import to_minute
from gui.state import AppState, Aspect
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.pickers import DatePicker, Picker, captioned
from gui.widgets.plain_label import PlainLabel

_PALETTE_NAMES = (("day", "Day"), ("dusk", "Dusk"), ("night", "Night"))


class Strip(QWidget):
    """Observer, site, evening, planet, scope, clock and palette in one row.

    Signals
    -------
    gear_wanted
        The person wants to enter a site or a scope, since there is none to pick.
    """

    gear_wanted = Signal()

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("strip")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._state = state
        self.observer = ElidedLabel(role="heading")
        self.observer.setAccessibleName("Observer")
        self.site = Picker("Site", letters=5)
        self.planet = Picker("Planet", letters=6)
        self.scope = Picker("Telescope", letters=6)
        self.palette_picker = Picker("Palette", letters=3)
        self.date = DatePicker("Evening")
        self.weekday = captioned("", self.date)
        self.date.limit(*usable_dates())
        self.back = _step_button("‹", "One evening back")
        self.forward = _step_button("›", "One evening forward")
        self.tonight = _step_button("Tonight", "Go to tonight and follow the clock")
        self.clock = PlainLabel(role="numeral")
        self.clock.setAccessibleName("Clock at the site")
        self.universal = PlainLabel(role="small")
        self.universal.setAccessibleName("Universal time")
        self._lay_out()
        self._connect()
        state.changed.connect(self._on_changed)
        self._on_changed(frozenset(Aspect))

    def _lay_out(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 6, 14, 8)
        row.setSpacing(10)
        evening = QHBoxLayout()
        evening.setSpacing(4)
        for widget in (self.back, self.date, self.forward, self.tonight):
            evening.addWidget(widget)
        row.addLayout(_stack(PlainLabel("Observer", role="small"), self.observer), 1)
        row.addLayout(_stack(captioned("&Site", self.site), self.site), 3)
        row.addLayout(_stack(self.weekday, evening))
        row.addLayout(_stack(captioned("&Planet", self.planet), self.planet), 3)
        row.addLayout(_stack(captioned("&Telescope", self.scope), self.scope), 3)
        row.addLayout(_stack(self.universal, self.clock))
        row.addLayout(_stack(captioned("Pa&lette", self.palette_picker), self.palette_picker))

    def _connect(self) -> None:
        self.site.picked.connect(self._state.set_site)
        self.planet.picked.connect(self._state.set_planet)
        self.scope.picked.connect(self._state.set_scope)
        self.palette_picker.picked.connect(self._state.set_palette)
        self.date.picked.connect(self._go_to)
        self.back.clicked.connect(lambda: self._state.step_evening(-1))
        self.forward.clicked.connect(lambda: self._state.step_evening(1))
        self.tonight.clicked.connect(self._state.show_tonight)

    def _go_to(self, evening: date) -> None:
        try:
            self._state.set_evening(evening)
        except ProblemsError as error:
            self.date.show_date(self._state.evening)
            self._state.tell(str(error))

    def _on_changed(self, aspects: frozenset[Aspect]) -> None:
        for wanted, show in self._parts():
            if aspects & wanted:
                show()

    def _parts(self) -> tuple[tuple[set[Aspect], Callable[[], None]], ...]:
        return (
            ({Aspect.PROFILE, Aspect.FILE}, self._show_observer),
            ({Aspect.PROFILE, Aspect.FILE, Aspect.SITE}, self._show_site),
            ({Aspect.PROFILE, Aspect.FILE, Aspect.SCOPE}, self._show_scope),
            ({Aspect.PLANET, Aspect.SKY, Aspect.EVENING, Aspect.SITE}, self._show_planet),
            ({Aspect.EVENING, Aspect.SITE}, self._show_evening),
            ({Aspect.NOW, Aspect.SITE, Aspect.PROFILE}, self._show_clock),
            ({Aspect.PALETTE}, self._show_palette),
        )

    def _show_observer(self) -> None:
        self.observer.setText(self._state.profile.observer.strip() or "New observer")

    def _show_site(self) -> None:
        site = self._state.site
        items = [(other.id, other.name) for other in self._state.profile.sites]
        self.site.show_items(items, site.id if site else None)
        self.site.setEnabled(bool(items))

    def _show_scope(self) -> None:
        scope = self._state.scope
        items = [(other.id, other.name) for other in self._state.profile.telescopes]
        self.scope.show_items(items, scope.id if scope else None)
        self.scope.setEnabled(bool(items))

    def _show_planet(self) -> None:
        planet = self._state.planet
        chosen = planet if self._state.planet_is_chosen else None
        best = f"Best: {planet.heading}" if planet and chosen is None else "The evening's best"
        items: list[tuple[object, str]] = [(None, best)]
        items += [(body, body.heading) for body in TARGETS]
        self.planet.show_items(items, chosen)

    def _show_evening(self) -> None:
        first, last = usable_dates()
        evening = self._state.evening
        self.date.show_date(evening)
        self.weekday.setText(f"Evenin&g · {weekday_text(evening).partition(' ')[0]}")
        self.back.setEnabled(evening > first)
        self.forward.setEnabled(evening < last)
        self.tonight.setEnabled(not self._state.follows_tonight)

    def _show_clock(self) -> None:
        site, minute = self._state.site, to_minute(self._state.now)
        universal = SiteClock(zone=UTC).time(minute)
        if site is None:
            self.clock.setText(universal)
            self.universal.setText("Universal time")
            return
        hours = self._state.profile.preferences.clock
        self.clock.setText(SiteClock(zone=site.zone, hours=hours).time(minute))
        self.universal.setText(f"Site · {universal} UT")

    def _show_palette(self) -> None:
        self.palette_picker.show_items(_PALETTE_NAMES, self._state.palette_name)


def _stack(caption: QWidget, control: QWidget | QHBoxLayout) -> QVBoxLayout:
    column = QVBoxLayout()
    column.setSpacing(2)
    column.addWidget(caption)
    if isinstance(control, QHBoxLayout):
        column.addLayout(control)
    else:
        column.addWidget(control)
    column.addStretch(1)
    return column


def _step_button(text: str, name: str) -> QPushButton:
    button = QPushButton(text)
    button.setProperty("role", "step")
    button.setAccessibleName(name)
    button.setToolTip(name)
    return button
