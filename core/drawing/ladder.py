"""The power ladder: rungs by the logarithm of power, with the three limits drawn across it."""

from collections.abc import Sequence

from attrs import frozen

from core.drawing.field_circle import draw_field
from core.drawing.ladder_columns import FIGURE, HEADING, LadderColumn, cell_fitted, lettering_of
from core.drawing.ladder_layout import (
    LIMIT,
    ROW,
    SMALL,
    LadderLayout,
    LimitPlace,
    RungPlace,
    lay_out_ladder,
    power_range,
)
from core.drawing.marks import SOLID, Drawing, Page, Sheet
from core.drawing.palette import Palette
from core.drawing.placing import Box
from core.ladder.ladder import Ladder, Rung, Standing
from core.looks.picture.sight import Sight
from core.words.ladder import NOT_OWNED, NOT_TONIGHT
from core.words.notices import ladder_notice_texts

_MARGIN = 8.0
# The eyepiece's field stands at the right of a wide drawing, else in the free room by the limits.
_LEAST_FIELD_WIDTH = 110.0
_MOST_FIELD_WIDTH = 260.0
_WIDE_FOR_FIELD = 520.0
_LEAST_FIELD_HEIGHT = 100.0
_TINT_ABOVE = 0.45
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
    sight: Sight | None = None,
    wished: Sequence[Rung] = (),
) -> LadderChart:
    """Lay one ladder out on a page.

    ``chosen_power`` is where the observer is; ``sight`` is what is seen there, drawn in its field.
    ``wished`` are rungs that one more thing would give, drawn with long dashes.
    """
    sheet = Sheet(page, palette)
    inner = sheet.page.grown(-_MARGIN)
    beside = sight is not None and inner.width >= _WIDE_FOR_FIELD
    words_right = inner.right - (_LEAST_FIELD_WIDTH if beside else 0.0)
    layout = lay_out_ladder(
        ladder,
        Box(inner.left, inner.bottom, words_right, inner.top),
        page.measure,
        powers=power_range([ladder], wished),
        chosen_power=chosen_power,
        wished=wished,
    )
    draw_layout(sheet, layout)
    if sight is not None:
        left = layout.right + 2 * _MARGIN
        right = min(inner.right, left + _MOST_FIELD_WIDTH)
        room = Box(left, inner.bottom, right, inner.top) if beside else layout.free_under_limits
        if room.height >= _LEAST_FIELD_HEIGHT:
            draw_field(sheet, room, sight)
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
    start, end = right + 2.0, layout.words_left - 4.0
    bend, back = start + 0.3 * (end - start), start + 0.7 * (end - start)
    sheet.strokes(
        [[(start, place.y), (bend, place.y), (back, place.words_y), (end, place.words_y)]],
        palette.line if not is_chosen else colour,
        0.8,
        order=1.5,
    )
    words_colour = colour if is_chosen or not good else palette.ink
    if not place.owned:
        words_colour = palette.faint_ink
    for column, column_place in layout.columns.items():
        text = cell_fitted(sheet.measure, place.words, column, column_place.width)
        plain = (
            palette.faint_ink
            if column in (LadderColumn.EXIT_PUPIL, LadderColumn.FIELD, LadderColumn.DRIFT)
            else words_colour
        )
        sheet.write(
            text,
            column_place.x,
            place.words_y,
            lettering_of(place.words, column),
            plain,
            align=column_place.align,
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
    remarks = [f"and {layout.unnamed} short marks"] if layout.unnamed else []
    if layout.brief and any(place.rung.standing is Standing.ABOVE for place in layout.rungs):
        remarks.append(f"dashed: {NOT_TONIGHT}")
    if layout.brief and any(not place.owned for place in layout.rungs):
        remarks.append(f"new: {NOT_OWNED}")
    right = layout.words_left - 4.0
    for number, words in enumerate(remarks):
        shown = sheet.measure.fitted(words, HEADING, right - layout.box.left)
        sheet.write(shown, right, y - number * HEADING.line_height, HEADING, colour, align="right")


def _write_no_rungs(sheet: Sheet, layout: LadderLayout) -> None:
    """Write why the ladder is empty in place of its rungs."""
    left, width = layout.words_left, layout.box.right - layout.words_left
    words = " ".join(ladder_notice_texts(layout.ladder)) or "No power to show yet."
    y = (layout.scale.bottom + layout.scale.top) / 2
    for line in sheet.measure.wrapped(words, FIGURE, width):
        sheet.write(line, left, y, FIGURE, sheet.palette.ink, align="left")
        y -= FIGURE.line_height


def _targets(layout: LadderLayout) -> list[_Target]:
    targets = []
    left, right = layout.rails
    for place in layout.rungs:
        if not place.owned:
            continue
        targets.append(_Target(Box(left, place.y - _NEAR, right + 2.0, place.y + _NEAR), place.rung))
        if place.words is not None:
            y, half = place.words_y, ROW / 2
            targets.append(_Target(Box(right + 2.0, y - half, layout.right, y + half), place.rung))
    return targets
