"""The drawn ladder, which is also the control: rungs are clicked and stepped on it."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QWidget

from core.drawing.ladder import LadderChart, draw_ladder
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.situation.situation import Situation
from core.words.aim import aim_when
from core.words.climbing import rung_said
from core.words.site_clock import clock_of
from gui.state import AppState
from gui.widgets.canvas import KeyedCanvas
from gui.widgets.theme import USUAL_POINTS

# A drawing narrower than this leaves no room for the words beside its rungs.
_LEAST_WIDTH_PX = 210
_LEAST_HEIGHT_PX = 190
_NO_RUNG = "Power ladder, with no rung to take in hand"
# Values that the drawing is made of.
DRAWN_FROM = (
    *(
        Situation.ladder,
        Situation.rung,
        Situation.rung_is_taken,
        Situation.next_step,
        Situation.wished,
        Situation.aim,
        Situation.time,
    ),
    *(Situation.following_now, Situation.preferences, Situation.palette_name, Situation.text_scale),
)


class LadderCanvas(KeyedCanvas):
    """The drawing of the state's ladder; a click or a key takes a rung in hand.

    Up and Down take the next rung worth a step, Page Up and Page Down each rung, Home the lowest, to find
    the planet again, and End the highest.
    """

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(self._draw_chart, parent)
        self._state = state
        self.chart: LadderChart | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.layers.append(self._paint_frame)
        self.say_rung()

    def minimumSizeHint(self) -> QSize:
        return QSize(_LEAST_WIDTH_PX, round(_LEAST_HEIGHT_PX * self.font().pointSizeF() / USUAL_POINTS))

    def say_rung(self) -> None:
        """Tell a reader of the screen which rung is in hand."""
        ladder, rung = self._state.situation.ladder, self._state.situation.rung
        self.setAccessibleName(_NO_RUNG if ladder is None or rung is None else rung_said(rung, ladder))

    def act_of(self, event: QKeyEvent) -> Callable[[], None] | None:
        key, step = Qt.Key, self._state.step_rung
        if event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            return None
        return {
            key.Key_Up: partial(step, 1),
            key.Key_Down: partial(step, -1),
            key.Key_PageUp: partial(self._go, 1),
            key.Key_PageDown: partial(self._go, -1),
            key.Key_Home: partial(self._go, -1, to_end=True),
            key.Key_End: partial(self._go, 1, to_end=True),
        }.get(Qt.Key(event.key()))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self.chart is None or event.button() != Qt.MouseButton.LeftButton:
            super().mousePressEvent(event)
            return
        rung = self.chart.rung_at(*self.to_page(event.position().x(), event.position().y()))
        if rung is not None:
            self._state.set_rung(rung.power)

    def acts_at(self, place: QPointF) -> bool:
        return self.chart is not None and self.chart.rung_at(*self.to_page(place.x(), place.y())) is not None

    def _go(self, by: int, *, to_end: bool = False) -> None:
        """Take the neighbour of the rung in hand, or the last one in that direction."""
        ladder, rung = self._state.situation.ladder, self._state.situation.rung
        if ladder is None or rung is None:
            return
        last = len(ladder.rungs) - 1
        number = (last if by > 0 else 0) if to_end else min(max(ladder.rungs.index(rung) + by, 0), last)
        self._state.set_rung(ladder.rungs[number].power)

    def _draw_chart(self, page: Page) -> Drawing | str:
        situation = self._state.situation
        palette = load_palette(situation.palette_name)
        ladder, rung, step = situation.ladder, situation.rung, situation.next_step
        self.chart = None
        if ladder is None or not ladder.aim.is_offered:
            return palette.surface
        is_moment = ladder.aim.at == situation.time
        self.chart = draw_ladder(
            page,
            ladder,
            palette=palette,
            chosen_power=rung.power if rung else None,
            is_taken=situation.rung_is_taken,
            following_power=None if step is None or step.to is None else step.to.power,
            wished=situation.wished,
            when=aim_when(
                ladder.aim,
                clock_of(situation),
                is_now=is_moment and situation.following_now,
                is_moment=is_moment,
                rises_on=situation.rising_on is not None,
            ),
        )
        return self.chart.drawing

    def _paint_frame(self, painter: QPainter) -> None:
        """Show that the keyboard steps the ladder."""
        self.paint_focus(painter, QColor(load_palette(self._state.situation.palette_name).accent))
