"""The power ladder: rungs by the logarithm of power, with the three limits drawn across it."""

from collections.abc import Sequence

from attrs import frozen

from core.drawing.ladder_columns import FIGURE, HEADING, REMARK, LadderColumn, cell_fitted, lettering_of
from core.drawing.ladder_layout import (
    REMARKS_AWAY,
    LadderLayout,
    RungPlace,
    lay_out_ladder,
)
from core.drawing.limit_places import LIMIT, SMALL, LimitPlace
from core.drawing.marks import SOLID, Drawing, Page, Sheet
from core.drawing.palette import Palette
from core.drawing.placing import Box
from core.drawing.power_scale import ROW, power_range
from core.ladder.ladder import Ladder, Rung, Standing
from core.words.ladder import DASHED, MARKED_NEW, NO_POWER, SHORT_MARKS, ZOOM_BARS, RungWords
from core.words.notices import ladder_notice_texts

_MARGIN = 8.0
_TINT_ABOVE = 0.45
# What is believed of the air is drawn as shades over each other, each narrower than the one below it.
_SHADES = (1.0, 0.8, 0.6, 0.4, 0.2)
_SHADE = 0.07
_RUN_WIDTH = 3.0
_DASHES_LIMIT = (5.0, 2.5)
_DASHES_ABOVE = (2.0, 2.0)
_DASHES_WISHED = (4.5, 2.5)
_NEAR = 6.0  # how near to a rung without words a click must be, points


@frozen(eq=False)
class _Target:
    """Where a click means a rung, points."""

    box: Box
    rung: Rung


@frozen(kw_only=True, eq=False)
class LadderChart:
    """A drawn ladder, or two: the drawing, and which rung is at a place on the page, in points."""

    drawing: Drawing
    layouts: tuple[LadderLayout, ...]

    def rung_at(self, x: float, y: float) -> Rung | None:
        """Return the rung whose line or words are at a place, None where there is neither."""
        hit = [target for layout in self.layouts for target in _targets(layout) if target.box.contains(x, y)]
        nearest = min(hit, key=lambda target: abs(target.box.middle[1] - y), default=None)
        return None if nearest is None else nearest.rung


def draw_ladder(
    page: Page,
    ladder: Ladder,
    *,
    palette: Palette,
    chosen_power: float | None = None,
    is_taken: bool = True,
    following_power: float | None = None,
    wished: Sequence[Rung] = (),
    when: str = "",
) -> LadderChart:
    """Lay one ladder out on a page.

    ``chosen_power`` is where the observer is, or will begin where no rung ``is_taken`` yet, and
    ``following_power`` where to go from there; ``when`` tells for which moment the ladder holds. ``wished``
    are rungs that one more thing would give, drawn with long dashes.
    """
    sheet = Sheet(page, palette)
    inner = sheet.page.grown(-_MARGIN)
    top = inner.top - (REMARK.line_height if when else 0.0)
    layout = lay_out_ladder(
        ladder,
        Box(inner.left, inner.bottom, inner.right, top),
        page.measure,
        powers=power_range([ladder], wished),
        chosen_power=chosen_power,
        is_taken=is_taken,
        following_power=following_power,
        wished=wished,
        tells_band=True,
    )
    draw_layout(sheet, layout)
    _draw_band(sheet, layout)
    words = page.measure.fitted(when, REMARK, inner.width)
    sheet.write(words, inner.left, inner.top - REMARK.line_height / 2, REMARK, palette.ink, align="left")
    return LadderChart(drawing=sheet.drawing, layouts=(layout,))


def draw_layout(sheet: Sheet, layout: LadderLayout) -> None:
    """Draw a ladder that has its place."""
    _draw_ground(sheet, layout)
    for limit in layout.limits:
        _draw_limit(sheet, layout, limit)
    for place in layout.rungs:
        _draw_rung(sheet, layout, place)
    _write_headings(sheet, layout)
    if not layout.ladder.rungs:
        _write_no_rungs(sheet, layout)


