"""The picture of a site's horizon: what stands in the sky, moved and shaped by mouse or keys."""

from collections.abc import Callable, Sequence
from enum import Enum

from attrs import frozen
from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QFocusEvent,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.drawing.palette import Palette
from core.sky.bodies import Body
from core.sky.skyline import Sector, end_moved, raised, start_moved, turned
from core.sky.track import Track
from core.words.obstacles import (
    NO_SECTORS,
    SECTOR_IN_HAND,
    SECTOR_TO_CHOOSE,
    SECTORS_TO_CHOOSE,
    sector_words,
)
from gui.gear.horizon_map import HorizonMap
from gui.gear.horizon_paint import HorizonPen
from gui.widgets.plain_tip import plain_tip
from gui.widgets.screen_readers import OwnControl

_GRIP_PX = 9.0
_LARGE_STEP_DEG = 5.0


class _Part(Enum):
    """The part of a sector that a press of the mouse takes hold of."""

    WHOLE = "whole"
    START = "start"
    END = "end"
    TOP = "top"


_CURSORS = {
    _Part.WHOLE: Qt.CursorShape.SizeAllCursor,
    _Part.START: Qt.CursorShape.SizeHorCursor,
    _Part.END: Qt.CursorShape.SizeHorCursor,
    _Part.TOP: Qt.CursorShape.SizeVerCursor,
}


@frozen
class _Grip:
    """A sector held by one part, as it was and where the mouse was when it was taken."""

    index: int
    part: _Part
    before: Sector
    azimuth_deg: float
    altitude_deg: float


