"""A pen that writes and draws on a Matplotlib figure in points, from the lower left corner."""

from collections.abc import Sequence

import numpy as np
from matplotlib.figure import Figure
from matplotlib.patches import Circle, PathPatch, Rectangle
from matplotlib.path import Path
from matplotlib.text import Text
from matplotlib.transforms import Affine2D
from numpy.typing import NDArray

from core.drawing.lettering import Lettering, font_of, legible
from core.drawing.palette import Palette
from core.drawing.placing import Box

POINTS_PER_INCH = 72.0
Dashes = tuple[float, tuple[float, ...] | None]
SOLID: Dashes = (0, None)
_WORDS_ORDER = 9.0  # above every line and tint


class Pen:
    """Draws on one figure, which it clears first; ``texts`` keeps every word written, in order."""

    def __init__(self, figure: Figure, palette: Palette) -> None:
        figure.clear()
        figure.set_facecolor(palette.surface)
        self.figure = figure
        self.palette = palette
        self.texts: list[Text] = []
        self._points = Affine2D().scale(1 / POINTS_PER_INCH) + figure.dpi_scale_trans

    @property
    def page(self) -> Box:
        """The whole figure, points."""
        width, height = self.figure.get_size_inches()
        return Box(0.0, 0.0, float(width) * POINTS_PER_INCH, float(height) * POINTS_PER_INCH)

    def write(
        self,
        text: str,
        x: float,
        y: float,
        lettering: Lettering,
        colour: str,
        *,
        align: str = "center",
        rotation: float = 0.0,
    ) -> Text | None:
        """Write one line, vertically centred on ``y``; nothing is written of an empty text.

        No text is ever read as a formula: names are the owner's own and may hold any sign.
        """
        text = legible(text)
        if not text:
            return None
        written = self.figure.text(
            x,
            y,
            text,
            color=colour,
            fontproperties=font_of(text, lettering),
            horizontalalignment=align,
            verticalalignment="center",
            rotation=rotation,
            parse_math=False,
            transform=self._points,
            zorder=_WORDS_ORDER,
        )
        self.texts.append(written)
        return written

    def strokes(
        self,
        lines: Sequence[Sequence[tuple[float, float]] | NDArray[np.float64]],
        colour: str,
        width: float,
        *,
        dashes: Dashes = SOLID,
        alpha: float = 1.0,
        order: float = 2.0,
    ) -> None:
        """Draw lines, each an array (N, 2) of points."""
        arrays = [np.asarray(line, dtype=np.float64) for line in lines if len(line)]
        if not arrays:
            return
        patch = PathPatch(
            Path.make_compound_path(*(Path(array) for array in arrays)),
            fill=False,
            edgecolor=colour,
            linewidth=width,
            linestyle=dashes,
            alpha=alpha,
            zorder=order,
            capstyle="butt",
            joinstyle="round",
            transform=self._points,
        )
        self.figure.add_artist(patch, clip=False)

    def stroke(
        self,
        start: tuple[float, float],
        end: tuple[float, float],
        colour: str,
        width: float,
        *,
        dashes: Dashes = SOLID,
        order: float = 2.0,
    ) -> None:
        """Draw one straight line."""
        self.strokes([[start, end]], colour, width, dashes=dashes, order=order)

    def fill(
        self,
        box: Box,
        colour: str,
        *,
        alpha: float = 1.0,
        edge: str | None = None,
        dashes: Dashes = SOLID,
        order: float = 1.0,
    ) -> None:
        """Fill a rectangle, with a thin edge where a colour for it is given."""
        patch = Rectangle(
            (box.left, box.bottom),
            box.width,
            box.height,
            facecolor=colour,
            edgecolor=edge or "none",
            linewidth=0.8 if edge else 0.0,
            linestyle=dashes,
            alpha=alpha,
            zorder=order,
            transform=self._points,
        )
        self.figure.add_artist(patch, clip=False)

    def area(
        self, outline: NDArray[np.float64], colour: str, *, alpha: float = 1.0, order: float = 1.0
    ) -> None:
        """Fill what an outline, points (N, 2), goes round."""
        patch = PathPatch(
            Path(outline),
            facecolor=colour,
            edgecolor="none",
            linewidth=0.0,
            alpha=alpha,
            zorder=order,
            transform=self._points,
        )
        self.figure.add_artist(patch, clip=False)

    def circle(
        self, x: float, y: float, radius: float, colour: str, *, edge: str | None = None, order: float = 2.0
    ) -> None:
        """Fill a circle, with a thin edge where a colour for it is given."""
        patch = Circle(
            (x, y),
            radius,
            facecolor=colour,
            edgecolor=edge or "none",
            linewidth=0.8 if edge else 0.0,
            zorder=order,
            transform=self._points,
        )
        self.figure.add_artist(patch, clip=False)
