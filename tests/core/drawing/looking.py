"""Look at a drawing as a fussy reader would: is a word cut off, does one lie on another?"""

from collections.abc import Sequence
from itertools import combinations

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.text import Text
from numpy.typing import NDArray

# A hair's breadth: letters of neighbours may share the anti-aliased edge of their boxes.
TOUCH_PX = 0.75


def figure_of(width_px: int, height_px: int, scale: float = 1.0) -> Figure:
    """Return a figure as wide and high as a place in the window, at a screen scale (1.5: 150 dpi)."""
    figure = Figure(figsize=(width_px / 100, height_px / 100), dpi=100 * scale)
    FigureCanvasAgg(figure)
    return figure


def pixels(figure: Figure) -> NDArray[np.uint8]:
    """Return the drawn figure as (height, width, 4) bytes, top row first."""
    assert isinstance(figure.canvas, FigureCanvasAgg)
    figure.canvas.draw()
    return np.asarray(figure.canvas.buffer_rgba()).copy()


def faults(figure: Figure, texts: Sequence[Text]) -> list[str]:
    """Draw a figure and return one sentence for each word that is cut off or lies on another."""
    pixels(figure)
    drawn = figure.findobj(Text)
    unknown = [text.get_text() for text in drawn if text.get_text() and text not in texts]
    found = [f"not among the chart's texts: {text!r}" for text in unknown]
    boxes = [(text.get_text(), text.get_window_extent()) for text in texts if text.get_visible()]
    for words, box in boxes:
        if box.x0 < 0 or box.y0 < 0 or box.x1 > figure.bbox.width or box.y1 > figure.bbox.height:
            found.append(f"cut off: {words!r}")
    for (one, a), (other, b) in combinations(boxes, 2):
        across = min(a.x1, b.x1) - max(a.x0, b.x0)
        up = min(a.y1, b.y1) - max(a.y0, b.y0)
        if across > TOUCH_PX and up > TOUCH_PX:
            found.append(f"{one!r} lies on {other!r}")
    return found


def words_of(texts: Sequence[Text]) -> list[str]:
    """Return the words of a drawing in the order written."""
    return [text.get_text() for text in texts]
