"""The picture in the eyepiece: the whole field, the middle of it enlarged, and the other powers beside it."""

import math
from collections.abc import Sequence
from typing import Final

from attrs import frozen

from core.drawing.field_picture import draw_field_picture, draw_window
from core.drawing.lettering import Lettering, Measure
from core.drawing.marks import Drawing, Page, Sheet
from core.drawing.palette import Palette
from core.drawing.paper_sizes import POINTS_PER_INCH
from core.drawing.placing import Box
from core.gear.numbers import MM_PER_INCH
from core.looks.picture.eyepiece import Pictures, Steps
from core.looks.picture.sight import Sight
from core.words.eyepiece import (
    CIRCLE,
    FIELD_UNKNOWN,
    ONE_SCALE,
    enlarged_words,
    enlarged_words_with_circle,
    power_and_width_words,
    scale_words,
    whole_field_words,
    width_words,
)
from core.words.quantities import power_text

# What a screen or a page is read from (common practice).
READING_DISTANCE_MM: Final = 450.0
_WORDS: Final = Lettering(9.0)
_SMALL: Final = Lettering(8.0)
_MARK: Final = Lettering(9.0, bold=True)
_EDGE: Final = 8.0
_GAP: Final = 6.0
_BELOW: Final = 2.5  # between a picture and its words
_BETWEEN: Final = 12.0
# The share of the width that the enlarged part takes, where it stands beside the field.
_CLOSE_UP_SHARE: Final = 0.62
# The other powers take up to this share of the height; where less than that is left, they are not drawn.
_STEPS_SHARE: Final = 0.3
_LARGEST_STEP: Final = 110.0
_LEAST_HEIGHT_FOR_STEPS: Final = 165.0
_LEAST_WIDTH_FOR_STEPS: Final = 300.0
# Where they stand over each other, the whole field takes this share of the height.
_FIELD_SHARE: Final = 0.3
_UNDER_STEP: Final = _BELOW + _MARK.line_height + _SMALL.line_height
# The words that hold for all of them come last.
_UNDER_STEPS: Final = _UNDER_STEP + _SMALL.line_height + 3.0


_MOST_LINES: Final = 6

_Lines = tuple[str, ...]


@frozen(eq=False)
class EyepieceDrawing:
    """A drawn eyepiece: the drawing, and where the pictures lie, points."""

    drawing: Drawing
    field: Box | None
    close_ups: tuple[Box, ...]
    steps: tuple[tuple[Sight, Box], ...]

    def sight_at(self, x: float, y: float) -> Sight | None:
        """Return the power whose small picture, or the words under it, is at a place; None elsewhere."""
        return next((sight for sight, box in self.steps if box.contains(x, y)), None)


def draw_eyepiece(page: Page, pictures: Pictures, *, palette: Palette) -> EyepieceDrawing:
    """Lay one power and its neighbours out on a page."""
    sheet = Sheet(page, palette)
    room = sheet.page.grown(-_EDGE)
    steps: tuple[tuple[Sight, Box], ...] = ()
    has_room = room.height >= _LEAST_HEIGHT_FOR_STEPS and room.width >= _LEAST_WIDTH_FOR_STEPS
    if has_room and len(pictures.steps.shown) > 1:
        steps = _place_steps(pictures.steps, room, most=min(_STEPS_SHARE * room.height, _LARGEST_STEP))
        _draw_steps(sheet, pictures.steps, pictures.sight, steps)
        room = Box(room.left, steps[0][1].top + _BETWEEN, room.right, room.top)
    ((sight, picture),) = pictures.close_up.shown
    field, close, under_field, under_close = _place_pictures(sheet, pictures, room, tells_circle=not steps)
    _draw_field(sheet, pictures, field)
    _write_under(sheet, field, under_field)
    draw_window(sheet, sight, picture, close, pictures.close_up.window_deg, names_moons=True)
    _write_under(sheet, close, under_close)
    return EyepieceDrawing(sheet.drawing, field, (close,), steps)


