"""Where limits of power have their words beside a ladder, in points: near their lines, none over another."""

from collections.abc import Sequence

from attrs import frozen

from core.air.limits import Line
from core.drawing.lettering import Lettering, Measure
from core.drawing.power_scale import ROW, PowerScale
from core.ladder.ladder import Ladder
from core.words.ladder import no_ceiling_text
from core.words.limits import (
    NO_CEILING_HERE,
    LimitWords,
    band_words,
    ceiling_beside,
    ceiling_title,
    limit_words,
)
from core.words.quantities import power_text

LIMIT = Lettering(11.0, bold=True)
SMALL = Lettering(8.5)


@frozen(kw_only=True)
class LimitPlace:
    """A limit on the page: the height of its line, None for a remark without one, and its words."""

    limit: LimitWords | None
    y: float | None
    title: str
    lines: tuple[str, ...]
    words_y: float

    @property
    def height(self) -> float:
        """Height of the words, points."""
        return LIMIT.line_height + len(self.lines) * SMALL.line_height


def place_limits(
    ladder: Ladder,
    scale: PowerScale,
    width: float,
    measure: Measure,
    *,
    explain_air: bool,
    tells_band: bool,
) -> tuple[LimitPlace, ...]:
    """Place the words of the limits, each near its line and none on another.

    Where there is no height for all of them, less is told: first of the air, then of all but the ceiling.
    """
    room = scale.top - scale.bottom + ROW
    everything = _limit_blocks(ladder, width, measure, explain_air=explain_air, bands=tells_band)
    no_band = _limit_blocks(ladder, width, measure, explain_air=explain_air, bands=False)
    short = _limit_blocks(ladder, width, measure, explain_air=False, bands=False)
    of_ceiling = [(limit, title, lines if _is_ceiling(limit) else ()) for limit, title, lines in short]
    figures: list[_Block] = [(limit, title, ()) for limit, title, _lines in short]
    choices = (everything, no_band, short, of_ceiling, figures)
    blocks = next((blocks for blocks in choices if sum(map(_height, blocks)) <= room), figures)
    wanted = [scale.y(limit.power) if limit is not None else scale.bottom for limit, _, _ in blocks]
    middles = _stack(wanted, [*map(_height, blocks)], scale.bottom - ROW / 2, scale.top + ROW / 2)
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


_Block = tuple[LimitWords | None, str, tuple[str, ...]]


def _height(block: _Block) -> float:
    """Return the height of a block, and a little between it and the next, points."""
    _limit, _title, lines = block
    return LIMIT.line_height + len(lines) * SMALL.line_height + 2.0


def _is_ceiling(limit: LimitWords | None) -> bool:
    """Tell whether a limit is the ceiling, or says why there is none."""
    return limit is None or limit.is_ceiling


def _limit_blocks(
    ladder: Ladder, width: float, measure: Measure, *, explain_air: bool, bands: bool
) -> list[_Block]:
    """Return each limit with its title and its words in lines."""
    blocks: list[_Block] = []
    if ladder.ceiling.power is None:
        blocks.append((None, NO_CEILING_HERE, measure.wrapped(no_ceiling_text(ladder), SMALL, width - 4.0)))
    for limit in limit_words(ladder, explain_air=explain_air):
        title, words = power_text(limit.power), limit.words
        if limit.is_ceiling and measure.width(ceiling_title(limit.power), LIMIT) <= width - 4.0:
            title = ceiling_title(limit.power)
        elif limit.is_ceiling:
            words = ceiling_beside(words)
        lines = measure.wrapped(words, SMALL, width - 4.0)
        if bands and Line.TOGETHER in limit.kinds:
            lines += measure.wrapped(band_words(ladder), SMALL, width - 4.0)
        blocks.append((limit, title, lines))
    return blocks


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
