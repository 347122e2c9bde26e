"""The year's chart in the window, with the line that hand and keys move over it."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QPointF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import QWidget

from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.drawing.year_chart import YearChart, draw_year
from core.situation.situation import Situation
from core.words.dates import short_date_text
from core.year.year import Year
from gui.height.line_tag import paint_tag, tag_box
from gui.state import AppState, Change
from gui.widgets.canvas import KeyedCanvas

_STEPS = {
    Qt.KeyboardModifier.NoModifier: 1,
    Qt.KeyboardModifier.ShiftModifier: 7,
    Qt.KeyboardModifier.ControlModifier: 30,
}
_LEAST_LINES = 13
_GO = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class YearCanvas(KeyedCanvas):
    """A planet's year, the evening in hand marked; another one is pointed at by hand or key.

    Signals
    -------
    pointed
        The date pointed at, or None when none is.
    chosen
        The date to go to.
    """

    pointed = Signal(object)
    chosen = Signal(object)

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(self._draw_chart, parent)
        self.chart: YearChart | None = None
        self.year: Year | None = None
        self.marked: date | None = None
        self._state = state
        self.layers.append(self._paint_mark)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAccessibleName("Year chart: how high the planet gets in a dark sky on each evening")
        self.setToolTip("Click an evening to go there; left and right, with Shift by weeks, then Return")
        state.changed.connect(self._on_changed)

    def show_year(self, year: Year | None) -> None:
        """Show a year, or with None an empty place."""
        self.year = year
        if year is None or (self.marked is not None and self.marked not in year.dates):
            self.point_at(None)
        self.redraw()

    def point_at(self, day: date | None) -> None:
        """Point at one evening of the year, or with None at none."""
        if day != self.marked:
            self.marked = day
            self.pointed.emit(day)
            self.update()

    def line_x(self, day: date) -> float | None:
        """Return where a date's line stands in the widget, None when it is not on the chart."""
        if self.chart is None or not self.chart.shows(day):
            return None
        return self.from_page(self.chart.x_of(day), 0)[0]

    def _draw_chart(self, page: Page) -> Drawing | str:
        palette = load_palette(self._state.situation.palette_name)
        self.chart = None
        if self.year is None:
            return palette.background
        self.chart = draw_year(page, self.year, palette=palette, chosen=self._state.situation.evening)
        return self.chart.drawing

    def minimumSizeHint(self) -> QSize:
        # Months and marks have their own size; below this the curve would lie flat.
        return QSize(super().minimumSizeHint().width(), _LEAST_LINES * self.fontMetrics().lineSpacing())

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.evening, Situation.palette_name):
            self.redraw()

    def _paint_mark(self, painter: QPainter) -> None:
        palette = load_palette(self._state.situation.palette_name)
        x = None if self.marked is None else self.line_x(self.marked)
        if x is not None and self.chart is not None and self.marked is not None:
            plot = self.chart.plot_box
            top, bottom = self.from_page(0, plot.top)[1], self.from_page(0, plot.bottom)[1]
            painter.setPen(QPen(QColor(palette.ink), 1.5, Qt.PenStyle.DashLine))
            painter.drawLine(QPointF(x, top), QPointF(x, bottom))
            tag = short_date_text(self.marked)
            box = tag_box(painter, x, top, tag, width=self.width())
            paint_tag(painter, box, tag, palette=palette, edge=QColor(palette.ink))
        self.paint_focus(painter, QColor(palette.accent))

    # Hands.

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.point_at(self._date_at(event.position()))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        day = self._date_at(event.position())
        if event.button() == Qt.MouseButton.LeftButton and day is not None:
            self.chosen.emit(day)
        else:
            super().mousePressEvent(event)

    def acts_at(self, place: QPointF) -> bool:
        return self._date_at(place) is not None

    def leaveEvent(self, event: object) -> None:
        if not self.hasFocus():
            self.point_at(None)

    def act_of(self, event: QKeyEvent) -> Callable[[], None] | None:
        key = Qt.Key(event.key())
        step = _STEPS.get(event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier)
        if step is not None and key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            return lambda: self._step(step if key == Qt.Key.Key_Right else -step)
        if key in _GO and self.marked is not None:
            return lambda: self.chosen.emit(self.marked)
        acts: dict[Qt.Key, Callable[[], None]] = {
            Qt.Key.Key_Home: lambda: self.point_at(None),
            Qt.Key.Key_Up: lambda: self._state.step_planet(-1),
            Qt.Key.Key_Down: lambda: self._state.step_planet(1),
        }
        return acts.get(key)

    def _step(self, evenings: int) -> None:
        """Point so many evenings on, from the one pointed at or else from the one in hand."""
        if self.year is None:
            return
        dates = self.year.dates
        start = self.marked or self._state.situation.evening
        number = dates.index(start) if start in dates else 0
        self.point_at(dates[min(max(number + evenings, 0), len(dates) - 1)])

    def _date_at(self, where: QPointF) -> date | None:
        """Return the date at a place over the chart."""
        if self.chart is None:
            return None
        x, _ = self.to_page(where.x(), where.y())
        plot = self.chart.plot_box
        return self.chart.date_at(x) if plot.left <= x <= plot.right else None
