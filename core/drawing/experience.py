"""How often each power worked, as bars with their counts: solid for more detail, open for less."""

from collections.abc import Mapping, Sequence

from core.drawing.lettering import Lettering
from core.drawing.marks import Drawing, Page, Sheet
from core.drawing.palette import Palette
from core.drawing.placing import Box
from core.ladder.experience import PowerRecord
from core.words.experience import LESS_KEY, MORE_KEY, NO_CHANGE_KEY
from core.words.quantities import power_text

_MARGIN = 10.0
_ROW = 17.0
_BAR = 11.0
_GAP = 8.0
_LABEL = Lettering(10.0)
_HEADING = Lettering(10.5, bold=True)
_SMALL = Lettering(8.5)
_MOST_PER_COUNT = 26.0
_MIDDLING = 0.35


def height_of(groups: Mapping[str, Sequence[PowerRecord]]) -> float:
    """Return how high a page must be to show all groups, points."""
    rows = sum(len(records) + bool(heading) for heading, records in groups.items())
    return 2 * _MARGIN + _ROW * (rows + 1) + _GAP * max(len(groups) - 1, 0)


def draw_experience(page: Page, groups: Mapping[str, Sequence[PowerRecord]], *, palette: Palette) -> Drawing:
    """Lay out a bar for each power of each group, as long as it was often judged.

    The heading of a group may be empty. Each part of a bar carries its count, so that nothing is told by
    colour alone.
    """
    sheet = Sheet(page, palette)
    inner = sheet.page.grown(-_MARGIN)
    records = [record for group in groups.values() for record in group]
    label_width = max((page.measure.width(power_text(each.power), _LABEL) for each in records), default=0.0)
    most = max((record.count for record in records), default=1)
    left = inner.left + label_width + _GAP
    per_count = min((inner.right - left) / most, _MOST_PER_COUNT)
    y = inner.top - _ROW / 2
    _write_key(sheet, left, y)
    y -= _ROW
    for heading, of_group in groups.items():
        if heading:
            sheet.write(heading, inner.left, y, _HEADING, palette.ink, align="left")
            y -= _ROW
        for record in of_group:
            sheet.write(power_text(record.power), left - _GAP, y, _LABEL, palette.ink, align="right")
            _draw_bar(sheet, record, left, y, per_count)
            y -= _ROW
        y -= _GAP
    return sheet.drawing


def _draw_bar(sheet: Sheet, record: PowerRecord, left: float, y: float, per_count: float) -> None:
    for count, part in zip((record.more, record.no_change, record.less), range(3), strict=True):
        if not count:
            continue
        box = Box(left, y - _BAR / 2, left + count * per_count, y + _BAR / 2)
        colour = _fill(sheet, box, part)
        sheet.write(str(count), *box.middle, _SMALL, colour)
        left = box.right


def _write_key(sheet: Sheet, left: float, y: float) -> None:
    for part, words in enumerate((MORE_KEY, NO_CHANGE_KEY, LESS_KEY)):
        box = Box(left, y - _BAR / 2, left + _BAR, y + _BAR / 2)
        _fill(sheet, box, part)
        sheet.write(words, box.right + 4.0, y, _SMALL, sheet.palette.faint_ink, align="left")
        left = box.right + 4.0 + sheet.measure.width(words, _SMALL) + 2 * _GAP


def _fill(sheet: Sheet, box: Box, part: int) -> str:
    """Draw one part of a bar, from more detail to less, and return the colour of letters on it."""
    palette = sheet.palette
    if part == 0:
        sheet.fill(box, palette.accent, edge=palette.accent)
        return palette.accent_ink
    if part == 1:
        sheet.fill(box, palette.accent, alpha=_MIDDLING)
        return palette.ink
    sheet.fill(box, palette.surface, edge=palette.accent)
    return palette.ink
