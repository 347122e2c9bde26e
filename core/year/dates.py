"""The next evenings on which bodies stand high enough in the owner's hours, under a Moon as wished."""

from collections.abc import Mapping, Sequence
from datetime import date, datetime, time, timedelta
from typing import Final

import numpy as np
from attrs import frozen

from core.air.blur import Blur
from core.air.dispersion import dispersion_at
from core.air.limits import ceiling_of, find_limits
from core.arrays import Floats
from core.checks import within
from core.ladder.aim import aim_spread_arcsec
from core.moments.best_minutes import SHORTEST_USEFUL
from core.moments.details import Sharpness
from core.moments.hours import Dusks, Hour, HoursOut, typed_hours, usual_hours
from core.problems import ProblemsError
from core.sky.bodies import FACTS, Body
from core.sky.ephemeris import check_date, usable_dates
from core.sky.events import FAIR_DEG, LOWEST_USEFUL_DEG, SUN_HORIZON_DEG, Heights, dark_spans
from core.sky.geocentric import illuminated_fraction
from core.sky.instant import instant
from core.sky.site import Site
from core.sky.spans import Pieces, Span, intersect, to_spans
from core.sky.track import Position, position_at
from core.sky.viewpoint import Viewpoint
from core.year.behind_obstacles import spans_behind_obstacles
from core.year.evenings import Evenings, evenings_from, evenings_from_any
from core.year.outlook import Progress

HOW_MANY: Final = 10
# So far ahead is looked (ours): nobody plans an evening later, and it takes no longer than a second.
YEARS_LOOKED_THROUGH: Final = 8
# What can be wished for.
HEIGHT_DEG: Final = within(10, 89, "degrees")
MOON_LIT_PERCENT: Final = within(0, 100, "percent")
_BLOCK_DAYS: Final = 64


def usual_height_deg(body: Body) -> float:
    """Return the height from which a body is sought where nothing was said: 30 degrees, Mercury 10.

    Mercury is hardly ever higher than that in a sky dark enough (ours).
    """
    return LOWEST_USEFUL_DEG if body is Body.MERCURY else FAIR_DEG


@frozen(kw_only=True)
class HeightWish:
    """A body, and the geometric altitude in degrees above which it is wanted."""

    body: Body
    above_deg: float


@frozen(kw_only=True)
class DateWishes:
    """What an evening must have.

    ``start`` and ``end`` are the hours outside, both None for the usual ones; ``moon_percent`` is how much of
    the Moon may be lit, from and to, None for any.
    """

    heights: tuple[HeightWish, ...]
    start: Hour | None = None
    end: Hour | None = None
    moon_percent: tuple[float, float] | None = None


@frozen(kw_only=True)
class WishSeen:
    """When a body is as wished on an evening, and where it is highest then.

    ``ceiling_power`` is what the telescope bears there in usual air, None without a telescope.
    """

    body: Body
    spans: tuple[Span, ...]
    highest: Position
    ceiling_power: float | None = None


@frozen(kw_only=True)
class FoundDate:
    """An evening that fits: the hours outside, how much of the Moon is lit in their middle, every body."""

    evening: date
    hours: HoursOut
    moon_lit: float
    seen: tuple[WishSeen, ...]


@frozen(kw_only=True)
class FoundDates:
    """The evenings that fit, in order; ``searched_to`` is the last that was looked at."""

    wishes: DateWishes
    evenings: tuple[FoundDate, ...]
    searched_to: date


def check_hours(wishes: DateWishes, usual: tuple[Hour, Hour], dusks: Dusks) -> None:
    """Raise ProblemsError for hours of the clock that end before they start, as on any evening."""
    start, end = wishes.start or usual[0], wishes.end or usual[1]
    if isinstance(start, time) and isinstance(end, time):
        typed_hours(dusks, start=start, end=end)


