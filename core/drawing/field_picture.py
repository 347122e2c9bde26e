"""Computed pictures laid on a drawing: the whole field with its directions, and a window into the sky."""

from collections.abc import Callable, Sequence
from itertools import product
from typing import Final

import numpy as np

from core.arrays import Values
from core.drawing.lettering import Lettering
from core.drawing.marks import SOLID, Sheet
from core.drawing.moon_names import write_moon_names
from core.drawing.palette import Palette, PaletteName
from core.drawing.placing import Box
from core.gear.optics import NAKED_EYE_MOON_ARCMIN
from core.looks.picture.colours import brightness_of
from core.looks.picture.sight import Sight
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
_DASHES: Final = (3.0, 2.0)
# From the edge of a window to the circle in its corner, points.
_IN_CORNER: Final = 5.0
_ALIKE: Final = 1e-3
# A body that takes a smaller share of the field is told by its name.
_NAMED_BELOW: Final = 0.12
_LEAST_DASHED: Final = 7.0  # points across: a smaller circle would be two dashes


def draw_field_picture(sheet: Sheet, sight: Sight, picture: Values, box: Box) -> None:
    """Draw the whole field to scale in a square, with north and the drift marked.

    ``picture`` shows just the field, which must be known.
    """
    assert sight.true_field_deg is not None  # nothing is drawn of a field that is not known
    x, y = box.middle
    radius = box.width / 2.0 - _RIM
    sheet.circle(x, y, radius, sheet.palette.disc_field, edge=sheet.palette.line)
    _lay(sheet, sight, picture, Box.around(x, y, 2.0 * radius, 2.0 * radius), is_round=True)
    circle, field_arcsec = Box.around(x, y, 2.0 * radius, 2.0 * radius), sight.true_field_deg * 3600.0
    all_dots = _moon_dots(sight, circle, field_arcsec)
    dots = [dot for dot in all_dots if np.hypot(dot[1] - x, dot[2] - y) < radius - 2.0]
    for _, across, high in dots:
        sheet.circle(across, high, 0.8, _tint(sight, sheet.palette), order=_IMAGE_ORDER + 1.0)
    right, up = sight.turn.direction(0.0)
    reach = radius + 0.55 * _RIM
    sheet.write("N", x + right * reach, y + up * reach, _NORTH, sheet.palette.ink)
    taken = [_body_box(sight, circle, field_arcsec)]
    if not sight.scope.driven:
        taken += _mark_drift(sheet, sight, x, y, radius)

    def is_inside(room: Box) -> bool:
        return bool(np.hypot(*_farthest(room, x, y)) < radius)

    if taken[0].width < _NAMED_BELOW * 2.0 * radius:
        taken += _name_body(sheet, sight, taken, dots, is_inside)
    write_moon_names(sheet, dots, colour=_ink(sheet.palette), taken=taken, is_inside=is_inside)


def _name_body(
    sheet: Sheet,
    sight: Sight,
    taken: Sequence[Box],
    dots: Sequence[tuple[str, float, float]],
    is_inside: Callable[[Box], bool],
) -> list[Box]:
    """Write the name of a body that is small in its field under or over it; return the room that it takes."""
    body, name = taken[0], sight.subject.disc.body.heading
    width, high = sheet.measure.width(name, _SMALL), _SMALL.line_height
    x, y = body.middle
    blocked = [*taken[1:], *(Box.around(across, up, 3.0, 3.0) for _, across, up in dots)]
    # Moons stand about in a line through it, so that a little farther off there mostly is room.
    for off, away in product((1.0, 5.0, 9.0), (-1.0, 1.0)):
        room = Box.around(x, y + away * (body.height / 2.0 + high / 2.0 + off), width, high)
        if is_inside(room) and not any(map(room.touches, blocked)):
            sheet.write(name, *room.middle, _SMALL, _ink(sheet.palette))
            return [room]
    return []


def _farthest(room: Box, x: float, y: float) -> tuple[float, float]:
    """Return how far the farthest corner of a room lies from a point, across and up."""
    return max(x - room.left, room.right - x), max(y - room.bottom, room.top - y)


def _moon_dots(sight: Sight, box: Box, width_arcsec: float) -> list[tuple[str, float, float]]:
    """Return the moons' names and places in a box that is so many arcsec wide."""
    x, y = box.middle
    points = box.width / width_arcsec
    return [(moon, x + right * points, y + up * points) for moon, right, up in sight.moon_places_arcsec()]


def _body_box(sight: Sight, box: Box, width_arcsec: float) -> Box:
    """Return the room that the body takes in a box that is so many arcsec wide."""
    side = sight.subject.extent_arcsec * box.width / width_arcsec
    return Box.around(*box.middle, side, side)


def _ink(palette: Palette) -> str:
    """Return the colour of what is written over the sky, which is dark in every palette."""
    return palette.surface if palette.name is PaletteName.DAY else palette.ink


