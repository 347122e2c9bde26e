"""The words around the height chart: altitudes, air paths, hours, dates, and what the Sun does."""

from collections.abc import Sequence
from datetime import datetime

from attrs import frozen

from core.air.atmosphere import air_path, apparent_altitude_deg
from core.drawing.altitude_lines import write_altitudes, write_upright
from core.drawing.frame import Frame
from core.drawing.lettering import Lettering, Measure
from core.drawing.marks import Sheet
from core.drawing.placing import Box, Taken
from core.drawing.ticks import Tick, axis_words, hour_ticks, stretches
from core.sky.night import Night, SunNight
from core.words.charts import ALTITUDE_AXIS, PATH_AXIS, now_words, sun_words, unusual_sun_words
from core.words.dates import short_weekday_text
from core.words.quantities import path_text
from core.words.site_clock import SiteClock
from core.words.time_axis import hour_words

_NUMERAL = Lettering(11.0)
_HOUR = Lettering(11.0)
_SMALL = Lettering(8.5)
_SMALL_BOLD = Lettering(9.0, bold=True)

PATH_ALTITUDES_DEG = (90, 45, 30, 20, 10)

# Rows around the chart: distance of their middle from its edge, points.
_SUN_ROW, _HOUR_ROW, _DATE_ROW = 10.0, 12.0, 24.5
_EVERY_HOURS = (1, 2, 3, 4, 6)
_TITLE_AWAY = 41.0


@frozen(kw_only=True)
class _Mark:
    """Words over a moment."""

    time: datetime
    text: str
    lettering: Lettering = _SMALL
    strong: bool = False


def draw_margins(
    sheet: Sheet,
    frame: Frame,
    night: Night,
    *,
    clock: SiteClock,
    now: datetime | None,
    cursor: datetime | None,
) -> None:
    """Write everything that stands around the chart."""
    _write_altitudes(sheet, frame)
    _write_paths(sheet, frame, night.site.elevation_m)
    _write_hours(sheet, frame, night, clock)
    _write_sun(sheet, frame, night.sun, clock, now, cursor)


def _write_altitudes(sheet: Sheet, frame: Frame) -> None:
    write_altitudes(sheet, frame.box, frame.y)
    write_upright(sheet, ALTITUDE_AXIS, frame.box.left - _TITLE_AWAY, frame.box)


def _write_paths(sheet: Sheet, frame: Frame, elevation_m: float) -> None:
    palette, box = sheet.palette, frame.box
    column = Taken(Box(box.right, box.bottom - 10.0, sheet.page.right, sheet.page.top), gap=0.0)
    for altitude_deg in PATH_ALTITUDES_DEG:
        path = float(air_path(apparent_altitude_deg(altitude_deg, elevation_m=elevation_m)))
        text, y = path_text(path), frame.y(altitude_deg)
        place = Box.around(box.right + 18.0, y, sheet.measure.width(text, _NUMERAL), _NUMERAL.line_height)
        if column.is_free(place):
            column.add(place)
            sheet.write(text, box.right + 5.0, y, _NUMERAL, palette.ink, align="left")
    ticks = [((box.right, y), (box.right + 3.0, y)) for y in map(frame.y, PATH_ALTITUDES_DEG)]
    sheet.strokes(ticks, palette.faint_ink, 0.8)
    write_upright(sheet, PATH_AXIS, box.right + _TITLE_AWAY, box)


def _write_hours(sheet: Sheet, frame: Frame, night: Night, clock: SiteClock) -> None:
    palette, box, zone = sheet.palette, frame.box, night.site.zone
    hours = Taken(Box(box.left - 40.0, box.bottom - 40.0, sheet.page.right, box.bottom), gap=2.0)
    zones: list[tuple[float, str]] = []
    days: list[tuple[float, str]] = []
    ticks = _fitting_ticks(sheet.measure, frame, night, clock)
    marks = [((x, box.bottom - 4.0), (x, box.bottom)) for x in (frame.x(tick.time) for tick in ticks)]
    sheet.strokes(marks, palette.faint_ink, 0.9)
    for tick in ticks:
        x = frame.x(tick.time)
        text = hour_words(tick.hour, clock=clock.hours)
        place = Box.around(x, box.bottom - _HOUR_ROW, sheet.measure.width(text, _HOUR), _HOUR.line_height)
        if hours.is_free(place):
            hours.add(place)
            sheet.write(text, x, box.bottom - _HOUR_ROW, _HOUR, palette.ink)
        if tick.zone:
            zones.append((x, tick.zone))
        if tick.day:
            days.append((x, short_weekday_text(tick.day)))
    for change in stretches(frame.start, frame.end, zone)[1:]:
        x = frame.x(change.start)
        sheet.stroke((x, box.bottom), (x, box.top), palette.faint_ink, 0.8, dashes=(1.5, 3.0), order=0.6)
    _write_dates(sheet, frame, night, zones, days)


