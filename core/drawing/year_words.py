"""The words of the year's chart: what the planet does, over the panels; months and years, under them."""

from collections.abc import Sequence
from datetime import date

from attrs import frozen

from core.drawing.lettering import Lettering, Measure
from core.drawing.marks import Sheet
from core.drawing.placing import Box, Taken
from core.drawing.year_frame import ROW, YearFrame
from core.words.dates import month_text, short_date_text
from core.words.year import local_day, mark_texts
from core.year.phenomena import Aspect
from core.year.year import Year

SMALL = Lettering(8.5)
SMALL_BOLD = Lettering(9.0, bold=True)
_MONTH = Lettering(10.0)

_MONTH_ROW, _YEAR_ROW = 10.0, 22.5
# What is best worth knowing finds its place first.
_FIRST = (
    Aspect.OPPOSITION,
    Aspect.GREATEST_ELONGATION_EAST,
    Aspect.GREATEST_ELONGATION_WEST,
    Aspect.HALF_LIT,
    Aspect.FULL_MOON,
    Aspect.CONJUNCTION,
    Aspect.INFERIOR_CONJUNCTION,
    Aspect.SUPERIOR_CONJUNCTION,
    Aspect.NEW_MOON,
)


@frozen(kw_only=True)
class Mark:
    """Something on one date, in words from the longest to the shortest."""

    day: date
    words: tuple[str, ...]


def marks_of(year: Year) -> tuple[Mark, ...]:
    """Return what the planet does, in the order in which it should find a place."""
    ordered = sorted(year.phenomena, key=lambda each: (_FIRST.index(each.aspect), each.time))
    marks = []
    for each in ordered:
        day = local_day(year, each.time)
        marks.append(Mark(day=day, words=mark_texts(each, day)))
    return tuple(marks)


def write_marks(sheet: Sheet, frame: YearFrame, year: Year, chosen: date | None) -> None:
    """Write the chosen evening's date and what the planet does over the panels, each with a line down."""
    palette, rows = sheet.palette, _rows(sheet, frame)
    chosen_place = None
    if chosen is not None and frame.shows(chosen):
        chosen_place = _place(sheet.measure, short_date_text(chosen), SMALL_BOLD, frame.x(chosen), rows)
    if chosen_place is not None:
        _write(sheet, chosen_place, SMALL_BOLD, palette.accent)
    marks = [mark for mark in marks_of(year) if frame.shows(mark.day)]
    for place in _placed(sheet, frame, marks, chosen_place):
        _write(sheet, place, SMALL, palette.ink)
    for mark in marks:
        for panel in frame.panels:
            top = panel.box.top + (4.0 if panel is frame.altitude else 0.0)
            x = frame.x(mark.day)
            sheet.stroke((x, panel.box.bottom), (x, top), palette.faint_ink, 0.8, dashes=(2.0, 2.5))


def _rows(sheet: Sheet, frame: YearFrame, taken: Sequence["_Place"] = ()) -> list[Taken]:
    """Return the rows over the panels, the lowest first."""
    rows = []
    for number in range(frame.rows):
        bottom = frame.top + 5.0 + number * ROW
        # Beside the lowest row stands the highest altitude of the scale.
        left = frame.altitude.box.left - 4.0 if number == 0 else sheet.page.left + 2.0
        rows.append(Taken(Box(left, bottom, sheet.page.right - 2.0, bottom + ROW), gap=0.0))
        for place in taken:
            rows[-1].add(place.box)
    return rows


@frozen
class _Place:
    text: str
    box: Box


