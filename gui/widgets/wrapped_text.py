"""Text broken into a few lines, the last one shortened when there is more."""

import re

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QTextLayout, QTextOption


def wrapped_lines(text: str, font: QFont, width: float, most: int) -> list[str]:
    """Return the text in at most so many lines of a width in pixels; the last one ends in … when it must."""
    lines = _broken(text, font, width, most)
    if lines:
        lines[-1] = QFontMetricsF(font).elidedText(lines[-1], Qt.TextElideMode.ElideRight, width)
    return lines


def _broken(text: str, font: QFont, width: float, most: int) -> list[str]:
    """Return the text in at most so many lines, all that is left in the last of them."""
    if not text:
        return []
    layout = QTextLayout(text, font)
    option = QTextOption()
    option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
    layout.setTextOption(option)
    starts: list[int] = []
    layout.beginLayout()
    while len(starts) < most and (line := layout.createLine()).isValid():
        line.setLineWidth(width)
        starts.append(line.textStart())
    layout.endLayout()
    ends = [*starts[1:], len(text)]
    return [text[start:end].rstrip() for start, end in zip(starts, ends, strict=True)]


def whole_sentences(text: str, font: QFont, width: float, most: int, *, ends: str = ".;") -> list[str]:
    """Return as many sentences, or parts of one, as go into so many lines whole; none is begun and cut.

    ``ends`` are the marks after which a part ends.
    """
    parts = re.split(rf"(?<=[{ends}]) ", text)
    for count in range(len(parts), 0, -1):
        told = " ".join(parts[:count])
        told = f"{told[:-1]}." if told.endswith((";", ":")) else told
        lines = _broken(told, font, width, most + 1)
        if len(lines) <= most:
            return lines
    return []


def draw_lines(painter: QPainter, lines: list[str], left: float, top: float) -> None:
    """Draw lines of text under each other, from a top left corner in pixels."""
    metrics = QFontMetricsF(painter.font())
    for number, line in enumerate(lines):
        painter.drawText(QPointF(left, top + metrics.ascent() + number * metrics.lineSpacing()), line)