def _mark_drift(sheet: Sheet, sight: Sight, x: float, y: float, radius: float) -> list[Box]:
    """Draw an arrow inside the field towards the west, beside the middle so that nothing lies under it.

    The room that it takes is returned.
    """
    right, up = sight.turn.direction(DRIFT_ANGLE_DEG)
    start, end = 0.42 * radius, 0.42 * radius + max(0.28 * radius, 12.0)
    tip = np.array([x + right * end, y + up * end])
    tail = np.array([x + right * start, y + up * start])
    back, across = np.array([-right, -up]), np.array([-up, right])
    barbs = [tip + 5.0 * back + side * 3.0 * across for side in (1.0, -1.0)]
    ink = _ink(sheet.palette)
    lines = [np.array([tail, tip]), np.array([barbs[0], tip, barbs[1]])]
    sheet.strokes(lines, ink, 1.0, order=_IMAGE_ORDER + 1.0)
    half = np.array([sheet.measure.width("drift", _SMALL), _SMALL.line_height]) / 2.0
    side = 1.0 if across[1] >= 0.0 else -1.0
    word = (tip + tail) / 2.0 + side * (3.0 + abs(across) @ half) * across
    taken = [Box(*np.minimum(tip, tail), *np.maximum(tip, tail)).grown(3.0)]
    room = Box.around(float(word[0]), float(word[1]), *(2.0 * half))
    if np.hypot(*_farthest(room, x, y)) < radius:  # in a very small field the arrow stands alone
        sheet.write("drift", *room.middle, _SMALL, ink)
        taken.append(room.grown(2.0))
    return taken


def draw_window(
    sheet: Sheet,
    sight: Sight,
    picture: Values,
    box: Box,
    window_deg: float,
    *,
    edge: str | None = None,
    names_moons: bool = False,
) -> None:
    """Draw a window of the sky so many degrees wide to the eye, and the naked eye's Moon at that scale."""
    sheet.fill(box, sheet.palette.disc_field)
    _lay(sheet, sight, picture, box)
    _frame(sheet, box, edge or sheet.palette.line, 0.8 if edge is None else 2.0)
    moon = NAKED_EYE_MOON_ARCMIN / 60.0 / window_deg * box.width
    if names_moons:
        width_arcsec = window_deg * 3600.0 / sight.power
        dots = [dot for dot in _moon_dots(sight, box, width_arcsec) if box.contains(*dot[1:])]
        taken = [_body_box(sight, box, width_arcsec)]
        write_moon_names(sheet, dots, colour=_ink(sheet.palette), taken=taken, is_inside=box.holds)
    if moon > box.width:
        return
    x, y = box.middle
    if moon < 0.35 * box.width:
        x, y = _darkest_corner(picture, box, moon)
    light = sheet.palette.line if sheet.palette.name is PaletteName.DAY else sheet.palette.faint_ink
    turns = np.linspace(0.0, 2.0 * np.pi, 97)
    outline = np.column_stack([x + moon / 2.0 * np.cos(turns), y + moon / 2.0 * np.sin(turns)])
    dashes = _DASHES if moon >= _LEAST_DASHED else SOLID
    sheet.strokes([outline], light, 0.8, dashes=dashes, order=_IMAGE_ORDER + 1.0)


def _darkest_corner(picture: Values, box: Box, moon: float) -> tuple[float, float]:
    """Return the middle of a circle so wide in the corner of a window where least light lies under it."""
    side, whole = picture.shape[0], float(picture.sum()) or 1.0
    edge = max(round((moon + 2.0 * _IN_CORNER) / box.width * side), 1)
    rows, columns = (slice(side - edge, side), slice(0, edge)), (slice(0, edge), slice(side - edge, side))
    reach = moon / 2.0 + _IN_CORNER
    corners = [
        (float(picture[row, column].sum()) / whole, x, y)
        for row, y in zip(rows, (box.bottom + reach, box.top - reach), strict=True)
        for column, x in zip(columns, (box.left + reach, box.right - reach), strict=True)
    ]
    # The lower left is the usual one: another must be clearly darker.
    usual, darkest = corners[0], min(corners)
    _light, x, y = darkest if darkest[0] < usual[0] - _ALIKE else usual
    return x, y


def _frame(sheet: Sheet, box: Box, colour: str, width: float) -> None:
    corners = [
        (box.left, box.bottom),
        (box.right, box.bottom),
        (box.right, box.top),
        (box.left, box.top),
        (box.left, box.bottom),
    ]
    sheet.strokes([corners], colour, width, order=_IMAGE_ORDER + 0.5)


def _tint(sight: Sight, palette: Palette) -> str:
    return palette.ink if palette.name is PaletteName.NIGHT else _TINT[sight.subject.disc.body]


def _lay(sheet: Sheet, sight: Sight, picture: Values, box: Box, *, is_round: bool = False) -> None:
    """Lay a picture (N, N, 3) into a square, cut to the circle in it where it is round."""
    if sheet.palette.name is PaletteName.NIGHT:  # one colour, and as bright as all three together
        picture = np.repeat(brightness_of(picture)[..., np.newaxis], 3, axis=-1)
    dark, light = _rgb(sheet.palette.disc_field), _rgb(_tint(sight, sheet.palette))
    pixels = picture / (float(picture.max()) or 1.0)
    pixels **= _GAMMA
    pixels *= light - dark
    pixels += dark
    sheet.picture(np.rint(pixels, out=pixels).astype(np.uint8), box, is_round=is_round)


def _rgb(colour: str) -> Values:
    return np.array([int(colour[place : place + 2], 16) for place in (1, 3, 5)], dtype=np.float32)
