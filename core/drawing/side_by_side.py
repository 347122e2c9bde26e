"""Two ladders on one scale of power, so that they can be compared at a glance."""

from collections.abc import Sequence

from matplotlib.figure import Figure

from core.drawing.ladder import LadderChart, draw_layout
from core.drawing.ladder_layout import lay_out_ladder, power_range
from core.drawing.lettering import Lettering, fitted, legible
from core.drawing.palette import Palette
from core.drawing.pen import Pen
from core.drawing.placing import Box
from core.kit.compare import Comparison
from core.kit.ladder import Rung

_MARGIN = 8.0
_BETWEEN = 18.0
_TITLE = Lettering(12.0, bold=True)


def draw_two_ladders(
    figure: Figure,
    comparison: Comparison,
    *,
    palette: Palette,
    wished: tuple[Sequence[Rung], Sequence[Rung]] = ((), ()),
) -> LadderChart:
    """Draw both telescopes' ladders on a figure, which is cleared first, and return the chart.

    Both stand on one logarithmic scale, each with its own limits and its telescope's name on top, and with
    the rungs that one more thing would give it.
    """
    pen = Pen(figure, palette)
    page = pen.page
    ladders = (comparison.a.ladder, comparison.b.ladder)
    powers = power_range(ladders, [*wished[0], *wished[1]])
    middle = (page.left + page.right) / 2
    halves = ((page.left + _MARGIN, middle - _BETWEEN / 2), (middle + _BETWEEN / 2, page.right - _MARGIN))
    top = page.top - _MARGIN - _TITLE.line_height - 4.0
    layouts = []
    for number, (ladder, (left, right)) in enumerate(zip(ladders, halves, strict=True)):
        layout = lay_out_ladder(
            ladder,
            Box(left, page.bottom + _MARGIN, right, top),
            powers=powers,
            wished=wished[number],
            explain_air=number == 0,
        )
        name = fitted(legible(ladder.scope.name), _TITLE, right - left)
        pen.write(name, left, page.top - _MARGIN - _TITLE.line_height / 2, _TITLE, palette.ink, align="left")
        draw_layout(pen, layout)
        layouts.append(layout)
    pen.stroke((middle, page.bottom + _MARGIN), (middle, page.top - _MARGIN), palette.line, 0.8)
    return LadderChart(pen, layouts)
