"""What the height chart shows of one night, as plain figures: hours, sky, curves and their pieces."""

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from itertools import pairwise

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky.bodies import Body
from core.sky.events import ASTRONOMICAL_DEG, CIVIL_DEG, NAUTICAL_DEG, SUN_HORIZON_DEG
from core.sky.night import BodyNight, Night
from core.sky.track import Track

# The chart begins this long before sunset, ends this long after sunrise, and leaves this much room
# around what stands on the evening strip.
DAYLIGHT_MARGIN = timedelta(minutes=45)
STRIP_MARGIN = timedelta(minutes=8)
# A curve is drawn through every so many samples of a track, which lie a minute apart: straight lines between
# them are off by a few thousandths of a degree, but where a body turns at once close to the zenith, so that
# transits are points as well.
_EVERY_SAMPLE = 4
# A short summer night is drawn with more of the daylight around it.
SHORTEST_CHART = timedelta(hours=8)


class Sky(StrEnum):
    """How bright the sky is, by the word for its colour in a palette."""

    DAYLIGHT = "daylight"
    CIVIL = "civil_twilight"
    NAUTICAL = "nautical_twilight"
    ASTRONOMICAL = "astronomical_twilight"
    NIGHT = "night_sky"


# The Sun's altitude at which each kind of sky ends.
SKY_ENDS_DEG = (
    (Sky.DAYLIGHT, SUN_HORIZON_DEG),
    (Sky.CIVIL, CIVIL_DEG),
    (Sky.NAUTICAL, NAUTICAL_DEG),
    (Sky.ASTRONOMICAL, ASTRONOMICAL_DEG),
)


class PieceKind(StrEnum):
    """What a piece of a curve tells: worth a look, merely up, behind something, or through warm air."""

    WINDOW = "window"
    UP = "up"
    BLOCKED = "blocked"
    WARM = "warm"


@frozen(kw_only=True)
class SkyStep:
    """A time of one kind of sky."""

    start: datetime
    end: datetime
    sky: Sky


@frozen(kw_only=True, eq=False)
class Piece:
    """A piece of a curve: times in seconds since 1970 and altitudes in degrees, both (N,), N at least 2.

    ``what`` names the obstacle or the source of the warm air.
    """

    kind: PieceKind
    what: str
    unix_s: Floats
    altitude_deg: Floats


@frozen(kw_only=True, eq=False)
class Curve:
    """One body's way over the sky, in pieces, with its transits as (seconds since 1970, degrees)."""

    body: Body
    pieces: tuple[Piece, ...]
    transits: tuple[tuple[float, float], ...]


@frozen(kw_only=True, eq=False)
class HeightScene:
    """Everything on the chart from ``start`` to ``end``; ``absent`` bodies do not rise in that time."""

    start: datetime
    end: datetime
    skies: tuple[SkyStep, ...]
    curves: tuple[Curve, ...]
    absent: tuple[Body, ...]


def height_scene(night: Night, also: Iterable[tuple[datetime, datetime]] = ()) -> HeightScene:
    """Return what to draw of a night; ``also`` are times that must lie on the chart too."""
    start, end = chart_hours(night, also)
    drawn = [curve for body_night in night.bodies if (curve := _curve(body_night, start, end)).pieces]
    up = {curve.body for curve in drawn}
    return HeightScene(
        start=start,
        end=end,
        skies=sky_steps(night.sun.track, start, end),
        curves=tuple(drawn),
        absent=tuple(body_night.body for body_night in night.bodies if body_night.body not in up),
    )


def chart_hours(night: Night, also: Iterable[tuple[datetime, datetime]] = ()) -> tuple[datetime, datetime]:
    """Return the hours to draw: from before sunset to after sunrise, or the whole evening without them."""
    sun = night.sun
    if sun.set is None or sun.rise is None or sun.rise <= sun.set:
        return night.start, night.end
    times = [(start - STRIP_MARGIN, end + STRIP_MARGIN) for start, end in also]
    start = min([sun.set - DAYLIGHT_MARGIN, *(early for early, _ in times)])
    end = max([sun.rise + DAYLIGHT_MARGIN, *(late for _, late in times)])
    lacking = max(SHORTEST_CHART - (end - start), timedelta())
    start, end = start - lacking / 2, end + lacking / 2
    return max(start, night.start), min(end, night.end)


