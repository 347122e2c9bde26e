"""Where everything on a drawing of a power ladder stands, in points; nothing is drawn here."""

from collections.abc import Mapping, Sequence

from attrs import frozen

from core.drawing.ladder_columns import (
    HEADING,
    ColumnPlace,
    LadderColumn,
    place_columns,
    tells_eyepieces,
)
from core.drawing.lettering import Measure
from core.drawing.limit_places import LimitPlace, place_limits
from core.drawing.placing import Box, spread
from core.drawing.power_scale import ROW, PowerScale
from core.drawing.rung_order import by_weight, rung_at_power
from core.drawing.zoom_runs import owned_runs, stops_of, wished_runs
from core.ladder.ladder import Ladder, Rung
from core.words.ladder import (
    DASHED,
    MARKED_NEW,
    SHORT_MARKS,
    ZOOM_BARS,
    RungWords,
    Standpoint,
    run_words,
    rung_words,
)

REMARKS_AWAY = 4.0  # how far what remarks mean stands from the words of the rungs


@frozen(kw_only=True)
class _Sizes:
    """Points: of the limits' words, between rails, to the rungs' words, between columns, and of the head."""

    limits: float
    rails: float
    leader: float
    gap: float
    head: float = 16.0


_WIDE = _Sizes(limits=136.0, rails=40.0, leader=24.0, gap=8.0)
_NARROW = _Sizes(limits=86.0, rails=24.0, leader=17.0, gap=8.0)
_BRIEF = _Sizes(limits=66.0, rails=15.0, leader=11.0, gap=4.0)
_MANY = 10  # short marks, for the room of their number
_WIDE_FROM, _BRIEF_UNTIL = 470.0, 300.0


@frozen(kw_only=True)
class RungPlace:
    """A rung on the page: its own height, and its words with theirs, or None where there is no room.

    One that is not ``owned`` is only wished for. A place that ends at ``top_y`` stands for the whole run of a
    zoom's powers; where runs of owned ones lie over each other, each has a ``lane`` of its own.
    """

    rung: Rung
    y: float
    words: RungWords | None
    words_y: float
    owned: bool = True
    top_y: float | None = None
    lane: int = 0


@frozen(kw_only=True)
class LadderLayout:
    """A ladder on the page.

    ``rails`` are the x of the two uprights, ``unnamed`` is the number of rungs without words, and ``brief``
    says that remarks are shortened.
    """

    ladder: Ladder
    box: Box
    scale: PowerScale
    rails: tuple[float, float]
    limits_right: float
    words_left: float
    columns: Mapping[LadderColumn, ColumnPlace]
    rungs: tuple[RungPlace, ...]
    limits: tuple[LimitPlace, ...]
    chosen: Rung | None
    unnamed: int
    brief: bool

    @property
    def right(self) -> float:
        """Where the words of the rungs end, points."""
        return max((place.left + place.width for place in self.columns.values()), default=self.words_left)


def lay_out_ladder(
    ladder: Ladder,
    box: Box,
    measure: Measure,
    *,
    powers: tuple[float, float],
    chosen_power: float | None = None,
    is_taken: bool = True,
    following_power: float | None = None,
    wished: Sequence[Rung] = (),
    explain_air: bool = True,
    tells_band: bool = False,
    leaves_room: bool = False,
    leaves_zooms: bool = False,
    briefly: bool = False,
) -> LadderLayout:
    """Return where a ladder's parts stand in a box, for a range of powers that may be another's too.

    ``is_taken`` says that a person took the rung of ``chosen_power``; next comes that of ``following_power``.
    ``wished`` are rungs that one more thing would give; ``tells_band`` adds what is believed of the air.
    ``leaves_room`` makes the head as high as that of a ladder with such rungs, for one scale beside it, as
    ``leaves_zooms`` does for a ladder with zooms;
    ``briefly`` shortens the remarks even where they have room, as beside one that has to.
    """
    chosen = rung_at_power(ladder.rungs, chosen_power)
    following = rung_at_power(ladder.rungs, following_power)
    standpoint = Standpoint(rung=chosen, is_taken=is_taken, following=following)
    has_zooms = leaves_zooms or bool(owned_runs(ladder))
    shown = [rung for rung in wished if powers[0] <= rung.power <= powers[1]]

    def beside(sizes: _Sizes, *, brief: bool, by_powers: bool = False) -> _Beside:
        left = box.left + sizes.limits + sizes.gap
        head = sizes.head
        if brief or has_zooms:
            # What short marks and remarks mean; whether there are any is not known yet.
            marks = SHORT_MARKS.format(count=_MANY)
            said = [marks, *([DASHED] if brief else []), *([ZOOM_BARS] if has_zooms else [])]
            if brief and (shown or leaves_room):
                said.append(MARKED_NEW)
            room = left + sizes.rails + sizes.leader - REMARKS_AWAY - box.left
            lines = sum(len(measure.wrapped(words, HEADING, room)) for words in said)
            head = max(head, lines * HEADING.line_height + ROW / 2)
        scale = PowerScale(*powers, box.bottom + ROW / 2, box.top - head - ROW / 2)
        rails = left, left + sizes.rails
        rungs, unnamed = _place_rungs(ladder, shown, scale, standpoint, brief=brief, by_powers=by_powers)
        words = [place.words for place in rungs if place.words is not None]
        columns = place_columns(measure, words, rails[1] + sizes.leader, box.right, sizes.gap)
        names = tells_eyepieces(measure, words, columns)
        is_whole = names and (LadderColumn.REMARK in columns or not any(each.remark for each in words))
        return _Beside(sizes, brief, scale, rails, rungs, unnamed, columns, names, is_whole)

    is_narrow = box.width < _BRIEF_UNTIL
    placed = beside(_WIDE if box.width >= _WIDE_FROM else _NARROW, brief=False)
    if is_narrow or briefly or not placed.is_whole:
        placed = beside(_BRIEF if is_narrow else _NARROW, brief=True)
    if not placed.names_eyepieces:
        placed = beside(placed.sizes, brief=True, by_powers=True)
    sizes, scale = placed.sizes, placed.scale
    return LadderLayout(
        ladder=ladder,
        box=box,
        scale=scale,
        rails=placed.rails,
        limits_right=box.left + sizes.limits,
        words_left=placed.rails[1] + sizes.leader,
        columns=placed.columns,
        rungs=placed.rungs,
        limits=place_limits(
            ladder, scale, sizes.limits, measure, explain_air=explain_air, tells_band=tells_band
        ),
        chosen=chosen,
        unnamed=placed.unnamed,
        brief=placed.brief,
    )


