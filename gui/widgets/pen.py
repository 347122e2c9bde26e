"""The pen for the screen: paints marks with Qt, and measures letters as the window writes them."""

from functools import cache, lru_cache
from typing import Final

import numpy as np
from attrs import frozen
from PySide6.QtCore import QByteArray, QDataStream, QIODevice, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QFontMetricsF,
    QImage,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
    QTransform,
)

from core.drawing.lettering import Lettering, Measure, one_line
from core.drawing.marks import (
    EDGE_WIDTH,
    Area,
    Circle,
    Dashes,
    Drawing,
    Fill,
    Mark,
    Page,
    Picture,
    Points,
    Strokes,
    Words,
)
from core.drawing.placing import Box
from gui.widgets.theme import USUAL_POINTS

# The pixels of the window, before any scale of the screen, to a point of a page at the usual size of letters.
_USUAL_SCALE: Final = 96.0 / 72.0
# How many of Qt's points go to a point of a page, which is 4/3 pixels on every system.
_QT_POINTS: Final = USUAL_POINTS / 10.5


@frozen
class ScreenMeasure(Measure):
    """Measures letters as the window writes them: in its own family, larger where its letters are."""

    family: str
    text_scale: float

    def width(self, text: str, lettering: Lettering) -> float:
        """Return the width of a line, points."""
        return _width(self, text, lettering) if text else 0.0

    def legible(self, text: str) -> str:
        """Return a text as one line; Qt itself draws a box for what no font can write."""
        return one_line(text)

    @property
    def pixels_per_point(self) -> float:
        """How many of the window's pixels go to a point of a page."""
        return _USUAL_SCALE * self.text_scale

    def font(self, lettering: Lettering) -> QFont:
        """Return the font for a lettering."""
        return _font(self, lettering)

    def middle(self, lettering: Lettering) -> float:
        """Return how far the middle of a line's letters is above their base line, pixels."""
        return _middle(self, lettering)


@cache
def _font(measure: ScreenMeasure, lettering: Lettering) -> QFont:
    font = QFont(measure.family)
    # A point is 1/72 inch of whatever Qt takes for an inch, so that letters grow as the window's do.
    font.setPointSizeF(lettering.size * measure.text_scale * _QT_POINTS)
    font.setBold(lettering.bold)
    return font


@cache
def _metrics(measure: ScreenMeasure, lettering: Lettering) -> QFontMetricsF:
    return QFontMetricsF(_font(measure, lettering))


# A line is measured when it is laid out, maybe for several places, and once more when it is painted.
@lru_cache(maxsize=2048)
def _width(measure: ScreenMeasure, text: str, lettering: Lettering) -> float:
    return _metrics(measure, lettering).horizontalAdvance(text) / measure.pixels_per_point


@cache
def _middle(measure: ScreenMeasure, lettering: Lettering) -> float:
    # Of large letters, whose extent is not rounded to pixels.
    large = Lettering(100.0, bold=lettering.bold)
    extent = _metrics(measure, large).tightBoundingRect("lp")
    return -(extent.top() + extent.bottom()) / 2 * lettering.size / large.size


def page_on(size: QSize, font: QFont) -> Page:
    """Return a page as large as a part of the window whose letters are in ``font``."""
    measure = ScreenMeasure(font.family(), font.pointSizeF() / USUAL_POINTS)
    scale = measure.pixels_per_point
    return Page(width=size.width() / scale, height=size.height() / scale, measure=measure)


