"""Evenings by the site's own clock: from noon to noon, whatever the zone does in between."""

from datetime import UTC, date, datetime, time, timedelta

import numpy as np

from core.problems import refuse
from core.sky.bodies import Body
from core.sky.crossings import Course
from core.sky.events import SUN_HORIZON_DEG
from core.sky.site import Site
from core.sky.viewpoint import Viewpoint

_NOON = time(12)
_DAY = timedelta(days=1)


def evening_span(site: Site, evening: date) -> tuple[datetime, datetime]:
    """Return start and end (UTC) of an evening: noon of its date up to, not including, the next noon.

    Raises ProblemsError, by name, for a date that the site's zone skipped.
    """
    try:
        if _is_skipped(site, evening):
            raise refuse(f"{evening} does not exist in {site.time_zone}: the clocks there skipped that date")
        return _noon(site, evening), _noon(site, evening + _DAY)
    except OverflowError:
        raise refuse(f"{evening} is too near an end of the calendar") from None


def _noon(site: Site, day: date) -> datetime:
    """Return noon of a date; of a skipped date, the noon that the clocks showed in its stead."""
    return datetime.combine(day, _NOON, tzinfo=site.zone).astimezone(UTC)


def _is_skipped(site: Site, day: date) -> bool:
    return _noon(site, day).astimezone(site.zone).date() != day


def tonight(site: Site, now: datetime) -> date:
    """Return the date of the evening that a person means by "tonight".

    Before sunrise that is the evening in progress, from sunrise on the coming one; where the Sun neither
    rises nor sets in the night, noon divides. ``now`` is any aware time.
    """
    today = now.astimezone(site.zone).date()
    if now >= _noon(site, today):
        return today
    yesterday = today - _DAY
    while _is_skipped(site, yesterday):
        yesterday -= _DAY
    sunrise_s = _sunrise_after_midnight(site, yesterday)
    return today if sunrise_s is not None and now.timestamp() >= sunrise_s else yesterday


def _sunrise_after_midnight(site: Site, evening: date) -> float | None:
    """Return the Unix seconds of the sunrise that ends an evening's night, None where there is none.

    A Sun that rises just after the noon at which the evening starts does not end it.
    """
    start, end = evening_span(site, evening)
    viewpoint = Viewpoint.of(site)
    course = Course(
        quantity=lambda unix_s: viewpoint.sine_altitude(Body.SUN, unix_s),
        start_s=start.timestamp(),
        end_s=end.timestamp(),
    )
    (crossings,) = course.crossings([float(np.sin(np.radians(SUN_HORIZON_DEG)))])
    after = crossings.climbs_s[crossings.climbs_s > course.lowest[0]]
    return float(after[0]) if len(after) else None


def site_time(site: Site, text: str) -> datetime:
    """Return the UTC time that a text means: ISO 8601 with an offset, or the site's own time without one.

    Of an hour that comes twice the first is taken; one that the clocks skipped is refused, as is a text
    without a time of day.
    """
    try:
        given = datetime.fromisoformat(text.strip())
    except ValueError:
        raise refuse(f"{text!r} is not a time: write it as 2026-12-05T21:30, or with an offset") from None
    if "T" not in text.upper() and ":" not in text:
        raise refuse(f"{text!r} has no time of day: write it as 2026-12-05T21:30, or with an offset")
    try:
        if given.tzinfo is not None:
            return given.astimezone(UTC)
        found = given.replace(tzinfo=site.zone).astimezone(UTC)
    except OverflowError:
        raise refuse(f"{text!r} is outside the calendar") from None
    if found.astimezone(site.zone).replace(tzinfo=None) != given:
        raise refuse(f"{text!r} does not exist in {site.time_zone}: the clocks there skipped it")
    return found