def find_dates(
    site: Site,
    wishes: DateWishes,
    first: date,
    *,
    usual: tuple[Hour, Hour],
    dark_enough: Mapping[Body, float] | None = None,
    sharpness: Sharpness | None = None,
    progress: Progress | None = None,
) -> FoundDates:
    """Return the next ten evenings from a first one on that have all that is wished for, within eight years.

    Each body is above its height for 20 minutes on end in the hours (``usual`` ones where none are wished
    for), in a sky dark enough for it, clear of the site's blocked sky, and before the stop line.
    ``dark_enough`` gives the Sun's altitude for that where it is not the usual one, ``sharpness`` what is
    looked through on a usual night, whose ceiling is told. ``progress`` is told how many of its steps are
    done, and of how many; whatever it raises stops the work. Raises EphemerisRangeError for a first date
    outside the planet tables, and ProblemsError for one that the site's zone skipped.
    """
    check_date(first)
    last = min(first + timedelta(days=round(365.25 * YEARS_LOOKED_THROUGH)), usable_dates()[1])
    steps = (last - first).days // _BLOCK_DAYS + 1
    search = _Search(site, wishes, usual, dict(dark_enough or {}), sharpness)
    found: list[FoundDate] = []
    searched_to = first
    for step in range(steps):
        if progress is not None:
            progress(step, steps)
        start = first + timedelta(days=step * _BLOCK_DAYS)
        read = evenings_from_any if step else evenings_from
        evenings = read(site, start, min(_BLOCK_DAYS, (last - start).days + 1))
        found += search.in_block(evenings)
        searched_to = evenings.dates[-1]
        if len(found) >= HOW_MANY:
            searched_to = found[HOW_MANY - 1].evening
            break
    if progress is not None:
        progress(steps, steps)
    return FoundDates(wishes=wishes, evenings=tuple(found[:HOW_MANY]), searched_to=searched_to)


@frozen
class _Outside:
    """The hours of one evening, and the last second of them before the stop line."""

    hours: HoursOut
    until_s: float

    @classmethod
    def of(cls, hours: HoursOut, stop: datetime | None) -> "_Outside":
        is_cut = stop is not None and hours.start < stop < hours.end
        return cls(hours, (stop if is_cut and stop is not None else hours.end).timestamp())

    @property
    def span_s(self) -> tuple[float, float]:
        return self.hours.start.timestamp(), self.until_s


@frozen
class _Seen:
    """The spans (N, 2) in which a body is as wished, and its course."""

    spans_s: Floats
    heights: Heights