def _draw_ground(sheet: Sheet, layout: LadderLayout) -> None:
    """Draw the uprights, and tint what lies above the ceiling."""
    palette, scale = sheet.palette, layout.scale
    top, bottom = scale.top + ROW / 2, scale.bottom - ROW / 2
    left, right = layout.rails
    ceiling = layout.ladder.ceiling.power
    if ceiling is not None:
        above = Box(left, scale.y(ceiling), right, top)
        sheet.fill(above, palette.band_low, alpha=_TINT_ABOVE, order=0.5)
    for x in layout.rails:
        sheet.stroke((x, bottom), (x, top), palette.faint_ink, 1.2, order=1.0)


def _draw_band(sheet: Sheet, layout: LadderLayout) -> None:
    """Shade softly what aperture and air most likely bear, strongest in the middle."""
    band, scale = layout.ladder.limits.band, layout.scale
    if band is None or layout.ladder.ceiling.power is None:
        return
    left, right = layout.rails
    low, high = (scale.y(min(max(power, scale.low), scale.high)) for power in band)
    middle, half = (low + high) / 2, (high - low) / 2
    for share in _SHADES:
        shade = Box(left, middle - share * half, right, middle + share * half)
        sheet.fill(shade, sheet.palette.accent, alpha=_SHADE, order=0.6)


def _draw_limit(sheet: Sheet, layout: LadderLayout, place: LimitPlace) -> None:
    """Draw a limit's line across the rails, with its words to the left, joined where they had to move."""
    palette = sheet.palette
    is_ceiling = place.limit is not None and place.limit.is_ceiling
    strong = palette.accent if is_ceiling else palette.faint_ink
    right = layout.limits_right - 4.0
    y = place.words_y + place.height / 2 - LIMIT.line_height / 2
    sheet.write(place.title, right, y, LIMIT, strong if is_ceiling else palette.ink, align="right")
    y -= LIMIT.line_height / 2 + SMALL.line_height / 2
    for line in place.lines:
        sheet.write(line, right, y, SMALL, strong, align="right")
        y -= SMALL.line_height
    if place.y is not None:
        left = layout.limits_right
        width, dashes = (2.4, SOLID) if is_ceiling else (1.2, _DASHES_LIMIT)
        sheet.stroke(
            (left + 7.0, place.y), (layout.rails[1] + 8.0, place.y), strong, width, dashes=dashes, order=2.5
        )
        sheet.stroke((left, place.words_y), (left + 7.0, place.y), strong, 0.8, order=2.5)


def _draw_rung(sheet: Sheet, layout: LadderLayout, place: RungPlace) -> None:
    palette, rung = sheet.palette, place.rung
    if place.owned and place.top_y is not None:
        _draw_run(sheet, layout, place, place.top_y)
        return
    left, right = layout.rails
    is_chosen = rung is layout.chosen
    good = rung.standing is Standing.GOOD or rung.power == layout.ladder.start
    colour = palette.accent if is_chosen else palette.ink if good else palette.faint_ink
    width = 4.2 if is_chosen else 2.4 if good else 1.3
    dashes = _DASHES_ABOVE if rung.standing is Standing.ABOVE and not is_chosen else SOLID
    if not place.owned:
        colour, width, dashes = palette.accent, 1.8, _DASHES_WISHED
        if place.top_y is not None:
            middle = (left + right) / 2
            sheet.stroke((middle, place.y), (middle, place.top_y), colour, width, order=2.0)
            sheet.stroke((left, place.top_y), (right, place.top_y), colour, width, dashes=dashes, order=2.0)
    if place.words is None:  # a short mark, as on a ruler
        left, width = right - 0.35 * (right - left), min(width, 1.3)
    sheet.stroke((left, place.y), (right, place.y), colour, width, dashes=dashes, order=2.0)
    if place.words is None:
        return
    words_colour = colour if is_chosen or not good else palette.ink
    if not place.owned:
        words_colour = palette.faint_ink
    _lead(sheet, layout, place.y, place.words_y, colour if is_chosen else palette.line)
    _write_words(sheet, layout, place.words, place.words_y, words_colour)


