"""How the picture of a horizon is painted."""

from collections.abc import Sequence

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPen, QPolygonF

from core.drawing.palette import Palette
from core.sky.bodies import Body
from core.sky.site import WARM_BAND_ABOVE_ROOF_DEG, BlockedSky
from core.sky.skyline import Sector
from core.sky.track import Track
from gui.gear.horizon_map import TOP_DEG, HorizonMap

_COMPASS = {0: "north", 45: "NE", 90: "east", 135: "SE", 180: "south", 225: "SW", 270: "west", 315: "NW"}
_BETWEEN_PX = 4
_GROUND_ALPHA = 0.8


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
        words: list[QRectF] = []
        # The four quarters first; what lies between them is named where there is room.
        for azimuth_deg in sorted(_COMPASS, key=lambda azimuth_deg: azimuth_deg % 90):
            x = self._map.x(azimuth_deg)
            for place in (x, plot.right()) if x == plot.left() else (x,):
                self._compass_word(place, _COMPASS[azimuth_deg], words)

    def _compass_word(self, x: float, word: str, others: list[QRectF]) -> None:
        text, plot = self._text, self._map.plot
        width = text.horizontalAdvance(word)
        left = min(max(x - width / 2, plot.left()), plot.right() - width)
        room = QRectF(left, plot.bottom() + 2, width, text.height())
        if any(room.adjusted(-_BETWEEN_PX, 0, _BETWEEN_PX, 0).intersects(other) for other in others):
            return
        others.append(room)
        self._painter.setPen(QColor(self._colours.faint_ink))
        self._painter.drawText(room, int(Qt.AlignmentFlag.AlignHCenter), word)

    def tracks(self, tracks: Sequence[Track], planet: Body | None) -> None:
        """Draw each body's path, that of the planet in hand as a full line."""
        for track in tracks:
            is_in_hand = track.body is planet
            style = Qt.PenStyle.SolidLine if is_in_hand else Qt.PenStyle.DashLine
            colour = QColor(self._colours.bodies[track.body])
            self._painter.setPen(QPen(colour, 2.0 if is_in_hand else 1.0, style))
            self._path(track)

    def _path(self, track: Track) -> None:
        """Draw a path, broken where it leaves one side of the picture for the other."""
        half = self._map.plot.width() / 2
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
        self._painter.drawRects(self._map.blocks(sector, 0, top_deg))

    def names(
        self, sectors: Sequence[Sector], chosen: int, tracks: Sequence[Track], planet: Body | None
    ) -> None:
        """Write what each sector and each path is, what is in hand first, the others where there is room."""
        taken: list[QRectF] = []
        for _number, sector in sorted(enumerate(sectors), key=lambda each: each[0] != chosen):
            self._name_sector(sector, taken)
        for track in sorted(tracks, key=lambda track: track.body is not planet):
            self._name_track(track, taken)

    def _name_sector(self, sector: Sector, taken: list[QRectF]) -> None:
        """Write a sector's name inside it, or over it where it is too narrow."""
        name = sector.what or ("blocked" if isinstance(sector, BlockedSky) else "warm air")
        blocks = self._map.blocks(sector, 0, sector.below_altitude_deg)
        block = max(blocks, key=lambda block: block.width())
        room = self._room(name, block.center().x(), block.bottom() - self._text.height() - 2)
        if room.width() > block.width() - 4 or room.height() > block.height() - 4:
            top_deg = sector.below_altitude_deg
            if isinstance(sector, BlockedSky) and sector.heated:
                top_deg = min(top_deg + WARM_BAND_ABOVE_ROOF_DEG, TOP_DEG)
            room = self._room(name, block.center().x(), self._map.y(top_deg) - self._text.height() - 2)
        self._write(name, room, QColor(self._colours.ink), taken)

    def _name_track(self, track: Track, taken: list[QRectF]) -> None:
        """Write a body's name over its highest."""
        top = int(np.argmax(track.apparent_altitude_deg))
        if track.apparent_altitude_deg[top] > 0:
            x, y = self._map.x(track.azimuth_deg[top]), self._map.y(track.apparent_altitude_deg[top])
            name = track.body.heading
            colour = QColor(self._colours.bodies[track.body])
            self._write(name, self._room(name, x, y - self._text.height() - 2), colour, taken)

    def _room(self, name: str, middle: float, top: float) -> QRectF:
        """Return the room for a name around a middle, inside the picture."""
        plot = self._map.plot
        width = min(self._text.horizontalAdvance(name) + 2 * _BETWEEN_PX, plot.width())
        left = min(max(middle - width / 2, plot.left()), plot.right() - width)
        return QRectF(left, max(top, plot.top()), width, self._text.height())

    def _write(self, name: str, room: QRectF, colour: QColor, taken: list[QRectF]) -> None:
        """Write a name on a ground of its own, unless another name is there already."""
        if any(room.intersects(other) for other in taken):
            return
        taken.append(room)
        ground = QColor(self._colours.surface)
        ground.setAlphaF(_GROUND_ALPHA)
        self._painter.fillRect(room, ground)
        self._painter.setPen(colour)
        shown = self._text.elidedText(name, Qt.TextElideMode.ElideRight, room.width())
        self._painter.drawText(room, int(Qt.AlignmentFlag.AlignCenter), shown)

    def focus_frame(self) -> None:
        """Frame the picture that has the keys."""
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.setPen(QPen(QColor(self._colours.accent), 2))
        self._painter.drawRect(self._map.plot)
