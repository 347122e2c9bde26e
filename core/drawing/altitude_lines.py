"""The ground that the charts of an evening and of a year share: bands of altitude, figures, axis titles."""

from collections.abc import Callable, Sequence
from typing import Final

import numpy as np

from core.drawing.free_space import without
from core.drawing.lettering import Lettering
from core.drawing.lines import TINT_FAIR, TINT_LOW
from core.drawing.marks import Sheet
from core.drawing.placing import Box, Taken
from core.sky.events import BEST_DEG, FAIR_DEG
from core.words.quantities import angle_text

# On a low chart with large letters not all of them have room: the first ones first.
_ALTITUDES_DEG: Final = (30, 0, 45, 60, 90)
_LETTERING: Final = Lettering(11.0)
_TITLE: Final = Lettering(8.5)


def draw_bands(sheet: Sheet, box: Box, y_of: Callable[[float], float], gaps: Sequence[Box] = ()) -> None:
    """Tint the bands below 30° and below 45° of a chart, and draw the lines between them and the horizon.

    In the ``gaps`` stand words, through which no line runs.
    """
    palette, low, fair = sheet.palette, y_of(FAIR_DEG), y_of(BEST_DEG)
    sheet.fill(Box(box.left, low, box.right, fair), palette.band_fair, alpha=TINT_FAIR, order=0.1)
    sheet.fill(Box(box.left, box.bottom, box.right, low), palette.band_low, alpha=TINT_LOW, order=0.1)
    for y in (low, fair):
        line = np.array([(box.left, y), (box.right, y)])
        sheet.strokes(without(line, gaps), palette.line, 0.9, order=0.5)
    sheet.stroke((box.left, box.bottom), (box.right, box.bottom), palette.faint_ink, 1.2, order=3.0)


def write_altitudes(
    sheet: Sheet, box: Box, y_of: Callable[[float], float], lettering: Lettering = _LETTERING
) -> None:
    """Write the altitudes along the left edge of a chart, as many as have room, each with a tick."""
    palette = sheet.palette
    column = Taken(Box(sheet.page.left, box.bottom - 10.0, box.left, box.top + 10.0), gap=0.0)
    for altitude_deg in _ALTITUDES_DEG:
        text, y = angle_text(altitude_deg), y_of(altitude_deg)
        place = Box.around(box.left - 18.0, y, sheet.measure.width(text, lettering), lettering.line_height)
        if column.is_free(place):
            column.add(place)
            sheet.write(text, box.left - 5.0, y, lettering, palette.ink, align="right")
    ticks = [((box.left - 3.0, y), (box.left, y)) for y in map(y_of, _ALTITUDES_DEG)]
    sheet.strokes(ticks, palette.faint_ink, 0.8)


def write_upright(sheet: Sheet, titles: Sequence[str], x: float, box: Box) -> None:
    """Write the title of an axis upright beside a chart: the first of its wordings that is no longer."""
    words = next((words for words in titles if sheet.measure.width(words, _TITLE) <= box.height), "")
    if words:
        sheet.write(words, x, box.middle[1], _TITLE, sheet.palette.faint_ink, rotation_deg=90.0)
