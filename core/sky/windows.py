"""When a body is worth a look: in a dark enough sky, high enough, and not behind what blocks the view."""

from collections.abc import Callable, Sequence
from datetime import datetime
from enum import StrEnum
from functools import partial
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.sky.apparent import instant
from core.sky.ephemeris import Floats
from core.sky.site import WARM_BAND_ABOVE_ROOF_DEG, Site
from core.sky.track import Track

# Edges of blocked sky and warm air are searched between samples a minute apart, twice among so many parts:
# down to a tenth of a second.
_ROUNDS: Final = 2
_PARTS: Final = np.linspace(0.0, 1.0, 25)
_SHORTEST_S: Final = 1.0

# What stands in the way when the owner gave it no name.
UNNAMED_BLOCK: Final = "blocked sky"
UNNAMED_WARM: Final = "warm air"


class Grade(StrEnum):
    """How good a height is: best from 45 degrees, fair from 30, low under that (geometric)."""

    BEST = "best"
    FAIR = "fair"
    LOW = "low"


@frozen(kw_only=True)
class Span:
    """From ``start`` up to, not including, ``end`` (UTC)."""

    start: datetime
    end: datetime


@frozen(kw_only=True)
class Window:
    """A stretch in which a body is worth a look; ``warm_air`` names what warms the air in between."""

    start: datetime
    end: datetime
    grade: Grade
    warm_air: str | None


@frozen(kw_only=True)
class BlockedSpan:
    """A stretch in which a body is up, but behind something."""

    start: datetime
    end: datetime
    what: str


@frozen(eq=False)
class _Sector:
    """One part of the site's sky: what it is called, and which directions lie in it."""

    name: str
    warm: bool
    contains: Callable[[Floats, Floats], NDArray[np.bool_]]


@frozen(kw_only=True, eq=False)
class View:
    """What one body's evening is made of, before it is told as windows.

    Spans are (N, 2) arrays of Unix seconds: the sky dark enough, the body above each height, and, beside
    their names, the body in each blocked and each warm part of the site's sky.
    """

    dark: Floats
    up: Floats
    useful: Floats
    fair: Floats
    best: Floats
    blocked: tuple[tuple[str, Floats], ...]
    warm: tuple[tuple[str, Floats], ...]


def to_spans(spans: Floats) -> tuple[Span, ...]:
    """Return spans (N, 2) of Unix seconds as UTC times."""
    return tuple(Span(start=instant(start), end=instant(end)) for start, end in spans)


def look_around(site: Site, track: Track, heights: Sequence[Floats], dark: Floats) -> View:
    """Return the view on a body along its track.

    ``heights`` are the spans above the horizon, 10, 30 and 45 degrees; ``dark`` those of a dark enough sky.
    """
    up, useful, fair, best = heights
    sectors = [sector for sector in _sectors(site) if len(up)]
    inside = _sector_spans(track, sectors)
    return View(
        dark=dark,
        up=up,
        useful=useful,
        fair=fair,
        best=best,
        blocked=tuple(
            (sector.name, spans) for sector, spans in zip(sectors, inside, strict=True) if not sector.warm
        ),
        warm=tuple(
            (sector.name, spans) for sector, spans in zip(sectors, inside, strict=True) if sector.warm
        ),
    )


def _sectors(site: Site) -> list[_Sector]:
    """Return the blocked and warm parts of a site's sky; a heated roof has a warm band above it."""
    sectors = []
    for blocked in site.blocked:
        roof_deg = blocked.below_altitude_deg
        name = blocked.what.strip()
        sectors.append(
            _Sector(
                name or UNNAMED_BLOCK, warm=False, contains=partial(_inside, blocked.spans, -90.0, roof_deg)
            )
        )
        if blocked.heated:
            band = partial(_inside, blocked.spans, roof_deg, roof_deg + WARM_BAND_ABOVE_ROOF_DEG)
            sectors.append(_Sector(name or UNNAMED_WARM, warm=True, contains=band))
    for warm in site.warm_air:
        contains = partial(_inside, warm.spans, -90.0, warm.below_altitude_deg)
        sectors.append(_Sector(warm.what.strip() or UNNAMED_WARM, warm=True, contains=contains))
    return sectors


def _inside(
    spans: Callable[[Floats], NDArray[np.bool_]],
    from_deg: float,
    below_deg: float,
    azimuth_deg: Floats,
    apparent_deg: Floats,
) -> NDArray[np.bool_]:
    return np.asarray(spans(azimuth_deg) & (apparent_deg >= from_deg) & (apparent_deg < below_deg))


