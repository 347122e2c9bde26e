"""The Ladder view: the rungs with their limits, drawn and in words, and what each of them shows."""

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from core.drawing.ladder import LadderChart, draw_ladder
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.ladder.ladder import Ladder
from core.looks.picture.sight import Sight
from core.situation.situation import Situation
from core.words.aim import aim_detail, aim_heading
from core.words.answer import nothing_offered_words
from core.words.climbing import next_step_text, rung_detail
from core.words.cooling import mirror_climb_text
from core.words.limits import LimitLine, ladder_note, limit_lines
from core.words.notices import ladder_notice_texts
from core.words.quantities import power_text
from core.words.site_clock import SiteClock, clock_of
from gui.ladder.air import AirRow
from gui.ladder.eyepiece import EyepiecePane
from gui.ladder.log_page import LogPage
from gui.ladder.look_for import LookForPane
from gui.ladder.pages import Pages
from gui.ladder.rung_list import RungList
from gui.ladder.verdict_row import VerdictRow
from gui.profile.log_book import LogBook
from gui.state import AppState, Change
from gui.widgets.canvas import Canvas
from gui.widgets.plain_label import PlainLabel

_SHOWN_FROM = (
    *(Situation.ladder, Situation.aim, Situation.appearance, Situation.time, Situation.preferences),
    *(Situation.answer, Situation.better, Situation.mirror_climb, Situation.best_aim),
)
# Room for one rung; the drawing beside it has them all.
_LEAST_LIST_PX = 24
_DRAWN_FROM = (
    *(Situation.rung, Situation.next_step, Situation.filter_offers, Situation.wished),
    *(Situation.palette_name, Situation.text_scale),
)


class LadderCanvas(Canvas):
    """The drawing of the state's ladder; a click takes a rung in hand."""

    def __init__(self, view: "LadderView", state: AppState) -> None:
        super().__init__(self._draw_chart, view)
        self._view = view
        self._state = state
        self.chart: LadderChart | None = None
        self.setAccessibleName("Power ladder: the rungs by power, with the three limits")

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self.chart is None or event.button() != Qt.MouseButton.LeftButton:
            super().mousePressEvent(event)
            return
        rung = self.chart.rung_at(*self.to_page(event.position().x(), event.position().y()))
        if rung is not None:
            self._state.set_rung(rung.power)

    def _draw_chart(self, page: Page) -> Drawing | str:
        palette = load_palette(self._state.situation.palette_name)
        ladder, rung = self._state.situation.ladder, self._state.situation.rung
        self.chart = None
        if ladder is None or not ladder.rungs:
            return palette.surface
        self.chart = draw_ladder(
            page,
            ladder,
            palette=palette,
            chosen_power=rung.power if rung else None,
            sight=self._view.sight_beside_rungs(),
            wished=self._state.situation.wished,
        )
        return self.chart.drawing


