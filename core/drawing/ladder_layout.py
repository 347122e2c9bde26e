"""Where everything on a drawing of a power ladder stands, in points; nothing is drawn here."""

import math
from collections.abc import Sequence
from enum import Enum

from attrs import frozen

from core.drawing.ladder_words import (
    NOT_TONIGHT,
    LimitWords,
    RungWords,
    by_weight,
    limit_words,
    rung_at_power,
    rung_words,
)
from core.drawing.lettering import Lettering, fitted, legible, width_of, wrapped
from core.drawing.placing import Box, spread
from core.kit.ladder import Ladder, Rung
from core.kit.rounding import power_text

POWER = Lettering(12.0, bold=True)
FIGURE = Lettering(9.5)
REMARK = Lettering(9.0, bold=True)
QUIET_REMARK = Lettering(9.0)
LIMIT = Lettering(11.0, bold=True)
SMALL = Lettering(8.5)

ROW = 14.3  # height of a rung's words
_GAP = 8.0  # between columns
_RAIL_MARGIN = 12.0  # between the words of the limits and the rails
_LEAST_EYEPIECE = 110.0
_MOST_EYEPIECE = 190.0
_HEAD = 16.0
_LINE = SMALL.line_height
_WIDE_ENOUGH = 470.0  # a drawing narrower than this makes do with less
# Width of the words of the limits, between the rails, and of the lines that lead to the words of rungs.
_WIDE, _NARROW = (136.0, 40.0, 24.0), (86.0, 24.0, 17.0)


class Column(Enum):
    """The columns of words beside a ladder, and what stands over each."""

    POWER = "power"
    EYEPIECE = "eyepiece"
    EXIT_PUPIL = "exit pupil"
    FIELD = "field"
    DRIFT = "drift"
    REMARK = ""


# What goes first when there is no room.
_DROPPED_FIRST = (Column.DRIFT, Column.FIELD, Column.EXIT_PUPIL)


@frozen
class PowerScale:
    """The vertical scale: equal ratios of power are equally far apart."""

    low: float
    high: float
    bottom: float
    top: float

    def y(self, power: float) -> float:
        """Return the height of a power on the page, points."""
        share = math.log(power / self.low) / math.log(self.high / self.low)
        return self.bottom + share * (self.top - self.bottom)


@frozen(kw_only=True)
class RungPlace:
    """A rung on the page: its own height, and its words with theirs, or None where there is no room."""

    rung: Rung
    y: float
    words: RungWords | None
    words_y: float


@frozen(kw_only=True)
class LimitPlace:
    """A limit on the page: the height of its line, None for a remark without one, and its words."""

    limit: LimitWords | None
    y: float | None
    title: str
    lines: tuple[str, ...]
    words_y: float


@frozen(kw_only=True)
class LadderLayout:
    """A ladder on the page.

    ``rails`` are the two uprights' x; ``columns`` the x at which each column's words are aligned, their
    alignment, and their width.
    """

    ladder: Ladder
    box: Box
    scale: PowerScale
    rails: tuple[float, float]
    limits_right: float
    words_left: float
    columns: dict[Column, tuple[float, str, float]]
    rungs: tuple[RungPlace, ...]
    limits: tuple[LimitPlace, ...]
    chosen: Rung | None
    unnamed: int

    @property
    def right(self) -> float:
        """Where the words end, points."""
        return max(
            (x + (width if align == "left" else 0.0) for x, align, width in self.columns.values()),
            default=self.words_left,
        )


def power_range(ladders: Sequence[Ladder]) -> tuple[float, float]:
    """Return the lowest and highest power that a drawing of these ladders must show, with some air."""
    powers = [rung.power for ladder in ladders for rung in ladder.rungs]
    powers += [limit.power for ladder in ladders for limit in limit_words(ladder)]
    low, high = min(powers), max(powers)
    return low / 1.06, high * 1.06


def lay_out_ladder(
    ladder: Ladder,
    box: Box,
    *,
    powers: tuple[float, float],
    chosen_power: float | None = None,
    explain_air: bool = True,
) -> LadderLayout:
    """Return where a ladder's parts stand in a box, for a range of powers that may be another's too."""
    chosen = rung_at_power(ladder.rungs, chosen_power)
    scale = PowerScale(*powers, box.bottom + ROW / 2, box.top - _HEAD - ROW / 2)
    limits_width, rail_width, leader = _WIDE if box.width >= _WIDE_ENOUGH else _NARROW
    limits_right = box.left + limits_width
    rails = limits_right + _RAIL_MARGIN, limits_right + _RAIL_MARGIN + rail_width
    words_left = rails[1] + leader
    rungs, unnamed = _place_rungs(ladder, scale, chosen)
    words = [place.words for place in rungs if place.words is not None]
    return LadderLayout(
        ladder=ladder,
        box=box,
        scale=scale,
        rails=rails,
        limits_right=limits_right,
        words_left=words_left,
        columns=_place_columns(words, words_left, box.right),
        rungs=rungs,
        limits=_place_limits(ladder, scale, limits_right - box.left, explain_air=explain_air),
        chosen=chosen,
        unnamed=unnamed,
    )


