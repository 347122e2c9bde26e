"""The columns of words beside a ladder: what each holds, how it is written, and how wide it gets."""

from collections.abc import Mapping, Sequence
from enum import Enum

from attrs import frozen

from core.drawing.lettering import Lettering, Measure
from core.words.ladder import NOT_TONIGHT, RungWords

POWER = Lettering(12.0, bold=True)
QUIET_POWER = Lettering(10.5)
FIGURE = Lettering(9.5)
REMARK = Lettering(9.0, bold=True)
QUIET_REMARK = Lettering(9.0)
HEADING = Lettering(8.5)

_LEAST_EYEPIECE = 110.0  # where it is so long
_MOST_EYEPIECE = 190.0


class LadderColumn(Enum):
    """The columns beside a ladder, by what stands over each."""

    POWER = "power"
    EYEPIECE = "eyepiece"
    EXIT_PUPIL = "exit pupil"
    FIELD = "field"
    DRIFT = "drift"
    REMARK = ""


# What goes first when there is no room.
_DROPPED_FIRST = (LadderColumn.DRIFT, LadderColumn.FIELD, LadderColumn.EXIT_PUPIL)
_FROM_LEFT = (LadderColumn.EYEPIECE, LadderColumn.REMARK)


@frozen
class ColumnPlace:
    """Where a column stands: its left edge and its width, points."""

    left: float
    width: float
    align: str

    @property
    def x(self) -> float:
        """Where its words are aligned, points."""
        return self.left if self.align == "left" else self.left + self.width


def cell(words: RungWords, column: LadderColumn) -> str:
    """Return a rung's words in one column."""
    return {
        LadderColumn.POWER: words.power,
        LadderColumn.EYEPIECE: words.eyepiece,
        LadderColumn.EXIT_PUPIL: words.exit_pupil,
        LadderColumn.FIELD: words.field,
        LadderColumn.DRIFT: words.drift,
        LadderColumn.REMARK: words.remark,
    }[column]


def lettering_of(words: RungWords, column: LadderColumn) -> Lettering:
    """Return how a rung's words in a column are written; what is not owned is never bold."""
    if column is LadderColumn.REMARK:
        return REMARK if words.is_owned and words.remark != NOT_TONIGHT else QUIET_REMARK
    if column is LadderColumn.POWER:
        return POWER if words.is_owned else QUIET_POWER
    return FIGURE


def cell_fitted(
    measure: Measure, words: RungWords, column: LadderColumn, width: float, *, with_remark: bool = False
) -> str:
    """Return a rung's words in one column, no wider than the column.

    Where the owner's names are too long, eyepiece and Barlow are told by their figures: what is cut off at
    the end would be the Barlow. ``with_remark`` adds the remark to them, where both have room.
    """
    text, lettering = measure.legible(cell(words, column)), lettering_of(words, column)
    if with_remark and column is LadderColumn.EYEPIECE and words.remark:
        both = measure.legible(words.with_remark)
        if measure.width(both, lettering) <= width:
            return both
    if column is LadderColumn.EYEPIECE and measure.width(text, lettering) > width:
        text = words.eyepiece_briefly
    return measure.fitted(text, lettering, width)


def place_columns(
    measure: Measure, words: Sequence[RungWords], left: float, right: float, gap: float
) -> Mapping[LadderColumn, ColumnPlace]:
    """Return where the columns stand; what is empty for every rung, or has no room, is left out."""
    widths: dict[LadderColumn, float] = {
        column: width for column in LadderColumn if (width := _natural_width(measure, words, column)) > 0
    }
    eyepiece = min(_least_width(measure, words), _LEAST_EYEPIECE)
    for column in _DROPPED_FIRST:
        if _others(widths, gap) + min(widths.get(LadderColumn.EYEPIECE, 0.0), _LEAST_EYEPIECE) > right - left:
            widths.pop(column, None)
    # Next to go are the remarks: the rung in hand and the top one are told by their own look too. Where that
    # does not help, it is the eyepieces: half a name tells nothing.
    bare: dict[LadderColumn, float] = {**widths}
    bare.pop(LadderColumn.REMARK, None)
    if LadderColumn.EYEPIECE in widths and _others(widths, gap) + eyepiece > right - left:
        if _others(bare, gap) + eyepiece <= right - left:
            widths = bare
        else:
            del widths[LadderColumn.EYEPIECE]
    if LadderColumn.EYEPIECE in widths:
        room = min(right - left - _others(widths, gap), _MOST_EYEPIECE)
        widths[LadderColumn.EYEPIECE] = min(widths[LadderColumn.EYEPIECE], room)
    if sum(widths.values()) + gap * (len(widths) - 1) > right - left:
        widths.pop(LadderColumn.REMARK, None)
    places: dict[LadderColumn, ColumnPlace] = {}
    for column, width in widths.items():
        places[column] = ColumnPlace(left, width, "left" if column in _FROM_LEFT else "right")
        left += width + gap
    return places


def tells_eyepieces(
    measure: Measure, words: Sequence[RungWords], columns: Mapping[LadderColumn, ColumnPlace]
) -> bool:
    """Tell whether the column of the eyepieces is wide enough, at least for their figures."""
    place = columns.get(LadderColumn.EYEPIECE)
    return place is not None and place.width >= min(_least_width(measure, words), _LEAST_EYEPIECE)


def _least_width(measure: Measure, words: Sequence[RungWords]) -> float:
    """Return how wide the eyepieces are at least, each by its name or its figures, whatever is narrower."""
    told = [
        min(measure.width(measure.legible(text), FIGURE) for text in (row.eyepiece, row.eyepiece_briefly))
        for row in words
    ]
    return max([*told, measure.width(LadderColumn.EYEPIECE.value, HEADING)])


def _others(widths: Mapping[LadderColumn, float], gap: float) -> float:
    """Return the room that all columns but the eyepiece's take, with the gaps between."""
    return sum(width + gap for column, width in widths.items() if column is not LadderColumn.EYEPIECE)


def _natural_width(measure: Measure, words: Sequence[RungWords], column: LadderColumn) -> float:
    texts = [(row, measure.legible(text)) for row in words if (text := cell(row, column))]
    if not texts:
        return 0.0
    return max(
        measure.width(column.value, HEADING),
        *(measure.width(text, lettering_of(row, column)) for row, text in texts),
    )
