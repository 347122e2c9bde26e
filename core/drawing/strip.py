"""The evening strip: what to do and what to look at, as labelled bars on the chart's own hours."""

from collections.abc import Sequence
from datetime import datetime
from typing import Protocol

from attrs import frozen

from core.drawing.frame import Frame
from core.drawing.lettering import Lettering, Measure
from core.drawing.placing import Box
from core.words.charts import step_title, step_words
from core.words.site_clock import SiteClock

ROW_HEIGHT = 13.0
BAR_HEIGHT = 11.0
_LETTERING = Lettering(8.5)
_LETTERING_CHOSEN = Lettering(8.5, bold=True)
_PAD = 3.0
_LEAST_BAR = 4.0
# Words shorter than this are not worth cutting a name down to.
_LEAST_WORDS = 34.0


class StripItem(Protocol):
    """One thing in the evening: a title and the time it takes."""

    @property
    def start(self) -> datetime:
        """When it begins."""

    @property
    def end(self) -> datetime:
        """When it ends; the same as its start for a moment."""

    @property
    def title(self) -> str:
        """What it is, in a word or two."""

    @property
    def is_chosen(self) -> bool:
        """Whether it is the target in hand, which is marked."""

    @property
    def is_done(self) -> bool:
        """Whether it has been ticked off, and is told quietly."""


@frozen(kw_only=True)
class Bar:
    """One item on the strip: ``row`` from the top, ``left`` and ``right`` in points, and its words.

    ``words_left`` is where the words begin; they stand inside the bar or beside it.
    """

    item: StripItem
    row: int
    left: float
    right: float
    words: str
    words_left: float


def lay_out(
    items: Sequence[StripItem], frame: Frame, clock: SiteClock, measure: Measure, most_rows: int
) -> tuple[tuple[Bar, ...], int]:
    """Return the bars of the items that reach into the chart, and how many found no row.

    Each bar takes the first row in which it and its words are free, at most ``most_rows`` of them. Where not
    all find one, the target in hand comes first and what is done last.
    """
    bars, left_out = _in_order(items, frame, clock, measure, most_rows)
    if left_out:
        weighty = sorted(items, key=lambda item: (item.is_done, not item.is_chosen))
        bars, left_out = _in_order(weighty, frame, clock, measure, most_rows)
    return bars, left_out


def _in_order(
    items: Sequence[StripItem], frame: Frame, clock: SiteClock, measure: Measure, most_rows: int
) -> tuple[tuple[Bar, ...], int]:
    rows: list[list[tuple[float, float]]] = []
    bars: list[Bar] = []
    left_out = 0
    for item in items:
        if item.end < frame.start or item.start > frame.end:
            continue
        bar = _in_first_free_row(item, frame, clock, measure, rows, most_rows)
        if bar is None:
            left_out += 1
        else:
            bars.append(bar)
    return tuple(bars), left_out


def lettering_of(item: StripItem) -> Lettering:
    """Return the letters of an item's words: bold for the target in hand."""
    return _LETTERING_CHOSEN if item.is_chosen and not item.is_done else _LETTERING


def box_of(bar: Bar, strip: Box) -> Box:
    """Return the rectangle of a bar on a strip, points."""
    middle = strip.top - (bar.row + 0.5) * ROW_HEIGHT
    return Box(bar.left, middle - BAR_HEIGHT / 2, bar.right, middle + BAR_HEIGHT / 2)


def _in_first_free_row(
    item: StripItem,
    frame: Frame,
    clock: SiteClock,
    measure: Measure,
    rows: list[list[tuple[float, float]]],
    most_rows: int,
) -> Bar | None:
    left = max(frame.x(item.start), frame.box.left)
    right = min(max(frame.x(item.end), left + _LEAST_BAR), frame.box.right)
    left = min(left, right - _LEAST_BAR)
    for words, words_left in _wordings(item, clock, measure, left, right, frame.box):
        first = min(left, words_left)
        last = max(right, words_left + measure.width(words, lettering_of(item)))
        for number in range(most_rows):
            if number == len(rows):
                rows.append([])
            if all(last + _PAD <= early or late + _PAD <= first for early, late in rows[number]):
                rows[number].append((first, last))
                return Bar(item=item, row=number, left=left, right=right, words=words, words_left=words_left)
    return None


def _wordings(
    item: StripItem, clock: SiteClock, measure: Measure, left: float, right: float, box: Box
) -> list[tuple[str, float]]:
    """Offer the words of a bar and where they begin, best first: inside, after it, before it, cut."""
    title, lettering = step_title(measure.legible(item.title), is_done=item.is_done), lettering_of(item)
    full = step_words(title, item.start, item.end, clock)
    inside, before, after = right - left - 2 * _PAD, left - _PAD - box.left, box.right - right - _PAD
    offers = [(text, left + _PAD) for text in (full, title) if measure.width(text, lettering) <= inside][:1]
    if offers:
        return offers
    for text in (full, title):
        width = measure.width(text, lettering)
        offers += [(text, right + _PAD)] if width <= after else []
        offers += [(text, left - _PAD - width)] if width <= before else []
    for room, start in ((inside, left + _PAD), (after, right + _PAD)):
        if room >= _LEAST_WORDS:
            offers.append((measure.fitted(title, lettering, room), start))
    if before >= _LEAST_WORDS:
        words = measure.fitted(title, lettering, before)
        offers.append((words, left - _PAD - measure.width(words, lettering_of(item))))
    return offers