def _place_pictures(
    sheet: Sheet, pictures: Pictures, room: Box, *, tells_circle: bool
) -> tuple[Box, Box, _Lines, _Lines]:
    """Return where the field and the enlarged part lie, and the lines of words under each.

    Where the other powers stand beside them, it is their words that tell what the circle is.
    """
    lines = 0
    while True:
        # More lines leave less for the pictures, and narrower ones may need more lines.
        lines += 1
        field, close = _squares(room, lines)
        times = enlargement(close.width, pictures.close_up.window_deg)
        # Words wider than their picture reach out over half the gap beside it, or as far as the page goes.
        over = sheet.page.width if field.top < close.bottom else _BETWEEN / 2.0
        under_close = _lines_under(sheet, close, enlarged_words(times), over=over)
        if tells_circle:
            at_once = _lines_under(sheet, close, enlarged_words_with_circle(times), over=over)
            apart = under_close + _lines_under(sheet, close, CIRCLE, over=over)
            under_close = at_once if len(at_once) < len(apart) else apart
        under_field: _Lines = ()
        if pictures.sight.true_field_deg is not None and pictures.field is not None:
            words = whole_field_words(pictures.sight.true_field_deg)
            under_field = _lines_under(sheet, field, words, over=over)
        if max(len(under_close), len(under_field)) <= lines or lines == _MOST_LINES:
            return field, close, under_field, under_close


def draw_steps(
    page: Page, steps: Steps, in_hand: Sight | None, heading: str, *, palette: Palette
) -> EyepieceDrawing:
    """Lay views of several powers out in a row under a heading, as large as the page allows."""
    sheet = Sheet(page, palette)
    room, head = sheet.page.grown(-_EDGE), _MARK.line_height + 2.0 * _BELOW
    places = _place_steps(steps, room, most=room.height - head - _UNDER_STEPS)
    up = (room.top - head - places[0][1].top) / 2.0
    places = tuple((sight, box.moved(0.0, up)) for sight, box in places)
    y = places[0][1].top + head - _MARK.line_height / 2.0
    sheet.write(heading, places[0][1].left, y, _MARK, palette.ink, align="left")
    _draw_steps(sheet, steps, in_hand, places)
    return EyepieceDrawing(sheet.drawing, None, (), places)


def draw_pair(page: Page, steps: Steps, headings: Sequence[str], *, palette: Palette) -> EyepieceDrawing:
    """Lay views out side by side at one scale, under a heading each."""
    sheet = Sheet(page, palette)
    boxes = draw_pair_in(sheet, sheet.page.grown(-_EDGE), steps, headings)
    return EyepieceDrawing(sheet.drawing, None, boxes, ())


def draw_pair_in(sheet: Sheet, room: Box, steps: Steps, headings: Sequence[str]) -> tuple[Box, ...]:
    """Draw views side by side in a part of a sheet, and return where each lies."""
    palette, measure, count = sheet.palette, sheet.measure, len(steps.shown)
    names = [measure.legible(heading) for heading in headings]
    widths = [power_and_width_words(sight) for sight, _ in steps.shown]
    # How wide a column of words is: as wide as it can be, however low the pictures are.
    column = (room.width - _BETWEEN * (count - 1)) / count
    over = max(len(measure.wrapped(name, _MARK, column)) for name in names)
    under = max(len(measure.wrapped(words, _SMALL, column)) for words in widths)
    # Two lines are always kept for what the last line tells, so that its own words cannot move the pictures.
    head = over * _MARK.line_height + 3.0
    foot = (under + 2) * _SMALL.line_height + 6.0
    side = min(column, room.height - head - foot)
    told = measure.wrapped(scale_words(enlargement(side, steps.window_deg)), _SMALL, room.width)
    top = room.top - (room.height - head - side - foot) / 2.0
    boxes = []
    for number, (name, words, (sight, picture)) in enumerate(zip(names, widths, steps.shown, strict=True)):
        x = room.left + number * (column + _BETWEEN) + column / 2.0
        box = Box(x - side / 2.0, top - head - side, x + side / 2.0, top - head)
        boxes.append(box)
        y = top - _MARK.line_height / 2
        for line in measure.wrapped(name, _MARK, column):
            sheet.write(line, x, y, _MARK, palette.ink)
            y -= _MARK.line_height
        draw_window(sheet, sight, picture, box, steps.window_deg)
        _write_under(sheet, box, measure.wrapped(words, _SMALL, column))
    y = boxes[0].bottom - (under + 0.5) * _SMALL.line_height - 5.0
    for line in told:
        sheet.write(line, room.middle[0], y, _SMALL, palette.faint_ink)
        y -= _SMALL.line_height
    return tuple(boxes)