def sky_steps(sun: Track, start: datetime, end: datetime) -> tuple[SkyStep, ...]:
    """Return the kinds of sky in order, from the Sun's own height, so that any latitude comes out right."""
    first, last = start.timestamp(), end.timestamp()
    edges = [first, last]
    for _, limit_deg in SKY_ENDS_DEG:
        edges += [edge for edge in _crossings(sun.unix_s, sun.altitude_deg, limit_deg) if first < edge < last]
    edges.sort()
    steps: list[SkyStep] = []
    for early, late in pairwise(edges):
        sky = _sky_at(float(np.interp((early + late) / 2, sun.unix_s, sun.altitude_deg)))
        begin = steps.pop().start if steps and steps[-1].sky is sky else _moment(early)
        steps.append(SkyStep(start=begin, end=_moment(late), sky=sky))
    return tuple(steps)


def _sky_at(sun_altitude_deg: float) -> Sky:
    for sky, limit_deg in SKY_ENDS_DEG:
        if sun_altitude_deg > limit_deg:
            return sky
    return Sky.NIGHT


def _crossings(unix_s: Floats, values: Floats, level: float) -> list[float]:
    """Return where a sampled curve passes a level, by straight lines between its points."""
    above = values > level
    before = np.flatnonzero(above[1:] != above[:-1])
    share = (level - values[before]) / (values[before + 1] - values[before])
    return [float(time) for time in unix_s[before] + share * (unix_s[before + 1] - unix_s[before])]


def _curve(body_night: BodyNight, start: datetime, end: datetime) -> Curve:
    """Return a body's curve, cut off at the horizon: below it refraction has no meaning."""
    track = body_night.track
    first = max(start.timestamp(), float(track.unix_s[0]))
    last = min(end.timestamp(), float(track.unix_s[-1]))
    marks = [
        (PieceKind.BLOCKED, span.what, span.start.timestamp(), span.end.timestamp())
        for span in body_night.blocked
    ]
    for window in body_night.windows:
        kind = PieceKind.WINDOW if window.warm_air is None else PieceKind.WARM
        marks.append((kind, window.warm_air or "", window.start.timestamp(), window.end.timestamp()))
    edges = [first, last, *_crossings(track.unix_s, track.altitude_deg, 0.0)]
    edges += [transit.time.timestamp() for transit in body_night.transits]
    edges += [edge for _, _, *both in marks for edge in both]
    return Curve(
        body=body_night.body,
        pieces=tuple(_pieces(track, sorted({edge for edge in edges if first <= edge <= last}), marks)),
        transits=tuple(
            (when, transit.altitude_deg)
            for transit in body_night.transits
            if first <= (when := transit.time.timestamp()) <= last and transit.altitude_deg > 0
        ),
    )


def _pieces(
    track: Track, edges: Sequence[float], marks: Sequence[tuple[PieceKind, str, float, float]]
) -> list[Piece]:
    """Cut a track at the edges, drop what is under the horizon, and join neighbours of one kind."""
    pieces: list[Piece] = []
    points_s = track.unix_s[::_EVERY_SAMPLE]
    for early, late in pairwise(edges):
        middle = (early + late) / 2
        if float(np.interp(middle, track.unix_s, track.altitude_deg)) <= 0:
            continue
        kind, what = _kind_at(middle, marks)
        inner = points_s[(points_s > early) & (points_s < late)]
        unix_s = np.concatenate(([early], inner, [late]))
        altitude_deg = np.maximum(np.interp(unix_s, track.unix_s, track.altitude_deg), 0.0)
        joined = (
            pieces and pieces[-1].unix_s[-1] == early and (pieces[-1].kind, pieces[-1].what) == (kind, what)
        )
        if joined:
            before = pieces.pop()
            unix_s = np.concatenate((before.unix_s, unix_s[1:]))
            altitude_deg = np.concatenate((before.altitude_deg, altitude_deg[1:]))
        pieces.append(Piece(kind=kind, what=what, unix_s=unix_s, altitude_deg=altitude_deg))
    return pieces


def _kind_at(unix_s: float, marks: Sequence[tuple[PieceKind, str, float, float]]) -> tuple[PieceKind, str]:
    """Return what a moment of a curve tells; blocked sky, listed first, outweighs the rest."""
    for kind, what, early, late in marks:
        if early <= unix_s <= late:
            return kind, what
    return PieceKind.UP, ""


def _moment(unix_s: float) -> datetime:
    return datetime.fromtimestamp(unix_s, UTC)
