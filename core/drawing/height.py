"""The height chart: altitude against time for one evening, with the evening strip under it."""

from collections.abc import Sequence
from datetime import datetime

import numpy as np
from attrs import frozen
from matplotlib.figure import Figure
from matplotlib.text import Text

from core.drawing.frame import Frame
from core.drawing.height_labels import Labels, place_labels
from core.drawing.height_margins import draw_margins
from core.drawing.height_scene import Curve, HeightScene, Piece, PieceKind, height_scene
from core.drawing.lettering import Lettering, fitted
from core.drawing.lines import (
    BLOCKED_DASHES,
    DASHES,
    LINE_WIDTH,
    LINE_WIDTH_IN_HAND,
    TINT_FAIR,
    TINT_LOW,
)
from core.drawing.palette import Palette
from core.drawing.pen import POINTS_PER_INCH, Pen
from core.drawing.placing import Box
from core.drawing.room import Points, evenly, without
from core.drawing.strip import BAR_HEIGHT, LETTERING, ROW_HEIGHT, Bar, StripItem, box_of, lay_out
from core.sky.bodies import Body
from core.sky.night import Night
from core.words.site_clock import SiteClock

# Fixed margins in points: they cost nothing to compute and keep the hours in place from night to night.
_LEFT, _RIGHT, _TOP, _BOTTOM = 48.0, 54.0, 21.0, 5.0
_UNDER_PLOT = 31.0  # the hours, and under them dates and the name of the axis
_ABSENT_ROW = 13.0
_STRIP_SHARE = 0.38  # most of the height that the strip may take
_NEAR = 7.0  # how near to a curve a click must be, points

_FAINT = 0.5
_SMALL = Lettering(8.5)


class HeightChart:
    """A drawn height chart: its words, and the way between times and figure pixels.

    Pixels are counted from the figure's lower left corner, as Matplotlib counts them.
    """

    def __init__(
        self, pen: Pen, frame: Frame, strip: Box | None, lines: dict[Body, Points], labels: Labels
    ) -> None:
        self.figure: Figure = pen.figure
        self.texts: list[Text] = pen.texts
        self.start = frame.start
        self.end = frame.end
        self._frame = frame
        self._strip = strip
        self._lines = lines
        self._labels = labels

    @property
    def plot_box(self) -> Box:
        """The box of the chart itself, pixels."""
        return self._pixels(self._frame.box)

    @property
    def strip_box(self) -> Box | None:
        """The box of the evening strip, pixels; None when nothing is on it."""
        return None if self._strip is None else self._pixels(self._strip)

    def x_of(self, time: datetime) -> float:
        """Return where a moment lies along x, pixels; beyond the chart's hours the scale goes on."""
        return self._frame.x(time) * self._scale

    def y_of(self, altitude_deg: float) -> float:
        """Return where an altitude in degrees lies along y, pixels."""
        return self._frame.y(altitude_deg) * self._scale

    def time_at(self, x: float) -> datetime:
        """Return the moment (UTC) at a pixel, held inside the chart's hours."""
        return self._frame.time(x / self._scale)

    def altitude_at(self, y: float) -> float:
        """Return the altitude in degrees at a pixel."""
        return self._frame.altitude(y / self._scale)

    def shows(self, time: datetime) -> bool:
        """Tell whether a moment lies on the chart."""
        return self._frame.shows(time)

    def body_at(self, x: float, y: float) -> Body | None:
        """Return the body whose name or curve is at a pixel, None where there is neither."""
        across, up = x / self._scale, y / self._scale
        for name in self._labels.names:
            if name.label.box.contains(across, up):
                return name.body
        nearest = {
            body: float(np.min(np.hypot(line[:, 0] - across, line[:, 1] - up)))
            for body, line in self._lines.items()
        }
        body = min(nearest, key=nearest.__getitem__, default=None)
        return body if body is not None and nearest[body] <= _NEAR else None

    @property
    def _scale(self) -> float:
        return self.figure.dpi / POINTS_PER_INCH

    def _pixels(self, box: Box) -> Box:
        scale = self._scale
        return Box(box.left * scale, box.bottom * scale, box.right * scale, box.top * scale)


