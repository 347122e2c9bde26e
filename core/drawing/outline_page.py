"""The page of outlines to draw in at the eyepiece: one for each target, with lines to write on."""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from core.drawing.lettering import Lettering
from core.drawing.marks import Drawing, Page, Points, Sheet
from core.drawing.palette import PaletteName, load_palette
from core.drawing.placing import Box
from core.looks.outline import Outline
from core.situation.on_paper import TargetOnPaper
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.words.evening_sheet import (
    DRIFT,
    NORTH,
    OUTLINES,
    TO_FILL_IN,
    outline_facts,
    outline_title,
    outlines_words,
    title_words,
)
from core.words.site_clock import SiteClock

_TITLE: Final = Lettering(16.0, bold=True)
_ABOUT: Final = Lettering(9.0)
_HEAD: Final = Lettering(10.5, bold=True)
_SMALL: Final = Lettering(8.5)
_GAP: Final = 14.0
_UNDER: Final = 40.0  # two lines to write on
_MARK: Final = 13.0  # how far the mark of the pole and the arrow reach beyond the outline
_BESIDE, _ABOVE = 44.0, 30.0  # the room for these and their words
# Half the width of a drawing, points: about 5 cm across for a planet, as is usual, more with a ring; on the
# two far ones little shows.
_MOST: Final = 75.0
_OTHERS_MOST: Final = {Body.SATURN: 120.0, Body.URANUS: 24.0, Body.NEPTUNE: 24.0}
_MOST_CELL: Final = 270.0
_MOST_ON_A_PAGE: Final = 6
_RULE: Final = 17.0  # between two lines to write on
_DARK_DASHES: Final = (3.0, 3.0)
_ARROW: Final = 5.0


def draw_outlines(
    page: Page, situation: Situation, targets: Sequence[TargetOnPaper], clock: SiteClock, *, margin: float
) -> Iterator[Drawing]:
    """Yield pages with the outlines of an evening's targets, the same number on each as far as can be."""
    count = -(-len(targets) // _MOST_ON_A_PAGE)
    each = -(-len(targets) // max(count, 1))
    for first in range(0, len(targets), max(each, 1)):
        yield _draw_page(page, situation, targets[first : first + each], clock, margin)


def _draw_page(
    page: Page, situation: Situation, targets: Sequence[TargetOnPaper], clock: SiteClock, margin: float
) -> Drawing:
    sheet = Sheet(page, load_palette(PaletteName.PAPER))
    inner, ink = sheet.page.grown(-margin), sheet.palette.ink
    y = sheet.paragraph(OUTLINES, inner.left, inner.top, inner.width, _TITLE, ink)
    y = sheet.paragraph(title_words(situation), inner.left, y - 1.0, inner.width, _ABOUT, ink)
    y = sheet.paragraph(outlines_words(situation), inner.left, y - 1.0, inner.width, _ABOUT, ink)
    columns = 1 if len(targets) <= 2 else 2
    rows = -(-len(targets) // columns)
    width = (inner.width - (columns - 1) * _GAP) / columns
    height = min((y - _GAP - inner.bottom - (rows - 1) * _GAP) / rows, _MOST_CELL)
    for number, target in enumerate(targets):
        row, column = divmod(number, columns)
        left, top = inner.left + column * (width + _GAP), y - _GAP - row * (height + _GAP)
        _draw_cell(sheet, Box(left, top - height, left + width, top), target, clock)
    y -= rows * (height + _GAP)
    rule_down(sheet, Box(inner.left, inner.bottom, inner.right, y))
    return sheet.drawing


def rule_down(sheet: Sheet, room: Box) -> None:
    """Draw lines to write on, from the top of a room to its bottom."""
    y = room.top - _RULE
    while y >= room.bottom:
        sheet.stroke((room.left, y), (room.right, y), sheet.palette.line, 0.6)
        y -= _RULE


def _draw_cell(sheet: Sheet, cell: Box, target: TargetOnPaper, clock: SiteClock) -> None:
    ink = sheet.palette.ink
    y = sheet.paragraph(outline_title(target, clock), cell.left, cell.top, cell.width, _HEAD, ink)
    for words in outline_facts(target, clock):
        y = sheet.paragraph(words, cell.left, y, cell.width, _SMALL, ink)
    _draw_outline(sheet, Box(cell.left, cell.bottom + _UNDER, cell.right, y), target.outline, target.body)
    _write_blanks(sheet, cell)


def _draw_outline(sheet: Sheet, room: Box, outline: Outline, body: Body) -> None:
    palette = sheet.palette
    across, up = outline.reach_arcsec
    scale = min(
        _OTHERS_MOST.get(body, _MOST) / max(across, up),
        (room.width / 2 - _BESIDE) / across,
        (room.height / 2 - _ABOVE) / up,
    )
    middle = np.array(room.middle)
    sheet.strokes([line * scale + middle for line in outline.solid], palette.ink, 0.9)
    sheet.strokes([line * scale + middle for line in outline.faint], palette.ink, 0.7, dashes=_DARK_DASHES)
    lines = np.concatenate((*outline.solid, *outline.faint)) * scale
    pole, drift = np.array(outline.pole), np.array(outline.drift)
    start = _edge(lines, pole)
    _stroke(sheet, middle + start * pole, middle + (start + 0.5 * _MARK) * pole)
    _name(sheet, NORTH, middle + (start + _MARK) * pole)
    # Beside the outline, so that it neither crosses it nor the mark of the pole.
    start = _edge(lines, drift) + 3.0
    tip = middle + (start + _MARK) * drift
    side = np.array([-drift[1], drift[0]])
    _stroke(sheet, middle + start * drift, tip)
    for turn in (1.0, -1.0):
        _stroke(sheet, tip, tip - _ARROW * drift + 0.5 * turn * _ARROW * side)
    _name(sheet, DRIFT, tip + (0.8 * _SMALL.line_height + 8.0 * abs(drift[0])) * drift)


def _edge(lines: Points, way: Points) -> float:
    """Return how far lines (N, 2) around the middle reach in a direction, along a narrow strip."""
    along, aside = lines @ way, lines @ np.array([-way[1], way[0]])
    near = np.abs(aside) < 3.0
    return float(np.max(along[near], initial=0.0))


def _stroke(sheet: Sheet, start: Points, end: Points) -> None:
    sheet.stroke((float(start[0]), float(start[1])), (float(end[0]), float(end[1])), sheet.palette.ink, 0.8)


def _name(sheet: Sheet, words: str, place: Points) -> None:
    sheet.write(words, float(place[0]), float(place[1]), _SMALL, sheet.palette.ink)


def _write_blanks(sheet: Sheet, cell: Box) -> None:
    """Write what is to be filled in, each with a line, and one long line for the rest."""
    palette, share = sheet.palette, cell.width / len(TO_FILL_IN)
    y = cell.bottom + _UNDER - 14.0
    for number, words in enumerate(TO_FILL_IN):
        left = cell.left + number * share
        sheet.write(words, left, y, _SMALL, palette.ink, align="left")
        start = left + sheet.measure.width(words, _SMALL) + 3.0
        sheet.stroke((start, y - 4.0), (left + share - 6.0, y - 4.0), palette.line, 0.6)
    sheet.stroke((cell.left, cell.bottom + 4.0), (cell.right, cell.bottom + 4.0), palette.line, 0.6)
