"""The pointer at night: the program's own, dim red, in the shape that the place under it asks for."""

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QEvent, QObject, QPointF, Qt
from PySide6.QtGui import QColor, QCursor, QPainter, QPainterPath, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QApplication, QWidget

from core.drawing.palette import PaletteName, load_palette

_SIZE_PX: Final = 24
_MIDDLE: Final = _SIZE_PX / 2
# Reach and half width of the heads of a double arrow, in pixels.
_REACH, _HEAD = 10.0, 4.0
Place = tuple[float, float]
_ARROW: Final[tuple[Place, ...]] = (
    *((2, 2), (2, 18), (6, 14.5), (9, 21), (12, 19.5), (9, 13.5), (14.5, 13.5)),
)
_SHAPES = Qt.CursorShape
_ACROSS: Final = frozenset({_SHAPES.SizeHorCursor, _SHAPES.SplitHCursor})
_UP_AND_DOWN: Final = frozenset({_SHAPES.SizeVerCursor, _SHAPES.SplitVCursor})
_EVERYWHERE: Final = frozenset({_SHAPES.SizeAllCursor, _SHAPES.CrossCursor})
_COMING: Final = frozenset({QEvent.Type.Show, QEvent.Type.Hide})
# Events after which the pointer may stand over something else.
FOLLOWED: Final = _COMING | {QEvent.Type.Enter, QEvent.Type.Leave, QEvent.Type.CursorChange}


class NightPointer:
    """Takes the place of every pointer while switched on; told of the program's events, it follows them.

    A system's own pointer is white, whatever a window's palette.
    """

    def __init__(self) -> None:
        self._on = False
        self._shape = _SHAPES.ArrowCursor
        self._light = 1.0

    def set_on(self, on: bool) -> None:
        """Switch the own pointer on, or give the system's back."""
        if on == self._on:
            return
        self._on = on
        if on:
            self._shape = self._wanted()
            QApplication.setOverrideCursor(night_cursor(self._shape, self._light))
        else:
            QApplication.restoreOverrideCursor()

    def dim(self, light: float) -> None:
        """Take the pointer's light down to a share of the usual one."""
        if light != self._light:
            self._light = light
            self._show(self._shape)

    def heed(self, watched: QObject, kind: QEvent.Type) -> None:
        """Follow an event of one of the kinds in ``FOLLOWED``."""
        if not isinstance(watched, QWidget):
            return
        if kind in _COMING:
            if watched.testAttribute(Qt.WidgetAttribute.WA_SetCursor):
                # What comes or goes under a pointer that rests is told by no other event.
                self._take(self._wanted())
        elif kind is QEvent.Type.Enter:
            self._take(watched.cursor().shape())
        elif kind is QEvent.Type.Leave:
            above = watched.parentWidget()
            self._take(_SHAPES.ArrowCursor if above is None else above.cursor().shape())
        elif watched.underMouse() and not watched.isWindow():  # which is told of each change made here
            self._take(watched.cursor().shape())

    def _wanted(self) -> Qt.CursorShape:
        under = QApplication.widgetAt(QCursor.pos())
        return _SHAPES.ArrowCursor if under is None else under.cursor().shape()

    def _take(self, shape: Qt.CursorShape) -> None:
        if shape is not self._shape:
            self._show(shape)

    def _show(self, shape: Qt.CursorShape) -> None:
        self._shape = shape
        if self._on:
            QApplication.changeOverrideCursor(night_cursor(shape, self._light))


def night_cursor(shape: Qt.CursorShape, light: float = 1.0) -> QCursor:
    """Return a pointer of a shape in dim red with a black edge; ``light`` is a share of the usual."""
    if shape is _SHAPES.BlankCursor:
        return QCursor(shape)
    outline, hot = _outline(shape)
    ratio = QApplication.primaryScreen().devicePixelRatio()
    picture = QPixmap(round(_SIZE_PX * ratio), round(_SIZE_PX * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    red = QColor(load_palette(PaletteName.NIGHT).accent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(0, 0, 0), 1.5))
    painter.setBrush(QColor(round(red.red() * light), 0, 0))
    painter.drawPath(outline)
    painter.end()
    return QCursor(picture, *hot)


def _outline(shape: Qt.CursorShape) -> tuple[QPainterPath, tuple[int, int]]:
    """Return the outline of a shape, and the pixel of it that points."""
    middle = (round(_MIDDLE), round(_MIDDLE))
    if shape is _SHAPES.IBeamCursor:
        return _united(_bar(4.0), _bar(20.0), _box(11.0, 4.0, 2.0, 16.0)), middle
    if shape in _ACROSS:
        return _double_arrow(lambda x, y: (x, y)), middle
    if shape in _UP_AND_DOWN:
        return _double_arrow(lambda x, y: (y, x)), middle
    if shape in _EVERYWHERE:
        return _united(_double_arrow(lambda x, y: (x, y)), _double_arrow(lambda x, y: (y, x))), middle
    return _polygon(_ARROW), (2, 2)


def _double_arrow(turned: Callable[[float, float], Place]) -> QPainterPath:
    parts = [_polygon([turned(*place) for place in ((4, 11), (20, 11), (20, 13), (4, 13))])]
    for side in (-1.0, 1.0):
        tip, foot = _MIDDLE + side * _REACH, _MIDDLE + side * (_REACH - _HEAD)
        head = ((tip, _MIDDLE), (foot, _MIDDLE - _HEAD), (foot, _MIDDLE + _HEAD))
        parts.append(_polygon([turned(*place) for place in head]))
    return _united(*parts)


def _bar(y: float) -> QPainterPath:
    return _box(8.0, y - 1.0, 8.0, 2.0)


def _box(x: float, y: float, width: float, height: float) -> QPainterPath:
    path = QPainterPath()
    path.addRect(x, y, width, height)
    return path


def _polygon(places: tuple[Place, ...] | list[Place]) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(*place) for place in places]))
    path.closeSubpath()
    return path


def _united(*parts: QPainterPath) -> QPainterPath:
    whole = QPainterPath()
    for part in parts:
        whole = whole.united(part)
    return whole
