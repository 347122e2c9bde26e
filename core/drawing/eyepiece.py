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
_UNDER_STEP: Final = _MARK.line_height + _SMALL.line_height


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
        steps = _place_steps(pictures.steps, room)
        _draw_steps(sheet, pictures, steps)
        room = Box(room.left, steps[0][1].top + _BETWEEN, room.right, room.top)
    field, close = _squares(room)
    ((sight, picture),) = pictures.close_up.shown
    _draw_field(sheet, pictures, field, is_alone=field.top < close.bottom)
    draw_window(sheet, sight, picture, close, pictures.close_up.window_deg, names_moons=True)
    times = enlargement(close.width, pictures.close_up.window_deg)
    if steps:
        _write_under(sheet, close, enlarged_words(times))
    else:
        # Where the other powers stand beside it, their words tell what the circle is.
        x, _ = close.middle
        reach = min(x, sheet.page.width - x) - _EDGE
        words, wide = enlarged_words_with_circle(times), max(close.width, 2.0 * reach)
        if sheet.measure.width(words, _SMALL) <= wide:
            _write_under(sheet, close, words, reach=reach)
        else:
            _write_under(sheet, close, enlarged_words(times), reach=reach)
            lower = close.bottom - 2.0 - 1.5 * _SMALL.line_height
            if lower - _SMALL.line_height / 2.0 >= 0.0 and sheet.measure.width(CIRCLE, _SMALL) <= wide:
                sheet.write(CIRCLE, x, lower, _SMALL, sheet.palette.faint_ink)
    return EyepieceDrawing(sheet.drawing, field, (close,), steps)


def draw_pair(page: Page, steps: Steps, headings: Sequence[str], *, palette: Palette) -> EyepieceDrawing:
    """Lay views out side by side at one scale, under a heading each."""
    sheet = Sheet(page, palette)
    boxes = draw_pair_in(sheet, sheet.page.grown(-_EDGE), steps, headings)
    return EyepieceDrawing(sheet.drawing, None, boxes, ())


def draw_pair_in(sheet: Sheet, room: Box, steps: Steps, headings: Sequence[str]) -> tuple[Box, ...]:
    """Draw views side by side in a part of a sheet, and return where each lies."""
    palette = sheet.palette
    head, foot = _MARK.line_height + 3.0, 2.0 * _SMALL.line_height + 6.0
    count = len(steps.shown)
    side = min((room.width - _BETWEEN * (count - 1)) / count, room.height - head - foot)
    left = room.left + (room.width - side * count - _BETWEEN * (count - 1)) / 2.0
    top = room.top - (room.height - head - side - foot) / 2.0
    boxes = []
    for heading, (sight, picture) in zip(headings, steps.shown, strict=True):
        box = Box(left, top - head - side, left + side, top - head)
        boxes.append(box)
        name = sheet.measure.fitted(sheet.measure.legible(heading), _MARK, side)
        sheet.write(name, left, top - _MARK.line_height / 2, _MARK, palette.ink, align="left")
        draw_window(sheet, sight, picture, box, steps.window_deg)
        _write_under(sheet, box, power_and_width_words(sight))
        left += side + _BETWEEN
    y = boxes[0].bottom - 1.5 * _SMALL.line_height - 5.0
    words = scale_words(enlargement(side, steps.window_deg))
    sheet.write(sheet.measure.fitted(words, _SMALL, room.width), room.middle[0], y, _SMALL, palette.faint_ink)
    return tuple(boxes)


def _squares(room: Box) -> tuple[Box, Box]:
    """Return the squares for the field and the enlarged part: side by side, or the field small under it.

    Under each is room for a line of words.
    """
    under = _SMALL.line_height + 2.0
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


def _draw_field(sheet: Sheet, pictures: Pictures, box: Box, *, is_alone: bool) -> None:
    if pictures.field is None:
        sheet.write(
            sheet.measure.fitted(FIELD_UNKNOWN, _WORDS, box.width),
            *box.middle,
            _WORDS,
            sheet.palette.faint_ink,
        )
        return
    draw_field_picture(sheet, pictures.sight, pictures.field, box)
    assert pictures.sight.true_field_deg is not None  # it has a picture
    words = whole_field_words(pictures.sight.true_field_deg)
    # Words wider than a small picture reach out on both sides of it: as far as the page goes, or over the gap
    # beside it.
    x, _ = box.middle
    most = min(x, sheet.page.width - x) - _EDGE
    _write_under(sheet, box, words, reach=most if is_alone else min(most, box.width / 2.0 + _BETWEEN))


def enlargement(width_points: float, window_deg: float) -> float:
    """Return how many times as large as in the eyepiece a window on a page looks, seen from 45 cm."""
    width_mm = width_points / POINTS_PER_INCH * MM_PER_INCH
    return math.degrees(2.0 * math.atan(width_mm / 2.0 / READING_DISTANCE_MM)) / window_deg


def _write_under(sheet: Sheet, box: Box, words: str, *, reach: float = 0.0) -> None:
    """Write words under a picture, no wider than it or than they may reach out from its middle."""
    x, _ = box.middle
    y = box.bottom - 2.0 - _SMALL.line_height / 2.0
    sheet.write(
        sheet.measure.fitted(words, _SMALL, max(box.width, 2.0 * reach)),
        x,
        y,
        _SMALL,
        sheet.palette.faint_ink,
    )


def _place_steps(steps: Steps, room: Box) -> tuple[tuple[Sight, Box], ...]:
    """Return where each step lies, its words included, along the bottom of a room."""
    count = len(steps.shown)
    under = _UNDER_STEP + _SMALL.line_height + 3.0  # the words that hold for all of them come last
    widest = (room.width - _GAP * (count - 1)) / count
    side = min(widest, _STEPS_SHARE * room.height, _LARGEST_STEP)
    left = room.left + (room.width - side * count - _GAP * (count - 1)) / 2.0
    bottom, top = room.bottom + under - _UNDER_STEP, room.bottom + under + side
    return tuple(
        (sight, Box(left + number * (side + _GAP), bottom, left + number * (side + _GAP) + side, top))
        for number, (sight, _) in enumerate(steps.shown)
    )


def _draw_steps(sheet: Sheet, pictures: Pictures, places: Sequence[tuple[Sight, Box]]) -> None:
    palette, steps = sheet.palette, pictures.steps
    sizes = _widths(sheet.measure, [sight for sight, _ in places], places[0][1].width + _GAP - 1.0)
    for (sight, box), (_, picture), size in zip(places, steps.shown, sizes, strict=True):
        in_hand = sight == pictures.sight
        square = Box(box.left, box.top - box.width, box.right, box.top)
        edge = palette.accent if in_hand else None
        draw_window(sheet, sight, picture, square, steps.window_deg, edge=edge)
        x, y = square.middle[0], square.bottom - _MARK.line_height / 2.0
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
