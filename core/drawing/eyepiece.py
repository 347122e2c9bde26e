"""The picture in the eyepiece: the whole field, and what the planet looks like in the middle of it."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from attrs import frozen
from matplotlib.colors import LinearSegmentedColormap, Normalize
from matplotlib.figure import Figure
from matplotlib.image import BboxImage
from matplotlib.patches import Circle
from matplotlib.text import Text
from matplotlib.transforms import Affine2D, Bbox, TransformedBbox

from core.drawing.lettering import Lettering, width_of, wrapped
from core.drawing.palette import Palette, PaletteName
from core.drawing.pen import POINTS_PER_INCH, Pen
from core.drawing.placing import Box
from core.kit.rounding import field_text, power_text
from core.picture.known_sizes import NAKED_EYE_MOON_ARCMIN, against_moon, angle_text
from core.picture.sight import Sight, Values, window_for
from core.picture.turn import DRIFT_ANGLE_DEG
from core.sky.bodies import Body
from core.wording import opening

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

_STEPS_WORDS: Final = "All at one scale; dashed: the Moon to the naked eye at the same scale."

_WORDS: Final = Lettering(9.0)
_SMALL: Final = Lettering(8.0)
_MARK: Final = Lettering(9.0, bold=True)
_EDGE: Final = 10.0
_LINE: Final = 13.0
_GAP: Final = 6.0
_IMAGE_ORDER: Final = 3.0


@frozen
class EyepieceDrawing:
    """A drawn eyepiece; ``texts`` are its words, the boxes are where the pictures lie, points."""

    texts: list[Text]
    field: Box | None
    close_ups: tuple[Box, ...]


def draw_eyepiece(
    figure: Figure, sight: Sight, *, palette: Palette, window_deg: float | None = None
) -> EyepieceDrawing:
    """Draw one power: the field in a circle, and beside or under it the middle of it, enlarged.

    ``window_deg`` is how wide the enlarged part is to the eye; left out, the body has room in it.
    """
    pen = Pen(figure, palette)
    room = pen.page.grown(-_EDGE)
    lines = wrapped(_words(sight), _WORDS, room.width)
    under = _WORDS.line_height * len(lines)
    field, close = _places(Box(room.left, room.bottom + under + _GAP, room.right, room.top))
    draw_field_picture(pen, sight, field)
    _draw_close_up(pen, sight, close, window_deg or max(window_for(sight.subject, sight.power), 1.0))
    for row, line in enumerate(lines):
        y = room.bottom + under - _WORDS.line_height * (row + 0.5)
        pen.write(line, room.left, y, _WORDS, palette.ink, align="left")
    return EyepieceDrawing(pen.texts, field, (close,))


def draw_steps(figure: Figure, sights: Sequence[Sight], *, palette: Palette) -> EyepieceDrawing:
    """Draw several powers side by side at one scale, as large as each looks: bigger, but softer."""
    pen = Pen(figure, palette)
    room = pen.page.grown(-_EDGE)
    window_deg = max(window_for(sight.subject, sight.power) for sight in sights)
    count = len(sights)
    side = min((room.width - _GAP * (count - 1)) / count, room.height - 3.2 * _LINE)
    left = room.left + (room.width - side * count - _GAP * (count - 1)) / 2.0
    boxes = []
    for index, sight in enumerate(sights):
        start = left + index * (side + _GAP)
        box = Box(start, room.top - side, start + side, room.top)
        boxes.append(box)
        _draw_close_up(pen, sight, box, window_deg)
        middle, _ = _middle(box)
        size = angle_text(sight.apparent_diameter_arcmin)
        pen.write(power_text(sight.power), middle, box.bottom - 0.6 * _LINE, _MARK, palette.ink)
        pen.write(f"looks {size} across", middle, box.bottom - 1.6 * _LINE, _SMALL, palette.faint_ink)
    lowest = room.top - side - 2.7 * _LINE
    pen.write(_STEPS_WORDS, room.left, lowest, _SMALL, palette.faint_ink, align="left")
    return EyepieceDrawing(pen.texts, None, tuple(boxes))


def _words(sight: Sight) -> str:
    """Return what stands under the pictures."""
    shown = power_text(sight.power)
    if sight.true_field_deg is not None:
        shown += f", field {field_text(sight.true_field_deg)}"
    up = "" if sight.zenith_angle_deg is not None else " (north taken for up)"
    size = f"{angle_text(sight.apparent_diameter_arcmin)} across"
    if sight.subject.ring is not None:
        size += f" (with its ring {angle_text(sight.apparent_extent_deg * 60.0)})"
    return (
        f"{shown}: {opening(sight.subject.disc.body)} looks {size},"
        f" {against_moon(sight.apparent_diameter_arcmin)} (dashed)."
        f" Seen {sight.turn.turning.words}{up}."
    )


def _places(room: Box) -> tuple[Box, Box]:
    """Return the squares for the field and the enlarged part: side by side, or one over the other."""
    gap = 10.0
    if room.width >= room.height:
        side = min((room.width - gap) / 2.0, room.height)
        middle, left = (room.bottom + room.top) / 2.0, room.left + (room.width - 2.0 * side - gap) / 2.0
        first = Box(left, middle - side / 2.0, left + side, middle + side / 2.0)
        return first, Box(first.right + gap, first.bottom, first.right + gap + side, first.top)
    side = min((room.height - gap) / 2.0, room.width)
    left = room.left + (room.width - side) / 2.0
    first = Box(left, room.top - side, left + side, room.top)
    return first, Box(left, first.bottom - gap - side, left + side, first.bottom - gap)


def _middle(box: Box) -> tuple[float, float]:
    return (box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0


def draw_field_picture(pen: Pen, sight: Sight, box: Box) -> None:
    """Draw the whole field to scale in a square, with north and the drift marked; or that it is not known."""
    field_deg = sight.true_field_deg
    if field_deg is None:
        pen.write("field not known", *_middle(box), _WORDS, pen.palette.faint_ink)
        return
    radius = box.width / 2.0 - _LINE
    inner = Box.around(*_middle(box), 2.0 * radius, 2.0 * radius)
    x, y = _middle(box)
    pen.circle(x, y, radius, pen.palette.disc_field, edge=pen.palette.line)
    picture = sight.window(field_deg * sight.power)
    _draw_picture(pen, sight, picture, inner, round_radius=radius)
    points_per_arcsec = radius / (field_deg * 1800.0)
    tint = _tint(sight, pen.palette)
    for _, right, up in sight.moon_places_arcsec():
        across, high = right * points_per_arcsec, up * points_per_arcsec
        if np.hypot(across, high) < radius - 2.0:
            pen.circle(x + across, y + high, 0.8, tint, order=_IMAGE_ORDER + 1.0)
    _mark_north(pen, sight, x, y, radius)
    if not sight.scope.driven:
        _mark_drift(pen, sight, x, y, radius)


def _mark_north(pen: Pen, sight: Sight, x: float, y: float, radius: float) -> None:
    right, up = sight.turn.direction(0.0)
    pen.write(
        "N", x + right * (radius + 0.55 * _LINE), y + up * (radius + 0.55 * _LINE), _MARK, pen.palette.ink
    )


def _mark_drift(pen: Pen, sight: Sight, x: float, y: float, radius: float) -> None:
    """Draw an arrow inside the field towards the west, beside the middle so that nothing lies under it."""
    right, up = sight.turn.direction(DRIFT_ANGLE_DEG)
    start, end = 0.62 * radius, 0.9 * radius
    tip = np.array([x + right * end, y + up * end])
    tail = np.array([x + right * start, y + up * start])
    back, across = np.array([-right, -up]), np.array([-up, right])
    barbs = [tip + 5.0 * back + side * 3.0 * across for side in (1.0, -1.0)]
    ink = pen.palette.surface if pen.palette.name is PaletteName.DAY else pen.palette.ink
    lines = [np.array([tail, tip]), np.array([barbs[0], tip, barbs[1]])]
    pen.strokes(lines, ink, 1.0, order=_IMAGE_ORDER + 1.0)
    side = 1.0 if across[1] >= 0.0 else -1.0
    clear = 3.0 + abs(across[0]) * width_of("drift", _SMALL) / 2.0 + abs(across[1]) * _SMALL.line_height / 2.0
    word = (tip + tail) / 2.0 + side * clear * across
    pen.write("drift", float(word[0]), float(word[1]), _SMALL, ink)


def _draw_close_up(pen: Pen, sight: Sight, box: Box, window_deg: float) -> None:
    """Draw a window of the sky so many degrees wide to the eye, and the naked eye's Moon at that scale."""
    pen.fill(box, pen.palette.disc_field, edge=pen.palette.line)
    _draw_picture(pen, sight, sight.window(window_deg), box)
    moon = NAKED_EYE_MOON_ARCMIN / 60.0 / window_deg * box.width
    if moon > box.width:
        return
    x, y = _middle(box)
    if moon < 0.35 * box.width:
        x, y = box.left + moon / 2.0 + 5.0, box.bottom + moon / 2.0 + 5.0
    light = pen.palette.line if pen.palette.name is PaletteName.DAY else pen.palette.faint_ink
    _ring(pen, x, y, moon / 2.0, light)


def _ring(pen: Pen, x: float, y: float, radius: float, colour: str) -> None:
    turns = np.linspace(0.0, 2.0 * np.pi, 97)
    outline = np.column_stack([x + radius * np.cos(turns), y + radius * np.sin(turns)])
    pen.strokes([outline], colour, 0.8, dashes=(0.0, (3.0, 2.0)), order=_IMAGE_ORDER + 1.0)


def _tint(sight: Sight, palette: Palette) -> str:
    return palette.ink if palette.name is PaletteName.NIGHT else _TINT[sight.subject.disc.body]


def _draw_picture(
    pen: Pen, sight: Sight, picture: Values, box: Box, *, round_radius: float | None = None
) -> None:
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
        image.set_clip_path(Circle(_middle(box), round_radius, transform=points))
