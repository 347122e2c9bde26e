"""The sheet of an evening to print and tick off: steps in order, chart, powers, safety, room for notes.

Black on white, for it is read under a red torch. A second page has outlines to draw in; where the steps
are too many for the first, they go on before it.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from attrs import evolve, frozen

from core.drawing.height import draw_height
from core.drawing.ladder import draw_ladder
from core.drawing.lettering import NO_GLYPH, Lettering, Measure
from core.drawing.marks import Drawing, Page, Sheet
from core.drawing.outline_page import draw_outlines, rule_down
from core.drawing.palette import PaletteName, load_palette
from core.drawing.paper_sizes import Paper
from core.drawing.placing import Box
from core.situation.on_paper import TargetOnPaper, before_it_begins, targets_on_paper
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.night import Night
from core.words.answer import answer_words
from core.words.evening import titled
from core.words.evening_sheet import (
    CAUTIONS,
    CONTINUED,
    NOTES,
    STEPS,
    TOGETHER,
    SheetStep,
    about_words,
    foot_words,
    ladder_title,
    sheet_cautions,
    steps_of,
    title_words,
    together_words,
)
from core.words.site_clock import SiteClock

_MARGIN: Final = 34.0  # printers leave about a centimetre of the edge white
_BETWEEN: Final = 18.0
_TITLE: Final = Lettering(16.0, bold=True)
_ABOUT: Final = Lettering(9.0)
_ANSWER: Final = Lettering(10.5, bold=True)
_HEAD: Final = Lettering(10.5, bold=True)
_SMALL: Final = Lettering(7.5)
_TOP_HEIGHT: Final = 195.0
_LEFT_SHARE: Final = 0.54
# A drawing of a ladder leaves so much white around itself.
_LADDER_EDGE: Final = 8.0
# The largest of these in which everything fits.
_BODIES: Final = tuple(Lettering(size) for size in (10.5, 10.0, 9.5, 9.0, 8.5, 8.0, 7.5))
_LEAST_NOTES: Final = 48.0
_INDENT: Final = 16.0
_PARAGRAPH: Final = 8.0
_UNDER_HEAD: Final = 2.0
# Of the size of letters.
_TICK_BOX: Final = 0.95
_STEP_GAP: Final = 0.5
_CAUTION_GAP: Final = 0.4


@frozen(kw_only=True)
class _Step:
    """One step broken into lines; ``height`` with the space after it, points."""

    head: tuple[str, ...]
    lines: tuple[str, ...]
    is_done: bool
    height: float


def draw_evening_sheet(
    size: Paper, measure: Measure, situation: Situation, *, with_place: bool = False
) -> tuple[Drawing, ...]:
    """Return the pages of the sheet of a situation's evening, which must have a night.

    On the chart are the Moon and the evening's targets. Only ``with_place`` do coordinates stand on it.
    """
    assert situation.night is not None
    assert situation.site is not None
    clock = SiteClock(zone=situation.site.zone, hours=situation.preferences.clock)
    page = Page(width=size.width, height=size.height, measure=measure)
    targets = targets_on_paper(situation)
    pages = _StepPages(page, situation, clock, targets).draw(with_place=with_place)
    return (*pages, *draw_outlines(page, situation, targets, clock, margin=_MARGIN))


class _StepPages:
    """The first page, and those on which its steps go on where they are too many for it."""

    def __init__(
        self, page: Page, situation: Situation, clock: SiteClock, targets: tuple[TargetOnPaper, ...]
    ) -> None:
        self._page = page
        self._situation = situation
        self._clock = clock
        self._whole = before_it_begins(situation)
        self._palette = load_palette(PaletteName.PAPER)
        self._targets = targets
        self._steps = steps_of(situation, targets, clock, under_answer=True)
        self._beside = tuple(
            (head, words)
            for head, words in (
                (TOGETHER, together_words(self._whole)),
                (CAUTIONS, sheet_cautions(situation, targets)),
            )
            if words
        )
        self._lettering = _BODIES[-1]

    @property
    def _night(self) -> Night:
        """The night with the Moon and what is looked at alone, so that each curve has room for its name."""
        night, in_hand = self._situation.night, self._situation.planet
        assert night is not None
        if not self._targets:
            return night
        shown = {Body.MOON, in_hand, *(target.body for target in self._targets)}
        return evolve(night, bodies=tuple(each for each in night.bodies if each.body in shown))

    def draw(self, *, with_place: bool) -> list[Drawing]:
        """Lay the pages out."""
        sheet = Sheet(self._page, self._palette)
        inner = sheet.page.grown(-_MARGIN)
        y = self._write_top(sheet, inner, with_place=with_place)
        top = Box(inner.left, y - _TOP_HEIGHT, inner.right, y)
        self._lay_top(sheet, top)
        below = Box(inner.left, inner.bottom, inner.right, top.bottom - _PARAGRAPH)
        left, right = _columns(below) if self._steps else (below, below)
        self._lettering = self._fitting(left, right)
        rest, _ = self._write_steps(sheet, left, STEPS, self._steps)
        rest, y = self._write_steps(sheet, self._above_safety(right), CONTINUED, rest)
        self._write_safety_and_notes(sheet, Box(right.left, right.bottom, right.right, y))
        self._write_foot(sheet, inner, goes_on=bool(rest))
        return [sheet.drawing, *self._more(rest)]

    def _more(self, rest: Sequence[SheetStep]) -> Iterator[Drawing]:
        """Yield pages with the steps that found no room on the first."""
        while rest:
            sheet = Sheet(self._page, self._palette)
            inner = sheet.page.grown(-_MARGIN)
            for room in _columns(inner):
                rest, _ = self._write_steps(sheet, room, CONTINUED, rest, at_least_one=True)
            self._write_foot(sheet, inner, goes_on=bool(rest))
            yield sheet.drawing

    def _write_top(self, sheet: Sheet, inner: Box, *, with_place: bool) -> float:
        situation = self._situation
        y = _write_in(sheet, title_words(situation), inner, inner.top, _TITLE)
        about = about_words(situation, self._clock, with_place=with_place)
        y = _write_in(sheet, about, inner, y - 1.0, _ABOUT)
        y = _write_in(sheet, answer_words(self._whole), inner, y - 5.0, _ANSWER)
        sheet.stroke((inner.left, y - 5.0), (inner.right, y - 5.0), self._palette.ink, 0.8)
        return y - 9.0

    def _lay_top(self, sheet: Sheet, room: Box) -> None:
        """Lay the chart, and beside it the ladder of the planet in hand where there is one."""
        situation, ladder = self._situation, self._whole.best_ladder
        has_ladder = ladder is not None and bool(ladder.rungs)
        left, right = _columns(room) if has_ladder else (room, room)
        chart = draw_height(
            Page(width=left.width, height=left.height, measure=sheet.measure),
            self._night,
            palette=self._palette,
            planet=situation.planet,
            items=titled(tuple(target.item for target in self._targets)),
            clock=self._clock.hours,
        )
        sheet.lay(chart.drawing, left.left, left.bottom)
        if ladder is None or not has_ladder:
            return
        y = _write_in(sheet, ladder_title(self._whole, self._clock), right, right.top, _HEAD)
        size = Page(
            width=right.width + 2 * _LADDER_EDGE,
            height=y - right.bottom + _LADDER_EDGE,
            measure=sheet.measure,
        )
        drawing = draw_ladder(size, ladder, palette=self._palette).drawing
        sheet.lay(drawing, right.left - _LADDER_EDGE, right.bottom - _LADDER_EDGE)

    def _fitting(self, left: Box, right: Box) -> Lettering:
        """Return the largest letters in which one page holds all and some lines to write on."""
        for lettering in _BODIES[:-1]:
            self._lettering = lettering
            rest, _ = self._placed(left, self._steps)
            room = self._above_safety(right)
            rest, y = self._placed(room, rest)
            if not rest and y - room.bottom >= _LEAST_NOTES:
                return lettering
        return _BODIES[-1]

    def _above_safety(self, room: Box) -> Box:
        """Return what is left of a column above the words of safety."""
        measure, lettering = self._page.measure, self._lettering
        # In the smallest letters steps go before lines to write on.
        height = _PARAGRAPH + (_HEAD.line_height if lettering is not _BODIES[-1] else 0.0)
        for _, paragraphs in self._beside:
            lines = [measure.wrapped(measure.legible(words), lettering, room.width) for words in paragraphs]
            height += _HEAD.line_height + 2 * _UNDER_HEAD + sum(map(len, lines)) * lettering.line_height
            height += len(lines) * _CAUTION_GAP * lettering.size
        return Box(room.left, min(room.bottom + height, room.top), room.right, room.top)

    def _placed(self, room: Box, steps: Sequence[SheetStep]) -> tuple[Sequence[SheetStep], float]:
        """Return the steps that find no room, and where the last of the others ends."""
        y = room.top - _HEAD.line_height - _UNDER_HEAD
        for number, step in enumerate(steps):
            height = self._broken(step, room.width).height
            if y - height < room.bottom:
                return steps[number:], y if number else room.top
            y -= height
        return (), y if steps else room.top

    def _write_steps(
        self,
        sheet: Sheet,
        room: Box,
        head: str,
        steps: Sequence[SheetStep],
        *,
        at_least_one: bool = False,
    ) -> tuple[Sequence[SheetStep], float]:
        """Write as many steps as have room; return the others, and where the last one ends."""
        rest, end = self._placed(room, steps)
        if at_least_one and len(rest) == len(steps):
            rest = steps[1:]
        if len(rest) == len(steps):
            return rest, end
        y = _write_in(sheet, head, room, room.top, _HEAD) - _UNDER_HEAD
        for step in steps[: len(steps) - len(rest)]:
            y = self._write_step(sheet, room, y, self._broken(step, room.width))
        return rest, end - _PARAGRAPH

    def _broken(self, step: SheetStep, width: float) -> _Step:
        measure, lettering, inside = self._page.measure, self._lettering, width - _INDENT
        head = measure.wrapped(measure.legible(step.head), self._bold, inside)
        lines = measure.wrapped(measure.legible(step.words), lettering, inside)
        height = (len(head) + len(lines)) * lettering.line_height + _STEP_GAP * lettering.size
        return _Step(head=head, lines=lines, is_done=step.is_done, height=height)

    @property
    def _bold(self) -> Lettering:
        return Lettering(self._lettering.size, bold=True)

    def _write_step(self, sheet: Sheet, room: Box, top: float, step: _Step) -> float:
        lettering, palette = self._lettering, self._palette
        y, half = top - lettering.line_height / 2, _TICK_BOX * lettering.size / 2
        sheet.fill(
            Box(room.left + 0.5, y - half, room.left + 0.5 + 2 * half, y + half),
            palette.surface,
            edge=palette.ink,
        )
        if step.is_done:
            left, side = room.left + 0.5, 2 * half
            tick = [
                (left + 0.2 * side, y),
                (left + 0.45 * side, y - 0.25 * side),
                (left + side, y + 0.5 * side),
            ]
            sheet.strokes([tick], palette.ink, 1.6)
        for lines, letters in ((step.head, self._bold), (step.lines, lettering)):
            for line in lines:
                sheet.write(line, room.left + _INDENT, y, letters, palette.ink, align="left")
                y -= lettering.line_height
        return top - step.height

    def _write_foot(self, sheet: Sheet, inner: Box, *, goes_on: bool) -> None:
        is_all_written = not any(NO_GLYPH in words.text for words in sheet.drawing.words)
        words = foot_words(self._situation, is_all_written=is_all_written, goes_on=goes_on)
        _write_in(sheet, words, inner, inner.bottom - 6.0, _SMALL)

    def _write_safety_and_notes(self, sheet: Sheet, room: Box) -> None:
        """Write what stands close together and the words of safety; leave lines below to write on."""
        y = room.top
        for head, paragraphs in self._beside:
            y = _write_in(sheet, head, room, y, _HEAD) - _UNDER_HEAD
            for words in paragraphs:
                y = _write_in(sheet, words, room, y, self._lettering) - _CAUTION_GAP * self._lettering.size
            y -= _UNDER_HEAD
        if y - _LEAST_NOTES / 2 >= room.bottom:
            y = _write_in(sheet, NOTES, room, y - 4.0, _HEAD)
        rule_down(sheet, Box(room.left, room.bottom, room.right, y))


def _columns(room: Box) -> tuple[Box, Box]:
    middle = room.left + _LEFT_SHARE * room.width
    return (
        Box(room.left, room.bottom, middle - _BETWEEN / 2, room.top),
        Box(middle + _BETWEEN / 2, room.bottom, room.right, room.top),
    )


def _write_in(sheet: Sheet, text: str, room: Box, top: float, lettering: Lettering) -> float:
    return sheet.paragraph(text, room.left, top, room.width, lettering, sheet.palette.ink)
