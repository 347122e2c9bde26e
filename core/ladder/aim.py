"""Where the telescope points: at a planet, at a height, or straight overhead."""

from datetime import datetime, timedelta

import numpy as np
from attrs import frozen

from core.air.atmosphere import LOWEST_PATH_ALTITUDE_DEG, apparent_altitude_deg
from core.sky.apparent import instant
from core.sky.bodies import Body
from core.sky.night import BodyNight, Night
from core.sky.sunlight import daylight_at
from core.sky.track import path_or_none
from core.sky.windows import blocked_words, warm_air_words


@frozen(kw_only=True)
class Aim:
    """A direction for the telescope.

    ``altitude_deg`` is geometric. ``path`` is None below 5 degrees apparent altitude; ``reason`` says why
    there is no path or nothing is offered, or what was assumed. ``line_of_sight`` tells of blocked sky or
    warm air in the way, ``caution`` of the Sun being up, in sentences; ``too_near_the_sun`` that it is so
    near that nothing is offered.
    """

    planet: Body | None
    at: datetime | None
    altitude_deg: float
    apparent_altitude_deg: float
    path: float | None
    declination_deg: float | None
    overhead: bool
    reason: str | None
    line_of_sight: str | None = None
    caution: str | None = None
    too_near_the_sun: bool = False

    @property
    def notices(self) -> tuple[str, ...]:
        """What must be known before looking there, as sentences; words of safety come first."""
        seen = None
        if self.planet is not None and self.line_of_sight is not None:
            seen = f"{self.planet.heading} is then {self.line_of_sight}."
        return tuple(words for words in (self.caution, seen) if words is not None)


def aim_at(night: Night, planet: Body, at: datetime | None = None) -> Aim:
    """Return the aim at a planet at a time; without one, at its highest inside its windows.

    A planet with no window is taken at its highest of the whole evening, and ``reason`` says so.
    """
    body = night.of(planet)
    position = night.position(planet, at or _best_time(body))
    daylight = daylight_at(night, planet, position.time)
    reason = None
    if daylight is not None and daylight.is_too_near:
        reason = daylight.refusal
    elif position.path is None:
        reason = _no_path_words(planet.heading, position.apparent_altitude_deg)
    elif at is None and not body.windows:
        reason = f"{planet.heading} has no good minutes this evening: taken at its highest all the same"
    return Aim(
        planet=planet,
        at=position.time,
        altitude_deg=position.altitude_deg,
        apparent_altitude_deg=position.apparent_altitude_deg,
        path=position.path,
        declination_deg=position.declination_deg,
        overhead=False,
        reason=reason,
        line_of_sight=_line_of_sight(body, position.time),
        caution=None if daylight is None else daylight.caution,
        too_near_the_sun=daylight is not None and daylight.is_too_near,
    )


def aim_altitude(altitude_deg: float) -> Aim:
    """Return the aim at a geometric altitude in degrees, in the standard air of sea level."""
    apparent_deg = float(apparent_altitude_deg(altitude_deg))
    path = path_or_none(apparent_deg)
    return Aim(
        planet=None,
        at=None,
        altitude_deg=altitude_deg,
        apparent_altitude_deg=apparent_deg,
        path=path,
        declination_deg=None,
        overhead=False,
        reason=None if path is not None else _no_path_words("A body at this height", apparent_deg),
    )


def aim_overhead() -> Aim:
    """Return the aim straight overhead, for when neither a planet nor a height is given."""
    return Aim(
        planet=None,
        at=None,
        altitude_deg=90.0,
        apparent_altitude_deg=90.0,
        path=1.0,
        declination_deg=None,
        overhead=True,
        reason="no planet and no height given: taken straight overhead",
    )


def _no_path_words(subject: str, apparent_deg: float) -> str:
    # With refraction, so that it may differ from the altitude told beside it.
    where = f"seen {apparent_deg:.1f}° high" if apparent_deg >= 0.0 else "below the horizon"
    return f"{subject} is {where}: no air path is given below {LOWEST_PATH_ALTITUDE_DEG:.0f}°"


def _line_of_sight(body: BodyNight, time: datetime) -> str | None:
    """Return what a body is behind or seen through at a time."""
    for span in body.blocked:
        if span.start <= time < span.end:
            return blocked_words(span.what)
    for window in body.windows:
        if window.start <= time < window.end and window.warm_air is not None:
            return f"seen through {warm_air_words(window.warm_air)}"
    return None


def _best_time(body: BodyNight) -> datetime:
    """Return when a body is highest inside its windows, or else in the evening."""
    windows = body.windows
    highest = body.highest.time
    if not windows or any(window.start <= highest < window.end for window in windows):
        return highest
    # The last second of a window stands for its end, which is no longer inside.
    edges = [edge for window in windows for edge in (window.start, window.end - timedelta(seconds=1))]
    edges_s = [edge.timestamp() for edge in edges]
    times_s = body.track.unix_s
    inside = [
        (times_s >= window.start.timestamp()) & (times_s < window.end.timestamp()) for window in windows
    ]
    candidates_s = np.concatenate([edges_s, times_s[np.any(inside, axis=0)]])
    altitudes_deg = np.interp(candidates_s, times_s, body.track.altitude_deg)
    return instant(candidates_s[np.argmax(altitudes_deg)])
