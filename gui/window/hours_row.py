"""The hours outside of this evening: from when, and until when."""

from datetime import datetime

from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.moments.hours import HALF_HOUR, Dusks, Hour, HoursOut, Twilight
from core.problems import ProblemsError
from core.situation.situation import Situation
from core.sky.night import Night
from core.words.names import as_sentence
from core.words.site_clock import SiteClock, clock_of
from core.words.tips import HOURS_ASSUMED, HOURS_OUT
from gui.state import AppState, Change
from gui.widgets.elided_label import ElidedLabel
from gui.widgets.pickers import Picker, captioned
from gui.widgets.plain_label import PlainLabel

_USUAL = object()
_CAPTION = "Hou&rs out"
_ASSUMED = "assumed"


class HoursRow(QWidget):
    """Two pickers, which count for this evening alone; hidden while there is no night."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.start = Picker("Outside from", letters=None)
        self.end = Picker("Outside until", letters=None)
        self.assumed = ElidedLabel(_ASSUMED, role="small")
        self.assumed.setAccessibleName("These hours are assumed")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        dash = PlainLabel("–", role="small")
        for widget in (captioned(_CAPTION, self.start), self.start, dash, self.end, self.assumed):
            row.addWidget(widget)
        self.start.picked.connect(self._take_start)
        self.end.picked.connect(self._take_end)
        state.changed.connect(self._on_changed)
        self._show()

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.hours, Situation.wanted_hours, Situation.night, Situation.preferences):
            self._show()

    def _show(self) -> None:
        situation = self._state.situation
        night, hours, clock = situation.night, situation.hours, clock_of(situation)
        self.setVisible(night is not None)
        if night is None or hours is None or clock is None:
            return
        self.assumed.setVisible(hours.assumed)
        self.setToolTip(HOURS_ASSUMED if hours.assumed else HOURS_OUT)
        for picker, twilight, moment in (
            (self.start, Twilight.DUSK, hours.start),
            (self.end, Twilight.DAWN, hours.end),
        ):
            picker.setAccessibleDescription(self.toolTip())
            current = _in_hand(night, twilight, moment)
            picker.show_items(_offers(night, twilight, current, hours, clock, situation.said_hours), current)

    def _take_start(self, chosen: Hour | object) -> None:
        self._take(chosen, self._state.situation.wanted_hours[1])

    def _take_end(self, chosen: Hour | object) -> None:
        self._take(self._state.situation.wanted_hours[0], chosen)

    def _take(self, start: Hour | object, end: Hour | object) -> None:
        if start is _USUAL or end is _USUAL:
            self._state.take_usual_hours()
            return
        try:
            self._state.set_hours(start, end)  # type: ignore[arg-type]  # what is picked is an hour
        except ProblemsError as error:
            self._show()
            self._state.tell(as_sentence(str(error)))


def _in_hand(night: Night, twilight: Twilight, moment: datetime) -> Hour:
    """Return the word or the time of the clock that an end of the hours is."""
    if Dusks.of(night).at(twilight) == moment:
        return twilight
    return moment.astimezone(night.site.zone).time().replace(second=0, microsecond=0)


def _offers(
    night: Night, twilight: Twilight, current: Hour, hours: HoursOut, clock: SiteClock, said: object
) -> list[tuple[object, str]]:
    """Return each half hour of the dark with its name, the word, and the way back to the usual hours."""
    dusks = Dusks.of(night)
    first, last = dusks.at(Twilight.DUSK), dusks.at(Twilight.DAWN)
    moment = min(first, hours.start).replace(minute=0, second=0, microsecond=0)
    times: dict[datetime, object] = {}
    while moment < max(last, hours.end) + HALF_HOUR:
        times[moment] = moment.astimezone(night.site.zone).time()
        moment += HALF_HOUR
    if not isinstance(current, Twilight):
        times[dusks.at(current)] = current
    named = [(hour, clock.time(at)) for at, hour in sorted(times.items(), key=lambda each: each[0])]
    word = (twilight, twilight.value)
    offers: list[tuple[object, str]] = [word, *named] if twilight is Twilight.DUSK else [*named, word]
    return offers if said is None else [*offers, (_USUAL, "as usual")]
