"""The height chart in the window, with the lines that move over it and the hands that move them."""

from collections.abc import Callable
from datetime import datetime, timedelta

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import QWidget

from core.drawing.height import HeightChart, draw_height
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.situation.situation import Situation
from core.words.evening import titled
from core.words.site_clock import clock_of
from core.words.tips import NO_SITE_FOR_CHART
from gui.height.line_tag import paint_tag, tag_box
from gui.state import AppState, Change
from gui.widgets.canvas import KeyedCanvas
from gui.widgets.in_sight import InSight

_DRAWN_FROM = (
    *(Situation.night, Situation.planet, Situation.evening_steps, Situation.preferences),
    *(Situation.palette_name, Situation.text_scale),
)
_MINUTE = timedelta(minutes=1)
_LEAST_LINES = 14
# By how much the word at the head of a line gives way to words of the chart, pixels at a time.
_TAG_STEP_PX = 4
_STEPS = {
    Qt.KeyboardModifier.NoModifier: _MINUTE,
    Qt.KeyboardModifier.ShiftModifier: 10 * _MINUTE,
    Qt.KeyboardModifier.ControlModifier: 60 * _MINUTE,
}


class HeightCanvas(KeyedCanvas):
    """The chart of the state's night; the now line and the time cursor are painted over it.

    Signals
    -------
    pointed
        The moment under the pointer, or None when the pointer has left the chart.
    """

    pointed = Signal(object)

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(self._draw_chart, parent)
        self.chart: HeightChart | None = None
        self.hovered: datetime | None = None
        self._state = state
        self.layers.append(self._paint_moments)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAccessibleName("Height chart: altitude of each planet against time")
        state.changed.connect(self._on_changed)
        InSight(self, state, _DRAWN_FROM, self.redraw)
        InSight(self, state, (Situation.now, Situation.time), self.update)

    def minimumSizeHint(self) -> QSize:
        # The hours and the strip have their own size; below this the curves would lie flat.
        return QSize(super().minimumSizeHint().width(), _LEAST_LINES * self.fontMetrics().lineSpacing())

    def line_x(self, moment: datetime) -> float | None:
        """Return where a moment's line stands in the widget, None when it is not on the chart."""
        if self.chart is None or not self.chart.shows(moment):
            return None
        return self.from_page(self.chart.x_of(moment), 0)[0]

    def _draw_chart(self, page: Page) -> Drawing | str:
        night, state = self._state.situation.night, self._state
        palette = load_palette(state.situation.palette_name)
        self.chart = None
        if night is None:
            return palette.background
        self.chart = draw_height(
            page,
            night,
            palette=palette,
            planet=state.situation.planet,
            items=titled(state.situation.evening_steps),
            clock=state.profile.preferences.clock,
        )
        return self.chart.drawing

    def _on_changed(self, _change: Change) -> None:
        night = self._state.situation.night
        if self.hovered is not None and not (night and night.holds(self.hovered)):
            # The pointer rests while the evening under it has changed.
            self._hover(None)

    # What moves.

    def _paint_moments(self, painter: QPainter) -> None:
        palette = load_palette(self._state.situation.palette_name)
        accent, ink = QColor(palette.accent), QColor(palette.ink)
        if self._state.situation.site is None:
            painter.setPen(ink)
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, NO_SITE_FOR_CHART)
        self._paint_line(painter, self._state.situation.now, QPen(accent, 2.0), "now")
        cursor = None if self._state.situation.following_now else self._state.situation.time
        clock = clock_of(self._state.situation)
        if cursor is not None and clock is not None:
            self._paint_line(painter, cursor, QPen(ink, 1.5, Qt.PenStyle.DashLine), clock.time(cursor))
        if self.hovered is not None:
            self._paint_line(painter, self.hovered, QPen(ink, 1.0, Qt.PenStyle.DotLine), "")
        self.paint_focus(painter, accent)

    def _paint_line(self, painter: QPainter, moment: datetime, pen: QPen, tag: str) -> None:
        x = self.line_x(moment)
        if x is None or self.chart is None:
            return
        painter.setPen(pen)
        for bottom, top in self.chart.clear_at(self.to_page(x, 0)[0]):
            ends = (QPointF(x, self.from_page(0, y)[1]) for y in (top, bottom))
            painter.drawLine(*ends)
        if tag:
            palette = load_palette(self._state.situation.palette_name)
            box = self._clear_of_words(tag_box(painter, x, 0.0, tag, width=self.width()))
            is_now = moment == self._state.situation.now
            paint_tag(painter, box, tag, palette=palette, edge=pen.color(), is_chosen=is_now)

    def _clear_of_words(self, box: QRectF) -> QRectF:
        """Return the highest place of a box in the chart where it covers no word, else the very top."""
        assert self.chart is not None  # asked for only where a line is painted
        words = [
            QRectF(
                QPointF(*self.from_page(each.left, each.top)),
                QPointF(*self.from_page(each.right, each.bottom)),
            )
            for each in self.chart.labels.boxes
        ]
        plot = self.chart.plot_box
        top, floor = (self.from_page(0, y)[1] for y in (plot.top, plot.bottom))
        box.moveTop(top)
        while box.bottom() < floor:
            if not any(box.intersects(word) for word in words):
                return box
            box.translate(0.0, _TAG_STEP_PX)
        box.moveTop(top)
        return box

    # Hands.

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        moment = self._moment_at(event.position())
        if event.buttons() & Qt.MouseButton.LeftButton and moment is not None:
            self._state.set_time(moment)
        self._hover(moment)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton or self.chart is None:
            super().mousePressEvent(event)
            return
        where = event.position()
        body = self.chart.body_at(*self.to_page(where.x(), where.y()))
        if body is not None and body is not self._state.situation.planet:
            self._state.set_planet(body)
            return
        moment = self._moment_at(where)
        if moment is not None:
            self._state.set_time(moment)

    def acts_at(self, place: QPointF) -> bool:
        is_body = (
            self.chart is not None and self.chart.body_at(*self.to_page(place.x(), place.y())) is not None
        )
        return is_body or self._moment_at(place) is not None

    def leaveEvent(self, event: object) -> None:
        self._hover(None)

    def act_of(self, event: QKeyEvent) -> Callable[[], None] | None:
        key = Qt.Key(event.key())
        step = _STEPS.get(event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier)
        if step is not None and key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            by = step if key == Qt.Key.Key_Right else -step
            return lambda: self._state.set_time(self._state.situation.time + by)
        acts: dict[Qt.Key, Callable[[], None]] = {
            Qt.Key.Key_Home: self._state.show_tonight,
            Qt.Key.Key_Up: lambda: self._state.step_planet(-1),
            Qt.Key.Key_Down: lambda: self._state.step_planet(1),
            Qt.Key.Key_PageUp: lambda: self._state.step_evening(-1),
            Qt.Key.Key_PageDown: lambda: self._state.step_evening(1),
        }
        return acts.get(key)

    def _moment_at(self, where: QPointF) -> datetime | None:
        """Return the whole minute at a place over the chart or its strip."""
        if self.chart is None:
            return None
        x, _ = self.to_page(where.x(), where.y())
        plot = self.chart.plot_box
        if not plot.left <= x <= plot.right:
            return None
        moment = self.chart.time_at(x) + _MINUTE / 2
        return moment.replace(second=0, microsecond=0)

    def _hover(self, moment: datetime | None) -> None:
        if moment != self.hovered:
            self.hovered = moment
            self.pointed.emit(moment)
            self.update()
