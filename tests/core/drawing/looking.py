"""Look at a drawing as a fussy reader would: is a word cut off, does one lie on another?"""

from itertools import combinations

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from numpy.typing import NDArray

from core.drawing.ladder import LadderChart
from core.drawing.marks import Drawing, Page, Words
from core.drawing.paper import figure_of, paper
from core.ladder.ladder import Rung

# A hair's breadth: letters of neighbours may share the anti-aliased edge of their boxes.
TOUCH_PX = 0.75
DOTS_PER_INCH = 100
POINTS_PER_PIXEL = 72 / DOTS_PER_INCH
PIXELS_PER_POINT = DOTS_PER_INCH / 72


def page_of(width_px: int, height_px: int) -> Page:
    """Return a page of paper as wide and high as a place in the window."""
    return paper(width_px * POINTS_PER_PIXEL, height_px * POINTS_PER_PIXEL)


def pixels(drawing: Drawing, *, dots_per_inch: float = DOTS_PER_INCH) -> NDArray[np.uint8]:
    """Return a drawing on paper as (height, width, 4) bytes, top row first."""
    canvas = figure_of(drawing, dots_per_inch=dots_per_inch).canvas
    assert isinstance(canvas, FigureCanvasAgg)
    canvas.draw()
    return np.asarray(canvas.buffer_rgba()).copy()


def faults(drawing: Drawing) -> list[str]:
    """Draw on paper, coarse and fine, and return one sentence for each word cut off or lying on another."""
    return [fault for scale in (1.0, 1.5) for fault in _faults(drawing, scale)]


def _faults(drawing: Drawing, scale: float) -> list[str]:
    figure = figure_of(drawing, dots_per_inch=DOTS_PER_INCH * scale)
    texts = [text for text in figure.findobj(Text) if text.get_text()]
    assert [text.get_text() for text in texts] == words_of(drawing)
    found = []
    boxes = [(text.get_text(), text.get_window_extent()) for text in texts]
    for words, box in boxes:
        if box.x0 < 0 or box.y0 < 0 or box.x1 > figure.bbox.width or box.y1 > figure.bbox.height:
            found.append(f"cut off: {words!r}")
    for (one, a), (other, b) in combinations(boxes, 2):
        across = min(a.x1, b.x1) - max(a.x0, b.x0)
        up = min(a.y1, b.y1) - max(a.y0, b.y0)
        if across > TOUCH_PX and up > TOUCH_PX:
            found.append(f"{one!r} lies on {other!r}")
    return found


def words_of(drawing: Drawing) -> list[str]:
    """Return the words of a drawing in the order written."""
    return [words.text for words in drawing.words]


def the_words(drawing: Drawing, text: str) -> Words:
    """Return the first words of a drawing that say just that."""
    return next(words for words in drawing.words if words.text == text)


def rung_place(chart: LadderChart, rung: Rung) -> tuple[float, float]:
    """Return the middle of a rung's line, points; ValueError for a rung that is not drawn."""
    for layout in chart.layouts:
        for place in layout.rungs:
            if place.rung is rung:
                return sum(layout.rails) / 2, place.y
    raise ValueError(f"no rung of {rung.power:g}x on this drawing")