def _squares(room: Box, lines: int) -> tuple[Box, Box]:
    """Return the squares for the field and the enlarged part: side by side, or the field small under it.

    Under each is room for some lines of words.
    """
    under = lines * _SMALL.line_height + _BELOW
    x, y = room.middle
    tallest, width = room.height - under, room.width - _BETWEEN
    beside = min(_CLOSE_UP_SHARE * width, tallest)
    field = min(_FIELD_SHARE * room.height, room.width) - under
    stacked = min(room.width, room.height - field - 2.0 * under - _BETWEEN)
    if beside >= stacked:
        field = min(width - beside, tallest)
        left = x - (field + _BETWEEN + beside) / 2.0
        middle = y + under / 2.0
        close = left + field + _BETWEEN + beside / 2.0
        return Box.around(left + field / 2.0, middle, field, field), Box.around(close, middle, beside, beside)
    top = y + (stacked + field + 2.0 * under + _BETWEEN) / 2.0
    upper = Box.around(x, top - stacked / 2.0, stacked, stacked)
    return Box.around(x, upper.bottom - under - _BETWEEN - field / 2.0, field, field), upper


def _draw_field(sheet: Sheet, pictures: Pictures, box: Box) -> None:
    if pictures.field is not None:
        draw_field_picture(sheet, pictures.sight, pictures.field, box)
        return
    x, y = box.middle
    lines = sheet.measure.wrapped(FIELD_UNKNOWN, _WORDS, box.width)
    y += (len(lines) - 1) * _WORDS.line_height / 2.0
    for line in lines:
        sheet.write(line, x, y, _WORDS, sheet.palette.faint_ink)
        y -= _WORDS.line_height


def enlargement(width_points: float, window_deg: float) -> float:
    """Return how many times as large as in the eyepiece a window on a page looks, seen from 45 cm."""
    width_mm = width_points / POINTS_PER_INCH * MM_PER_INCH
    return math.degrees(2.0 * math.atan(width_mm / 2.0 / READING_DISTANCE_MM)) / window_deg


def _lines_under(sheet: Sheet, box: Box, words: str, *, over: float) -> _Lines:
    """Return words as lines under a picture, which reach out no farther on both sides, nor off the page."""
    reach = min(over, box.left - _EDGE, sheet.page.width - box.right - _EDGE)
    return sheet.measure.wrapped(words, _SMALL, box.width + 2.0 * max(reach, 0.0))


def _write_under(sheet: Sheet, box: Box, lines: _Lines) -> None:
    y = box.bottom - _BELOW - _SMALL.line_height / 2.0
    for line in lines:
        sheet.write(line, box.middle[0], y, _SMALL, sheet.palette.faint_ink)
        y -= _SMALL.line_height


def _place_steps(steps: Steps, room: Box, *, most: float) -> tuple[tuple[Sight, Box], ...]:
    """Return where each step lies, at ``most`` so wide, its words with it, along the bottom of a room."""
    count, under = len(steps.shown), _UNDER_STEPS
    widest = (room.width - _GAP * (count - 1)) / count
    side = max(min(widest, most), 1.0)
    left = room.left + (room.width - side * count - _GAP * (count - 1)) / 2.0
    bottom, top = room.bottom + under - _UNDER_STEP, room.bottom + under + side
    return tuple(
        (sight, Box(left + number * (side + _GAP), bottom, left + number * (side + _GAP) + side, top))
        for number, (sight, _) in enumerate(steps.shown)
    )


def _draw_steps(
    sheet: Sheet, steps: Steps, sight_in_hand: Sight | None, places: Sequence[tuple[Sight, Box]]
) -> None:
    palette = sheet.palette
    sizes = _widths(sheet.measure, [sight for sight, _ in places], places[0][1].width + _GAP - 1.0)
    for (sight, box), (_, picture), size in zip(places, steps.shown, sizes, strict=True):
        in_hand = sight == sight_in_hand
        square = Box(box.left, box.top - box.width, box.right, box.top)
        edge = palette.accent if in_hand else None
        draw_window(sheet, sight, picture, square, steps.window_deg, edge=edge)
        x, y = square.middle[0], square.bottom - _BELOW - _MARK.line_height / 2.0
        sheet.write(power_text(sight.power), x, y, _MARK, palette.accent if in_hand else palette.ink)
        y -= _MARK.line_height / 2.0 + _SMALL.line_height / 2.0
        sheet.write(size, x, y, _SMALL, palette.faint_ink)
    y = places[0][1].bottom - _SMALL.line_height / 2.0 - 1.0
    words = sheet.measure.fitted(ONE_SCALE, _SMALL, sheet.page.width - 2.0 * _EDGE)
    sheet.write(words, sheet.page.middle[0], y, _SMALL, palette.faint_ink)


def _widths(measure: Measure, sights: Sequence[Sight], width: float) -> list[str]:
    """Return how wide a body looks in each view: all of them as bare figures where one is too long."""
    words = [width_words(sight) for sight in sights]
    if all(measure.width(text, _SMALL) <= width for text in words):
        return words
    return [measure.fitted(width_words(sight, brief=True), _SMALL, width) for sight in sights]
