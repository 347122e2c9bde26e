"""The screen at the eyepiece: few words, as large as they fit, and large places to touch."""

from collections.abc import Sequence
from typing import Final

from attrs import frozen

from core.drawing.lettering import Lettering, Measure
from core.drawing.marks import Drawing, Page, Sheet
from core.drawing.palette import Palette
from core.drawing.placing import Box
from core.record.log_entry import Verdict
from core.words.at_eyepiece import EyepieceWords

# Shares of the height of the screen. On one 17 cm high the words of the four rows have letters of about
# 5 mm and the power of 14 mm, which a dark-adapted eye still reads from two metres (ours, tried out).
_EDGE: Final = 0.03
_SUBJECT: Final = 0.105
_POWER: Final = 0.25
_PART: Final = 0.085
_NEXT: Final = 0.1
_CHANGE: Final = 0.075
_ASKED: Final = 0.048
_NOTICE: Final = 0.036
_VERDICT: Final = 0.046
_KEYS: Final = 0.026
_VERDICT_HEIGHT: Final = 0.13
_GAP: Final = 0.012
# Words that are too long get smaller down to this share of their size, and are cut then.
_SMALLEST: Final = 0.4
# What takes more than a line is tried in these shares of its size.
_SMALLER: Final = (1.0, 0.92, 0.85, 0.78, 0.7)
_PART_SMALLER: Final = (1.0, 0.8, 0.6, 0.5, _SMALLEST)
# So many lines of the part in its own size are as high as the power beside it.
_PART_LINES: Final = 2.0
# A page higher than this share of its width is measured by its width.
_NARROW: Final = 0.7


@frozen(kw_only=True, eq=False)
class EyepieceScreen:
    """The drawn screen, and where a touch gives a verdict or takes what is next; points."""

    drawing: Drawing
    verdicts: tuple[tuple[Verdict, Box], ...]
    next_step: Box | None

    def verdict_at(self, x: float, y: float) -> Verdict | None:
        """Return the verdict at a place, None elsewhere."""
        return next((verdict for verdict, box in self.verdicts if box.contains(x, y)), None)

    def is_next_at(self, x: float, y: float) -> bool:
        """Tell whether a place is that of the next step."""
        return self.next_step is not None and self.next_step.contains(x, y)


class _Rows:
    """Writes rows from the top of a room down."""

    def __init__(self, sheet: Sheet, room: Box, unit: float) -> None:
        self.sheet = sheet
        self.room = room
        self.unit = unit
        self.top = room.top

    def write(self, words: str, share: float, colour: str, *, bold: bool = False) -> Box:
        """Write one row as large as it fits, and return its place; an empty row keeps its room."""
        sheet, width = self.sheet, self.room.width
        size = share * self.unit
        lettering = as_large(sheet.measure, words, size, width, bold=bold)
        height = Lettering(size).line_height
        box = Box(self.room.left, self.top - height, self.room.right, self.top)
        shown = sheet.measure.fitted(words, lettering, width)
        sheet.write(shown, self.room.left, box.middle[1], lettering, colour, align="left")
        self.top -= height + _GAP * self.unit
        return box


def as_large(measure: Measure, words: str, size: float, width: float, *, bold: bool = False) -> Lettering:
    """Return letters of a size in points, or smaller ones with which the words fit a width."""
    needed = measure.width(words, Lettering(size, bold=bold))
    share = 1.0 if needed <= width else max(0.99 * width / needed, _SMALLEST)
    return Lettering(size * share, bold=bold)


def draw_at_eyepiece(page: Page, words: EyepieceWords, *, palette: Palette) -> EyepieceScreen:
    """Lay the screen out on a page; letters follow its height, whatever the size of text elsewhere."""
    sheet = Sheet(page, palette)
    unit = min(page.height, _NARROW * page.width)
    room = sheet.page.grown(-_EDGE * unit)
    _write_head(sheet, room, words, unit)
    rows = _Rows(sheet, room, unit)
    rows.top -= Lettering(_SUBJECT * unit).line_height
    floor = _write_foot(sheet, room, words, unit)
    if words.refusal:
        _write_lines(sheet, room, rows.top - _GAP * unit, (words.refusal,), _PART * unit, floor, palette.ink)
        return EyepieceScreen(drawing=sheet.drawing, verdicts=(), next_step=None)
    _write_rung(sheet, rows, words)
    next_box = rows.write(words.next_step, _NEXT, palette.ink, bold=True)
    rows.write(words.change, _CHANGE, palette.ink)
    verdicts = _place_verdicts(room, words, unit, floor)
    lowest = verdicts[0][1].top if verdicts else floor
    sentences = tuple(filter(None, (words.asked, *words.notices)))
    _write_sentences(sheet, rows, sentences, lowest, is_asked=bool(words.asked))
    labels = dict(words.verdicts)
    for verdict, box in verdicts:
        sheet.fill(box, palette.surface, edge=palette.line, order=1.0)
        lettering = as_large(sheet.measure, labels[verdict], _VERDICT * unit, 0.92 * box.width, bold=True)
        label = sheet.measure.fitted(labels[verdict], lettering, 0.95 * box.width)
        # Pale until there is a step to judge, so that the keys are known before.
        ink = palette.ink if words.can_be_judged else palette.faint_ink
        sheet.write(label, *box.middle, lettering, ink)
    return EyepieceScreen(
        drawing=sheet.drawing, verdicts=verdicts, next_step=next_box if words.next_step else None
    )


