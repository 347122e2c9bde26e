"""A body as it would look without any blur: brightness on a grid, turned as in the eyepiece.

Brightness is against a matt white ball under the Sun. Where the grid is coarse, the body is painted on a
finer one and averaged, so that its light and its size are kept.
"""

from typing import Final

import numpy as np
from attrs import field, frozen

from core.arrays import Floats, Values
from core.checks import within
from core.looks.picture.companions import companions_of
from core.looks.picture.globe import Globe, globe_light
from core.looks.picture.ringlight import ring_light, ring_shade
from core.looks.picture.subject import Subject
from core.looks.picture.turn import UNTURNED, Turn
from core.sky.moons import MOON_RADIUS_KM, RADIUS_KM

# Points across a body, and across a small round moon, that are enough; and the finest share of a pixel.
_ENOUGH_ACROSS: Final = 200
_ENOUGH_ACROSS_MOON: Final = 40
_FINEST: Final = 32


@frozen(kw_only=True)
class Grid:
    """Where the pixels of a square picture lie; row 0 is on top.

    ``centre_arcsec`` is what lies in its middle, right and up from the middle of the body.
    """

    size: int = 400
    pixel_arcsec: float = field(validator=within(1e-4, 600, "arcsec"))
    turn: Turn = UNTURNED
    centre_arcsec: tuple[float, float] = (0.0, 0.0)

    @property
    def body_px(self) -> tuple[float, float]:
        """Column and row in which the middle of the body lies."""
        middle = (self.size - 1) / 2.0
        right, up = self.centre_arcsec
        return middle - right / self.pixel_arcsec, middle + up / self.pixel_arcsec


def painted(subject: Subject, grid: Grid) -> Values:
    """Return the brightness (size, size) of a subject before any blur."""
    canvas = np.zeros((grid.size, grid.size), dtype=np.float32)
    half_px = subject.extent_arcsec / 2.0 / grid.pixel_arcsec
    finer = _subdivision(half_px, _ENOUGH_ACROSS)
    place = _box(grid, 0.0, 0.0, half_px + 1.0)
    if place is None:
        return canvas
    rows, columns = place
    x, y = _planet_axes(subject, grid, rows, columns, finer)
    canvas[rows, columns] = _averaged(_body(subject, x, y, grid.pixel_arcsec / finer), finer)
    _add_moons(canvas, subject, grid)
    return canvas


def _subdivision(half_px: float, enough_across: int) -> int:
    """Return into how many parts a pixel is cut each way for something of that half width."""
    return int(np.clip(np.ceil(enough_across / max(2.0 * half_px, 0.1)), 1, _FINEST))


def _box(grid: Grid, right_px: float, down_px: float, half_px: float) -> tuple[slice, slice] | None:
    """Return the rows and columns that a square about a point by the body covers, None off the grid."""
    body_column, body_row = grid.body_px
    spans = []
    for centre in (body_row + down_px, body_column + right_px):
        first = int(np.clip(np.floor(centre - half_px), 0, grid.size))
        last = int(np.clip(np.ceil(centre + half_px) + 1, 0, grid.size))
        if first >= last:
            return None
        spans.append(slice(first, last))
    return spans[0], spans[1]


def _planet_axes(
    subject: Subject, grid: Grid, rows: slice, columns: slice, finer: int
) -> tuple[Values, Values]:
    """Return x and y (equatorial radii; west, north along the axis) of a finer grid over some pixels."""
    body_column, body_row = grid.body_px

    def offsets(span: slice, middle: float) -> Values:
        first, last = span.start - 0.5, span.stop - 0.5
        count = (span.stop - span.start) * finer
        places = first + (last - first) / count * (np.arange(count) + 0.5)
        return np.asarray((places - middle) * grid.pixel_arcsec, dtype=np.float32)

    right, up = offsets(columns, body_column)[None, :], -offsets(rows, body_row)[:, None]
    matrix = _eye_to_planet(subject, grid.turn) / (subject.disc.equatorial_diameter_arcsec / 2.0)
    x = matrix[0, 0] * right + matrix[0, 1] * up
    y = matrix[1, 0] * right + matrix[1, 1] * up
    return x.astype(np.float32), y.astype(np.float32)


