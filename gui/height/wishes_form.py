"""What an evening must have: bodies with their least heights, the hours outside, and how much Moon."""

from datetime import time

from attrs import evolve
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QVBoxLayout, QWidget

from core.gear.numbers import parse_within
from core.moments.hours import Dusks, Hour, Twilight
from core.problems import ProblemsError
from core.situation.situation import Situation
from core.sky.bodies import TARGETS, Body
from core.words.controls import HEIGHT_OF, LEAST_HEIGHT
from core.words.found_dates import hour_text
from core.words.names import as_sentence
from core.words.quantities import trimmed_text
from core.words.site_clock import SiteClock, clock_of
from core.year.dates import (
    HEIGHT_DEG,
    MOON_LIT_PERCENT,
    DateWishes,
    HeightWish,
    check_hours,
    usual_height_deg,
)
from gui.state import AppState, Change
from gui.widgets.folding_row import FoldingRow
from gui.widgets.pickers import Picker
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit

_AS_USUAL = "as usual"
_FROM = [time(hour, minute) for hour in range(16, 24) for minute in (0, 30)]
_UNTIL = [time(hour % 24, minute) for hour in range(18, 31) for minute in (0, 30)]


class WishesForm(QWidget):
    """Takes the wishes as they are typed; what is refused stays, with one sentence, and changes nothing."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.bodies = {body: QCheckBox(body.heading) for body in TARGETS}
        self.heights = {body: PlainLineEdit(self, letters=3) for body in TARGETS}
        self.start = Picker("Outside from", letters=7)
        self.end = Picker("Outside until", letters=7)
        self.moon_from = PlainLineEdit(self, letters=3)
        self.moon_to = PlainLineEdit(self, letters=3)
        self.problem = PlainLabel(role="problem", wraps=True)
        self._name_all()
        self._lay_out()
        self._connect()
        self._show()

    def _name_all(self) -> None:
        for body in TARGETS:
            self.bodies[body].setAccessibleDescription("Whether it must stand high enough")
            self.heights[body].setAccessibleName(LEAST_HEIGHT.format(body=body.label))
        self.moon_from.setAccessibleName("Least of the Moon lit, percent; empty for any")
        self.moon_to.setAccessibleName("Most of the Moon lit, percent; empty for any")
        self.problem.hide()

    def _lay_out(self) -> None:
        planets = QWidget()
        folding = FoldingRow(planets, spacing=12)
        widest = max(box.sizeHint().width() for box in self.bodies.values())
        for body in TARGETS:
            # Else they would not stand under one another where the row folds.
            self.bodies[body].setMinimumWidth(widest)
            wish = QWidget()
            one = QHBoxLayout(wish)
            one.setContentsMargins(0, 0, 0, 0)
            one.setSpacing(6)
            one.addWidget(self.bodies[body])
            one.addWidget(PlainLabel("above", role="small"))
            one.addWidget(self.heights[body])
            one.addWidget(PlainLabel("°", role="small"))
            folding.addWidget(wish)
        rest = QWidget()
        row = FoldingRow(rest, spacing=6)
        for part in (
            *(PlainLabel("Outside from", role="small"), self.start),
            *(PlainLabel("until", role="small"), self.end),
            *(PlainLabel("Moon lit from", role="small"), self.moon_from),
            *(PlainLabel("to", role="small"), self.moon_to, PlainLabel("%", role="small")),
        ):
            row.addWidget(part)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(planets)
        column.addWidget(rest)
        column.addWidget(self.problem)

    def _connect(self) -> None:
        for body in TARGETS:
            self.bodies[body].clicked.connect(self._take)
            self.heights[body].textEdited.connect(self._take)
            self.heights[body].editingFinished.connect(self._show)
        for line in (self.moon_from, self.moon_to):
            line.textEdited.connect(self._take)
            line.editingFinished.connect(self._show)
        self.start.picked.connect(self._take_start)
        self.end.picked.connect(self._take_end)
        self._state.changed.connect(self._on_changed)

    # What is typed.

    def _take_start(self, start: Hour | None) -> None:
        self._take_hours(evolve(self._state.situation.date_wishes, start=start))

    def _take_end(self, end: Hour | None) -> None:
        self._take_hours(evolve(self._state.situation.date_wishes, end=end))

    def _take_hours(self, wishes: DateWishes) -> None:
        situation = self._state.situation
        try:
            if situation.night is not None:
                check_hours(wishes, situation.usual_hours, Dusks.of(situation.night))
        except ProblemsError as error:
            self._show()
            self.problem.show_words(as_sentence(str(error)))
        else:
            self.problem.show_words("")
            self._state.set_date_wishes(wishes)

    def _take(self) -> None:
        wishes = self._state.situation.date_wishes
        try:
            heights = tuple(self._wish(body) for body in TARGETS if self.bodies[body].isChecked())
            wishes = evolve(wishes, heights=heights, moon_percent=self._moon())
        except ProblemsError as error:
            self.problem.show_words(str(error))
        else:
            self.problem.show_words("")
            self._state.set_date_wishes(wishes)

    def _wish(self, body: Body) -> HeightWish:
        text = self.heights[body].text().strip(" °")
        if not text:
            return HeightWish(body=body, above_deg=usual_height_deg(body))
        what = HEIGHT_OF.format(body=body.label)
        return HeightWish(body=body, above_deg=parse_within(text, HEIGHT_DEG, what=what))

    def _moon(self) -> tuple[float, float] | None:
        texts = [line.text().strip(" %") for line in (self.moon_from, self.moon_to)]
        if not any(texts):
            return None
        low, high = (
            parse_within(text or usual, MOON_LIT_PERCENT, what="The part of the Moon lit")
            for text, usual in zip(texts, ("0", "100"), strict=True)
        )
        # Typed the other way round it means the same.
        return min(low, high), max(low, high)

    # What is shown.

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.date_wishes, Situation.preferences, Situation.site):
            self._show()

    def _show(self) -> None:
        wishes, clock = self._state.situation.date_wishes, clock_of(self._state.situation)
        above_deg = {wish.body: wish.above_deg for wish in wishes.heights}
        for body in TARGETS:
            self.bodies[body].setChecked(body in above_deg)
            self.heights[body].setEnabled(body in above_deg)
            shown_deg = above_deg.get(body, usual_height_deg(body))
            _write(self.heights[body], trimmed_text(shown_deg, 1))
        for line, percent in zip(
            (self.moon_from, self.moon_to), wishes.moon_percent or (None, None), strict=True
        ):
            _write(line, "" if percent is None else trimmed_text(percent, 1))
        if clock is not None:
            self.start.show_items(_offers(_FROM, Twilight.DUSK, wishes.start, clock), wishes.start)
            self.end.show_items(_offers(_UNTIL, Twilight.DAWN, wishes.end, clock), wishes.end)


def _write(line: PlainLineEdit, text: str) -> None:
    """Write into a line where nobody is typing."""
    if not line.hasFocus():
        line.setText(text)


def _offers(
    times: list[time], word: Twilight, current: Hour | None, clock: SiteClock
) -> list[tuple[object, str]]:
    hours: list[Hour] = [word, *times] if word is Twilight.DUSK else [*times, word]
    if current is not None and current not in hours:
        hours.insert(0, current)
    return [(None, _AS_USUAL), *[(hour, hour_text(hour, clock)) for hour in hours]]
