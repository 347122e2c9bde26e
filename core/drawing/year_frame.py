"""Where the panels of the year's chart stand on the page, in points, and the scales that lead to them."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

import numpy as np
from attrs import field, frozen

from core.arrays import Floats
from core.drawing.frame import ZENITH_DEG
from core.drawing.placing import Box

# Margins in points. Over the panels stand rows of words, under them the months and the years.
_LEFT, _RIGHT, _BOTTOM = 48.0, 16.0, 31.0
ROW: Final = 11.5
_BETWEEN: Final = 17.0  # the name of the panel below stands there
# Least heights of page and panels, points: the lower panels are left out where they would be too thin.
_TWO_ROWS_FROM: Final = 210.0
_LOWER_PANELS_FROM: Final = (135.0, 215.0)
_SHARES: Final = {2: (0.56, 0.24, 0.20), 1: (0.70, 0.30), 0: (1.0,)}


@frozen(kw_only=True)
class Panel:
    """A box with values from 0 to ``top`` along y."""

    box: Box
    top: float

    def y(self, value: float) -> float:
        """Return the place of a value, points."""
        return self.box.bottom + value / self.top * self.box.height

    def ys(self, values: Floats) -> Floats:
        """Return the places of values (N,), points."""
        return np.asarray(self.box.bottom + values / self.top * self.box.height)


@frozen(kw_only=True)
class YearFrame:
    """The panels, one above the other, and the dates along x.

    ``altitude`` is always there; ``hours`` and ``size`` are None where the page is too low for them, and
    ``hours`` too where there are none to show.
    """

    dates: tuple[date, ...] = field(repr=False)
    rows: int
    altitude: Panel
    hours: Panel | None
    size: Panel | None

    @classmethod
    def on(cls, page: Box, dates: Sequence[date], *, most_hours: float, most_arcsec: float) -> "YearFrame":
        """Lay the panels out on a page, with scales for the greatest values to show."""
        rows = 2 if page.height >= _TWO_ROWS_FROM else 1
        room = page.height - _BOTTOM - rows * ROW - 5.0
        lower: tuple[float, ...] = (most_hours, most_arcsec) if most_hours > 0.0 else (most_arcsec,)
        lower = lower[: sum(room >= least for least in _LOWER_PANELS_FROM)]
        free = room - len(lower) * _BETWEEN
        top, boxes = page.bottom + _BOTTOM + room, []
        for share in _SHARES[len(lower)]:
            boxes.append(Box(page.left + _LEFT, top - share * free, page.right - _RIGHT, top))
            top = boxes[-1].bottom - _BETWEEN
        altitude, *others = boxes
        panels = [Panel(box=box, top=scale_top(most)) for box, most in zip(others, lower, strict=True)]
        hours = panels.pop(0) if panels and most_hours > 0.0 else None
        return cls(
            dates=tuple(dates),
            rows=rows,
            altitude=Panel(box=altitude, top=ZENITH_DEG),
            hours=hours,
            size=panels.pop() if panels else None,
        )

    @property
    def panels(self) -> tuple[Panel, ...]:
        """The panels that there are, from the top down."""
        return tuple(panel for panel in (self.altitude, self.hours, self.size) if panel is not None)

    @property
    def left(self) -> float:
        """The left end of all panels."""
        return self.altitude.box.left

    @property
    def right(self) -> float:
        """The right end of all panels."""
        return self.altitude.box.right

    @property
    def bottom(self) -> float:
        """The lower edge of the lowest panel."""
        return self.panels[-1].box.bottom

    @property
    def top(self) -> float:
        """The upper edge of the uppermost panel."""
        return self.altitude.box.top

    @property
    def per_evening(self) -> float:
        """Width of one evening."""
        return (self.right - self.left) / len(self.dates)

    def x_of_number(self, number: float) -> float:
        """Return the middle of an evening by its number, points."""
        return self.left + (number + 0.5) * self.per_evening

    def xs(self) -> Floats:
        """Return the middles of all evenings, (N,)."""
        return np.asarray(self.left + (np.arange(len(self.dates)) + 0.5) * self.per_evening, dtype=np.float64)

    def x(self, day: date) -> float:
        """Return the place of a date, points; that of the nearest evening."""
        return self.x_of_number(self.number(day))

    def number(self, day: date) -> int:
        """Return the number of a date's evening, of the nearest one for a date that is not shown."""
        days = (day - self.dates[0]) // timedelta(days=1)
        nearest = min(max(days, 0), len(self.dates) - 1)
        # A date that the zone skipped puts those after it one evening nearer.
        while nearest > 0 and self.dates[nearest] > day:
            nearest -= 1
        return nearest

    def date_at(self, x: float) -> date:
        """Return the date of the evening at a place, held inside the chart."""
        number = int((x - self.left) // self.per_evening)
        return self.dates[min(max(number, 0), len(self.dates) - 1)]

    def shows(self, day: date) -> bool:
        """Tell whether a date lies on the chart."""
        return self.dates[0] <= day <= self.dates[-1]


def scale_top(most: float) -> float:
    """Return the upper end of a scale from 0: a multiple of a handy step, at or over the greatest value."""
    step = scale_step(most)
    return float(step * max(np.ceil(most / step - 1e-9), 1.0))


def scale_step(most: float) -> float:
    """Return a handy step (1, 2 or 5 and their tens and tenths) that goes two to five times into a value."""
    if most <= 0.0:
        return 1.0
    ten = 10.0 ** np.floor(np.log10(most))
    return float(next(step * ten for step in (0.2, 0.5, 1.0, 2.0, 5.0) if most / (step * ten) <= 4.0))
