"""A place in the window where a drawing of ``core.drawing`` stands."""

import math
import sys
from collections.abc import Callable

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QColor,
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from core.drawing.marks import Drawing, Page
from core.words.glossary import Term, terms_in
from gui.widgets.explained import explainer_of, told_shortly
from gui.widgets.pen import ScreenPen, page_on
from gui.widgets.plain_tip import plain_tip
from gui.widgets.screen_readers import OwnControl
from gui.widgets.theme import USUAL_POINTS

Ground = str
_FRAME_PX = 2.0


class Canvas(OwnControl, QWidget):
    """Shows a drawing, laid out afresh for the size and the letters that the widget really has.

    ``draw`` gives the drawing for a page, or the colour of the ground where there is nothing to draw. The
    pixel ratio is asked for at every paint, so that another screen or a wake from sleep cannot shrink the
    picture; ``shown`` is the drawing in it, None for a bare ground. What moves with the clock or the pointer
    is painted over the finished picture (``layers``).

    Signals
    -------
    drawn
        The drawing has been made again; places taken from it have moved.
    """

    drawn = Signal()

    def __init__(self, draw: Callable[[Page], Drawing | Ground], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.layers: list[Callable[[QPainter], None]] = []
        self._draw = draw
        self._picture = QPixmap()
        self.shown: Drawing | None = None
        self._drawn_for: tuple[int, int, float, str] | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def minimumSizeHint(self) -> QSize:
        return QSize(320, round(140 * self.font().pointSizeF() / USUAL_POINTS))

    def sizeHint(self) -> QSize:
        return QSize(860, 460)

    @property
    def page(self) -> Page:
        """The page that the widget is now."""
        return page_on(self.size(), self.font())

    def redraw(self) -> None:
        """Draw again, as soon as it is seen."""
        self._drawn_for = None
        self.update()

    def ensure_drawn(self) -> None:
        """Draw now unless the drawing already stands as it should."""
        ratio = self.devicePixelRatioF()
        wanted = (self.width(), self.height(), ratio, self.font().key())
        if wanted == self._drawn_for or self.width() < 1 or self.height() < 1:
            return
        # Noted first: a drawing that fails is reported once and not at every paint.
        self._drawn_for = wanted
        drawing = self._draw(self.page)
        # Whole pixels that cover the place; a fraction left uncovered would show as a bright seam.
        picture = QPixmap(math.ceil(self.width() * ratio), math.ceil(self.height() * ratio))
        picture.setDevicePixelRatio(ratio)
        self.shown = drawing if isinstance(drawing, Drawing) else None
        if isinstance(drawing, Drawing):
            painter = QPainter(picture)
            ScreenPen(painter, drawing).paint()
            painter.end()
        else:
            picture.fill(QColor(drawing))
        self._picture = picture
        self.drawn.emit()

    def to_page(self, x: float, y: float) -> tuple[float, float]:
        """Return a place of the widget on the page, points from the lower left corner."""
        page = self.page
        return x * page.width / self.width(), (self.height() - y) * page.height / self.height()

    def from_page(self, x: float, y: float) -> tuple[float, float]:
        """Return a place on the page as a place of the widget."""
        page = self.page
        return x * self.width() / page.width, self.height() - y * self.height() / page.height

    def terms_at(self, place: QPointF) -> tuple[Term, ...]:
        """Return the terms in the words that are drawn at a place of the widget."""
        drawing = self.shown
        if drawing is None or explainer_of(self) is None:
            return ()
        x, y = self.to_page(place.x(), place.y())
        under = [words.text for words in drawing.words if words.box(drawing.page.measure).contains(x, y)]
        return terms_in(" ".join(under))

    def acts_at(self, _place: QPointF) -> bool:
        """Tell whether a click at a place of the widget does something of the drawing's own."""
        return False

    def event(self, event: QEvent) -> bool:
        # The pointer tells a term that stands in the drawing in short, as one in a label.
        if event.type() is QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            terms = self.terms_at(QPointF(event.pos()))
            if terms:
                QToolTip.showText(event.globalPos(), plain_tip(told_shortly(terms[0])), self)
                return True
        return super().event(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        place = event.position()
        is_click = event.button() == Qt.MouseButton.LeftButton and self.rect().contains(place.toPoint())
        window, terms = explainer_of(self), self.terms_at(place)
        if window is not None and terms and is_click and not self.acts_at(place):
            window.explain(terms)

    def paintEvent(self, event: QPaintEvent) -> None:
        try:
            self.ensure_drawn()
        except Exception:  # noqa: BLE001 - Qt may crash on what is raised in a paint event
            sys.excepthook(*sys.exc_info())
        painter = QPainter(self)
        painter.drawPixmap(QPoint(0, 0), self._picture)
        for layer in self.layers:
            layer(painter)
        painter.end()


class KeyedCanvas(Canvas):
    """A canvas that does something for keys, and is painted anew when the keyboard comes or goes."""

    reader_role = QAccessible.Role.Chart

    def act_of(self, event: QKeyEvent) -> Callable[[], None] | None:
        """Return what a key does here, or None for a key that is not meant for the drawing."""
        raise NotImplementedError

    def keyPressEvent(self, event: QKeyEvent) -> None:
        act = self.act_of(event)
        if act is None:
            super().keyPressEvent(event)
        else:
            act()

    def paint_focus(self, painter: QPainter, colour: QColor) -> None:
        """Frame the drawing while it has the keyboard."""
        if self.hasFocus():
            painter.setPen(QPen(colour, _FRAME_PX))
            inset = _FRAME_PX / 2
            painter.drawRect(QRectF(self.rect()).adjusted(inset, inset, -inset, -inset))

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()
