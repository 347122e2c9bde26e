"""The year's chart: how high a planet gets in a dark sky, for how long, and how large it looks."""

from collections.abc import Sequence
from datetime import date

import numpy as np
from attrs import frozen

from core.arrays import Floats, Truths, runs
from core.drawing.altitude_lines import draw_bands, write_altitudes, write_upright
from core.drawing.lettering import Lettering
from core.drawing.lines import LINE_WIDTH, LINE_WIDTH_IN_HAND
from core.drawing.marks import Drawing, Page, Sheet
from core.drawing.palette import Palette, PaletteName
from core.drawing.placing import Box, Taken
from core.drawing.year_frame import Panel, YearFrame, scale_step
from core.drawing.year_words import SMALL, SMALL_BOLD, lines_at, write_marks, write_months
from core.sky.events import FAIR_DEG
from core.words.charts import (
    BEST_WEEKS,
    HIGHEST_IN_THE_DARK,
    HOURS_IN_THE_DARK,
    HOURS_UNIT,
    size_panel_words,
)
from core.words.directions import altitude_text
from core.words.quantities import two_figures
from core.year.year import Year

_NUMERAL = Lettering(11.0)
_SMALL_NUMERAL = Lettering(9.5)
_TITLE_AWAY = 41.0
_NAME_ABOVE = 7.5  # the name of a lower panel stands so far over it
# How strongly the hours above 30° and 45° are filled; at night a wide patch must be no lamp.
_HOURS, _HOURS_AT_NIGHT = (0.30, 0.75), (0.12, 0.30)


_ROOM_FOR_NUMERALS = 85.0  # under this height they are smaller
_BAR = 3.5  # height of the bar over them
_ROOM_FOR_WORDS = 60.0  # a lower panel has no words inside
# Places to either side of a middle, the nearest first, as parts of the way to the ends.
_OUTWARDS = np.array([side * part for part in np.linspace(0.0, 1.0, 21) for side in (1.0, -1.0)])


@frozen(kw_only=True, eq=False)
class YearChart:
    """A drawn year: its drawing, and the way between dates and places on the page, in points."""

    drawing: Drawing
    frame: YearFrame

    @property
    def plot_box(self) -> Box:
        """The box from the top of the first panel to the bottom of the last."""
        frame = self.frame
        return Box(frame.left, frame.bottom, frame.right, frame.top)

    def x_of(self, day: date) -> float:
        """Return where a date lies along x; the nearest end for one that is not on the chart."""
        return self.frame.x(day)

    def date_at(self, x: float) -> date:
        """Return the date at a place, held inside the chart."""
        return self.frame.date_at(x)

    def shows(self, day: date) -> bool:
        """Tell whether a date lies on the chart."""
        return self.frame.shows(day)


def draw_year(page: Page, year: Year, *, palette: Palette, chosen: date | None = None) -> YearChart:
    """Lay a planet's year out on a page.

    ``chosen`` is marked as the evening in hand, where it lies in the year. On a low page the panels of hours
    and of size are left out.
    """
    sheet, outlook = Sheet(page, palette), year.outlook
    frame = YearFrame.on(
        sheet.page,
        year.dates,
        most_hours=float(outlook.dark_hours_30.max()),
        most_arcsec=_in_unit(outlook.diameter_arcsec)[0].max(),
    )
    write_months(sheet, frame)
    _draw_altitude(sheet, frame, year, lines_at(frame, year, chosen))
    if frame.hours is not None:
        _draw_hours(sheet, frame, frame.hours, year)
    if frame.size is not None:
        _draw_size(sheet, frame, frame.size, year)
    write_marks(sheet, frame, year, chosen)
    if chosen is not None and frame.shows(chosen):
        x = frame.x(chosen)
        for panel in frame.panels:
            sheet.stroke((x, panel.box.bottom), (x, panel.box.top), palette.accent, 1.6, order=4.0)
    return YearChart(drawing=sheet.drawing, frame=frame)


