"""Computed pictures laid on a drawing: the whole field with its directions, and a window into the sky."""

from typing import Final

import numpy as np
from matplotlib.colors import LinearSegmentedColormap, Normalize
from matplotlib.image import BboxImage
from matplotlib.patches import Circle
from matplotlib.transforms import Affine2D, Bbox, TransformedBbox

from core.drawing.lettering import Lettering, width_of
from core.drawing.palette import Palette, PaletteName
from core.drawing.pen import POINTS_PER_INCH, SOLID, Pen
from core.drawing.placing import Box
from core.looks.picture.known_sizes import NAKED_EYE_MOON_ARCMIN
from core.looks.picture.sight import Sight, Values
from core.looks.picture.turn import DRIFT_ANGLE_DEG
from core.sky.bodies import Body

# A hint of each body's colour, for palettes that have colour: the brightest tone of its picture.
_TINT: Final = {
    Body.MERCURY: "#e6e0d8",
    Body.VENUS: "#fdf8e8",
    Body.MARS: "#f7c39a",
    Body.JUPITER: "#f8ead2",
    Body.SATURN: "#f5e7bd",
    Body.URANUS: "#cfeeee",
    Body.NEPTUNE: "#b9cdf8",
    Body.MOON: "#f0efec",
    Body.SUN: "#ffffff",
}
# Screens and printers show about the 2.2th power of a tone: this gives brightness back nearly as it is,
# with a little contrast added (ours).
_GAMMA: Final = 0.55

_SMALL: Final = Lettering(8.0)
_NORTH: Final = Lettering(9.0, bold=True)
# Room around the field for the letter that marks north, points.
_RIM: Final = 13.0
_IMAGE_ORDER: Final = 3.0
_DASHES: Final = (0.0, (3.0, 2.0))
_LEAST_DASHED: Final = 7.0  # points across: a smaller circle would be two dashes


def draw_field_picture(pen: Pen, sight: Sight, picture: Values, box: Box) -> None:
    """Draw the whole field to scale in a square, with north and the drift marked.

    ``picture`` shows just the field, which must be known.
    """
    assert sight.true_field_deg is not None  # nothing is drawn of a field that is not known
    x, y = box.middle
    radius = box.width / 2.0 - _RIM
    pen.circle(x, y, radius, pen.palette.disc_field, edge=pen.palette.line)
    _lay(pen, sight, picture, Box.around(x, y, 2.0 * radius, 2.0 * radius), round_radius=radius)
    points_per_arcsec = radius / (sight.true_field_deg * 1800.0)
    for _, right, up in sight.moon_places_arcsec():
        across, high = right * points_per_arcsec, up * points_per_arcsec
        if np.hypot(across, high) < radius - 2.0:
            pen.circle(x + across, y + high, 0.8, _tint(sight, pen.palette), order=_IMAGE_ORDER + 1.0)
    right, up = sight.turn.direction(0.0)
    reach = radius + 0.55 * _RIM
    pen.write("N", x + right * reach, y + up * reach, _NORTH, pen.palette.ink)
    if not sight.scope.driven:
        _mark_drift(pen, sight, x, y, radius)


def _mark_drift(pen: Pen, sight: Sight, x: float, y: float, radius: float) -> None:
    """Draw an arrow inside the field towards the west, beside the middle so that nothing lies under it."""
    right, up = sight.turn.direction(DRIFT_ANGLE_DEG)
    start, end = 0.42 * radius, 0.42 * radius + max(0.28 * radius, 12.0)
    tip = np.array([x + right * end, y + up * end])
    tail = np.array([x + right * start, y + up * start])
    back, across = np.array([-right, -up]), np.array([-up, right])
    barbs = [tip + 5.0 * back + side * 3.0 * across for side in (1.0, -1.0)]
    ink = pen.palette.surface if pen.palette.name is PaletteName.DAY else pen.palette.ink
    lines = [np.array([tail, tip]), np.array([barbs[0], tip, barbs[1]])]
    pen.strokes(lines, ink, 1.0, order=_IMAGE_ORDER + 1.0)
    half = np.array([width_of("drift", _SMALL), _SMALL.line_height]) / 2.0
    side = 1.0 if across[1] >= 0.0 else -1.0
    word = (tip + tail) / 2.0 + side * (3.0 + abs(across) @ half) * across
    farthest = np.abs(word - np.array([x, y])) + half
    if np.hypot(*farthest) < radius:  # in a very small field the arrow stands alone
        pen.write("drift", float(word[0]), float(word[1]), _SMALL, ink)


def draw_window(
    pen: Pen, sight: Sight, picture: Values, box: Box, window_deg: float, *, edge: str | None = None
) -> None:
    """Draw a window of the sky so many degrees wide to the eye, and the naked eye's Moon at that scale."""
    pen.fill(box, pen.palette.disc_field)
    _lay(pen, sight, picture, box)
    _frame(pen, box, edge or pen.palette.line, 0.8 if edge is None else 2.0)
    moon = NAKED_EYE_MOON_ARCMIN / 60.0 / window_deg * box.width
    if moon > box.width:
        return
    x, y = box.middle
    if moon < 0.35 * box.width:
        x, y = box.left + moon / 2.0 + 5.0, box.bottom + moon / 2.0 + 5.0
    light = pen.palette.line if pen.palette.name is PaletteName.DAY else pen.palette.faint_ink
    turns = np.linspace(0.0, 2.0 * np.pi, 97)
    outline = np.column_stack([x + moon / 2.0 * np.cos(turns), y + moon / 2.0 * np.sin(turns)])
    dashes = _DASHES if moon >= _LEAST_DASHED else SOLID
    pen.strokes([outline], light, 0.8, dashes=dashes, order=_IMAGE_ORDER + 1.0)


def _frame(pen: Pen, box: Box, colour: str, width: float) -> None:
    corners = [
        (box.left, box.bottom),
        (box.right, box.bottom),
        (box.right, box.top),
        (box.left, box.top),
        (box.left, box.bottom),
    ]
    pen.strokes([corners], colour, width, order=_IMAGE_ORDER + 0.5)


def _tint(sight: Sight, palette: Palette) -> str:
    return palette.ink if palette.name is PaletteName.NIGHT else _TINT[sight.subject.disc.body]


def _lay(pen: Pen, sight: Sight, picture: Values, box: Box, *, round_radius: float | None = None) -> None:
    """Lay a picture into a square, cut to a circle where its radius is given."""
    points = Affine2D().scale(1.0 / POINTS_PER_INCH) + pen.figure.dpi_scale_trans
    colours = [pen.palette.disc_field, _tint(sight, pen.palette)]
    image = BboxImage(
        TransformedBbox(Bbox.from_extents(box.left, box.bottom, box.right, box.top), points),
        cmap=LinearSegmentedColormap.from_list("", colours),
        norm=Normalize(0.0, 1.0),
        interpolation="antialiased",
        origin="upper",
        zorder=_IMAGE_ORDER,
    )
    image.set_data((picture / (float(picture.max()) or 1.0)) ** _GAMMA)
    pen.figure.add_artist(image, clip=False)
    if round_radius is not None:
        image.set_clip_path(Circle(box.middle, round_radius, transform=points))