@frozen
class _Search:
    """What is sought, and where."""

    site: Site
    wishes: DateWishes
    usual: tuple[Hour, Hour]
    dark_enough: dict[Body, float]
    sharpness: Sharpness | None

    def in_block(self, evenings: Evenings) -> list[FoundDate]:
        """Return the evenings that fit, of some that follow one another."""
        viewpoint = Viewpoint.of(self.site)
        sun = Heights.of(viewpoint, Body.SUN, evenings.start_s, evenings.end_s)
        outside = self._under_the_moon(self._outside(evenings, sun))
        seen: dict[Body, _Seen] = {}
        for wish in self.wishes.heights:
            if not outside:
                return []
            found = self._seen(viewpoint, sun, wish, outside)
            seen[wish.body] = found
            there = set(evenings.numbers(found.spans_s[:, 0]).tolist())
            outside = {number: each for number, each in outside.items() if number in there}
        return [self._found(evenings, number, each, seen) for number, each in outside.items()]

    def _outside(self, evenings: Evenings, sun: Heights) -> dict[int, _Outside]:
        """Return the hours by the number of the evening, without evenings that have none."""
        (horizon,) = sun.crossings([SUN_HORIZON_DEG])
        # Of several sets the first counts, of several rises the last.
        sets = _by_evening(evenings, horizon.falls_s[::-1])
        rises = _by_evening(evenings, horizon.climbs_s)
        found = {}
        for number, edge_s in enumerate(evenings.edges_s[:-1]):
            dusks = Dusks(
                noon=instant(edge_s),
                zone=self.site.zone,
                sunset=sets.get(number),
                sunrise=rises.get(number),
            )
            hours = self._hours(dusks)
            if hours is not None:
                found[number] = _Outside.of(hours, dusks.stop)
        return found

    def _hours(self, dusks: Dusks) -> HoursOut | None:
        start, end = self.wishes.start, self.wishes.end
        if start is None and end is None:
            return usual_hours(dusks, start=self.usual[0], end=self.usual[1])
        try:
            return typed_hours(dusks, start=start or self.usual[0], end=end or self.usual[1])
        except ProblemsError:
            # From dusk to 21:00 is nothing in a light summer.
            return None

    def _under_the_moon(self, outside: dict[int, _Outside]) -> dict[int, _Outside]:
        """Return the evenings with so much of the Moon lit as is wished for, in the middle of the hours."""
        if self.wishes.moon_percent is None or not outside:
            return outside
        low, high = self.wishes.moon_percent
        percent = 100.0 * _moon_lit([each.hours for each in outside.values()])
        fits = (percent >= low) & (percent <= high)
        return {number: each for (number, each), fit in zip(outside.items(), fits, strict=True) if fit}

    def _seen(
        self, viewpoint: Viewpoint, sun: Heights, wish: HeightWish, outside: dict[int, _Outside]
    ) -> _Seen:
        """Return when a wish is met, for long enough."""
        below_deg = self.dark_enough.get(wish.body, FACTS[wish.body].dark_enough_sun_altitude_deg)
        (dark_s,) = dark_spans(sun, [below_deg])
        heights = Heights.of(viewpoint, wish.body, sun.course.start_s, sun.course.end_s)
        (above,) = heights.crossings([max(wish.above_deg, LOWEST_USEFUL_DEG)])
        hours_s = np.array([each.span_s for each in outside.values()])
        spans_s = intersect(intersect(hours_s, dark_s), above.above_s)
        hidden_s = spans_behind_obstacles(self.site, viewpoint, wish.body, spans_s)
        if len(hidden_s):
            pieces = Pieces.between(spans_s, hidden_s)
            spans_s = pieces.spans_s[pieces.within(spans_s) & ~pieces.within(hidden_s)]
        long_enough = spans_s[:, 1] - spans_s[:, 0] >= SHORTEST_USEFUL.total_seconds()
        return _Seen(spans_s[long_enough], heights)

    def _found(
        self, evenings: Evenings, number: int, outside: _Outside, seen: dict[Body, _Seen]
    ) -> FoundDate:
        return FoundDate(
            evening=evenings.dates[number],
            hours=outside.hours,
            moon_lit=float(_moon_lit([outside.hours])[0]),
            seen=tuple(self._met(evenings, number, body, each) for body, each in seen.items()),
        )

    def _met(self, evenings: Evenings, number: int, body: Body, seen: _Seen) -> WishSeen:
        spans_s = seen.spans_s[evenings.numbers(seen.spans_s[:, 0]) == number]
        highest_s, _ = seen.heights.course.highest_within(spans_s)
        highest = position_at(self.site, body, instant(highest_s))
        return WishSeen(
            body=body,
            spans=to_spans(spans_s),
            highest=highest,
            ceiling_power=self._ceiling_power(highest),
        )

    def _ceiling_power(self, position: Position) -> float | None:
        """Return the power that is borne where a body stands, None below 5 degrees or without a telescope."""
        if self.sharpness is None or position.path is None:
            return None
        dispersion = dispersion_at(position.apparent_altitude_deg, elevation_m=self.site.elevation_m)
        limits = find_limits(
            aperture_mm=self.sharpness.aperture_mm,
            path=position.path,
            dispersion_arcsec=aim_spread_arcsec(dispersion),
            blur=Blur(overhead_arcsec=self.sharpness.overhead_blur_arcsec),
        )
        return ceiling_of(limits).power


def _by_evening(evenings: Evenings, times_s: Floats) -> dict[int, datetime]:
    """Return times by the number of their evening; of several the last in order."""
    numbers = evenings.numbers(times_s)
    return {int(number): instant(time_s) for number, time_s in zip(numbers, times_s, strict=True)}


def _moon_lit(hours: Sequence[HoursOut]) -> Floats:
    """Return the lit part of the Moon in the middle of some hours (N,)."""
    middles_s = [(each.start.timestamp() + each.end.timestamp()) / 2.0 for each in hours]
    return illuminated_fraction(Body.MOON, np.array(middles_s))