@frozen(kw_only=True)
class _Layout:
    frame: Frame
    strip: Box | None
    bars: tuple[Bar, ...]
    left_out: int
    absent_y: float | None


def draw_height(
    figure: Figure,
    night: Night,
    *,
    palette: Palette,
    planet: Body | None,
    items: Sequence[StripItem] = (),
    clock: int = 24,
    now: datetime | None = None,
    cursor: datetime | None = None,
) -> HeightChart:
    """Draw a night on a figure, which is cleared first, and return the chart.

    ``planet`` is the one in hand, drawn heavier. ``items`` stand on the strip in their order. ``clock`` is
    12 or 24 hours. ``now`` and ``cursor`` are drawn as lines where they lie on the chart.
    """
    pen = Pen(figure, palette)
    scene = height_scene(night, [(item.start, item.end) for item in items])
    site_clock = SiteClock(zone=night.site.zone, hours=clock)
    layout = _lay_out(pen.page, scene, items, site_clock)
    frame = layout.frame
    labels = place_labels(
        scene, frame, in_hand=planet, transit_words=_transit_words(scene, planet, site_clock)
    )

    _draw_sky(pen, frame, scene)
    for curve in sorted(scene.curves, key=lambda curve: curve.body is planet):
        _draw_curve(pen, frame, curve, labels.boxes, heavy=curve.body is planet)
    _write_labels(pen, labels)
    draw_margins(pen, frame, night, clock=site_clock, now=now, cursor=cursor)
    _draw_strip(pen, layout)
    _draw_moments(pen, layout, now, cursor)
    if layout.absent_y is not None:
        names = ", ".join(body.heading for body in scene.absent)
        words = fitted(f"Not up in these hours: {names}", _SMALL, pen.page.right - frame.box.left - 3.0)
        pen.write(words, frame.box.left, layout.absent_y, _SMALL, palette.faint_ink, align="left")
    lines = {
        curve.body: np.concatenate([evenly(frame.line(p.unix_s, p.altitude_deg)) for p in curve.pieces])
        for curve in scene.curves
    }
    return HeightChart(pen, frame, layout.strip, lines, labels)


def _lay_out(page: Box, scene: HeightScene, items: Sequence[StripItem], clock: SiteClock) -> _Layout:
    """Give the strip the rows it needs and the chart all that is left."""
    left, right = page.left + _LEFT, page.right - _RIGHT
    wide = Frame(box=Box(left, 0.0, right, 1.0), start=scene.start, end=scene.end)
    bars, left_out = lay_out(items, wide, clock, max(int(page.height * _STRIP_SHARE / ROW_HEIGHT), 1))
    rows = max((bar.row + 1 for bar in bars), default=0)
    bottom = page.bottom + _BOTTOM
    absent_y = None
    if scene.absent:
        absent_y = bottom + _ABSENT_ROW / 2
        bottom += _ABSENT_ROW
    strip = Box(left, bottom, right, bottom + rows * ROW_HEIGHT + 2.0) if rows else None
    floor = (strip.top if strip else bottom) + _UNDER_PLOT
    box = Box(left, floor, right, max(page.top - _TOP, floor + 1.0))
    frame = Frame(box=box, start=scene.start, end=scene.end)
    return _Layout(frame=frame, strip=strip, bars=bars, left_out=left_out, absent_y=absent_y)


def _transit_words(scene: HeightScene, planet: Body | None, clock: SiteClock) -> str:
    for curve in scene.curves:
        if curve.body is planet and curve.transits:
            when, altitude_deg = curve.transits[0]
            return (
                f"transit {clock.time(datetime.fromtimestamp(when, scene.start.tzinfo))}, {altitude_deg:.0f}°"
            )
    return ""


