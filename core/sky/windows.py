"""When a body is worth a look: in a dark enough sky, high enough, and not behind what blocks the view."""

from collections.abc import Sequence
from enum import StrEnum
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky.instant import instant
from core.sky.site import Site
from core.sky.sky_parts import parts_of, spans_in
from core.sky.spans import Pieces, Span, intersect
from core.sky.track import Track

# Shorter than this is the rounding of two edges that touch.
_SHORTEST_S: Final = 1.0


class Grade(StrEnum):
    """How good a height is: best from 45 degrees, fair from 30, low under that (geometric)."""

    BEST = "best"
    FAIR = "fair"
    LOW = "low"


@frozen(kw_only=True)
class Window(Span):
    """A stretch in which a body is worth a look; ``warm_air`` names what warms the air in between."""

    grade: Grade
    warm_air: str | None


@frozen(kw_only=True)
class BlockedSpan(Span):
    """A stretch in which a body is up, but behind something."""

    what: str


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


def look_around(site: Site, track: Track, heights: Sequence[Floats], dark: Floats) -> View:
    """Return the view on a body along its track.

    ``heights`` are the spans above the horizon, 10, 30 and 45 degrees; ``dark`` those of a dark enough sky.
    """
    up, useful, fair, best = heights
    sky_parts = parts_of(site) if len(up) else []
    named = [
        (part.is_warm, (part.name, spans))
        for part, spans in zip(sky_parts, spans_in(track, sky_parts), strict=True)
    ]
    return View(
        dark=dark,
        up=up,
        useful=useful,
        fair=fair,
        best=best,
        blocked=tuple(each for is_warm, each in named if not is_warm),
        warm=tuple(each for is_warm, each in named if is_warm),
    )


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