@frozen
class _Beside:
    """What stands right of the limits, laid out in some sizes."""

    sizes: _Sizes
    brief: bool
    scale: PowerScale
    rails: tuple[float, float]
    rungs: tuple[RungPlace, ...]
    unnamed: int
    columns: Mapping[LadderColumn, ColumnPlace]
    names_eyepieces: bool
    is_whole: bool


def _place_rungs(
    ladder: Ladder,
    wished: Sequence[Rung],
    scale: PowerScale,
    standpoint: Standpoint,
    *,
    brief: bool,
    by_powers: bool,
) -> tuple[tuple[RungPlace, ...], int]:
    """Give as many rungs words as have room, the weightiest first; the others stay short marks.

    Those wished for may take a third of the room, the lowest of them first; a zoom's are one run, told
    ``by_powers`` where no eyepiece is named.
    """
    wishes, runs = wished_runs(wished), owned_runs(ladder)
    reaches = {id(rung): reach for rung, reach in (*wishes, *runs)}
    lanes = {id(rung): number for number, (rung, _reach) in enumerate(runs)}
    first, zooms = [rung for rung, _reach in wishes], [rung for rung, _reach in runs]
    stops = {id(rung) for run in zooms for rung in stops_of(ladder, run)}
    weightiest = [rung for rung in (standpoint.rung, standpoint.following) if rung is not None]
    marked = {ladder.start, ladder.climb_to, *(rung.power for rung in weightiest)}
    room = max(int((scale.top - scale.bottom) / ROW) + 1, 1)
    named_wishes = first[: max(room // 3, 1)]
    in_order = by_weight(ladder, standpoint.rung, standpoint.following)
    weighty = [rung for rung in in_order if id(rung) not in stops or rung.power in marked]
    # These and the top come before whole zooms.
    first_ones = len(weightiest) + 1
    named = [*weighty[:first_ones], *zooms, *weighty[first_ones:]][: max(room - len(named_wishes), 1)]
    every = sorted([*ladder.rungs, *first, *zooms], key=lambda rung: rung.power)
    with_words = {id(rung) for rung in (*named, *named_wishes)}
    told = [rung for rung in every if id(rung) in with_words]
    heights = spread([scale.y(rung.power) for rung in told], ROW, scale.bottom, scale.top)
    words_y = {id(rung): height for rung, height in zip(told, heights, strict=True)}
    wished_ids = {id(rung) for rung in first}
    places = []
    for rung in every:
        owned, reach = id(rung) not in wished_ids, reaches.get(id(rung))
        y, top_y = scale.y(rung.power), None
        if reach is not None:
            y, top_y = (scale.y(min(max(power, scale.low), scale.high)) for power in reach)
        words = None
        if id(rung) in words_y and reach is not None:
            words = run_words(rung, reach, brief=brief, by_powers=by_powers, is_owned=owned)
        elif id(rung) in words_y:
            words = rung_words(rung, ladder, standpoint, brief=brief, is_owned=owned)
        place_y = words_y.get(id(rung), y)
        places.append(
            RungPlace(
                rung=rung,
                y=y,
                words=words,
                words_y=place_y,
                owned=owned,
                top_y=top_y,
                lane=lanes.get(id(rung), 0),
            )
        )
    return tuple(places), sum(id(rung) not in with_words for rung in (*ladder.rungs, *first))