def _write_head(sheet: Sheet, room: Box, words: EyepieceWords, unit: float) -> None:
    """Write what is looked at on the left, and the time on the right."""
    lettering = Lettering(_SUBJECT * unit)
    y = room.top - lettering.line_height / 2.0
    time_width = sheet.measure.width(words.time, lettering)
    sheet.write(words.time, room.right, y, lettering, sheet.palette.faint_ink, align="right")
    width = room.width - time_width - 2.0 * _EDGE * unit
    subject = as_large(sheet.measure, words.subject, lettering.size, width, bold=True)
    shown = sheet.measure.fitted(words.subject, subject, width)
    sheet.write(shown, room.left, y, subject, sheet.palette.ink, align="left")


def _write_rung(sheet: Sheet, rows: _Rows, words: EyepieceWords) -> None:
    """Write the power in hand very large, and what gives it beside it."""
    unit, room, palette = rows.unit, rows.room, sheet.palette
    lettering = Lettering(_POWER * unit, bold=True)
    middle = rows.top - lettering.line_height / 2.0
    sheet.write(words.power, room.left, middle, lettering, palette.ink, align="left")
    left = room.left + sheet.measure.width(words.power, lettering) + 2.0 * _EDGE * unit
    width = room.right - left
    part, lines = _in_lines(sheet.measure, words.part, _PART * unit, width)
    y = middle + (len(lines) - 1) * part.line_height / 2.0
    for line in lines:
        sheet.write(line, left, y, part, palette.ink, align="left")
        y -= part.line_height
    rows.top -= lettering.line_height


def _in_lines(measure: Measure, words: str, size: float, width: float) -> tuple[Lettering, tuple[str, ...]]:
    """Return words in a few lines, in the largest letters in which none of them is cut."""
    for share in _PART_SMALLER:
        lettering = Lettering(share * size)
        lines = measure.wrapped(words, lettering, width)
        if len(lines) * share <= _PART_LINES and " ".join(lines) == words:
            return lettering, lines
    lettering = Lettering(_SMALLEST * size)
    return lettering, (measure.fitted(words, lettering, width),)


def _write_sentences(
    sheet: Sheet, rows: _Rows, sentences: Sequence[str], floor: float, *, is_asked: bool
) -> None:
    """Write what is asked, larger, and the notices, as many lines as there is room for."""
    palette, unit = sheet.palette, rows.unit
    top = rows.top
    if is_asked:
        top = _write_lines(sheet, rows.room, top, sentences[:1], _ASKED * unit, floor, palette.ink)
        sentences = sentences[1:]
    _write_lines(sheet, rows.room, top, sentences, _NOTICE * unit, floor, palette.faint_ink)


def _write_lines(
    sheet: Sheet, room: Box, top: float, sentences: Sequence[str], size: float, floor: float, colour: str
) -> float:
    """Write sentences one under the other above a floor, and return where they end.

    Where they are too long their letters get smaller; then the last of them are left out, since safety comes
    first, and none is cut in its middle.
    """
    choices = [(sentences[:count], share) for count in range(len(sentences), 0, -1) for share in _SMALLER]
    for told, share in choices:
        lettering = Lettering(share * size)
        lines = [line for sentence in told for line in sheet.measure.wrapped(sentence, lettering, room.width)]
        if len(lines) * lettering.line_height > top - floor:
            continue
        for line in lines:
            sheet.write(line, room.left, top - lettering.line_height / 2.0, lettering, colour, align="left")
            top -= lettering.line_height
        return top
    return top


def _write_foot(sheet: Sheet, room: Box, words: EyepieceWords, unit: float) -> float:
    """Write what the keys do along the lower edge, and return where that begins."""
    lettering = Lettering(_KEYS * unit)
    lines = sheet.measure.wrapped(words.keys, lettering, room.width)
    for number, line in enumerate(reversed(lines)):
        y = room.bottom + (number + 0.5) * lettering.line_height
        sheet.write(line, room.left, y, lettering, sheet.palette.faint_ink, align="left")
    return room.bottom + len(lines) * lettering.line_height + _GAP * unit


def _place_verdicts(
    room: Box, words: EyepieceWords, unit: float, floor: float
) -> tuple[tuple[Verdict, Box], ...]:
    count, gap = len(words.verdicts), _GAP * unit
    if not count:
        return ()
    width = (room.width - (count - 1) * gap) / count
    return tuple(
        (
            verdict,
            Box(
                room.left + number * (width + gap),
                floor,
                room.left + number * (width + gap) + width,
                floor + _VERDICT_HEIGHT * unit,
            ),
        )
        for number, (verdict, _label) in enumerate(words.verdicts)
    )
