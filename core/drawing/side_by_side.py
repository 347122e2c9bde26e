"""Two ladders on one scale of power, so that they can be compared at a glance."""

from collections.abc import Sequence

from core.drawing.ladder import LadderChart, draw_layout
from core.drawing.ladder_layout import LadderLayout, lay_out_ladder
from core.drawing.lettering import Lettering
from core.drawing.marks import Page, Sheet
from core.drawing.palette import Palette
from core.drawing.placing import Box
from core.drawing.power_scale import power_range
from core.drawing.zoom_runs import owned_runs
from core.ladder.compare import Comparison
from core.ladder.ladder import Rung

_MARGIN = 8.0
_BETWEEN = 18.0
_TITLE = Lettering(12.0, bold=True)


def draw_two_ladders(
    page: Page,
    comparison: Comparison,
    *,
    palette: Palette,
    wished: tuple[Sequence[Rung], Sequence[Rung]] = ((), ()),
) -> LadderChart:
    """Lay both telescopes' ladders out on a page.

    Both stand on one logarithmic scale, each with its own limits and its telescope's name on top, and with
    the rungs that one more thing would give it.
    """
    sheet = Sheet(page, palette)
    layouts = draw_two_ladders_in(sheet, sheet.page.grown(-_MARGIN), comparison, wished)
    return LadderChart(drawing=sheet.drawing, layouts=layouts)


def draw_two_ladders_in(
    sheet: Sheet, room: Box, comparison: Comparison, wished: tuple[Sequence[Rung], Sequence[Rung]] = ((), ())
) -> tuple[LadderLayout, LadderLayout]:
    """Draw both telescopes' ladders in a part of a sheet, and return where their parts stand."""
    middle = (room.left + room.right) / 2
    powers = power_range(
        (comparison.a.ladder, comparison.b.ladder), [rung for rungs in wished for rung in rungs]
    )
    has_zooms = any(owned_runs(side.ladder) for side in (comparison.a, comparison.b))
    has_wishes = any(powers[0] <= rung.power <= powers[1] for rungs in wished for rung in rungs)

    half = _BETWEEN / 2
    sides = (
        (comparison.a.ladder, room.left, middle - half, wished[0]),
        (comparison.b.ladder, middle + half, room.right, wished[1]),
    )
    top = room.top - _TITLE.line_height - 4.0

    def lay_out(number: int, *, briefly: bool) -> LadderLayout:
        ladder, left, right, wishes = sides[number]
        return lay_out_ladder(
            ladder,
            Box(left, room.bottom, right, top),
            sheet.measure,
            powers=powers,
            wished=wishes,
            explain_air=number == 0,
            leaves_room=has_wishes,
            leaves_zooms=has_zooms,
            briefly=briefly,
        )

    layouts = lay_out(0, briefly=False), lay_out(1, briefly=False)
    if any(layout.brief for layout in layouts):
        # Only with heads of one height do both stand on one scale.
        layouts = lay_out(0, briefly=True), lay_out(1, briefly=True)
    for layout, (ladder, left, right, _wishes) in zip(layouts, sides, strict=True):
        name = sheet.measure.fitted(sheet.measure.legible(ladder.scope.name), _TITLE, right - left)
        sheet.write(name, left, room.top - _TITLE.line_height / 2, _TITLE, sheet.palette.ink, align="left")
        draw_layout(sheet, layout)
    sheet.stroke((middle, room.bottom), (middle, room.top), sheet.palette.line, 0.8)
    return layouts
