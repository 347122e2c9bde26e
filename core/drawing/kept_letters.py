"""A Matplotlib canvas that keeps the pictures of words it has drawn once.

Most of what a chart takes to draw goes into its letters, and most of its words are the same from one drawing
to the next. Words are drawn once for their font, turn and resolution, standing on whole pixels, and laid down
as pictures from then on. Words with figures in them, such as times, are put together from kept letters.
"""

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Final, Literal

import numpy as np
from attrs import frozen
from matplotlib.backend_bases import GraphicsContextBase
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties
from matplotlib.text import Text
from numpy.typing import NDArray

from core.drawing.lettering import is_plain
from core.drawing.pen import POINTS_PER_INCH

Rgba = tuple[float, float, float, float]

_KEPT: Final = 4096
# Single letters stand on halves of a pixel.
_PARTS: Final = 2


@frozen(eq=False)
class _Picture:
    """Words as rows of pixels, the lowest first, and where in them the words begin.

    Pixels are opacities, or red, green, blue and opacity. ``x`` is counted from the left, ``y`` from the top;
    both may lie outside.
    """

    pixels: NDArray[np.uint8]
    x: int
    y: int


@frozen
class _Hand:
    """How words are written: their font, their turn in degrees, dots per inch."""

    font: FontProperties
    angle_deg: float
    dots_per_inch: float

    @property
    def size_px(self) -> float:
        """The size of the letters."""
        return float(self.font.get_size_in_points() / POINTS_PER_INCH * self.dots_per_inch)


class LettersKeptRenderer(RendererAgg):
    """Draws as Matplotlib does, words as kept pictures."""

    def __init__(self, width: float, height: float, dpi: float) -> None:
        super().__init__(width, height, dpi)  # type: ignore[no-untyped-call]  # Matplotlib has no types here

    def draw_text(
        self,
        gc: GraphicsContextBase,
        x: float,
        y: float,
        s: str,
        prop: FontProperties,
        angle: float,
        ismath: bool | Literal["TeX"] = False,  # noqa: FBT001, FBT002 - as Matplotlib has it
        mtext: Text | None = None,
    ) -> None:
        """Draw one line of words; ``x`` and ``y`` (downwards) are the start of its base line."""
        if ismath or gc.get_alpha() not in (None, 1.0) or not gc.get_antialiased():
            super().draw_text(gc, x, y, s, prop, angle, ismath, mtext)  # type: ignore[no-untyped-call]
            return
        red, green, blue, opacity = gc.get_rgb()
        picture = _coloured(s, _Hand(prop, float(angle), float(self.dpi)), (red, green, blue, opacity))
        left, top = round(x) - picture.x, round(y) - picture.y
        self.draw_image(gc, left, int(self.height) - top - len(picture.pixels), picture.pixels)

    def get_text_width_height_descent(
        self,
        s: str,
        prop: FontProperties,
        ismath: bool | Literal["TeX"],  # noqa: FBT001 - as Matplotlib has it
    ) -> tuple[float, float, float]:
        """Return how wide words are, how high, and how far below their base line they reach, pixels."""
        if ismath or not _is_put_together(s):
            width, height, below = super().get_text_width_height_descent(s, prop, ismath)  # type: ignore[no-untyped-call]
            return width, height, below
        hand = _Hand(prop, 0.0, float(self.dpi))
        width = sum(_advance_px(letter, hand) for letter in s)
        _, height, below = _measured("lp0", hand)
        return width, height, below


@lru_cache(maxsize=_KEPT)
def _coloured(words: str, hand: _Hand, colour: Rgba) -> _Picture:
    plain = _opacities(words, hand)
    red, green, blue, opacity = (round(255 * part) for part in colour)
    pixels = np.empty((*plain.pixels.shape, 4), np.uint8)
    pixels[:] = red, green, blue, 0
    pixels[:, :, 3] = plain.pixels if opacity == 255 else np.rint(plain.pixels * (opacity / 255))
    return _Picture(pixels, plain.x, plain.y)


