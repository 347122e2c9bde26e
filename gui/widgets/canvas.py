"""A place in the window where a drawing of ``core.drawing`` stands."""

import math
import sys
from collections.abc import Callable

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PySide6.QtCore import QPoint, QSize, Signal
from PySide6.QtGui import QFocusEvent, QImage, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.drawing.kept_letters import LettersKeptCanvas
from gui.widgets.theme import USUAL_POINTS

_DOTS_PER_INCH = 96.0


class Canvas(QWidget):
    """Shows a Matplotlib figure, drawn afresh for the size and pixel ratio that the widget really has.

    Matplotlib's own Qt canvas stretches one figure when its place changes; here the drawing is laid out
    anew for each size, so labels stay clear of each other, and the picture is asked for its pixel ratio at
    every paint, so that another screen or a wake from sleep cannot shrink it. What moves with the clock or
    the pointer is painted over the finished picture (``layers``), which takes about a millisecond.

    Signals
    -------
    drawn
        The figure has been drawn again; places taken from it have moved.
    """

    drawn = Signal()

    def __init__(self, draw: Callable[[Figure], None], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.layers: list[Callable[[QPainter], None]] = []
        self.figure = Figure()
        self._draw = draw
        self._agg: FigureCanvasAgg = LettersKeptCanvas(self.figure)
        self._image = QImage()
        self._drawn_for: tuple[int, int, float, float] | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def minimumSizeHint(self) -> QSize:
        return QSize(320, round(140 * self._text_scale()))

    def sizeHint(self) -> QSize:
        return QSize(860, 460)

    def redraw(self) -> None:
        """Draw the figure again, as soon as it is seen."""
        self._drawn_for = None
        self.update()

    def ensure_drawn(self) -> None:
        """Draw the figure now unless it already stands as it should."""
        ratio = self.devicePixelRatioF()
        # Letters on the drawing grow with those of the window.
        text_scale = self._text_scale()
        wanted = (self.width(), self.height(), ratio, text_scale)
        if wanted == self._drawn_for or self.width() < 1 or self.height() < 1:
            return
        # Noted first: a drawing that fails is reported once and not at every paint.
        self._drawn_for = wanted
        # Whole pixels that cover the place; a fraction left uncovered would show as a bright seam.
        columns, rows = math.ceil(self.width() * ratio), math.ceil(self.height() * ratio)
        dots_per_inch = _DOTS_PER_INCH * ratio * text_scale
        self.figure.clear()
        self.figure.set_dpi(dots_per_inch)
        # Half a pixel keeps the renderer, which rounds down, from losing one.
        self.figure.set_size_inches((columns + 0.5) / dots_per_inch, (rows + 0.5) / dots_per_inch)
        self._draw(self.figure)
        self._agg.draw()
        pixels = self._agg.buffer_rgba()
        image = QImage(pixels, columns, rows, 4 * columns, QImage.Format.Format_RGBA8888)
        # A copy, since the renderer's memory is written to again.
        self._image = image.convertToFormat(QImage.Format.Format_RGB32)
        self._image.setDevicePixelRatio(ratio)
        self.drawn.emit()

    def _text_scale(self) -> float:
        return self.font().pointSizeF() / USUAL_POINTS

    def to_figure(self, x: float, y: float) -> tuple[float, float]:
        """Return a place of the widget in pixels of the figure, whose origin is at the bottom left."""
        ratio = self.devicePixelRatioF()
        return x * ratio, self._image.height() - y * ratio

    def from_figure(self, x: float, y: float) -> tuple[float, float]:
        """Return a place of the figure, in its pixels, as a place of the widget."""
        ratio = self.devicePixelRatioF()
        return x / ratio, (self._image.height() - y) / ratio

    def paintEvent(self, event: QPaintEvent) -> None:
        try:
            self.ensure_drawn()
        except Exception:  # noqa: BLE001 - Qt may crash on what is raised in a paint event
            sys.excepthook(*sys.exc_info())
        painter = QPainter(self)
        painter.drawImage(QPoint(0, 0), self._image)
        for layer in self.layers:
            layer(painter)
        painter.end()


class KeyedCanvas(Canvas):
    """A canvas that does something for keys, and is painted anew when the keyboard comes or goes."""

    def act_of(self, event: QKeyEvent) -> Callable[[], None] | None:
        """Return what a key does here, or None for a key that is not meant for the drawing."""
        raise NotImplementedError

    def keyPressEvent(self, event: QKeyEvent) -> None:
        act = self.act_of(event)
        if act is None:
            super().keyPressEvent(event)
        else:
            act()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()