def _draw_altitude(sheet: Sheet, frame: YearFrame, year: Year, lines: Sequence[float]) -> None:
    panel, palette = frame.altitude, sheet.palette
    box = panel.box
    sheet.fill(box, palette.night_sky, order=0.0)
    draw_bands(sheet, box, panel.y)
    write_altitudes(sheet, box, panel.y, _NUMERAL if box.height > _ROOM_FOR_NUMERALS else _SMALL_NUMERAL)
    write_upright(sheet, HIGHEST_IN_THE_DARK, box.left - _TITLE_AWAY, box)
    _draw_height_line(sheet, frame, year)
    _draw_best_weeks(sheet, frame, year, lines)
    _draw_highest(sheet, frame, year, lines)


def _draw_height_line(sheet: Sheet, frame: YearFrame, year: Year) -> None:
    """Draw the altitudes: heavy in the best weeks, light in the others."""
    colour = sheet.palette.bodies[year.planet]
    altitudes_deg = year.outlook.best_altitude_deg
    points = np.column_stack([frame.xs(), frame.altitude.ys(np.nan_to_num(altitudes_deg))])
    is_up = ~np.isnan(altitudes_deg) & (altitudes_deg >= 0.0)
    is_best = np.zeros(len(points), dtype=bool)
    for first, last in year.best.stretches:
        is_best[first : last + 1] = True
    sheet.strokes(_runs(points, is_up), colour, LINE_WIDTH)
    sheet.strokes(_runs(points, is_up & is_best), colour, LINE_WIDTH_IN_HAND, order=2.5)


def _runs(points: Floats, chosen: Truths) -> Sequence[Floats]:
    """Return the unbroken runs of the chosen points (N, 2)."""
    return [points[run] for run in runs(np.flatnonzero(chosen)) if len(run) > 1]


def _draw_best_weeks(sheet: Sheet, frame: YearFrame, year: Year, lines: Sequence[float]) -> None:
    """Draw a bar at the top of the panel over each stretch of the best weeks, named where there is room."""
    box, palette = frame.altitude.box, sheet.palette
    half, width = frame.per_evening / 2, sheet.measure.width(BEST_WEEKS, SMALL) + 6.0
    for first, last in year.best.stretches:
        left, right = frame.x_of_number(first) - half, frame.x_of_number(last) + half
        sheet.fill(Box(left, box.top - _BAR, right, box.top), palette.accent, order=1.5)
        if width <= right - left and box.height > _ROOM_FOR_WORDS:
            middle, free = (left + right) / 2, (right - left - width) / 2
            x = _clearest(middle + free * _OUTWARDS, width, lines)
            sheet.write(BEST_WEEKS, x, box.top - _BAR - 6.5, SMALL, palette.accent)


def _draw_highest(sheet: Sheet, frame: YearFrame, year: Year, lines: Sequence[float]) -> None:
    """Mark the highest evening on the curve, with its height beside it."""
    number, panel = year.best.highest, frame.altitude
    if number is None or panel.box.height <= _ROOM_FOR_WORDS:
        return
    altitude_deg = float(year.outlook.best_altitude_deg[number])
    x, y = frame.x_of_number(number), panel.y(altitude_deg)
    colour, text = sheet.palette.bodies[year.planet], altitude_text(altitude_deg, under_deg=FAIR_DEG)
    sheet.circle(x, y, 2.6, colour, order=2.6)
    width = sheet.measure.width(text, SMALL_BOLD)
    above = y + 9.0 if y + 16.0 < panel.box.top - _BAR - 12.0 else y - 9.0
    places = np.clip(x + width * _OUTWARDS, panel.box.left + width, panel.box.right - width)
    sheet.write(text, _clearest(places, width, lines), above, SMALL_BOLD, colour)


