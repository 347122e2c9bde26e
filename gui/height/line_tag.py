"""The word at the head of a line that moves over a chart, on ground of its own."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from core.drawing.palette import Palette

_AROUND_PX, _ABOVE_AND_BELOW_PX = 10, 2


def tag_box(painter: QPainter, x: float, top: float, words: str, *, width: float) -> QRectF:
    """Return the place of a tag over a line, inside a widget of a width; all in pixels."""
    metrics = painter.fontMetrics()
    wide, high = metrics.horizontalAdvance(words) + _AROUND_PX, metrics.height() + _ABOVE_AND_BELOW_PX
    return QRectF(min(max(x - wide / 2, 0.0), width - wide), top, wide, high)


def paint_tag(
    painter: QPainter, box: QRectF, words: str, *, palette: Palette, edge: QColor, is_chosen: bool = False
) -> None:
    """Write a tag so that it is read over any curve, framed in the colour of its line."""
    # At night a wide patch in the colour of the line would be the brightest thing in the window.
    painter.fillRect(box, QColor(palette.chosen if is_chosen else palette.surface))
    painter.setPen(QPen(edge, 1.0))
    painter.drawRect(box)
    painter.setPen(QColor(palette.chosen_ink if is_chosen else palette.ink))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