class LadderView(QWidget):
    """The ladder of the scope in hand for the planet in hand, in tonight's air."""

    def __init__(
        self, state: AppState, log_book: LogBook | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._state = state
        self.log_book = log_book or LogBook(state, parent=self)
        self.heading = PlainLabel(role="heading")
        self.detail = PlainLabel(role="faint", wraps=True)
        self.ceiling = PlainLabel(role="numeral")
        self.ceiling_note = PlainLabel(role="small", wraps=True)
        self.climb = PlainLabel(role="small", wraps=True)
        self.climb.setAccessibleName("How the ceiling climbs as the mirror cools")
        self.limits = QGridLayout()
        self._limit_lines: tuple[LimitLine, ...] = ()
        self.list = RungList()
        self.list.setMinimumHeight(_LEAST_LIST_PX)
        self._room = QWidget()
        self.notices = PlainLabel(wraps=True)
        self.notices.setAccessibleName("About the rung in hand")
        self.canvas = LadderCanvas(self, state)
        self.eyepiece = EyepiecePane(state)
        self.look_for = LookForPane()
        self.nothing = PlainLabel(wraps=True)
        self.nothing.setAccessibleName("Why there is no ladder")
        self.nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._rungs = QStackedWidget()
        self._rungs.addWidget(self.canvas)
        self._rungs.addWidget(self.nothing)
        self.pages = Pages(self._rungs, self.eyepiece, self.look_for)
        self.verdicts = VerdictRow(state, self.log_book, keys_in=self)
        self.air = AirRow(state)
        self.log_page = LogPage(state, self.log_book)
        self.log_button = QPushButton("Lo&g")
        self.log_button.setCheckable(True)
        self.log_button.setProperty("role", "page")
        self.log_button.setAccessibleDescription("Show the log in place of the ladder, or the ladder again")
        self.setFocusProxy(self.list)
        self._lay_out()
        self.list.currentRowChanged.connect(self._on_row)
        self.eyepiece.canvas.chosen.connect(self._on_sight)
        self.pages.rearranged.connect(self._on_rearranged)
        self.log_button.toggled.connect(self._show_log)
        state.changed.connect(self._on_changed)
        self._show()

    def _show_log(self, on: bool) -> None:
        self.body.setCurrentIndex(1 if on else 0)
        (self.log_page.search if on else self.list).setFocus()

    def _lay_out(self) -> None:
        panel = QWidget()
        column = QVBoxLayout(panel)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.heading)
        column.addWidget(self.detail)
        top = QHBoxLayout()
        top.setSpacing(10)
        top.addWidget(self.ceiling)
        top.addWidget(self.ceiling_note, 1)
        column.addLayout(top)
        column.addWidget(self.climb)
        self.limits.setHorizontalSpacing(10)
        self.limits.setVerticalSpacing(2)
        self.limits.setColumnStretch(2, 1)
        column.addLayout(self.limits)
        column.addWidget(self.list, 1)
        column.addWidget(self._room, 1)
        column.addWidget(self.notices)
        column.addWidget(self.verdicts)
        self._row = row = QHBoxLayout()
        row.setSpacing(14)
        row.addWidget(self.pages, 3)
        row.addWidget(panel, 2)
        climb = QWidget()
        climbing = QVBoxLayout(climb)
        climbing.setContentsMargins(0, 0, 0, 0)
        climbing.setSpacing(8)
        climbing.addLayout(row, 1)
        self.body = QStackedWidget()
        self.body.addWidget(climb)
        self.body.addWidget(self.log_page)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(12, 4, 12, 10)
        outer.setSpacing(4)
        outer.addWidget(self.body, 1)
        foot = QHBoxLayout()
        foot.addWidget(self.air, 1)
        foot.addWidget(self.log_button, 0, Qt.AlignmentFlag.AlignTop)
        outer.addLayout(foot)

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.following_now, *_SHOWN_FROM):
            self._show()
        elif change.of(*_DRAWN_FROM):
            self._show_rung()
            self.canvas.redraw()

    def sight_beside_rungs(self) -> Sight | None:
        """Return what is seen at the rung in hand, None where the eyepiece stands beside the rungs anyway."""
        appearance, rung = self._state.situation.appearance, self._state.situation.rung
        if appearance is None or rung is None or self.pages.is_wide:
            return None
        return next((sight for sight in appearance.sights if sight.power == rung.power), None)

    def _on_row(self, _row: int) -> None:
        if self.list.rung is not None:
            self._state.set_rung(self.list.rung.power)

    def _on_sight(self, sight: Sight) -> None:
        self._state.set_rung(sight.power)

    def _on_rearranged(self) -> None:
        self._row.setStretch(0, 5 if self.pages.is_wide else 3)
        self.canvas.redraw()

    def _show(self) -> None:
        ladder = self._state.situation.ladder
        self._show_aim()
        self._show_what_is_offered()
        self._show_limits(ladder)
        self._show_climb()
        self._show_list(ladder)
        self._show_rung()
        self.canvas.redraw()

    @property
    def _is_refused(self) -> bool:
        """Whether there is a telescope, but nothing offered where it points."""
        ladder = self._state.situation.ladder
        return ladder is not None and not ladder.aim.is_offered

    def _show_aim(self) -> None:
        state, aim = self._state, self._state.situation.aim
        clock = None
        if state.situation.night is not None:
            clock = SiteClock(zone=state.situation.night.site.zone, hours=state.profile.preferences.clock)
        is_moment = aim.at == state.situation.time
        is_now = is_moment and state.situation.following_now
        self.heading.setText(aim_heading(aim, clock, is_now=is_now, is_moment=is_moment))
        # Where a sentence stands in place of the rungs, it holds these notices too.
        self.detail.setText(aim_detail(aim, with_notices=not self._is_refused))

    def _show_what_is_offered(self) -> None:
        """Let a sentence take the place of the rungs and of all about them where nothing is offered."""
        is_offered = not self._is_refused
        self.nothing.setText("" if is_offered else nothing_offered_words(self._state.situation))
        self._rungs.setCurrentWidget(self.canvas if is_offered else self.nothing)
        self.list.setVisible(is_offered)
        self._room.setVisible(not is_offered)
        self.notices.setVisible(is_offered)
        self.verdicts.setVisible(is_offered)

    def _show_limits(self, ladder: Ladder | None) -> None:
        power = None if ladder is None else ladder.ceiling.power
        self.ceiling.setText("" if power is None else power_text(power))
        self.ceiling_note.setText(ladder_note(ladder))
        lines = limit_lines(ladder) if ladder is not None and ladder.aim.is_offered else ()
        if lines == self._limit_lines:
            return
        # New labels show only after the next turn of events: without need they would make it flicker.
        self._limit_lines = lines
        _empty(self.limits)
        for row, line in enumerate(lines):
            role = "heading" if line.sets_ceiling else ""
            self.limits.addWidget(PlainLabel(line.name, role=role), row, 0)
            self.limits.addWidget(PlainLabel(line.power, role=role), row, 1, Qt.AlignmentFlag.AlignRight)
            self.limits.addWidget(PlainLabel(line.why, role="small"), row, 2)

    def _show_climb(self) -> None:
        situation = self._state.situation
        climb, clock = situation.mirror_climb, clock_of(situation)
        words = ""
        # In the best moment the answer on top tells it.
        if climb is not None and clock is not None and situation.aim != situation.best_aim:
            words = mirror_climb_text(climb, clock, now=situation.present)
        self.climb.setText(words)
        self.climb.setVisible(bool(words))

    def _show_list(self, ladder: Ladder | None) -> None:
        blocker = QSignalBlocker(self.list)
        self.list.show_ladder(ladder, self._state.situation.rung)
        blocker.unblock()

    def _show_rung(self) -> None:
        ladder, rung = self._state.situation.ladder, self.list.rung
        step, clock = self._state.situation.next_step, clock_of(self._state.situation)
        next_words = next_step_text(step, ladder, clock) if step and ladder else ""
        text = (
            " ".join(words for words in (next_words, rung_detail(rung, ladder)) if words)
            if rung and ladder
            else " ".join(ladder_notice_texts(ladder) if ladder else ())
        )
        self.notices.setText(text)
        self.canvas.setAccessibleDescription(text)
        appearance = self._state.situation.appearance
        self.eyepiece.show_appearance(appearance, None if rung is None else rung.power)
        self.look_for.show_appearance(appearance)
        self.look_for.show_filters(self._state.situation.filter_offers)


def _empty(grid: QGridLayout) -> None:
    while (item := grid.takeAt(0)) is not None:
        widget = item.widget()
        if widget is not None:
            widget.hide()
            widget.deleteLater()
