"""The height chart: altitude against time for one evening, with the evening strip under it."""

from collections.abc import Mapping, Sequence
from datetime import datetime

import numpy as np
from attrs import frozen

from core.drawing.altitude_lines import draw_bands
from core.drawing.frame import Frame
from core.drawing.free_space import without
from core.drawing.height_labels import TRANSIT, Labels, Way, place_labels
from core.drawing.height_margins import draw_margins
from core.drawing.height_scene import HeightScene, Piece, PieceKind, height_scene
from core.drawing.lettering import Lettering
from core.drawing.lines import (
    BLOCKED_DASHES,
    DASHES,
    LINE_WIDTH,
    LINE_WIDTH_IN_HAND,
)
from core.drawing.marks import SOLID, Dashes, Drawing, Page, Points, Sheet
from core.drawing.palette import Palette
from core.drawing.placing import Box
from core.drawing.strip import BAR_HEIGHT, ROW_HEIGHT, Bar, StripItem, box_of, lay_out, lettering_of
from core.sky.bodies import Body
from core.sky.night import Night
from core.words.charts import STRIP, absent_words, more_words, transit_words
from core.words.site_clock import SiteClock

# Fixed margins in points: they cost nothing to compute and keep the hours in place from night to night.
_LEFT, _RIGHT, _TOP, _BOTTOM = 48.0, 54.0, 21.0, 5.0
_UNDER_PLOT = 31.0  # the hours, and under them dates and the name of the axis
_ABSENT_ROW = 13.0
_STRIP_SHARE = 0.33  # most of the height for chart and strip together that the strip may take
_NEAR = 7.0  # how near to a curve a click must be, points

_FAINT = 0.5
_SMALL = Lettering(8.5)


@frozen(kw_only=True, eq=False)
class HeightChart:
    """A height chart: its drawing, and the way between times and places on the page, in points.

    ``strip_box`` is the box of the evening strip, None when nothing is on it; ``curves`` are points (N, 2).
    """

    drawing: Drawing
    frame: Frame
    strip_box: Box | None
    curves: Mapping[Body, Points]
    labels: Labels

    @property
    def start(self) -> datetime:
        """The first moment on the chart."""
        return self.frame.start

    @property
    def end(self) -> datetime:
        """The last moment on the chart."""
        return self.frame.end

    @property
    def plot_box(self) -> Box:
        """The box of the chart itself."""
        return self.frame.box

    def x_of(self, time: datetime) -> float:
        """Return where a moment lies along x; beyond the chart's hours the scale goes on."""
        return self.frame.x(time)

    def time_at(self, x: float) -> datetime:
        """Return the moment (UTC) at a place, held inside the chart's hours."""
        return self.frame.time(x)

    def shows(self, time: datetime) -> bool:
        """Tell whether a moment lies on the chart."""
        return self.frame.shows(time)

    def clear_at(self, x: float) -> list[tuple[float, float]]:
        """Return the lengths (bottom, top) of an upright line through chart and strip that touch no word."""
        measure = self.drawing.page.measure
        words = sorted(
            (box.bottom, box.top)
            for words in self.drawing.words
            if (box := words.box(measure)).left - 1.0 <= x <= box.right + 1.0
        )
        lengths = []
        for place in (self.plot_box, self.strip_box):
            if place is None:
                continue
            low = place.bottom
            for bottom, top in words:
                if bottom >= place.top:
                    break
                if low < bottom:
                    lengths.append((low, bottom))
                low = max(low, top)
            if low < place.top:
                lengths.append((low, place.top))
        return lengths

    def body_at(self, x: float, y: float) -> Body | None:
        """Return the body whose name or curve is at a place, None where there is neither."""
        for name in self.labels.names:
            if name.label.box.contains(x, y):
                return name.body
        nearest = {
            body: float(np.min(np.hypot(curve[:, 0] - x, curve[:, 1] - y)))
            for body, curve in self.curves.items()
        }
        body = min(nearest, key=nearest.__getitem__, default=None)
        return body if body is not None and nearest[body] <= _NEAR else None


@frozen(kw_only=True)
class _Layout:
    frame: Frame
    strip: Box | None
    bars: tuple[Bar, ...]
    left_out: int
    absent_y: float | None