def _placed(sheet: Sheet, frame: YearFrame, marks: Sequence[Mark], chosen: _Place | None) -> list[_Place]:
    """Place words for the marks: as long as there is room for all, else for as many as the shortest give."""
    best: list[_Place] = []
    for level in range(max((len(mark.words) for mark in marks), default=0)):
        rows = _rows(sheet, frame, () if chosen is None else (chosen,))
        texts = [mark.words[min(level, len(mark.words) - 1)] for mark in marks]
        found = [
            _place(sheet.measure, text, SMALL, frame.x(mark.day), rows)
            for text, mark in zip(texts, marks, strict=True)
        ]
        placed = [place for place in found if place is not None]
        if len(placed) > len(best):
            best = placed
        if len(placed) == len(marks):
            break
    return best


def _place(
    measure: Measure, text: str, lettering: Lettering, x: float, rows: Sequence[Taken]
) -> _Place | None:
    """Return the lowest free place for words at x: centred on it, or with an end there."""
    width = measure.width(text, lettering) + 3.0
    for row in rows:
        for left in (x - width / 2, x - 4.0, x + 4.0 - width):
            box = Box(left, row.frame.bottom, left + width, row.frame.top)
            if row.is_free(box):
                row.add(box)
                return _Place(text, box)
    return None


def _write(sheet: Sheet, place: _Place, lettering: Lettering, colour: str) -> None:
    y = (place.box.bottom + place.box.top) / 2
    sheet.write(place.text, place.box.left + 1.5, y, lettering, colour, align="left")


def write_months(sheet: Sheet, frame: YearFrame) -> None:
    """Write months and years under the panels, and draw a thin line where each month begins."""
    palette, page = sheet.palette, sheet.page
    y = frame.bottom - _YEAR_ROW
    years = Taken(Box(page.left + 2.0, y - 7.0, page.right - 2.0, y + 7.0), gap=1.5)
    for month in _months(frame)[1:]:
        for panel in frame.panels:
            ends = (month.left, panel.box.bottom), (month.left, panel.box.top)
            sheet.stroke(*ends, palette.line, 0.6, order=0.6)
    for month, name in zip(_months(frame), _fitting_months(sheet.measure, frame), strict=True):
        if sheet.measure.width(name, _MONTH) + 3.0 <= month.right - month.left:
            middle = (month.left + month.right) / 2
            sheet.write(name, middle, frame.bottom - _MONTH_ROW, _MONTH, palette.ink)
        if month.day.month == 1 or month.number == 0:
            words = str(month.day.year)
            place = Box(month.left, y - 5.0, month.left + sheet.measure.width(words, SMALL), y + 5.0)
            if years.is_free(place):
                years.add(place)
                sheet.write(words, month.left, y, SMALL, palette.faint_ink, align="left")


@frozen(kw_only=True)
class _Month:
    """A month on the chart: its first day there, the number of that evening, and its ends along x."""

    day: date
    number: int
    left: float
    right: float


def _months(frame: YearFrame) -> list[_Month]:
    numbers = [
        number
        for number, day in enumerate(frame.dates)
        if number == 0 or day.month != frame.dates[number - 1].month
    ]
    ends = [frame.left + number * frame.per_evening for number in (*numbers, len(frame.dates))]
    return [
        _Month(day=frame.dates[number], number=number, left=left, right=right)
        for number, left, right in zip(numbers, ends[:-1], ends[1:], strict=True)
    ]


def _fitting_months(measure: Measure, frame: YearFrame) -> list[str]:
    """Return the months' names, all in full or all cut alike, as the room for a whole month allows."""
    names = [month_text(month.day) for month in _months(frame)]
    room = 28.0 * frame.per_evening - 3.0
    for letters in (None, 3):
        short = [name[:letters] for name in names]
        if max(measure.width(name, _MONTH) for name in short) <= room:
            return short
    return [name[0] for name in names]


def lines_at(frame: YearFrame, year: Year, chosen: date | None) -> list[float]:
    """Return where lines run from top to bottom, which words inside the panels should keep clear of."""
    days = [local_day(year, each.time) for each in year.phenomena]
    days += [] if chosen is None else [chosen]
    return [frame.x(day) for day in days if frame.shows(day)] + [month.left for month in _months(frame)[1:]]
