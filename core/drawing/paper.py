"""The pen for paper: draws marks with Matplotlib, as PDF, SVG or PNG, and measures its letters."""

import io
from collections.abc import Sequence
from functools import cache, lru_cache
from typing import Any, Final

import numpy as np
from matplotlib import rc_context
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, fontManager, get_font
from matplotlib.image import BboxImage, imsave
from matplotlib.patches import Circle as CirclePatch
from matplotlib.patches import Patch, PathPatch, Rectangle
from matplotlib.path import Path
from matplotlib.textpath import text_to_path
from matplotlib.transforms import Affine2D, Bbox, Transform, TransformedBbox

from core.drawing.lettering import NO_GLYPH, Lettering, Measure, one_line
from core.drawing.marks import (
    EDGE_WIDTH,
    Area,
    Circle,
    Dashes,
    Drawing,
    Fill,
    Mark,
    Page,
    Picture,
    Strokes,
    Words,
)
from core.drawing.paper_sizes import POINTS_PER_INCH

FAMILY: Final = "DejaVu Sans"  # shipped with Matplotlib, the same on every machine
# Hinting at a coarse resolution widens letters by up to this much over their design.
_HINTING: Final = 1.045
_DOTS_PER_INCH: Final = 150.0
FORMATS: Final = ("pdf", "png", "svg")
# The same drawing gives the same file: nothing in it tells when it was made.
_METADATA: Final[dict[str, dict[str, None]]] = {
    "pdf": {"CreationDate": None, "ModDate": None},
    "png": {},
    "svg": {"Date": None},
}
_SETTINGS: Final[dict[Any, Any]] = {
    "svg.hashsalt": "stillair",  # elements of an SVG are named from this, else by chance
    "svg.fonttype": "none",
    "pdf.fonttype": 42,
}


class PaperMeasure(Measure):
    """Measures letters as Matplotlib writes them."""

    def width(self, text: str, lettering: Lettering) -> float:
        """Return the width of a line, points, with what hinting may add to it."""
        if not text:
            return 0.0
        return _width_of_point_letters(text, bold=lettering.bold) * lettering.size * _HINTING + 0.5

    def legible(self, text: str) -> str:
        """Return a text as one line; a box stands for what no installed font can write."""
        return _legible(text)


def paper(width: float, height: float) -> Page:
    """Return a page of paper of that size in points."""
    return Page(width=width, height=height, measure=PaperMeasure())


def file_content(drawing: Drawing, file_format: str) -> bytes:
    """Return a drawing as a file of one of the ``FORMATS``; the same drawing always gives the same bytes."""
    figure = figure_of(drawing)
    content = io.BytesIO()
    with rc_context(_SETTINGS):
        figure.savefig(content, format=file_format, metadata=_METADATA[file_format])
    return content.getvalue()


def pdf_of_pages(drawings: Sequence[Drawing]) -> bytes:
    """Return drawings as the pages of one PDF."""
    # It takes half a second to load, and pictures do without it.
    from matplotlib.backends.backend_pdf import PdfPages

    content = io.BytesIO()
    with rc_context(_SETTINGS), PdfPages(content, metadata=_METADATA["pdf"]) as pages:
        for drawing in drawings:
            pages.savefig(figure_of(drawing))
    return content.getvalue()


def png_of_pages(drawings: Sequence[Drawing], *, dots_per_inch: float = _DOTS_PER_INCH) -> bytes:
    """Return drawings of one height as one PNG, side by side."""
    pictures = []
    for drawing in drawings:
        canvas = FigureCanvasAgg(figure_of(drawing, dots_per_inch=dots_per_inch))
        canvas.draw()
        pictures.append(np.asarray(canvas.buffer_rgba())[..., :3])
    content = io.BytesIO()
    imsave(content, np.concatenate(pictures, axis=1), format="png", dpi=dots_per_inch)
    return content.getvalue()


def figure_of(drawing: Drawing, *, dots_per_inch: float = _DOTS_PER_INCH) -> Figure:
    """Return a drawing as a figure of Matplotlib's, as large as its page."""
    page = drawing.page
    figure = Figure(
        figsize=(page.width / POINTS_PER_INCH, page.height / POINTS_PER_INCH),
        dpi=dots_per_inch,
        facecolor=drawing.ground,
    )
    FigureCanvasAgg(figure)
    points = Affine2D().scale(1 / POINTS_PER_INCH) + figure.dpi_scale_trans
    for number, mark in enumerate(drawing.marks):
        _draw(figure, mark, points, number)
    return figure