def _place_rungs(ladder: Ladder, scale: PowerScale, chosen: Rung | None) -> tuple[tuple[RungPlace, ...], int]:
    """Give as many rungs words as have room, the weightiest first; the others stay short marks."""
    room = int((scale.top - scale.bottom) / ROW) + 1
    named = by_weight(ladder, chosen)[: max(room, 1)]
    in_order = [rung for rung in ladder.rungs if rung in named]
    heights = spread([scale.y(rung.power) for rung in in_order], ROW, scale.bottom, scale.top)
    words_y = {id(rung): height for rung, height in zip(in_order, heights, strict=True)}
    places = []
    for rung in ladder.rungs:
        y = scale.y(rung.power)
        words = rung_words(rung, ladder, chosen) if id(rung) in words_y else None
        places.append(RungPlace(rung=rung, y=y, words=words, words_y=words_y.get(id(rung), y)))
    return tuple(places), len(ladder.rungs) - len(in_order)


def _place_columns(
    words: Sequence[RungWords], left: float, right: float
) -> dict[Column, tuple[float, str, float]]:
    """Return each column's alignment; what is empty for every rung, or has no room, is left out."""
    widths = {column: _column_width(words, column) for column in Column}
    widths = {column: width for column, width in widths.items() if width > 0}
    for column in _DROPPED_FIRST:
        fixed = sum(width + _GAP for name, width in widths.items() if name is not Column.EYEPIECE)
        least = min(widths.get(Column.EYEPIECE, 0.0), _LEAST_EYEPIECE)
        if fixed + least > right - left:
            widths.pop(column, None)
    fixed = sum(width + _GAP for name, width in widths.items() if name is not Column.EYEPIECE)
    if Column.EYEPIECE in widths:
        widths[Column.EYEPIECE] = min(widths[Column.EYEPIECE], _MOST_EYEPIECE, max(right - left - fixed, 0.0))
    placed: dict[Column, tuple[float, str, float]] = {}
    x = left
    for column, width in widths.items():
        if column in (Column.EYEPIECE, Column.REMARK):
            placed[column] = x, "left", width
        else:
            placed[column] = x + width, "right", width
        x += width + _GAP
    return placed


def _column_width(words: Sequence[RungWords], column: Column) -> float:
    texts = [text for row in words if (text := cell(row, column))]
    if not texts:
        return 0.0
    heading = width_of(column.value, SMALL)
    return max(heading, *(width_of(legible(text), lettering_of(column, text)) for text in texts))


def cell(words: RungWords, column: Column) -> str:
    """Return a rung's words in one column."""
    return {
        Column.POWER: words.power,
        Column.EYEPIECE: words.eyepiece,
        Column.EXIT_PUPIL: words.exit_pupil,
        Column.FIELD: words.field,
        Column.DRIFT: words.drift,
        Column.REMARK: words.remark,
    }[column]


def lettering_of(column: Column, text: str = "") -> Lettering:
    """Return how words in a column are written."""
    if column is Column.REMARK and text == NOT_TONIGHT:
        return QUIET_REMARK
    return {Column.POWER: POWER, Column.REMARK: REMARK}.get(column, FIGURE)


def cell_fitted(words: RungWords, column: Column, width: float) -> str:
    """Return a rung's words in one column, no wider than the column."""
    text = legible(cell(words, column))
    return fitted(text, lettering_of(column, text), width)


def _place_limits(
    ladder: Ladder, scale: PowerScale, width: float, *, explain_air: bool
) -> tuple[LimitPlace, ...]:
    """Place the words of the limits, each near its line and none on another."""
    blocks: list[tuple[LimitWords | None, str, tuple[str, ...]]] = []
    if ladder.ceiling.power is None and ladder.ceiling.reason:
        blocks.append((None, "no ceiling", wrapped(ladder.ceiling.reason, SMALL, width - 4.0)))
    for limit in limit_words(ladder, explain_air=explain_air):
        title = power_text(limit.power) + (" ceiling" if limit.is_ceiling else "")
        blocks.append((limit, title, wrapped(limit.words, SMALL, width - 4.0)))
    heights = [LIMIT.line_height + len(lines) * _LINE + 2.0 for _, _, lines in blocks]
    wanted = [scale.y(limit.power) if limit is not None else scale.bottom for limit, _, _ in blocks]
    middles = _stack(wanted, heights, scale.bottom - ROW / 2, scale.top + ROW / 2)
    return tuple(
        LimitPlace(
            limit=limit,
            y=None if limit is None else scale.y(limit.power),
            title=title,
            lines=lines,
            words_y=middle,
        )
        for (limit, title, lines), middle in zip(blocks, middles, strict=True)
    )


def _stack(wanted: Sequence[float], heights: Sequence[float], low: float, high: float) -> list[float]:
    """Return middles of blocks of various heights, in order from below, near the wanted ones."""
    middles: list[float] = []
    floor = low
    for place, height in zip(wanted, heights, strict=True):
        middles.append(max(place, floor + height / 2))
        floor = middles[-1] + height / 2
    ceiling = high
    for number in reversed(range(len(middles))):
        middles[number] = min(middles[number], ceiling - heights[number] / 2)
        ceiling = middles[number] - heights[number] / 2
    return middles