class ScreenPen:
    """Paints drawings whose page was made for the screen; the painter's own scale is heeded.

    Places are in the window's pixels from the upper left corner. What is upright or level falls on whole
    pixels of the screen, so that it is crisp at every scale.
    """

    def __init__(self, painter: QPainter, drawing: Drawing) -> None:
        measure = drawing.page.measure
        assert isinstance(measure, ScreenMeasure)  # no other page is as large as a part of the window
        self._painter = painter
        self._measure = measure
        self._drawing = drawing
        self._scale = measure.pixels_per_point
        self._bottom = drawing.page.height * self._scale
        self._ratio = painter.device().devicePixelRatio()

    def paint(self, *, ground: bool = True) -> None:
        """Paint the ground, unless what is there is to show through, and all marks."""
        painter, page = self._painter, self._drawing.page
        painter.save()
        painter.setRenderHints(
            QPainter.RenderHint.Antialiasing
            | QPainter.RenderHint.TextAntialiasing
            | QPainter.RenderHint.SmoothPixmapTransform
        )
        whole = QRectF(0.0, 0.0, page.width * self._scale, self._bottom)
        painter.setClipRect(whole.adjusted(0.0, 0.0, 1.0, 1.0))
        if ground:
            painter.fillRect(whole.adjusted(0.0, 0.0, 1.0, 1.0), QColor(self._drawing.ground))
        for mark in self._drawing.marks:
            self._paint(mark)
        painter.restore()

    def _paint(self, mark: Mark) -> None:
        match mark:
            case Words():
                self._write(mark)
            case Strokes():
                self._strokes(mark)
            case Fill():
                self._fill(mark)
            case Area():
                self._set(QBrush(_colour(mark.colour, mark.alpha)), None)
                self._painter.drawPolygon(self._polygon(mark.outline))
            case Circle():
                self._set(QBrush(QColor(mark.colour)), mark.edge)
                self._painter.drawEllipse(
                    self._place(mark.x, mark.y), mark.radius * self._scale, mark.radius * self._scale
                )
            case Picture():
                self._lay(mark)

    def _write(self, words: Words) -> None:
        painter, measure = self._painter, self._measure
        painter.setFont(measure.font(words.lettering))
        painter.setPen(QColor(words.colour))
        width = measure.width(words.text, words.lettering) * self._scale
        left = -{"left": 0.0, "center": width / 2, "right": width}[words.align]
        middle, place = measure.middle(words.lettering), self._place(words.x, words.y)
        if not words.rotation_deg:
            base = QPointF(self._whole(place.x() + left), self._whole(place.y() + middle))
            painter.drawText(base, words.text)
            return
        painter.save()
        painter.translate(place)
        painter.rotate(-words.rotation_deg)
        painter.drawText(QPointF(left, middle), words.text)
        painter.restore()

    def _strokes(self, strokes: Strokes) -> None:
        width = strokes.width * self._scale
        is_level = all(_is_level(line) for line in strokes.lines)
        if is_level and not strokes.dashes:
            width = max(self._whole(width), 1.0 / self._ratio)
        self._painter.setPen(_pen(_colour(strokes.colour, strokes.alpha), width, strokes.dashes))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        path = QPainterPath()
        for line in strokes.lines:
            path.addPolygon(self._polygon(line, crisp_width=width if is_level else None))
        self._painter.drawPath(path)

    def _fill(self, fill: Fill) -> None:
        self._set(QBrush(_colour(fill.colour, fill.alpha)), fill.edge)
        box, half = fill.box, 0.5 / self._ratio if fill.edge else 0.0
        left, right = (self._whole(x * self._scale) for x in (box.left, box.right))
        top, bottom = (self._whole(self._bottom - y * self._scale) for y in (box.top, box.bottom))
        self._painter.drawRect(QRectF(left + half, top + half, right - left, bottom - top))

    def _lay(self, picture: Picture) -> None:
        rows, columns, _ = picture.pixels.shape
        pixels = np.ascontiguousarray(picture.pixels)
        image = QImage(pixels.data, columns, rows, 3 * columns, QImage.Format.Format_RGB888)
        # As the screen has it.
        image = image.convertToFormat(QImage.Format.Format_RGB32)
        box = self._rectangle(picture.box)
        if not picture.is_round:  # on whole pixels, where it needs no scaling once more
            corners = ((box.left(), box.top()), (box.right(), box.bottom()))
            box = QRectF(*(QPointF(self._whole(x), self._whole(y)) for x, y in corners))
        size = QSize(max(round(box.width() * self._ratio), 1), max(round(box.height() * self._ratio), 1))
        # Scaled by itself: it weighs all pixels where many go to one, which a painter does not.
        image = image.scaled(
            size, Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
        if not picture.is_round:
            self._painter.drawImage(box, image)
            return
        # As the colour of a circle, whose edge is smooth; that of a clip is not.
        brush = QBrush(image)
        brush.setTransform(
            QTransform(
                box.width() / size.width(), 0.0, 0.0, box.height() / size.height(), box.left(), box.top()
            )
        )
        self._set(brush, None)
        self._painter.drawEllipse(box)

    def _set(self, brush: QBrush, edge: str | None) -> None:
        self._painter.setBrush(brush)
        if edge is None:
            self._painter.setPen(Qt.PenStyle.NoPen)
        else:
            self._painter.setPen(_pen(QColor(edge), EDGE_WIDTH * self._scale, ()))

    def _place(self, x: float, y: float) -> QPointF:
        return QPointF(x * self._scale, self._bottom - y * self._scale)

    def _rectangle(self, box: Box) -> QRectF:
        return QRectF(self._place(box.left, box.top), self._place(box.right, box.bottom))

    def _whole(self, pixels: float) -> float:
        """Return the nearest edge between pixels of the screen."""
        return round(pixels * self._ratio) / self._ratio

    def _polygon(self, points: Points, *, crisp_width: float | None = None) -> QPolygonF:
        """Return points (N, 2) in pixels; those of a crisp line lie so that its ink fills whole pixels."""
        pixels = points * np.array([self._scale, -self._scale]) + np.array([0.0, self._bottom])
        if crisp_width is not None:
            half = (max(round(crisp_width * self._ratio), 1) % 2) / 2
            pixels = (np.round(pixels * self._ratio - half) + half) / self._ratio
        # As Qt reads a polygon from a stream: to make a point of each pair takes much longer.
        # The stream reads the content, and does not keep it.
        content = QByteArray(len(pixels).to_bytes(4, "big") + pixels.astype(">f8").tobytes())
        stream = QDataStream(content, QIODevice.OpenModeFlag.ReadOnly)
        polygon = QPolygonF()
        stream >> polygon
        return polygon


def _is_level(line: Points) -> bool:
    """Tell whether a line goes only up and down or from side to side."""
    return bool(np.all((line[1:, 0] == line[:-1, 0]) | (line[1:, 1] == line[:-1, 1])))


def _colour(name: str, alpha: float) -> QColor:
    colour = QColor(name)
    colour.setAlphaF(alpha)
    return colour


def _pen(colour: QColor, width: float, dashes: Dashes) -> QPen:
    pen = QPen(colour, width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if dashes:
        pen.setDashPattern(list(dashes))
    return pen
