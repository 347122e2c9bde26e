"""One evening at one site: when and how high each body stands, and when it is worth a look."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime
from functools import cached_property

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.sky.bodies import FACTS, TARGETS, Body
from core.sky.civil import evening_span
from core.sky.crossings import Crossings
from core.sky.ephemeris import SizeAndLight, check_date, size_and_light
from core.sky.events import (
    ASTRONOMICAL_DEG,
    BEST_DEG,
    CIVIL_DEG,
    FAIR_DEG,
    HORIZON_DEG,
    LOWEST_USEFUL_DEG,
    NAUTICAL_DEG,
    SUN_HORIZON_DEG,
    BodyState,
    Heights,
    dark_spans,
    transits_along,
)
from core.sky.geocentric import diameter_arcsec, elongation_deg
from core.sky.instant import instant
from core.sky.site import Site
from core.sky.spans import Span, to_spans
from core.sky.track import Position, Track, position_at, positions_at, sample_times_s, track_of
from core.sky.viewpoint import Viewpoint
from core.sky.why_not import NoWindow, WhyNot, explain
from core.sky.windows import BlockedSpan, Window, find_blocked, find_windows, look_around


@frozen(kw_only=True)
class BodyNight:
    """One body's evening.

    Rises, transits and sets are all of their kind, in order; altitudes are geometric. ``highest`` is over
    the whole evening. Without ``windows``, ``why_not`` says why.
    ``dark_below_deg`` is the altitude under which the Sun must stand for this body.
    Diameter (equatorial), magnitude, illuminated fraction and elongation are geocentric, at ``seen_at``: the
    first transit or else mid-evening.
    """

    body: Body
    state: BodyState
    rises: tuple[datetime, ...]
    transits: tuple[Position, ...]
    sets: tuple[datetime, ...]
    above_30: tuple[Span, ...]
    above_45: tuple[Span, ...]
    highest: Position
    windows: tuple[Window, ...]
    blocked: tuple[BlockedSpan, ...]
    why_not: NoWindow | None
    dark_below_deg: float
    seen_at: datetime
    track: Track

    @property
    def why_not_kind(self) -> WhyNot | None:
        """The kind of reason for having no window, None with one."""
        return None if self.why_not is None else self.why_not.kind

    # How it looks is worked out when it is asked for.

    @cached_property
    def diameter_arcsec(self) -> float:
        """Apparent equatorial diameter."""
        return float(diameter_arcsec(self.body, np.array([self.seen_at.timestamp()]))[0])

    @cached_property
    def elongation_deg(self) -> float:
        """The angle between its place and the Sun's."""
        return float(elongation_deg(self.body, np.array([self.seen_at.timestamp()]))[0])

    @cached_property
    def magnitude(self) -> float:
        """Apparent magnitude."""
        return float(self._size_and_light.magnitude[0])

    @cached_property
    def illuminated_fraction(self) -> float:
        """The lit part of the disc's area."""
        return float(self._size_and_light.illuminated_fraction[0])

    @cached_property
    def _size_and_light(self) -> SizeAndLight:
        return size_and_light(self.body, np.array([self.seen_at.timestamp()]))


@frozen(kw_only=True)
class SunNight:
    """The Sun's evening: first downward and last upward crossing of each altitude, None without one."""

    set: datetime | None
    rise: datetime | None
    civil_dusk: datetime | None
    civil_dawn: datetime | None
    nautical_dusk: datetime | None
    nautical_dawn: datetime | None
    astronomical_dusk: datetime | None
    astronomical_dawn: datetime | None
    lowest_altitude_deg: float
    track: Track


@frozen(kw_only=True)
class Night:
    """One evening at one site, from ``start`` up to, not including, ``end`` (UTC)."""

    site: Site
    evening: date
    start: datetime
    end: datetime
    sun: SunNight
    bodies: tuple[BodyNight, ...]

    def holds(self, moment: datetime) -> bool:
        """Tell whether a moment lies in the evening."""
        return self.start <= moment < self.end

    def of(self, body: Body) -> BodyNight:
        """Return one body's evening; KeyError for a body that was not asked for."""
        for night in self.bodies:
            if night.body is body:
                return night
        raise KeyError(body)

    def is_ever_dark(self, body: Body, start: datetime, end: datetime) -> bool:
        """Tell whether the sky is dark enough for a body at either end of a span or half way."""
        moments = (start, start + (end - start) / 2, end)
        below_deg = self.of(body).dark_below_deg
        return any(self.position(Body.SUN, moment).altitude_deg < below_deg for moment in moments)

    def position(self, body: Body, time: datetime) -> Position:
        """Return where any body, the Sun too, stands at a time, exactly."""
        return position_at(self.site, body, time)