def _clearest(places: Floats, width: float, lines: Sequence[float]) -> float:
    """Return the first of the places (N,) for the middle of words that the fewest lines cross."""
    crossed = np.abs(places[:, np.newaxis] - np.array(lines)) < width / 2 + 1.0
    return float(places[np.argmin(crossed.sum(axis=1))])


def _write_number(
    sheet: Sheet, panel: Panel, column: Taken, value: float, text: str, lettering: Lettering
) -> None:
    """Write a number beside a panel with a tick, where it does not touch the one before."""
    box, y = panel.box, panel.y(value)
    place = Box.around(box.left - 20.0, y, 30.0, lettering.line_height)
    if not column.is_free(place):
        return
    column.add(place)
    sheet.write(text, box.left - 5.0, y, lettering, sheet.palette.ink, align="right")
    sheet.stroke((box.left - 3.0, y), (box.left, y), sheet.palette.faint_ink, 0.8)


def _draw_hours(sheet: Sheet, frame: YearFrame, panel: Panel, year: Year) -> None:
    colour, outlook = sheet.palette.bodies[year.planet], year.outlook
    _draw_scale(sheet, panel, HOURS_UNIT, HOURS_IN_THE_DARK)
    alphas = _HOURS_AT_NIGHT if sheet.palette.name is PaletteName.NIGHT else _HOURS
    for hours, alpha in zip((outlook.dark_hours_30, outlook.dark_hours_45), alphas, strict=True):
        over = np.column_stack([frame.xs(), panel.ys(hours)])
        ends = [(over[-1, 0], panel.box.bottom), (over[0, 0], panel.box.bottom)]
        sheet.area(np.concatenate([over, ends]), colour, alpha=alpha, order=1.0)
    sheet.strokes([np.column_stack([frame.xs(), panel.ys(outlook.dark_hours_30)])], colour, 0.8)


def _draw_size(sheet: Sheet, frame: YearFrame, panel: Panel, year: Year) -> None:
    sizes, sign = _in_unit(year.outlook.diameter_arcsec)
    largest = year.best.largest
    name = size_panel_words(
        None if largest is None else float(year.outlook.diameter_arcsec[largest]),
        None if largest is None else year.dates[largest],
    )
    _draw_scale(sheet, panel, sign, (name, size_panel_words(None, None)))
    colour = sheet.palette.bodies[year.planet]
    sheet.strokes([np.column_stack([frame.xs(), panel.ys(sizes)])], colour, LINE_WIDTH)


def _in_unit(diameter_arcsec: Floats) -> tuple[Floats, str]:
    """Return apparent sizes in arcseconds, of the Moon in arcminutes, and the sign for it."""
    return (diameter_arcsec / 60.0, "′") if diameter_arcsec.max() > 120.0 else (diameter_arcsec, "″")


def _draw_scale(sheet: Sheet, panel: Panel, unit: str, names: Sequence[str]) -> None:
    """Draw a lower panel's ground, its scale and its name."""
    box, palette = panel.box, sheet.palette
    sheet.stroke((box.left, box.bottom), (box.right, box.bottom), palette.faint_ink, 1.0, order=3.0)
    column = Taken(Box(sheet.page.left, box.bottom - 8.0, box.left, box.top + 8.0), gap=0.0)
    step = scale_step(panel.top)
    values = step * np.arange(round(panel.top / step) + 1)
    # The ends first, then what has room between them.
    for value in (values[0], values[-1], *values[1:-1]):
        _write_number(
            sheet, panel, column, float(value), f"{two_figures(float(value))}{unit}", _SMALL_NUMERAL
        )
        sheet.stroke((box.left, panel.y(value)), (box.right, panel.y(value)), palette.line, 0.5, order=0.4)
    words = next((words for words in names if sheet.measure.width(words, SMALL) <= box.width), "")
    sheet.write(words, box.left, box.top + _NAME_ABOVE, SMALL, palette.faint_ink, align="left")
