"""Where azimuth and altitude fall in the picture of a horizon."""

from attrs import frozen
from PySide6.QtCore import QPointF, QRectF

from core.sky.skyline import Sector, width_deg

TOP_DEG = 90.0


@frozen
class HorizonMap:
    """The whole horizon unrolled on a rectangle of pixels, one azimuth in the middle."""

    plot: QRectF
    middle_deg: float

    def x(self, azimuth_deg: float) -> float:
        """Return the pixel of an azimuth, which falls within one turn of the left edge."""
        along = (azimuth_deg - (self.middle_deg - 180.0)) % 360.0
        return self.plot.left() + along / 360.0 * self.plot.width()

    def y(self, altitude_deg: float) -> float:
        """Return the pixel of an altitude."""
        return self.plot.bottom() - altitude_deg / TOP_DEG * self.plot.height()

    def sky_at(self, point: QPointF) -> tuple[float, float]:
        """Return the azimuth and altitude of a pixel, in degrees."""
        along = (point.x() - self.plot.left()) / self.plot.width() * 360.0
        return (
            (along + self.middle_deg - 180.0) % 360.0,
            (self.plot.bottom() - point.y()) / self.plot.height() * TOP_DEG,
        )

    def blocks(self, sector: Sector, low_deg: float, high_deg: float) -> list[QRectF]:
        """Return a sector between two altitudes: two pieces where the picture's edge cuts it."""
        top, bottom = self.y(min(high_deg, TOP_DEG)), self.y(low_deg)
        left = self.x(sector.azimuth_from_deg)
        over = left + width_deg(sector) / 360.0 * self.plot.width() - self.plot.right()
        if over <= 0:
            return [QRectF(QPointF(left, top), QPointF(self.plot.right() + over, bottom))]
        return [
            QRectF(QPointF(left, top), QPointF(self.plot.right(), bottom)),
            QRectF(QPointF(self.plot.left(), top), QPointF(self.plot.left() + over, bottom)),
        ]