def _draw(figure: Figure, mark: Mark, points: Transform, order: int) -> None:
    if isinstance(mark, Words):
        _write(figure, mark, points, order)
    elif isinstance(mark, Picture):
        _lay(figure, mark, points, order)
    else:
        patch = _patch(mark)
        patch.set_transform(points)
        patch.set_zorder(order)
        figure.add_artist(patch, clip=False)


def _patch(mark: Strokes | Fill | Area | Circle) -> Patch:
    if isinstance(mark, Strokes):
        return PathPatch(
            Path.make_compound_path(*(Path(line) for line in mark.lines)),
            fill=False,
            edgecolor=mark.colour,
            linewidth=mark.width,
            linestyle=_line_style(mark.dashes),
            alpha=mark.alpha,
            capstyle="butt",
            joinstyle="round",
        )
    if isinstance(mark, Area):
        return PathPatch(
            Path(mark.outline), facecolor=mark.colour, edgecolor="none", linewidth=0.0, alpha=mark.alpha
        )
    edge, width = mark.edge or "none", EDGE_WIDTH if mark.edge else 0.0
    if isinstance(mark, Circle):
        return CirclePatch(
            (mark.x, mark.y), mark.radius, facecolor=mark.colour, edgecolor=edge, linewidth=width
        )
    box = mark.box
    return Rectangle(
        (box.left, box.bottom),
        box.width,
        box.height,
        facecolor=mark.colour,
        edgecolor=edge,
        linewidth=width,
        alpha=mark.alpha,
    )


def _line_style(dashes: Dashes) -> tuple[float, Sequence[float] | None]:
    return (0.0, dashes or None)


def _write(figure: Figure, words: Words, points: Transform, order: int) -> None:
    # No text is ever read as a formula: names are the owner's own and may hold any sign.
    figure.text(
        words.x,
        words.y,
        words.text,
        color=words.colour,
        fontproperties=_font_of(words.text, words.lettering),
        horizontalalignment=words.align,
        verticalalignment="center",
        rotation=words.rotation_deg,
        parse_math=False,
        transform=points,
        zorder=order,
    )


def _lay(figure: Figure, picture: Picture, points: Transform, order: int) -> None:
    box = picture.box
    image = BboxImage(
        TransformedBbox(Bbox.from_extents(box.left, box.bottom, box.right, box.top), points),
        interpolation="antialiased",
        origin="upper",
        zorder=order,
    )
    image.set_data(np.ascontiguousarray(picture.pixels))
    figure.add_artist(image, clip=False)
    if picture.is_round:
        image.set_clip_path(CirclePatch(box.middle, box.width / 2, transform=points))


@cache
def _fallback_family(character: str) -> str | None:
    """Return an installed family that can write a character which the usual one cannot."""
    for entry in fontManager.ttflist:
        if entry.style != "normal" or entry.name.startswith("Last Resort"):
            continue
        try:
            font = get_font(entry.fname)
        except (OSError, RuntimeError):  # a font removed or broken since the list was made
            continue
        if font.scalable and font.get_char_index(ord(character)):
            return str(entry.name)
    return None


def _is_written(character: str) -> bool:
    return bool(get_font(findfont(FontProperties(family=FAMILY))).get_char_index(ord(character)))


@lru_cache(maxsize=4096)
def _legible(text: str) -> str:
    return "".join(
        letter if letter.isascii() or _is_written(letter) or _fallback_family(letter) else NO_GLYPH
        for letter in one_line(text)
    )


def families(text: str) -> tuple[str, ...]:
    """Return the font families that are needed to write a text, the usual one first."""
    strange = (character for character in text if not character.isascii() and not _is_written(character))
    others = (_fallback_family(character) for character in strange)
    return (FAMILY, *dict.fromkeys(family for family in others if family is not None))


def _font_of(text: str, lettering: Lettering) -> FontProperties:
    weight = "bold" if lettering.bold else "normal"
    return FontProperties(family=list(families(text)), size=lettering.size, weight=weight)


@lru_cache(maxsize=8192)
def _width_of_point_letters(text: str, *, bold: bool) -> float:
    """Return the width of a line in letters of one point, which grows with them."""
    font = _font_of(text, Lettering(1.0, bold=bold))
    width, _, _ = text_to_path.get_text_width_height_descent(text, font, ismath=False)
    return float(width)
