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
_KEY = (MORE_KEY, NO_CHANGE_KEY, LESS_KEY)


def height_of(page: Page, groups: Mapping[str, Sequence[PowerRecord]]) -> float:
    """Return how high a page of such a width must be to show all groups, points."""
    rows = sum(len(records) + bool(heading) for heading, records in groups.items())
    rows += len(_key_rows(page, _left_of_bars(page, groups)))
    return 2 * _MARGIN + _ROW * rows + _GAP * max(len(groups) - 1, 0)


def draw_experience(page: Page, groups: Mapping[str, Sequence[PowerRecord]], *, palette: Palette) -> Drawing:
    """Lay out a bar for each power of each group, as long as it was often judged.

    The heading of a group may be empty. Each part of a bar carries its count, so that nothing is told by
    colour alone.
    """
    sheet = Sheet(page, palette)
    inner = sheet.page.grown(-_MARGIN)
    most = max((record.count for group in groups.values() for record in group), default=1)
    left = _left_of_bars(page, groups)
    per_count = min((inner.right - left) / most, _MOST_PER_COUNT)
    y = inner.top - _ROW / 2
    for parts in _key_rows(page, left):
        _write_key(sheet, parts, left, y)
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


def _left_of_bars(page: Page, groups: Mapping[str, Sequence[PowerRecord]]) -> float:
    powers = (power_text(record.power) for group in groups.values() for record in group)
    return _MARGIN + max((page.measure.width(text, _LABEL) for text in powers), default=0.0) + _GAP


def _key_rows(page: Page, left: float) -> list[list[int]]:
    """Return the parts of a bar that are explained in each row of the key, as many as there is room for."""
    rows: list[list[int]] = []
    x = left
    for part, words in enumerate(_KEY):
        width = _BAR + 4.0 + page.measure.width(words, _SMALL)
        if not rows or x + width > page.width - _MARGIN:
            rows.append([])
            x = left
        rows[-1].append(part)
        x += width + 2 * _GAP
    return rows


def _write_key(sheet: Sheet, parts: Sequence[int], left: float, y: float) -> None:
    for part in parts:
        box = Box(left, y - _BAR / 2, left + _BAR, y + _BAR / 2)
        _fill(sheet, box, part)
        sheet.write(_KEY[part], box.right + 4.0, y, _SMALL, sheet.palette.faint_ink, align="left")
        left = box.right + 4.0 + sheet.measure.width(_KEY[part], _SMALL) + 2 * _GAP


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