def _draw_run(sheet: Sheet, layout: LadderLayout, place: RungPlace, top_y: float) -> None:
    """Draw all the powers of an owned zoom as one bar, beside the short marks of its useful stops."""
    palette, (left, right) = sheet.palette, layout.rails
    x = left + (0.2 + 0.14 * place.lane) * (right - left)
    tick = 0.1 * (right - left)
    sheet.stroke((x, place.y), (x, top_y), palette.faint_ink, _RUN_WIDTH, order=1.8)
    for y in (place.y, top_y):
        sheet.stroke((x - tick, y), (x + tick, y), palette.faint_ink, 1.3, order=1.8)
    if place.words is not None:
        _write_words(sheet, layout, place.words, place.words_y, palette.faint_ink)


def _lead(sheet: Sheet, layout: LadderLayout, y: float, words_y: float, colour: str) -> None:
    """Lead the eye from a rung to its words, which may have had to move."""
    start, end = layout.rails[1] + 2.0, layout.words_left - 4.0
    bend, back = start + 0.3 * (end - start), start + 0.7 * (end - start)
    sheet.strokes([[(start, y), (bend, y), (back, words_y), (end, words_y)]], colour, 0.8, order=1.5)


def _write_words(sheet: Sheet, layout: LadderLayout, words: RungWords, y: float, colour: str) -> None:
    faint = (LadderColumn.EXIT_PUPIL, LadderColumn.FIELD, LadderColumn.DRIFT)
    for column, place in layout.columns.items():
        sheet.write(
            cell_fitted(
                sheet.measure,
                words,
                column,
                place.width,
                with_remark=LadderColumn.REMARK not in layout.columns,
            ),
            place.x,
            y,
            lettering_of(words, column),
            sheet.palette.faint_ink if column in faint else colour,
            align=place.align,
        )


def _write_headings(sheet: Sheet, layout: LadderLayout) -> None:
    """Write what each column holds, and how many rungs are only marks."""
    y, colour = layout.box.top - HEADING.line_height / 2, sheet.palette.faint_ink
    for column, place in layout.columns.items():
        sheet.write(
            sheet.measure.fitted(column.value, HEADING, place.width),
            place.x,
            y,
            HEADING,
            colour,
            align=place.align,
        )
    remarks = [SHORT_MARKS.format(count=layout.unnamed)] if layout.unnamed else []
    if any(place.owned and place.top_y is not None for place in layout.rungs):
        remarks.append(ZOOM_BARS)
    if layout.brief and any(place.rung.standing is Standing.ABOVE for place in layout.rungs):
        remarks.append(DASHED)
    if layout.brief and any(not place.owned for place in layout.rungs):
        remarks.append(MARKED_NEW)
    right = layout.words_left - REMARKS_AWAY
    for words in remarks:
        for line in sheet.measure.wrapped(words, HEADING, right - layout.box.left):
            sheet.write(line, right, y, HEADING, colour, align="right")
            y -= HEADING.line_height


def _write_no_rungs(sheet: Sheet, layout: LadderLayout) -> None:
    """Write why the ladder is empty in place of its rungs."""
    left, width = layout.words_left, layout.box.right - layout.words_left
    words = " ".join(ladder_notice_texts(layout.ladder)) or NO_POWER
    y = (layout.scale.bottom + layout.scale.top) / 2
    for line in sheet.measure.wrapped(words, FIGURE, width):
        sheet.write(line, left, y, FIGURE, sheet.palette.ink, align="left")
        y -= FIGURE.line_height


def _targets(layout: LadderLayout) -> list[_Target]:
    targets = []
    left, right = layout.rails
    for place in layout.rungs:
        if not place.owned or place.top_y is not None:
            continue
        targets.append(_Target(Box(left, place.y - _NEAR, right + 2.0, place.y + _NEAR), place.rung))
        if place.words is not None:
            y, half = place.words_y, ROW / 2
            targets.append(_Target(Box(right + 2.0, y - half, layout.right, y + half), place.rung))
    return targets