def compute_night(
    site: Site,
    evening: date,
    *,
    targets: Sequence[Body] = TARGETS,
    dark_enough: Mapping[Body, float] | None = None,
) -> Night:
    """Return an evening at a site.

    ``dark_enough`` gives the altitude in degrees under which the Sun must stand for a body to be worth a
    look, where it is not the usual one of ``FACTS``. Raises EphemerisRangeError for a date outside the
    planet tables, and ProblemsError for one that the site's zone skipped.
    """
    check_date(evening)
    start, end = evening_span(site, evening)
    sky = _Evening.at(site, start.timestamp(), end.timestamp())
    below = {body: FACTS[body].dark_enough_sun_altitude_deg for body in targets} | dict(dark_enough or {})
    levels_deg = sorted(set(below.values()))
    dark = dict(zip(levels_deg, dark_spans(sky.sun, levels_deg), strict=True))
    return Night(
        site=site,
        evening=evening,
        start=start,
        end=end,
        sun=_sun_night(sky),
        bodies=tuple(_body_night(sky, body, below[body], dark[below[body]]) for body in targets),
    )


def read_tables(site: Site, evening: date) -> None:
    """Read what an evening takes from the planet tables, which is slow the first time.

    Raises as ``compute_night`` does.
    """
    check_date(evening)
    edges_s = np.array([edge.timestamp() for edge in evening_span(site, evening)])
    viewpoint = Viewpoint.of(site)
    for body in (Body.SUN, *TARGETS):
        viewpoint.direction(body, edges_s)


@frozen
class _Evening:
    """What every body of an evening shares."""

    site: Site
    viewpoint: Viewpoint
    times_s: Floats
    sun: Heights
    sun_track: Track

    @classmethod
    def at(cls, site: Site, start_s: float, end_s: float) -> "_Evening":
        viewpoint, times_s = Viewpoint.of(site), sample_times_s(start_s, end_s)
        sun = viewpoint.direction(Body.SUN, times_s)
        return cls(
            site, viewpoint, times_s, Heights.along(times_s, sun), track_of(site, Body.SUN, times_s, sun)
        )


def _sun_night(sky: _Evening) -> SunNight:
    levels = [SUN_HORIZON_DEG, CIVIL_DEG, NAUTICAL_DEG, ASTRONOMICAL_DEG]
    horizon, civil, nautical, astronomical = sky.sun.crossings(levels)
    return SunNight(
        set=_first_fall(horizon),
        rise=_last_climb(horizon),
        civil_dusk=_first_fall(civil),
        civil_dawn=_last_climb(civil),
        nautical_dusk=_first_fall(nautical),
        nautical_dawn=_last_climb(nautical),
        astronomical_dusk=_first_fall(astronomical),
        astronomical_dawn=_last_climb(astronomical),
        lowest_altitude_deg=sky.sun.lowest_deg,
        track=sky.sun_track,
    )


def _first_fall(crossings: Crossings) -> datetime | None:
    return instant(crossings.falls_s[0]) if len(crossings.falls_s) else None


def _last_climb(crossings: Crossings) -> datetime | None:
    return instant(crossings.climbs_s[-1]) if len(crossings.climbs_s) else None


def _body_night(sky: _Evening, body: Body, sun_below_deg: float, dark: Floats) -> BodyNight:
    direction = sky.viewpoint.direction(body, sky.times_s)
    heights = Heights.along(sky.times_s, direction)
    track = track_of(sky.site, body, sky.times_s, direction)
    transits_s = transits_along(sky.viewpoint, sky.times_s, direction)
    crossed = heights.crossings([HORIZON_DEG, LOWEST_USEFUL_DEG, FAIR_DEG, BEST_DEG])
    horizon, _, fair, best = crossed
    view = look_around(sky.site, track, [each.above_s for each in crossed], dark)
    windows = find_windows(view)
    seen_s = transits_s[0] if len(transits_s) else (sky.times_s[0] + sky.times_s[-1]) / 2.0
    turns = [instant(time_s) for time_s in (*transits_s, heights.highest_s)]
    *transits, highest = positions_at(sky.site, sky.viewpoint, body, turns)
    return BodyNight(
        body=body,
        state=heights.state(),
        rises=tuple(instant(time_s) for time_s in horizon.climbs_s),
        transits=tuple(transits),
        sets=tuple(instant(time_s) for time_s in horizon.falls_s),
        above_30=to_spans(fair.above_s),
        above_45=to_spans(best.above_s),
        highest=highest,
        windows=windows,
        blocked=find_blocked(view),
        why_not=None if windows else explain(view, heights, sky.sun, sun_below_deg),
        dark_below_deg=sun_below_deg,
        seen_at=instant(seen_s),
        track=track,
    )
