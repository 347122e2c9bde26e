"""How the picture of a horizon is painted."""

from collections.abc import Sequence

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from core.drawing.palette import Palette
from core.sky.site import WARM_BAND_ABOVE_ROOF_DEG, BlockedSky
from core.sky.skyline import Sector
from core.sky.track import Track
from gui.gear.horizon_map import HorizonMap

_COMPASS = {0: "north", 45: "NE", 90: "east", 135: "SE", 180: "south", 225: "SW", 270: "west", 315: "NW"}


class HorizonPen:
    """Paints one picture; made anew for each paint event."""

    def __init__(self, painter: QPainter, sky: HorizonMap, palette: Palette) -> None:
        self._painter = painter
        self._map = sky
        self._colours = palette
        self._text = QFontMetricsF(painter.font())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(sky.plot, QColor(palette.night_sky))

    def grid(self) -> None:
        """Draw the heights and the compass."""
        plot, text = self._map.plot, self._text
        for altitude_deg in (0, 30, 45, 60, 90):
            y = self._map.y(altitude_deg)
            self._painter.setPen(QPen(QColor(self._colours.line), 1))
            self._painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y))
            self._painter.setPen(QColor(self._colours.faint_ink))
            label = QRectF(0, y - text.height() / 2, plot.left() - 4, text.height())
            self._painter.drawText(label, int(Qt.AlignmentFlag.AlignRight), f"{altitude_deg}°")
        is_narrow = plot.width() < 8 * text.horizontalAdvance("north  ")
        for azimuth_deg, word in _COMPASS.items():
            if is_narrow and azimuth_deg % 90:
                continue
            for x in {
                self._map.x(azimuth_deg),
                plot.right() if self._map.x(azimuth_deg) == plot.left() else -1.0,
            }:
                if x >= 0:
                    self._compass_word(x, word)

    def _compass_word(self, x: float, word: str) -> None:
        text, plot = self._text, self._map.plot
        width = text.horizontalAdvance(word)
        left = min(max(x - width / 2, plot.left()), plot.right() - width)
        self._painter.setPen(QColor(self._colours.faint_ink))
        self._painter.drawText(QPointF(left, plot.bottom() + text.height()), word)

    def tracks(self, tracks: Sequence[Track]) -> None:
        """Draw each body's path, broken where it leaves one side of the picture for the other."""
        half = self._map.plot.width() / 2
        for track in tracks:
            self._painter.setPen(QPen(QColor(self._colours.bodies[track.body]), 1.5, Qt.PenStyle.DashLine))
            piece = QPolygonF()
            for azimuth_deg, altitude_deg in zip(
                track.azimuth_deg[::5], np.asarray(track.apparent_altitude_deg)[::5], strict=True
            ):
                point = QPointF(self._map.x(float(azimuth_deg)), self._map.y(float(altitude_deg)))
                is_jump = not piece.isEmpty() and abs(point.x() - piece.last().x()) > half
                if altitude_deg < 0 or is_jump:
                    self._painter.drawPolyline(piece)
                    piece = QPolygonF()
                if altitude_deg >= 0:
                    piece.append(point)
            self._painter.drawPolyline(piece)

    def sector(self, sector: Sector, *, is_chosen: bool) -> None:
        """Draw one sector with its warm band and its name."""
        top_deg = sector.below_altitude_deg
        edge = QPen(QColor(self._colours.accent if is_chosen else self._colours.ink), 2 if is_chosen else 1)
        warm = QBrush(QColor(self._colours.warning), Qt.BrushStyle.BDiagPattern)
        if isinstance(sector, BlockedSky):
            if sector.heated:
                self._painter.setPen(Qt.PenStyle.NoPen)
                self._painter.setBrush(warm)
                self._painter.drawRects(self._map.blocks(sector, top_deg, top_deg + WARM_BAND_ABOVE_ROOF_DEG))
            self._painter.setBrush(QColor(self._colours.surface))
        else:
            self._painter.setBrush(warm)
        self._painter.setPen(edge)
        blocks = self._map.blocks(sector, 0, top_deg)
        self._painter.drawRects(blocks)
        self._name(sector, max(blocks, key=lambda block: block.width()))

    def _name(self, sector: Sector, block: QRectF) -> None:
        text = self._text
        room = block.adjusted(4, 2, -4, -2)
        if room.width() < text.horizontalAdvance("xx") or room.height() < text.height():
            return
        name = text.elidedText(sector.what or "blocked", Qt.TextElideMode.ElideRight, room.width())
        self._painter.setPen(QColor(self._colours.ink))
        self._painter.drawText(room, int(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom), name)

    def focus_frame(self) -> None:
        """Frame the picture that has the keys."""
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.setPen(QPen(QColor(self._colours.accent), 2))
        self._painter.drawRect(self._map.plot)
