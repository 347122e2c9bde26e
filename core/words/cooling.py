"""When a telescope is ready: in minutes from being carried out, or by the site's clock."""

from datetime import datetime, timedelta

from core.air.cooling import READY_WITHIN_C, Readiness
from core.words.quantities import rounded, rounded_text
from core.words.site_clock import SiteClock

_STEP_MINUTES = 5

_ALREADY = "It is within {near} of the air already."
_STAYS_WARMER = (
    "While the air changes this fast the telescope stays about {lag} warmer than the air and never comes "
    "within {near}. Low power is usable at once; a fan, or carrying it out earlier, helps."
)
_STAYS_COLDER = (
    "While the air changes this fast the telescope stays about {lag} colder than the air and never comes "
    "within {near}. Low power is usable at once; a fan, or carrying it out earlier, helps."
)
# By whether the time is the owner's own and whether its slow end is known.
_READY = {
    (False, True): (
        "Within {near} of the air in about {span} minutes (an estimate). Low power is usable at once."
    ),
    (True, True): (
        "Within {near} of the air in about {span} minutes (from your own measured time). "
        "Low power is usable at once."
    ),
    (False, False): (
        "Within {near} of the air from about {soonest} minutes, perhaps not at all tonight (an estimate). "
        "Low power is usable at once."
    ),
    (True, False): (
        "Within {near} of the air from about {soonest} minutes, perhaps not at all tonight "
        "(from your own measured time). Low power is usable at once."
    ),
}
_OUTSIDE = "The telescope is outside since {since}."
_OUTSIDE_ALREADY = "The telescope is outside since {since}, and was within {near} of the air then."
_OUTSIDE_READY = {
    (False, True): (
        "The telescope is outside since {since} and comes within {near} of the air somewhere from {soonest} "
        "to {latest}, likely at {likely} (an estimate). Low power is usable at once."
    ),
    (True, True): (
        "The telescope is outside since {since} and comes within {near} of the air somewhere from {soonest} "
        "to {latest}, likely at {likely} (from your own measured time). Low power is usable at once."
    ),
    (False, False): (
        "The telescope is outside since {since} and comes within {near} of the air perhaps from {soonest}, "
        "perhaps not at all tonight (an estimate). Low power is usable at once."
    ),
    (True, False): (
        "The telescope is outside since {since} and comes within {near} of the air perhaps from {soonest}, "
        "perhaps not at all tonight (from your own measured time). Low power is usable at once."
    ),
}
# By whether the warmth is only assumed; in a row where there is little room.
_NOTES = ("{unit} warmer than air", "{unit} warmer than air, assumed")
_NOTES_LIKELY = (
    "{unit} warmer than air · likely ready {likely}",
    "{unit} warmer than air, assumed · likely ready {likely}",
)
_NOTES_READY = (
    "{unit} warmer than air · likely ready since {likely}",
    "{unit} warmer than air, assumed · likely ready since {likely}",
)
_SPAN = "{low} to {high}"
_SHORT_SPAN = "{span} min"
_AT_ONCE = "at once"
_NEVER_QUITE = "never quite, in falling air"
_NEAR = f"{rounded_text(READY_WITHIN_C)} °C"


def readiness_text(readiness: Readiness) -> str:
    """Return the estimate, counted from being carried out, as one or two sentences."""
    if readiness.never:
        template = _STAYS_WARMER if readiness.settles_at_c > 0 else _STAYS_COLDER
        return template.format(lag=f"{rounded_text(abs(readiness.settles_at_c), 1)} °C", near=_NEAR)
    if readiness.likely_minutes == 0:
        return _ALREADY.format(near=_NEAR)
    assert readiness.low_minutes is not None
    high_minutes = readiness.high_minutes
    return _READY[readiness.measured, high_minutes is not None].format(
        near=_NEAR,
        soonest=rounded_minutes(readiness.low_minutes),
        span=None if high_minutes is None else span_text(readiness.low_minutes, high_minutes),
    )


def time_outside_text(readiness: Readiness, outside_since: datetime, clock: SiteClock) -> str:
    """Return since when a telescope stands outside and when it is ready, the estimate as a span of time."""
    since, likely = clock.time(outside_since), readiness.ready_at(outside_since)
    if likely is None or readiness.low_minutes is None:
        return " ".join((_OUTSIDE.format(since=since), readiness_text(readiness)))
    if likely == outside_since:
        return _OUTSIDE_ALREADY.format(since=since, near=_NEAR)

    def after(minutes: float | None) -> str | None:
        if minutes is None:
            return None
        return clock.time(outside_since + timedelta(minutes=rounded_minutes(minutes)))

    return _OUTSIDE_READY[readiness.measured, readiness.high_minutes is not None].format(
        since=since,
        near=_NEAR,
        soonest=after(readiness.low_minutes),
        latest=after(readiness.high_minutes),
        likely=clock.time(likely),
    )


def brief_outside_text(
    likely: datetime | None, now: datetime, clock: SiteClock, *, unit: str, is_assumed: bool
) -> str:
    """Return what follows the figure for a telescope's warmth: its unit, and when it is likely ready."""
    if likely is None:
        return _NOTES[is_assumed].format(unit=unit)
    templates = _NOTES_READY if likely <= now else _NOTES_LIKELY
    return templates[is_assumed].format(unit=unit, likely=clock.time(likely))


def cool_down_text(minutes: tuple[float, float, float] | None) -> str:
    """Return low, likely and high minutes of a cool-down as a figure: ``25 to 55 min``; None for never."""
    if minutes is None:
        return _NEVER_QUITE
    low, likely, high = minutes
    return _SHORT_SPAN.format(span=span_text(low, high)) if likely > 0 else _AT_ONCE


def rounded_minutes(minutes: float) -> int:
    """Return minutes to the nearest 5, at least 5, as an estimate deserves."""
    return max(_STEP_MINUTES, _STEP_MINUTES * int(rounded(minutes / _STEP_MINUTES)))


def span_text(low_minutes: float, high_minutes: float) -> str:
    """Return the two ends of an estimate to the nearest 5 minutes, at least 5 apart: ``25 to 55``."""
    low = rounded_minutes(low_minutes)
    return _SPAN.format(low=low, high=max(rounded_minutes(high_minutes), low + _STEP_MINUTES))