def _fitting_ticks(measure: Measure, frame: Frame, night: Night, clock: SiteClock) -> Sequence[Tick]:
    """Return the hours, as many as have room for their words side by side."""
    widest = measure.width(hour_words(20 if clock.hours != 12 else 12, clock=clock.hours), _HOUR) + 6.0
    hour_width = 3600 * frame.points_per_second
    every = next((step for step in _EVERY_HOURS if step * hour_width >= widest), _EVERY_HOURS[-1])
    return hour_ticks(frame.start, frame.end, night.site.zone, every=every)


def _write_dates(
    sheet: Sheet,
    frame: Frame,
    night: Night,
    zones: Sequence[tuple[float, str]],
    days: Sequence[tuple[float, str]],
) -> None:
    """Write the row under the hours: zones at a clock change, the name of the axis, then the dates."""
    box, zone = frame.box, night.site.zone
    row = _Row(sheet, box.bottom - _DATE_ROW)
    for number, (x, text) in enumerate(zones):
        # Side by side at the change, each under its own hour where there is room.
        row.write(text, x, "center") or row.write(text, x, "left" if number % 2 else "right")
    names = axis_words(frame.start, frame.end, zone)
    places = ((name, x, align) for name in names for x, align in ((box.right, "right"), (box.left, "left")))
    any(row.write(*place) for place in places)
    row.write(short_weekday_text(frame.start.astimezone(zone).date()), box.left, "left")
    for x, text in days:
        row.write(text, x, "center")


class _Row:
    """A line of small words under the chart, none on another."""

    def __init__(self, sheet: Sheet, y: float) -> None:
        self._sheet = sheet
        self._y = y
        page, half = sheet.page, _SMALL.line_height / 2
        self._half = half
        self._taken = Taken(Box(page.left + 2.0, y - half, page.right - 2.0, y + half), gap=2.5)

    def write(self, text: str, x: float, align: str) -> bool:
        """Write words at x if the place is free, and tell whether it was."""
        width = self._sheet.measure.width(text, _SMALL)
        left = {"left": x, "center": x - width / 2, "right": x - width}[align]
        place = Box(left, self._y - self._half, left + width, self._y + self._half)
        if not self._taken.is_free(place):
            return False
        self._taken.add(place)
        self._sheet.write(text, x, self._y, _SMALL, self._sheet.palette.faint_ink, align=align)
        return True


def _write_sun(
    sheet: Sheet,
    frame: Frame,
    sun: SunNight,
    clock: SiteClock,
    now: datetime | None,
    cursor: datetime | None,
) -> None:
    """Write over the chart what the Sun does and when; what matters most finds its place first."""
    box, palette = frame.box, sheet.palette
    y = box.top + _SUN_ROW
    # Beside the chart stand the figures of its axes.
    row = Taken(Box(box.left - 2.0, y - 8.0, box.right + 2.0, y + 8.0), gap=3.0)
    marks = [
        *(
            _Mark(time=time, text=now_words(time, clock), lettering=_SMALL_BOLD, strong=True)
            for time in _given(now)
        ),
        *(
            _Mark(time=time, text=clock.time(time), lettering=_SMALL_BOLD, strong=True)
            for time in _given(cursor)
        ),
        *(_Mark(time=time, text=text) for time, text in sun_words(sun, clock)),
    ]
    for mark in marks:
        if frame.shows(mark.time):
            _write_mark(sheet, mark, frame.x(mark.time), y, row, tick_to=box.top)
    words = unusual_sun_words(sun)
    if words:
        middle = (box.left + box.right) / 2
        place = Box.around(middle, y, sheet.measure.width(words, _SMALL), _SMALL.line_height)
        if row.is_free(place):
            sheet.write(words, middle, y, _SMALL, palette.faint_ink)


def _given(time: datetime | None) -> tuple[datetime, ...]:
    return () if time is None else (time,)


def _write_mark(sheet: Sheet, mark: _Mark, x: float, y: float, row: Taken, *, tick_to: float) -> None:
    width, height = sheet.measure.width(mark.text, mark.lettering), mark.lettering.line_height
    colour = sheet.palette.accent if mark.strong else sheet.palette.faint_ink
    for left in (x - width / 2, x - 4.0, x + 4.0 - width):
        place = Box(left, y - height / 2, left + width, y + height / 2)
        if row.is_free(place):
            row.add(place)
            sheet.write(mark.text, left, y, mark.lettering, colour, align="left")
            sheet.stroke((x, tick_to), (x, tick_to + 4.0), colour, 1.0)
            return