class HorizonPicture(OwnControl, QWidget):
    """The whole horizon unrolled, with each sector as a block that can be dragged.

    The middle is south for a northern site and north for a southern one, where the planets pass.
    Keys: Page Up and Page Down choose a sector; the arrows move it and raise it by a degree (five with
    Shift); Ctrl with left or right moves its first edge, Alt with left or right its second. Ctrl with Delete
    takes it away.

    Signals
    -------
    begun
        Another piece of work begins: the mouse takes hold, or the keys come to another sector.
    shaped
        The tuple of sectors as they now are, while one is dragged or after a key.
    chosen
        The index of the sector in hand, or -1.
    """

    begun = Signal()
    shaped = Signal(object)
    chosen = Signal(int)
    reader_role = QAccessible.Role.Chart

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colours = palette
        self._sectors: tuple[Sector, ...] = ()
        self._tracks: tuple[Track, ...] = ()
        self._planet: Body | None = None
        self._middle_deg = 180.0
        self._index = -1
        self._grip: _Grip | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName("Horizon")
        self._describe()

    # What is shown.

    def set_colours(self, palette: Palette) -> None:
        """Draw in another palette."""
        self._colours = palette
        self.update()

    def set_sky(
        self,
        sectors: Sequence[Sector],
        *,
        is_northern: bool,
        tracks: Sequence[Track] = (),
        planet: Body | None = None,
    ) -> None:
        """Show these sectors, and behind them the paths of an evening's bodies, one of them in hand."""
        self._sectors = tuple(sectors)
        self._tracks = tuple(tracks)
        self._planet = planet
        self._middle_deg = 180.0 if is_northern else 0.0
        if self._index >= len(self._sectors):
            self.choose(len(self._sectors) - 1)
        self._describe()
        self.update()

    def choose(self, index: int) -> None:
        """Take a sector in hand; -1 for none."""
        if index != self._index:
            self._index = index
            self._describe()
            self.update()
            self.begun.emit()
            self.chosen.emit(index)

    def change(self, shape: Callable[[Sector], Sector]) -> None:
        """Shape the sector in hand, as one piece of work."""
        if self._index >= 0:
            self.begun.emit()
            self._replace(self._index, shape(self._sectors[self._index]))

    def remove(self) -> None:
        """Take the sector in hand away, as one piece of work."""
        if self._index >= 0:
            self.begun.emit()
            gone, self._index = self._index, -1
            self._sectors = (*self._sectors[:gone], *self._sectors[gone + 1 :])
            self._describe()
            self.update()
            self.chosen.emit(-1)
            self.shaped.emit(self._sectors)

    @property
    def index(self) -> int:
        """Which sector is in hand, or -1."""
        return self._index

    @property
    def sector(self) -> Sector | None:
        """The sector in hand, or None."""
        return self._sectors[self._index] if 0 <= self._index < len(self._sectors) else None

    def sizeHint(self) -> QSize:
        return QSize(560, 190)

    def minimumSizeHint(self) -> QSize:
        return QSize(280, 130)

    def _map(self) -> HorizonMap:
        text = QFontMetricsF(self.font())
        left = text.horizontalAdvance("90° ") + 2
        height = self.height() - 2 * text.height() - 6
        return HorizonMap(
            QRectF(left, text.height() / 2 + 2, self.width() - left - 4, height), self._middle_deg
        )

    def _part_at(self, point: QPointF) -> tuple[int, _Part] | None:
        """Return which sector a point takes hold of, the one in hand first, and by which part."""
        sky = self._map()
        order = sorted(range(len(self._sectors)), key=lambda index: index != self._index)
        for index in order:
            sector = self._sectors[index]
            top = sky.y(sector.below_altitude_deg)
            if not top - _GRIP_PX <= point.y() <= sky.plot.bottom() + _GRIP_PX:
                continue
            for part, azimuth_deg in (
                (_Part.START, sector.azimuth_from_deg),
                (_Part.END, sector.azimuth_to_deg),
            ):
                if abs(point.x() - sky.x(azimuth_deg)) <= _GRIP_PX:
                    return index, part
            if any(block.left() <= point.x() <= block.right() for block in sky.blocks(sector, 0, 1)):
                return index, _Part.TOP if abs(point.y() - top) <= _GRIP_PX else _Part.WHOLE
        return None

    # What a person does.

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() is not Qt.MouseButton.LeftButton:
            return
        held = self._part_at(event.position())
        self.choose(held[0] if held else -1)
        if held:
            self.begun.emit()
            azimuth_deg, altitude_deg = self._map().sky_at(event.position())
            self._grip = _Grip(held[0], held[1], self._sectors[held[0]], azimuth_deg, altitude_deg)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._grip is None:
            under = self._part_at(event.position())
            self.setCursor(_CURSORS[under[1]] if under else Qt.CursorShape.ArrowCursor)
            return
        azimuth_deg, altitude_deg = self._map().sky_at(event.position())
        across = round((azimuth_deg - self._grip.azimuth_deg + 180.0) % 360.0 - 180.0)
        up = round(altitude_deg - self._grip.altitude_deg)
        self._replace(self._grip.index, _pulled(self._grip.before, self._grip.part, across, up))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._grip = None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        change = self._change_for(event)
        if event.key() in (Qt.Key.Key_PageDown, Qt.Key.Key_PageUp) and self._sectors:
            step = 1 if event.key() == Qt.Key.Key_PageDown else -1
            self.choose((self._index + step) % len(self._sectors))
        elif event.key() == Qt.Key.Key_Delete and self._index >= 0 and _with_control(event):
            self.remove()  # with Ctrl, for a key alone is soon hit by a sleeve
        elif change is not None and self._index >= 0:
            self._replace(self._index, change(self._sectors[self._index]))
        else:
            super().keyPressEvent(event)

    def _change_for(self, event: QKeyEvent) -> Callable[[Sector], Sector] | None:
        modifiers = event.modifiers()
        step = _LARGE_STEP_DEG if modifiers & Qt.KeyboardModifier.ShiftModifier else 1.0
        across = {Qt.Key.Key_Left: -step, Qt.Key.Key_Right: step}.get(Qt.Key(event.key()))
        up = {Qt.Key.Key_Down: -step, Qt.Key.Key_Up: step}.get(Qt.Key(event.key()))
        if up is not None:
            return lambda sector: raised(sector, up)
        if across is None:
            return None
        if modifiers & Qt.KeyboardModifier.ControlModifier:
            return lambda sector: start_moved(sector, across)
        if modifiers & Qt.KeyboardModifier.AltModifier:
            return lambda sector: end_moved(sector, across)
        return lambda sector: turned(sector, across)

    def _replace(self, index: int, sector: Sector) -> None:
        if sector == self._sectors[index]:
            return
        self._sectors = (*self._sectors[:index], sector, *self._sectors[index + 1 :])
        self._describe()
        self.update()
        self.shaped.emit(self._sectors)

    def _describe(self) -> None:
        """Say in words what the picture shows, for those who hear it."""
        if 0 <= self._index < len(self._sectors):
            told = SECTOR_IN_HAND.format(sector=sector_words(self._sectors[self._index]))
        elif len(self._sectors) == 1:
            told = SECTOR_TO_CHOOSE
        elif self._sectors:
            told = SECTORS_TO_CHOOSE.format(count=len(self._sectors))
        else:
            told = NO_SECTORS
        self.setAccessibleDescription(told)
        self.setToolTip("" if self._grip else plain_tip(told))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        pen = HorizonPen(painter, self._map(), self._colours)
        pen.grid()
        pen.tracks(self._tracks, self._planet)
        for index, sector in enumerate(self._sectors):
            pen.sector(sector, is_chosen=index == self._index)
        pen.names(self._sectors, self._index, self._tracks, self._planet)
        if self.hasFocus():
            pen.focus_frame()
        painter.end()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if self._index < 0 and self._sectors and event.reason() != Qt.FocusReason.MouseFocusReason:
            self.choose(0)
        self.update()


def _pulled(sector: Sector, part: _Part, across_deg: float, up_deg: float) -> Sector:
    match part:
        case _Part.START:
            return start_moved(sector, across_deg)
        case _Part.END:
            return end_moved(sector, across_deg)
        case _Part.TOP:
            return raised(sector, up_deg)
        case _Part.WHOLE:
            return raised(turned(sector, across_deg), up_deg)


def _with_control(event: QKeyEvent) -> bool:
    return bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