def _eye_to_planet(subject: Subject, turn: Turn) -> Floats:
    """Return the (2, 2) matrix that makes west and north along the axis out of right and up."""
    angle = np.radians(subject.disc.pole_angle_deg)
    sine, cosine = np.sin(angle), np.cos(angle)
    return np.asarray(np.array([[-cosine, sine], [sine, cosine]]) @ turn.matrix())


def _averaged(fine: Values, finer: int) -> Values:
    rows, columns = fine.shape
    blocks = fine.reshape(rows // finer, finer, columns // finer, finer)
    return np.asarray(blocks.mean(axis=(1, 3)), dtype=np.float32)


def _body(subject: Subject, x: Values, y: Values, pixel_arcsec: float) -> Values:
    """Return the light of the globe and its ring at points of the sky (M, N)."""
    globe = Globe.of(subject)
    pixel = pixel_arcsec / (subject.disc.equatorial_diameter_arcsec / 2.0)
    covered = globe.coverage(x, y, pixel)
    on_globe = covered > 0.0
    globe_x, globe_y = x[on_globe], y[on_globe]
    globe_z = globe.depth(globe_x, globe_y)
    light = globe_light(globe, subject, globe_x, globe_y, globe_z)
    if subject.ring is not None:
        light *= ring_shade(globe, globe_x, globe_y, globe_z)
    _cast_shadows(light, subject, globe_x, globe_y, pixel)
    canvas = np.zeros_like(x)
    canvas[on_globe] = light * covered[on_globe]
    if subject.ring is not None:
        ring = ring_light(globe, subject.ring, x, y)
        depth = np.full_like(x, -np.inf)
        depth[on_globe] = globe_z
        in_front = (ring.depth > depth) | (covered < 0.5)
        canvas = np.where(in_front, canvas * (1.0 - ring.hides) + ring.light, canvas)
    return canvas


def _cast_shadows(light: Values, subject: Subject, x: Values, y: Values, pixel: float) -> None:
    """Darken the globe where the moons' shadows fall, round spots of the moons' own size."""
    for moon in subject.moons:
        if moon.shadow_x_radii is None or moon.shadow_y_radii is None:
            continue
        away = np.hypot(x - moon.shadow_x_radii, y - moon.shadow_y_radii)
        radius = MOON_RADIUS_KM[moon.moon] / RADIUS_KM
        light *= 1.0 - np.clip(0.5 + (radius - away) / pixel, 0.0, 1.0)


def _add_moons(canvas: Values, subject: Subject, grid: Grid) -> None:
    """Add the moons that show, in front of the planet or beside it."""
    radius_arcsec = subject.disc.equatorial_diameter_arcsec / 2.0
    from_planet = np.linalg.inv(_eye_to_planet(subject, grid.turn)) * radius_arcsec / grid.pixel_arcsec
    for moon in companions_of(subject):
        right_px, up_px = from_planet @ np.array([moon.x_radii, moon.y_radii])
        half = moon.radius_radii
        half_px = half * radius_arcsec / grid.pixel_arcsec
        place = _box(grid, right_px, -up_px, half_px + 1.0)
        if place is None:
            continue
        finer = _subdivision(half_px, _ENOUGH_ACROSS_MOON)
        x, y = _planet_axes(subject, grid, *place, finer)
        away = np.hypot(x - moon.x_radii, y - moon.y_radii)
        pixel = grid.pixel_arcsec / finer / radius_arcsec
        covered = _averaged(np.clip(0.5 + (half - away) / pixel, 0.0, 1.0), finer)
        canvas[place] += covered * (moon.albedo - canvas[place])