def draw_height(
    page: Page,
    night: Night,
    *,
    palette: Palette,
    planet: Body | None,
    items: Sequence[StripItem] = (),
    clock: int = 24,
    now: datetime | None = None,
    cursor: datetime | None = None,
) -> HeightChart:
    """Lay a night out on a page.

    ``planet`` is the one in hand, drawn heavier. ``items`` stand on the strip in their order. ``clock`` is
    12 or 24 hours. ``now`` and ``cursor`` are drawn as lines where they lie on the chart.
    """
    sheet = Sheet(page, palette)
    scene = height_scene(night, [(item.start, item.end) for item in items])
    site_clock = SiteClock(zone=night.site.zone, hours=clock)
    layout = _lay_out(sheet, scene, items, site_clock)
    frame = layout.frame
    ways = [Way.of(curve, frame) for curve in scene.curves]
    labels = place_labels(
        ways, frame, page.measure, in_hand=planet, transit_words=_transit_words(scene, planet, site_clock)
    )

    _draw_sky(sheet, frame, scene, labels.boxes)
    for way in sorted(ways, key=lambda way: way.curve.body is planet):
        _draw_way(sheet, frame, way, labels.boxes, heavy=way.curve.body is planet)
    _write_labels(sheet, labels)
    draw_margins(sheet, frame, night, clock=site_clock, now=now, cursor=cursor)
    _draw_strip(sheet, layout)
    _draw_moments(sheet, layout, now, cursor)
    if layout.absent_y is not None:
        words = sheet.measure.fitted(
            absent_words(scene.absent), _SMALL, sheet.page.right - frame.box.left - 3.0
        )
        sheet.write(words, frame.box.left, layout.absent_y, _SMALL, palette.faint_ink, align="left")
    return HeightChart(
        drawing=sheet.drawing,
        frame=frame,
        strip_box=layout.strip,
        curves={way.curve.body: way.points for way in ways},
        labels=labels,
    )


def _lay_out(sheet: Sheet, scene: HeightScene, items: Sequence[StripItem], clock: SiteClock) -> _Layout:
    """Give the strip the rows it needs and the chart all that is left."""
    page = sheet.page
    left, right = page.left + _LEFT, page.right - _RIGHT
    wide = Frame(box=Box(left, 0.0, right, 1.0), start=scene.start, end=scene.end)
    bottom = page.bottom + _BOTTOM
    absent_y = None
    if scene.absent:
        absent_y = bottom + _ABSENT_ROW / 2
        bottom += _ABSENT_ROW
    most_rows = int(_STRIP_SHARE * (page.top - _TOP - _UNDER_PLOT - bottom) / ROW_HEIGHT)
    bars, left_out = lay_out(items, wide, clock, sheet.measure, max(most_rows, 1))
    rows = max((bar.row + 1 for bar in bars), default=0)
    strip = Box(left, bottom, right, bottom + rows * ROW_HEIGHT + 2.0) if rows else None
    floor = (strip.top if strip else bottom) + _UNDER_PLOT
    box = Box(left, floor, right, max(page.top - _TOP, floor + 1.0))
    frame = Frame(box=box, start=scene.start, end=scene.end)
    return _Layout(frame=frame, strip=strip, bars=bars, left_out=left_out, absent_y=absent_y)


def _transit_words(scene: HeightScene, planet: Body | None, clock: SiteClock) -> str:
    for curve in scene.curves:
        if curve.body is planet and curve.transits:
            when, altitude_deg = curve.transits[0]
            time = datetime.fromtimestamp(when, scene.start.tzinfo)
            return transit_words(time, altitude_deg, clock)
    return ""


def _draw_sky(sheet: Sheet, frame: Frame, scene: HeightScene, words: Sequence[Box]) -> None:
    """Shade daylight, twilight and dark, and tint the bands of altitude over them."""
    palette, box = sheet.palette, frame.box
    for step in scene.skies:
        colour = getattr(palette, step.sky.value)
        sheet.fill(Box(frame.x(step.start), box.bottom, frame.x(step.end), box.top), colour, order=0.0)
    draw_bands(sheet, box, frame.y, words)


