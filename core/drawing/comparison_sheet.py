"""Two telescopes side by side on one page to keep or print: ladders, pictures, verdict and figures."""

from collections.abc import Sequence

from core.drawing.eyepiece import draw_pair_in
from core.drawing.lettering import Lettering, Measure
from core.drawing.marks import Drawing, Page, Sheet
from core.drawing.palette import Palette
from core.drawing.paper_sizes import POINTS_PER_INCH
from core.drawing.placing import Box
from core.drawing.side_by_side import draw_two_ladders_in
from core.ladder.compare import Comparison
from core.ladder.ladder import Rung
from core.ladder.winner import Winner
from core.looks.picture.eyepiece import Steps
from core.words.advice import advice_text
from core.words.comparison import difference_texts
from core.words.comparison_rows import FigureRow
from core.words.names import listed

# Points: the shape of A4 lying on its side, a little larger so that it is all there; printers fit it to
# their paper.
SHEET_WIDTH, SHEET_HEIGHT = 14.0 * POINTS_PER_INCH, 9.9 * POINTS_PER_INCH
_MARGIN = 30.0
_BETWEEN = 22.0
_LEFT_SHARE = 0.56
_LADDERS_SHARE = 0.6
_TITLE = Lettering(15.0, bold=True)
_SMALL = Lettering(8.5)
_LABEL = Lettering(8.5)
_BETTER = Lettering(8.5, bold=True)
_ADVICE = Lettering(11.0)
# Sentences in the largest size that fits below the figures.
_SENTENCES = (Lettering(10.0), Lettering(9.0), Lettering(8.0), Lettering(7.0))
_ROW_GAP = 2.5
_LABEL_SHARE = 0.38


def draw_comparison_sheet(
    page: Page,
    comparison: Comparison,
    *,
    palette: Palette,
    conditions: str,
    rows: Sequence[FigureRow],
    wished: tuple[Sequence[Rung], Sequence[Rung]] = ((), ()),
    pictures: Steps | None = None,
) -> Drawing:
    """Lay a whole comparison out on a page.

    ``conditions`` says for which planet, evening and air it holds; ``pictures`` are the views in the two
    eyepieces, left out where there are none.
    """
    sheet = Sheet(page, palette)
    inner = sheet.page.grown(-_MARGIN)
    names = comparison.a.scope.name, comparison.b.scope.name
    title = sheet.measure.fitted(sheet.measure.legible(listed(names)), _TITLE, inner.width)
    sheet.write(title, inner.left, inner.top - _TITLE.line_height / 2, _TITLE, palette.ink, align="left")
    top = inner.top - _TITLE.line_height - 4.0
    top = sheet.paragraph(conditions, inner.left, top, inner.width, _SMALL, palette.faint_ink) - 8.0
    middle = inner.left + _LEFT_SHARE * inner.width
    left = Box(inner.left, inner.bottom, middle - _BETWEEN / 2, top)
    right = Box(middle + _BETWEEN / 2, inner.bottom, inner.right, top)
    ladders = left
    if pictures is not None:
        split = left.top - _LADDERS_SHARE * left.height
        ladders = Box(left.left, split + _BETWEEN / 2, left.right, left.top)
        draw_pair_in(sheet, Box(left.left, left.bottom, left.right, split - _BETWEEN / 2), pictures, names)
    draw_two_ladders_in(sheet, ladders, comparison, wished)
    _write_words(sheet, right, comparison, rows)
    return sheet.drawing


def _write_words(sheet: Sheet, room: Box, comparison: Comparison, rows: Sequence[FigureRow]) -> None:
    """Write which to take, under it the figures in three columns, and below what else tells them apart."""
    cells = [_Row(sheet.measure, row, room.width) for row in rows]
    names = FigureRow(label="", a=comparison.a.scope.name, b=comparison.b.scope.name)
    head = _Row(sheet.measure, names, room.width)
    advice, findings = advice_text(comparison.advice), difference_texts(comparison)
    ink = sheet.palette.ink
    y = sheet.paragraph(advice, room.left, room.top, room.width, _ADVICE, ink) - _paragraph(_ADVICE)
    for cell in (head, *cells):
        cell.write(sheet, room, y)
        y -= cell.height
        sheet.stroke((room.left, y + _ROW_GAP / 2), (room.right, y + _ROW_GAP / 2), sheet.palette.line, 0.5)
    y -= _paragraph(_ADVICE)
    left = y - room.bottom
    lettering = next(
        (each for each in _SENTENCES if _height(sheet.measure, findings, each, room.width) <= left),
        _SENTENCES[-1],
    )
    for words in findings:
        y = sheet.paragraph(words, room.left, y, room.width, lettering, ink) - _paragraph(lettering)


class _Row:
    """One row of the figures, broken into lines for a width in points."""

    def __init__(self, measure: Measure, row: FigureRow, width: float) -> None:
        self._measure = measure
        self._label_width = _LABEL_SHARE * width
        self._cell_width = (width - self._label_width) / 2
        self._cells = (
            (measure.wrapped(measure.legible(row.label), _LABEL, self._label_width - 6.0), _LABEL),
            self._cell(row.a, is_better=row.winner is Winner.A),
            self._cell(row.b, is_better=row.winner is Winner.B),
        )
        lines = max(len(cell) for cell, _lettering in self._cells)
        self.height = max(lines, 1) * _LABEL.line_height + _ROW_GAP

    def write(self, sheet: Sheet, room: Box, top: float) -> None:
        """Write the row with its upper edge at ``top``."""
        lefts = (0.0, self._label_width, self._label_width + self._cell_width)
        for left, (lines, lettering) in zip(lefts, self._cells, strict=True):
            y = top - lettering.line_height / 2
            for line in lines:
                sheet.write(line, room.left + left, y, lettering, sheet.palette.ink, align="left")
                y -= lettering.line_height

    def _cell(self, text: str, *, is_better: bool) -> tuple[tuple[str, ...], Lettering]:
        lettering = _BETTER if is_better else _LABEL
        return self._measure.wrapped(
            self._measure.legible(text), lettering, self._cell_width - 6.0
        ), lettering


def _height(measure: Measure, sentences: Sequence[str], lettering: Lettering, width: float) -> float:
    lines = sum(len(measure.wrapped(measure.legible(sentence), lettering, width)) for sentence in sentences)
    return lines * lettering.line_height + len(sentences) * _paragraph(lettering)


def _paragraph(lettering: Lettering) -> float:
    return 0.5 * lettering.size