@lru_cache(maxsize=_KEPT)
def _opacities(words: str, hand: _Hand) -> _Picture:
    if hand.angle_deg == 0.0 and _is_put_together(words):
        return _put_together(words, hand)
    return _drawn(words, hand, 0)


def _is_put_together(words: str) -> bool:
    """Tell whether words are put together from letters: those with figures in them, which change most."""
    return any(letter.isdigit() for letter in words) and is_plain(words)


def _put_together(words: str, hand: _Hand) -> _Picture:
    """Lay kept letters side by side."""
    along, placed = 0.0, []
    for letter in words:
        whole, part = divmod(round(along * _PARTS), _PARTS)
        picture = _letter(letter, hand, part)
        placed.append((picture, whole - picture.x))
        along += _advance_px(letter, hand)
    return _joined(placed)


def _joined(placed: Sequence[tuple[_Picture, int]]) -> _Picture:
    """Join pictures on one base line, each with its place from the left."""
    left = min(start for _, start in placed)
    right = max(start + picture.pixels.shape[1] for picture, start in placed)
    above = max(picture.y for picture, _ in placed)
    below = max(picture.pixels.shape[0] - picture.y for picture, _ in placed)
    # What is let through, not what is covered, multiplies where letters meet.
    through = np.ones((above + below, right - left), np.float32)
    for picture, start in placed:
        rows, columns = picture.pixels.shape
        low = below - (rows - picture.y)
        place = through[low : low + rows, start - left : start - left + columns]
        place *= 1.0 - picture.pixels / np.float32(255.0)
    return _Picture(np.rint(255.0 * (1.0 - through)).astype(np.uint8), -left, above)


@lru_cache(maxsize=_KEPT)
def _letter(letter: str, hand: _Hand, part: int) -> _Picture:
    return _drawn(letter, hand, part)


@lru_cache(maxsize=_KEPT)
def _advance_px(letter: str, hand: _Hand) -> float:
    """Return how far a letter moves the next one on."""
    return _measured(2 * letter, hand)[0] - _measured(letter, hand)[0]


def _measured(words: str, hand: _Hand) -> tuple[float, float, float]:
    page = RendererAgg(1, 1, hand.dots_per_inch)
    width, height, below = page.get_text_width_height_descent(words, hand.font, ismath=False)
    return width, height, below


def _drawn(words: str, hand: _Hand, part: int) -> _Picture:
    """Draw words on nothing, some parts of a pixel to the right, and cut away what stays empty."""
    # No plain letter is wider than that; to measure them would take as long as to draw them.
    reach = 1.5 * len(words) * hand.size_px if is_plain(words) else _measured(words, hand)[0]
    margin, turn = math.ceil(2.0 * hand.size_px), math.radians(hand.angle_deg)
    right, left, up, down = (
        margin + math.ceil(reach * max(share, 0.0))
        for share in (math.cos(turn), -math.cos(turn), math.sin(turn), -math.sin(turn))
    )
    page = RendererAgg(left + right, up + down, hand.dots_per_inch)
    page.draw_text(page.new_gc(), left + part / _PARTS, up, words, hand.font, hand.angle_deg)
    opacities = np.asarray(page.buffer_rgba())[:, :, 3]
    rows, columns = (np.flatnonzero(opacities.any(axis=axis)) for axis in (1, 0))
    if not len(rows):
        return _Picture(np.zeros((1, 1), np.uint8), 0, 0)
    cut = opacities[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    return _Picture(cut[::-1].copy(), left - int(columns[0]), up - int(rows[0]))


class LettersKeptCanvas(FigureCanvasAgg):
    """A canvas that keeps words; its pictures are Matplotlib's, with words moved by half a pixel at most."""

    def __init__(self, figure: Figure) -> None:
        super().__init__(figure)
        self._drawn_for: tuple[float, float, float] | None = None
        self.renderer: RendererAgg

    def get_renderer(self) -> RendererAgg:
        """Return the renderer for the figure as large as it is now."""
        width, height = self.figure.bbox.size
        wanted = (width, height, self.figure.dpi)
        if self._drawn_for != wanted:
            self._drawn_for = wanted
            self.renderer = LettersKeptRenderer(*wanted)
        return self.renderer