def _draw_way(sheet: Sheet, frame: Frame, way: Way, gaps: Sequence[Box], *, heavy: bool) -> None:
    curve = way.curve
    colour = sheet.palette.bodies[curve.body]
    width = LINE_WIDTH_IN_HAND if heavy else LINE_WIDTH
    order = 2.5 if heavy else 2.0
    for piece, line in zip(curve.pieces, way.lines, strict=True):
        _draw_piece(sheet, piece, without(line, gaps), colour, width, DASHES[curve.body], order)
    for when, altitude_deg in curve.transits:
        x, y = frame.line(np.array([when]), np.array([altitude_deg]))[0]
        sheet.stroke((x, y - TRANSIT), (x, y + TRANSIT), colour, 0.8 * width, order=order)


def _draw_piece(
    sheet: Sheet,
    piece: Piece,
    lines: Sequence[Points],
    colour: str,
    width: float,
    dashes: Dashes,
    order: float,
) -> None:
    """Draw one piece: full in a window, faint when merely up, dotted when blocked, underlaid when warm."""
    if piece.kind is PieceKind.BLOCKED:
        sheet.strokes(lines, colour, 0.75 * width, dashes=BLOCKED_DASHES, order=order)
        return
    if piece.kind is PieceKind.WARM:
        sheet.strokes(lines, sheet.palette.warning, width + 7.0, alpha=0.3, order=order - 0.1)
    alpha = _FAINT if piece.kind is PieceKind.UP else 1.0
    sheet.strokes(lines, colour, width, dashes=dashes, alpha=alpha, order=order)


def _write_labels(sheet: Sheet, labels: Labels) -> None:
    palette = sheet.palette
    for label in labels.bands:
        sheet.write(label.text, *label.centre, label.lettering, palette.faint_ink)
    for named in (*labels.names, *labels.notes):
        label, colour = named.label, palette.bodies[named.body]
        sheet.write(label.text, *label.centre, label.lettering, colour)
        if label.lead is not None:
            sheet.stroke(*label.leader, colour, 0.7, order=1.9)


def _draw_strip(sheet: Sheet, layout: _Layout) -> None:
    strip, palette = layout.strip, sheet.palette
    if strip is None:
        return
    top_y, foot_y = strip.top - ROW_HEIGHT / 2, strip.bottom + BAR_HEIGHT / 2
    # In a single row there is only room to say that more is left out.
    if not layout.left_out or top_y - foot_y > BAR_HEIGHT:
        sheet.write(STRIP, strip.left - 6.0, top_y, _SMALL, palette.faint_ink, align="right")
    for bar in layout.bars:
        box, is_chosen = box_of(bar, strip), bar.item.is_chosen and not bar.item.is_done
        sheet.fill(box, palette.background, edge=palette.accent if is_chosen else palette.line, order=1.0)
        if is_chosen:
            sheet.stroke((box.left, box.bottom), (box.right, box.bottom), palette.accent, 2.0, order=1.1)
        y = strip.top - (bar.row + 0.5) * ROW_HEIGHT
        ink = palette.faint_ink if bar.item.is_done else palette.ink
        sheet.write(bar.words, bar.words_left, y, lettering_of(bar.item), ink, align="left")
    if layout.left_out:
        words = more_words(layout.left_out)
        sheet.write(words, sheet.page.left + 3.0, foot_y, _SMALL, palette.faint_ink, align="left")


def _draw_moments(sheet: Sheet, layout: _Layout, now: datetime | None, cursor: datetime | None) -> None:
    frame, strip, accent = layout.frame, layout.strip, sheet.palette.accent
    for time, width, dashes in ((now, 1.6, SOLID), (cursor, 1.0, (4.0, 2.0))):
        if time is not None and frame.shows(time):
            x = frame.x(time)
            sheet.stroke((x, frame.box.bottom), (x, frame.box.top), accent, width, dashes=dashes, order=4.0)
            if strip is not None:  # behind the bars, so that their words stay clear
                sheet.stroke((x, strip.bottom), (x, strip.top), accent, width, dashes=dashes, order=0.9)
