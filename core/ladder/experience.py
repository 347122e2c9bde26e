"""What a site and a kit have given so far, counted from the log and honest about how little that may be."""

import math
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from enum import StrEnum
from statistics import median, stdev
from typing import Any, Final

from attrs import frozen

from core.air.blur import BLUR_ARCSEC
from core.air.usual_air import BlurDistribution
from core.gear.owned import Eyepiece
from core.ladder.belief import believe
from core.ladder.evidence import evidence_of
from core.ladder.ladder import ONE_RUNG_RATIO
from core.record.log_entry import LogEntry, Verdict
from core.sky.bodies import Body
from core.sky.events import BEST_DEG, FAIR_DEG

# Before so many nights a log tells nothing of a site's usual air (ours).
NIGHTS_FOR_USUAL_AIR: Final = 5
# Few nights are never taken to be more alike than this; standard deviation of ln(blur). Ours.
LEAST_SPREAD: Final = 0.2


class GroupedBy(StrEnum):
    """How the powers are grouped."""

    ALL = "all"
    HEIGHT = "height"
    MONTH = "month"
    PLANET = "planet"


class HeightBand(StrEnum):
    """How high a planet stood."""

    LOW = "low"
    FAIR = "fair"
    BEST = "best"


@frozen(kw_only=True)
class PowerRecord:
    """How often going up to a power showed more detail, no change or less; powers within 3 % are one."""

    power: float
    more: int
    no_change: int
    less: int

    @property
    def count(self) -> int:
        """How often it was judged."""
        return self.more + self.no_change + self.less


@frozen(kw_only=True)
class UsualAir:
    """The usual overhead blur of a site by its log, and from how many nights."""

    site_id: str
    blur: BlurDistribution
    nights: int


def power_records(entries: Iterable[LogEntry]) -> tuple[PowerRecord, ...]:
    """Return how often each power worked, lowest first.

    A verdict tells of the higher power of its step: going down to less detail says that the higher one
    showed more. From a power to the same there is no step, and nothing is told of it.
    """
    counted: dict[float, Counter[Verdict]] = {}
    for power, verdict in sorted(judged for judged in map(_judged, entries) if judged is not None):
        last = next(reversed(counted), None)
        if last is None or power > last * ONE_RUNG_RATIO:
            last = power
            counted[last] = Counter()
        counted[last][verdict] += 1
    return tuple(
        PowerRecord(
            power=power, more=of[Verdict.MORE], no_change=of[Verdict.NO_CHANGE], less=of[Verdict.LESS]
        )
        for power, of in counted.items()
    )


def grouped(entries: Iterable[LogEntry], by: GroupedBy) -> dict[str, tuple[LogEntry, ...]]:
    """Return lines of the log by height band, month (``01`` to ``12``) or planet, in the order of those.

    What a line does not tell leaves it out.
    """
    key_of, order = _KEYS[by]
    groups: dict[str, list[LogEntry]] = {}
    for entry in entries:
        key = key_of(entry)
        if key is not None:
            groups.setdefault(key, []).append(entry)
    return {key: tuple(groups[key]) for key in sorted(groups, key=order)}


def uses_of(entries: Iterable[LogEntry], eyepieces: Sequence[Eyepiece]) -> tuple[tuple[Eyepiece, int], ...]:
    """Return how many lines each owned eyepiece has, the most used first."""
    counted = Counter(entry.eyepiece_id for entry in entries)
    return tuple(
        sorted(((each, counted[each.id]) for each in eyepieces), key=lambda pair: pair[1], reverse=True)
    )


def usual_air(entries: Iterable[LogEntry]) -> tuple[UsualAir, ...]:
    """Return the usual air of each site that has verdicts of five nights or more.

    Each night counts with the middle of what its verdicts taught; the median and the spread of the nights
    are told, the spread never under 0.2.
    """
    nights: dict[str, dict[date, list[LogEntry]]] = {}
    for entry in entries:
        nights.setdefault(entry.site_id, {}).setdefault(entry.evening, []).append(entry)
    found = []
    for site_id, evenings in nights.items():
        taught = [
            evidence for evidence in map(evidence_of, evenings.values()) if any(e.weight for e in evidence)
        ]
        if not site_id or len(taught) < NIGHTS_FOR_USUAL_AIR:
            continue
        middles = [math.log(believe(evidence).blur_arcsec(0.5)) for evidence in taught]
        blur = BlurDistribution(
            median_arcsec=BLUR_ARCSEC.nearest(math.exp(median(middles))),
            spread=max(stdev(middles), LEAST_SPREAD),
        )
        found.append(UsualAir(site_id=site_id, blur=blur, nights=len(taught)))
    return tuple(found)


def _judged(entry: LogEntry) -> tuple[float, Verdict] | None:
    if entry.power is None or entry.from_power is None or entry.verdict in (None, Verdict.CANNOT_TELL):
        return None
    assert entry.verdict is not None
    if entry.power == entry.from_power:
        return None
    if entry.power > entry.from_power:
        return entry.power, entry.verdict
    return entry.from_power, entry.verdict.reversed


def _height_band(entry: LogEntry) -> str | None:
    if entry.altitude_deg is None:
        return None
    if entry.altitude_deg >= BEST_DEG:
        return HeightBand.BEST
    return HeightBand.FAIR if entry.altitude_deg >= FAIR_DEG else HeightBand.LOW


_KEYS: Final[dict[GroupedBy, tuple[Callable[[LogEntry], str | None], Callable[[str], Any]]]] = {
    GroupedBy.ALL: (lambda _entry: "", str),
    GroupedBy.HEIGHT: (_height_band, lambda key: list(HeightBand).index(HeightBand(key))),
    GroupedBy.MONTH: (lambda entry: f"{entry.evening.month:02}", str),
    GroupedBy.PLANET: (
        lambda entry: None if entry.planet is None else entry.planet.value,
        lambda key: list(Body).index(Body(key)),
    ),
}
