"""Signs of ``core.drawing.signs`` as icons and beside painted words, in the palette that is worn."""

from functools import cache

from PySide6.QtCore import QPointF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QIcon, QImage, QPainter, QPixmap

from core.drawing.palette import load_palette
from core.drawing.signs import Sign, draw_sign
from gui.widgets.pen import ScreenPen, page_on
from gui.widgets.theme import worn_palette

# Beside letters a sign is a little lower than a line of them.
_OF_A_LINE = 0.86
# Screens of up to this many pixels to one of the window's show it crisp.
_RATIOS = (1.0, 2.0, 3.0)


def sign_size_px(font: QFont) -> int:
    """Return the side of a sign beside letters of a font."""
    return round(_OF_A_LINE * QFontMetrics(font).height())


@cache
def sign_picture(
    sign: Sign, palette_name: str, size_px: int, ratio: float = 1.0, colour: str | None = None
) -> QImage:
    """Return a sign as a square picture, transparent around its strokes."""
    side = round(size_px * ratio)
    picture = QImage(side, side, QImage.Format.Format_ARGB32_Premultiplied)
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    page = page_on(QSize(size_px, size_px), QFont())
    drawing = draw_sign(page, sign, palette=load_palette(palette_name), colour=colour)
    painter = QPainter(picture)
    ScreenPen(painter, drawing).paint(ground=False)
    painter.end()
    return picture


class SignIcons:
    """Signs as icons, each made once for a palette and a size of letters."""

    def __init__(self) -> None:
        self._made: dict[tuple[Sign, str, int], QIcon] = {}

    def icon(self, sign: Sign, font: QFont) -> QIcon:
        """Return a sign beside letters of a font, in other ink where its row is in hand."""
        name, size_px = worn_palette(), sign_size_px(font)
        key = (sign, name, size_px)
        if key not in self._made:
            icon, chosen_ink = QIcon(), load_palette(name).chosen_ink
            for ratio in _RATIOS:
                icon.addPixmap(QPixmap.fromImage(sign_picture(sign, name, size_px, ratio)))
                in_hand = sign_picture(sign, name, size_px, ratio, chosen_ink)
                icon.addPixmap(QPixmap.fromImage(in_hand), QIcon.Mode.Selected)
            self._made[key] = icon
        return self._made[key]


def paint_sign(painter: QPainter, sign: Sign, place: QPointF, size_px: int, colour: str | None) -> None:
    """Paint a sign with its upper left corner at a place; without a colour in its own."""
    ratio = painter.device().devicePixelRatioF()
    painter.drawImage(place, sign_picture(sign, worn_palette(), size_px, ratio, colour))
