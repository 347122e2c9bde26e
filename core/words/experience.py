"""What a site and a kit have given so far, in words, with how little that may rest on."""

from collections.abc import Sequence
from datetime import date
from typing import Final

from core.gear.owned import Eyepiece
from core.ladder.experience import NIGHTS_FOR_USUAL_AIR, GroupedBy, HeightBand, PowerRecord, UsualAir
from core.sky.bodies import Body
from core.words.dates import month_text
from core.words.quantities import power_text, trimmed_text

GROUP_LABELS: Final = {
    GroupedBy.ALL: "every power",
    GroupedBy.HEIGHT: "powers by height",
    GroupedBy.MONTH: "powers by month",
    GroupedBy.PLANET: "powers by planet",
}
_HEIGHTS: Final = {
    HeightBand.LOW: "below 30°",
    HeightBand.FAIR: "30° to 45°",
    HeightBand.BEST: "above 45°",
}
MORE_KEY: Final = "more detail"
NO_CHANGE_KEY: Final = "no change"
LESS_KEY: Final = "less detail"
NOTHING_JUDGED: Final = "No step has been judged here yet. Each verdict on the ladder is counted here."
# Fewer verdicts than this say next to nothing.
_FEW: Final = 5
_FEW_JUDGED: Final = "Only {count} verdicts so far: read it as an anecdote."
_ONE_JUDGED: Final = "Only one verdict so far: read it as an anecdote."
_JUDGED: Final = "{count} verdicts on going up to a power, or back from it."
_RECORD: Final = "{power}: more detail {more}, no change {no_change}, less detail {less}"
_USUAL_AIR: Final = (
    "The usual air here is {blur}″ overhead, by the verdicts of {nights} nights: the first guess of a new "
    "night."
)
_TOO_FEW_NIGHTS: Final = "After verdicts of {nights} nights the usual air of this site is told here."
# Whether the most used was used once, and whether any was never used.
_USED: Final = {
    (False, False): "Most used: {name}, {count} lines.",
    (False, True): "Most used: {name}, {count} lines. Never used so far: {never}.",
    (True, False): "Most used: {name}, one line.",
    (True, True): "Most used: {name}, one line. Never used so far: {never}.",
}


def group_text(key: str, by: GroupedBy) -> str:
    """Return the heading of a group of lines: ``30° to 45°``, ``December``, ``Saturn``; nothing for all."""
    if by is GroupedBy.HEIGHT:
        return _HEIGHTS[HeightBand(key)]
    if by is GroupedBy.MONTH:
        return month_text(date(2000, int(key), 1))
    return Body(key).heading if by is GroupedBy.PLANET else ""


def record_text(record: PowerRecord) -> str:
    """Return how often a power worked, in words."""
    return _RECORD.format(
        power=power_text(record.power), more=record.more, no_change=record.no_change, less=record.less
    )


def count_text(records: Sequence[PowerRecord]) -> str:
    """Return how many verdicts there are, and what so few are worth."""
    count = sum(record.count for record in records)
    if count == 0:
        return NOTHING_JUDGED
    if count == 1:
        return _ONE_JUDGED
    return (_FEW_JUDGED if count < _FEW else _JUDGED).format(count=count)


def usual_air_text(usual: UsualAir | None) -> str:
    """Return the usual air of a site by its log, or when it will be known."""
    if usual is None:
        return _TOO_FEW_NIGHTS.format(nights=NIGHTS_FOR_USUAL_AIR)
    return _USUAL_AIR.format(blur=trimmed_text(usual.blur.median_arcsec, 1), nights=usual.nights)


def uses_text(uses: Sequence[tuple[Eyepiece, int]]) -> str:
    """Return which eyepiece was used most and which never; nothing before any was."""
    if not uses or uses[0][1] == 0:
        return ""
    most, count = uses[0]
    never = ", ".join(eyepiece.name for eyepiece, uses_of_it in uses if uses_of_it == 0)
    return _USED[count == 1, bool(never)].format(name=most.name, count=count, never=never)