def _draw_sky(pen: Pen, frame: Frame, scene: HeightScene) -> None:
    """Shade daylight, twilight and dark, and tint the bands of altitude over them."""
    palette, box = pen.palette, frame.box
    for step in scene.skies:
        colour = getattr(palette, step.sky.value)
        pen.fill(Box(frame.x(step.start), box.bottom, frame.x(step.end), box.top), colour, order=0.0)
    fair, low = frame.y(45.0), frame.y(30.0)
    pen.fill(Box(box.left, low, box.right, fair), palette.band_fair, alpha=TINT_FAIR, order=0.1)
    pen.fill(Box(box.left, box.bottom, box.right, low), palette.band_low, alpha=TINT_LOW, order=0.1)
    for y in (low, fair):
        pen.stroke((box.left, y), (box.right, y), palette.line, 0.9, order=0.5)
    pen.stroke((box.left, box.bottom), (box.right, box.bottom), palette.faint_ink, 1.2, order=3.0)


def _draw_curve(pen: Pen, frame: Frame, curve: Curve, gaps: Sequence[Box], *, heavy: bool) -> None:
    colour = pen.palette.bodies[curve.body]
    width = LINE_WIDTH_IN_HAND if heavy else LINE_WIDTH
    order = 2.5 if heavy else 2.0
    for piece in curve.pieces:
        lines = without(frame.line(piece.unix_s, piece.altitude_deg), gaps)
        _draw_piece(pen, piece, lines, colour, width, DASHES[curve.body], order)
    for when, altitude_deg in curve.transits:
        x, y = frame.line(np.array([when]), np.array([altitude_deg]))[0]
        pen.stroke((x, y - 5.0), (x, y + 5.0), colour, 0.8 * width, order=order)


def _draw_piece(
    pen: Pen,
    piece: Piece,
    lines: Sequence[Points],
    colour: str,
    width: float,
    dashes: tuple[float, tuple[float, ...] | None],
    order: float,
) -> None:
    """Draw one piece: full in a window, faint when merely up, dotted when blocked, underlaid when warm."""
    if piece.kind is PieceKind.BLOCKED:
        pen.strokes(lines, colour, 0.75 * width, dashes=BLOCKED_DASHES, order=order)
        return
    if piece.kind is PieceKind.WARM:
        pen.strokes(lines, pen.palette.warning, width + 7.0, alpha=0.3, order=order - 0.1)
    alpha = _FAINT if piece.kind is PieceKind.UP else 1.0
    pen.strokes(lines, colour, width, dashes=dashes, alpha=alpha, order=order)


def _write_labels(pen: Pen, labels: Labels) -> None:
    palette = pen.palette
    for label in labels.bands:
        pen.write(label.text, *label.centre, label.lettering, palette.faint_ink)
    for named in (*labels.names, *labels.notes):
        label, colour = named.label, palette.bodies[named.body]
        pen.write(label.text, *label.centre, label.lettering, colour)
        if label.lead is not None:
            pen.stroke(*label.leader, colour, 0.7, order=1.9)


def _draw_strip(pen: Pen, layout: _Layout) -> None:
    strip, palette = layout.strip, pen.palette
    if strip is None:
        return
    middle = strip.top - ROW_HEIGHT / 2
    pen.write("evening", strip.left - 6.0, middle, _SMALL, palette.faint_ink, align="right")
    for bar in layout.bars:
        pen.fill(box_of(bar, strip), palette.background, edge=palette.line, order=1.0)
        y = strip.top - (bar.row + 0.5) * ROW_HEIGHT
        pen.write(bar.words, bar.words_left, y, LETTERING, palette.ink, align="left")
    if layout.left_out:
        words, y = f"+{layout.left_out} more", strip.bottom + BAR_HEIGHT / 2
        pen.write(words, pen.page.left + 3.0, y, _SMALL, palette.faint_ink, align="left")


def _draw_moments(pen: Pen, layout: _Layout, now: datetime | None, cursor: datetime | None) -> None:
    frame, strip, accent = layout.frame, layout.strip, pen.palette.accent
    for time, width, dashes in ((now, 1.6, (0.0, None)), (cursor, 1.0, (0.0, (4.0, 2.0)))):
        if time is not None and frame.shows(time):
            x = frame.x(time)
            pen.stroke((x, frame.box.bottom), (x, frame.box.top), accent, width, dashes=dashes, order=4.0)
            if strip is not None:  # behind the bars, so that their words stay clear
                pen.stroke((x, strip.bottom), (x, strip.top), accent, width, dashes=dashes, order=0.9)
