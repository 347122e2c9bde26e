"""The frame of the height chart in points, and the two scales that lead from a night to the page."""

from datetime import UTC, datetime

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.drawing.placing import Box

ZENITH_DEG = 90.0


@frozen(kw_only=True)
class Frame:
    """The box of the chart, in points, with time along x and altitude from 0 to 90 degrees along y."""

    box: Box
    start: datetime
    end: datetime

    @property
    def points_per_second(self) -> float:
        """Scale along x."""
        return self.box.width / (self.end - self.start).total_seconds()

    def x(self, time: datetime) -> float:
        """Return the place of a moment, points; beyond the chart the scale simply goes on."""
        return self.box.left + (time - self.start).total_seconds() * self.points_per_second

    def y(self, altitude_deg: float) -> float:
        """Return the place of an altitude, points."""
        return self.box.bottom + altitude_deg / ZENITH_DEG * self.box.height

    def line(self, unix_s: Floats, altitude_deg: Floats) -> Floats:
        """Return a curve as points (N, 2), from times in seconds since 1970 and altitudes, both (N,)."""
        x = self.box.left + (unix_s - self.start.timestamp()) * self.points_per_second
        y = self.box.bottom + altitude_deg * (self.box.height / ZENITH_DEG)
        return np.array((x, y)).T

    def time(self, x: float) -> datetime:
        """Return the moment at a place, held inside the chart."""
        inside = min(max(x, self.box.left), self.box.right)
        seconds = (inside - self.box.left) / self.points_per_second
        return datetime.fromtimestamp(self.start.timestamp() + seconds, UTC)

    def shows(self, time: datetime) -> bool:
        """Tell whether a moment lies on the chart."""
        return self.start <= time <= self.end