def _sector_spans(track: Track, sectors: Sequence[_Sector]) -> tuple[Floats, ...]:
    """Return, for each sector, the spans (N, 2) in which the body is there; all edges are found together.

    Between two samples of the track the body runs straight and evenly: true to a ten-thousandth of a degree.
    """
    if not sectors:
        return ()

    sampled = np.array(
        [sector.contains(track.azimuth_deg, track.apparent_altitude_deg) for sector in sectors]
    )
    which, left = np.nonzero(sampled[:, 1:] != sampled[:, :-1])
    azimuth_deg, apparent_deg = track.azimuth_deg[left], track.apparent_altitude_deg[left]
    turned_deg = (track.azimuth_deg[left + 1] - azimuth_deg + 180.0) % 360.0 - 180.0
    climbed_deg = track.apparent_altitude_deg[left + 1] - apparent_deg
    was, numbers = sampled[which, left, np.newaxis], np.arange(len(which))
    # Each sector is asked about its own edges alone, or a site of many would take their square.
    own = np.searchsorted(which, np.arange(len(sectors) + 1))
    here = np.empty((len(which), len(_PARTS)), dtype=bool)
    before, after = np.zeros(len(which)), np.ones(len(which))
    for _ in range(_ROUNDS if len(which) else 0):
        parts = before[:, np.newaxis] + (after - before)[:, np.newaxis] * _PARTS
        azimuths_deg = (azimuth_deg[:, np.newaxis] + parts * turned_deg[:, np.newaxis]) % 360.0
        altitudes_deg = apparent_deg[:, np.newaxis] + parts * climbed_deg[:, np.newaxis]
        for sector, first_edge, end in zip(sectors, own[:-1], own[1:], strict=True):
            if end > first_edge:
                edges = slice(first_edge, end)
                here[edges] = sector.contains(azimuths_deg[edges], altitudes_deg[edges])
        first = np.argmax(here[:, 1:] != was, axis=1)
        before, after = parts[numbers, first], parts[numbers, first + 1]
    edges_s = track.unix_s[left] + after * (track.unix_s[left + 1] - track.unix_s[left])
    return tuple(
        _spans_from_edges(edges_s[which == index], track.unix_s[[0, -1]], starts_inside=bool(inside[0]))
        for index, inside in enumerate(sampled)
    )


def _spans_from_edges(edges_s: Floats, ends_s: Floats, *, starts_inside: bool) -> Floats:
    edges = [float(ends_s[0])] if starts_inside else []
    edges.extend(float(edge) for edge in edges_s)
    if len(edges) % 2:
        edges.append(float(ends_s[1]))
    return np.array(edges, dtype=float).reshape(-1, 2)


def covers(spans: Floats, times_s: Floats) -> NDArray[np.bool_]:
    """Tell which times (N,) lie in any of the spans (M, 2), starts included and ends not."""
    begun = np.searchsorted(np.sort(spans[:, 0]), times_s, side="right")
    ended = np.searchsorted(np.sort(spans[:, 1]), times_s, side="right")
    return np.asarray(begun > ended)


@frozen(eq=False)
class Pieces:
    """Stretches of time between neighbouring edges of a set of spans: nothing changes within one."""

    starts_s: Floats
    ends_s: Floats

    @classmethod
    def between(cls, *spans: Floats) -> "Pieces":
        """Cut time at every edge of the spans (N, 2)."""
        edges_s = np.array(sorted({edge_s for span in spans for edge_s in span.ravel().tolist()}))
        return cls(edges_s[:-1], edges_s[1:])

    @property
    def spans_s(self) -> Floats:
        """Each piece as a span, (N, 2)."""
        return np.column_stack([self.starts_s, self.ends_s])

    def within(self, spans: Floats) -> NDArray[np.bool_]:
        """Tell which pieces lie in any of the spans."""
        return covers(spans, (self.starts_s + self.ends_s) / 2.0)


def intersect(first: Floats, second: Floats) -> Floats:
    """Return the spans (N, 2) that two sets of spans share."""
    pieces = Pieces.between(first, second)
    keep = pieces.within(first) & pieces.within(second)
    return pieces.spans_s[keep]


def find_windows(view: View) -> tuple[Window, ...]:
    """Return a body's windows in order; neighbours differ in grade or in what warms the air."""
    blocked = [spans for _, spans in view.blocked]
    named_warm = [(name, spans) for name, spans in view.warm if len(spans)]
    warm = [spans for _, spans in named_warm]
    pieces = Pieces.between(view.dark, view.useful, view.fair, view.best, *blocked, *warm)
    keep = pieces.within(view.dark) & pieces.within(view.useful)
    if blocked:
        keep &= ~pieces.within(np.concatenate(blocked))
    fair, best = pieces.within(view.fair), pieces.within(view.best)
    warmed = [pieces.within(spans) for spans in warm]
    runs: list[tuple[float, float, Grade, str | None]] = []
    for index in np.nonzero(keep)[0]:
        grade = Grade.BEST if best[index] else Grade.FAIR if fair[index] else Grade.LOW
        cause = next(
            (name for (name, _), there in zip(named_warm, warmed, strict=True) if there[index]), None
        )
        start_s, end_s = float(pieces.starts_s[index]), float(pieces.ends_s[index])
        if runs and runs[-1][1:] == (start_s, grade, cause):
            runs[-1] = (runs[-1][0], end_s, grade, cause)
        else:
            runs.append((start_s, end_s, grade, cause))
    return tuple(
        Window(start=instant(start_s), end=instant(end_s), grade=grade, warm_air=cause)
        for start_s, end_s, grade, cause in runs
        if end_s - start_s >= _SHORTEST_S
    )


def find_blocked(view: View) -> tuple[BlockedSpan, ...]:
    """Return when the body is up but behind something, in order, dark or not."""
    found = [
        BlockedSpan(start=instant(start), end=instant(end), what=name)
        for name, spans in view.blocked
        if len(spans)
        for start, end in intersect(view.up, spans)
        if end - start >= _SHORTEST_S
    ]
    return tuple(sorted(found, key=lambda span: (span.start, span.end)))
