"""The slim strip on top: what all three views share."""

from collections.abc import Callable, Sequence
from datetime import UTC, date
from typing import Any

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.drawing.palette import PALETTES
from core.lazy import Lazy
from core.problems import ProblemsError
from core.situation.given import to_minute
from core.situation.situation import Situation
from core.sky.bodies import TARGETS
from core.sky.ephemeris import usable_dates
from core.words.controls import ADVISED_PLANET, EVENING_OF, SITE_AND_UNIVERSAL
from core.words.dates import weekday_text
from core.words.site_clock import SiteClock
from gui.state import AppState, Change
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.pickers import DatePicker, Picker, captioned
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_tip import plain_tip

_PALETTE_NAMES = tuple((name, name.capitalize()) for name in PALETTES)


# Longer names of sites and telescopes end in dots.
_MOST_LETTERS = 22
_MARGIN_PX = 14
_SPACING_PX = 10
_MOST_ROWS = 4


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
        self.site = Picker("Site", letters=5, most_letters=_MOST_LETTERS)
        self.planet = Picker("Planet", letters=7, most_letters=_MOST_LETTERS)
        self.scope = Picker("Telescope", letters=6, most_letters=_MOST_LETTERS)
        self.palette_picker = Picker("Palette", letters=None)
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
        # Over the clock: at length, and as it is told where there is little room.
        self._captions = ("", "")
        self._lay_out()
        self._connect()
        state.changed.connect(self._on_changed)
        state.file_changed.connect(self._show_observer)
        for _, show in self._parts():
            show()

    def minimumSizeHint(self) -> QSize:
        needed = max(self._needed([group]) for group in self._groups)
        return QSize(needed, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._arrange()

    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.LayoutRequest:
            # Another name is chosen, which is longer or shorter.
            self._arrange()
        return super().event(event)

    def _lay_out(self) -> None:
        evening = QWidget()
        row = QHBoxLayout(evening)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        for widget in (self.back, self.date, self.forward, self.tonight):
            row.addWidget(widget)
        self._clock_group = _Group(self.universal, self.clock)
        self._groups = (
            _Group(PlainLabel("Observer", role="small"), self.observer),
            _Group(captioned("&Site", self.site), self.site, stretch=3),
            _Group(self.weekday, evening),
            _Group(captioned("&Planet", self.planet), self.planet, stretch=4),
            _Group(captioned("&Telescope", self.scope), self.scope, stretch=3),
            self._clock_group,
            _Group(captioned("Pa&lette", self.palette_picker), self.palette_picker),
        )
        self._rows = tuple(QHBoxLayout() for _ in range(_MOST_ROWS))
        self._arranged: list[list[_Group]] = []
        column = QVBoxLayout(self)
        column.setContentsMargins(_MARGIN_PX, 6, _MARGIN_PX, 8)
        column.setSpacing(6)
        for row in self._rows:
            row.setSpacing(_SPACING_PX)
            column.addLayout(row)
        self._arrange()

    def _arrange(self) -> None:
        """Put everything into one row, or into more where one is too narrow for the size of text.

        The observer gives way first, who knows who that is.
        """
        observer, *others = self._groups
        # Before it is shown its width is not yet its own.
        if not self.isVisible() or self._needed(self._groups) <= self.width():
            wanted = [list(self._groups)]
        elif self._needed(others) <= self.width():
            wanted = [others]
        else:
            wanted = self._folded()
        is_tight = any(self._needed(row, at_length=True) > self.width() for row in wanted)
        self.universal.setText(self._captions[is_tight])
        if wanted == self._arranged:
            return
        self._arranged = wanted
        observer.setVisible(observer in wanted[0])
        for row, groups in zip(self._rows, wanted, strict=False):
            for group in groups:
                row.addWidget(group, group.stretch)
        self.updateGeometry()

    def _folded(self) -> list[list["_Group"]]:
        """Return all but the observer in rows, what belongs together in one where it fits."""
        _observer, site, evening, planet, scope, clock, palette = self._groups
        rows: list[list[_Group]] = []
        for part in ([site, evening, clock], [planet, scope, palette]):
            rows.append([])
            for group in part:
                if rows[-1] and self._needed([*rows[-1], group]) > self.width() and len(rows) < _MOST_ROWS:
                    rows.append([])
                rows[-1].append(group)
        return rows

    def _needed(self, groups: Sequence["_Group"], *, at_length: bool = False) -> int:
        """Return the width that some groups need side by side; the clock's caption at length or in brief."""
        widths = sum(self._width_of(group, at_length=at_length) for group in groups)
        return widths + _SPACING_PX * (len(groups) - 1) + 2 * _MARGIN_PX

    def _width_of(self, group: "_Group", *, at_length: bool) -> int:
        if group is not self._clock_group:
            return group.minimumSizeHint().width()
        # Whichever caption stands there now.
        caption = self._captions[not at_length]
        across = self.universal.fontMetrics().horizontalAdvance(caption)
        return max(across, self.clock.minimumSizeHint().width())

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
            self.date.show_date(self._state.situation.evening)
            self._state.tell(str(error))

    def _on_changed(self, change: Change) -> None:
        for values, show in self._parts():
            if change.of(*values):
                show()

    def _parts(self) -> tuple[tuple[tuple[Lazy[Any, Any], ...], Callable[[], None]], ...]:
        """Return what each part of the strip shows, and how it is shown."""
        return (
            ((Situation.profile,), self._show_observer),
            ((Situation.profile, Situation.site), self._show_site),
            ((Situation.profile, Situation.scope), self._show_scope),
            ((Situation.planet, Situation.chosen_planet), self._show_planet),
            ((Situation.evening, Situation.follows_tonight), self._show_evening),
            ((Situation.minute, Situation.site, Situation.preferences), self._show_clock),
            ((Situation.palette_name,), self._show_palette),
        )

    def _show_observer(self) -> None:
        self.observer.setText(self._state.profile.observer.strip() or "New observer")

    def _show_site(self) -> None:
        site = self._state.situation.site
        items = [(other.id, other.name) for other in self._state.profile.sites]
        self.site.show_items(items, site.id if site else None)
        self.site.setEnabled(bool(items))

    def _show_scope(self) -> None:
        scope = self._state.situation.scope
        items = [(other.id, other.name) for other in self._state.profile.telescopes]
        self.scope.show_items(items, scope.id if scope else None)
        self.scope.setEnabled(bool(items))

    def _show_planet(self) -> None:
        planet = self._state.situation.planet
        chosen = planet if self._state.situation.chosen_planet is not None else None
        best = (
            ADVISED_PLANET.format(planet=planet.heading)
            if planet and chosen is None
            else "The evening's best"
        )
        items: list[tuple[object, str]] = [(None, best)]
        items += [(body, body.heading) for body in TARGETS]
        self.planet.show_items(items, chosen)

    def _show_evening(self) -> None:
        first, last = usable_dates()
        evening = self._state.situation.evening
        self.date.show_date(evening)
        self.weekday.setText(EVENING_OF.format(weekday=weekday_text(evening).partition(" ")[0]))
        self.back.setEnabled(evening > first)
        self.forward.setEnabled(evening < last)
        self.tonight.setEnabled(not self._state.situation.follows_tonight)

    def _show_clock(self) -> None:
        site, minute = self._state.situation.site, to_minute(self._state.situation.now)
        universal = SiteClock(zone=UTC).time(minute)
        if site is None:
            self.clock.setText(universal)
            self._captions = ("Universal time", "Universal time")
        else:
            hours = self._state.profile.preferences.clock
            self.clock.setText(SiteClock(zone=site.zone, hours=hours).time(minute))
            at_length, briefly = (words.format(time=universal) for words in SITE_AND_UNIVERSAL)
            self._captions = at_length, briefly
        self._arrange()

    def _show_palette(self) -> None:
        self.palette_picker.show_items(_PALETTE_NAMES, self._state.situation.palette_name)


class _Group(QWidget):
    """A control of the strip with its caption above it."""

    def __init__(self, caption: QWidget, control: QWidget, *, stretch: int = 0) -> None:
        super().__init__()
        self.stretch = stretch
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(caption)
        column.addWidget(control)
        column.addStretch(1)


def _step_button(text: str, name: str) -> QPushButton:
    button = QPushButton(text)
    button.setProperty("role", "step")
    button.setAccessibleName(name)
    button.setToolTip(plain_tip(name))
    return button
