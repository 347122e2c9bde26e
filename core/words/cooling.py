"""When a telescope is ready: in minutes from being carried out, or by the site's clock."""

from datetime import datetime
from typing import Final

from core.air.cooling import READY_WITHIN_C
from core.air.mirror_of import CoolingMirror, Settled
from core.air.readiness import Readiness, estimated_at
from core.ladder.mirror_climb import MirrorClimb
from core.record.observer import TemperatureUnit
from core.words.quantities import length_text, power_text, rounded, rounded_text, trimmed_text
from core.words.site_clock import SiteClock

_STEP_MINUTES: Final = 5
_STEP_POWER: Final = 5
_IN_HOURS_FROM_MINUTES: Final = 120.0

_ALREADY: Final = "It is within {near} of the air already."
_NEVER: Final = (
    "While the air falls this fast its mirror stays about {lag} warmer and never comes within {near} of it. "
    "Low power is usable at once; a fan, or carrying it out earlier, helps."
)
# By whether a lens forms the image, and whether the time is the owner's own.
_USABLE: Final = {
    (False, False): "Usable for planets in about {span} minutes (an estimate). Low power is usable at once.",
    (False, True): (
        "Usable for planets in about {span} minutes (from your own measured time). "
        "Low power is usable at once."
    ),
    (True, False): (
        "Its lens is usable for planets in about {span} minutes (an estimate). Low power is usable at once."
    ),
    (True, True): (
        "Its lens is usable for planets in about {span} minutes (from your own measured time). "
        "Low power is usable at once."
    ),
}
_SETTLED: Final = "Its mirror, {mirror}, has settled after about {span} (an estimate)."
_THICK: Final = "{thickness} thick"
_THICK_ASSUMED: Final = "{thickness} thick (assumed)"
_LAGS: Final = "Behind the falling air it stays about {lag} warmer to the end of the night."
_OUTSIDE: Final = "The telescope has been outside since {since}. {readiness}"
_OUTSIDE_ALREADY: Final = (
    "The telescope has been outside since {since}, and was within {near} of the air then."
)
# Neither tells whether the time is past: it is read before and after it.
_OUTSIDE_USABLE: Final = {
    (False, False): (
        "The telescope has been outside since {since}: usable for planets from some time between {soonest} "
        "and {latest}, likely {likely} (an estimate). Low power is usable at once."
    ),
    (False, True): (
        "The telescope has been outside since {since}: usable for planets from some time between {soonest} "
        "and {latest}, likely {likely} (from your own measured time). Low power is usable at once."
    ),
    (True, False): (
        "The telescope has been outside since {since}: its lens is usable for planets from some time between "
        "{soonest} and {latest}, likely {likely} (an estimate). Low power is usable at once."
    ),
    (True, True): (
        "The telescope has been outside since {since}: its lens is usable for planets from some time between "
        "{soonest} and {latest}, likely {likely} (from your own measured time). Low power is usable at once."
    ),
}
_OUTSIDE_SETTLED: Final = (
    "Its mirror, {mirror}, has settled some time between {soonest} and {latest}, likely by {likely} "
    "(an estimate)."
)
_CLIMB_NOW: Final = "As the mirror cools: now about {power}, {later_power} from about {later} (an estimate)."
_CLIMB_AT: Final = (
    "As the mirror cools: about {power} at {at}, {later_power} from about {later} (an estimate)."
)
_CLIMB_LATER: Final = "As the mirror cools, about {later_power} from {later}."
# By whether the warmth is only assumed; in a row where there is little room.
_NOTES: Final = ("{unit} warmer", "{unit} warmer, assumed")
_NOTES_LIKELY: Final = (
    "{unit} warmer · likely usable {likely}",
    "{unit} warmer, assumed · likely usable {likely}",
)
_NOTES_READY: Final = (
    "{unit} warmer · likely usable since {likely}",
    "{unit} warmer, assumed · likely usable since {likely}",
)
_SPAN: Final = "{low} to {high}"
_MINUTES: Final = "{span} minutes"
_HOURS: Final = "{span} hours"
_SHORT_SPAN: Final = "{span} min"
_SHORT_HOURS: Final = "{span} h"
_AT_ONCE: Final = "at once"
_NEVER_QUITE: Final = "never quite, in falling air"
# How much warmer something is, by the unit.
_DIFFERENCES: Final = {TemperatureUnit.CELSIUS: "{figure} °C", TemperatureUnit.FAHRENHEIT: "{figure} °F"}
_FAHRENHEIT_PER_CELSIUS: Final = 1.8
_CELSIUS: Final = TemperatureUnit.CELSIUS


def readiness_text(readiness: Readiness, *, unit: TemperatureUnit = _CELSIUS) -> str:
    """Return both estimates, counted from being carried out, in a few sentences."""
    if readiness.never:
        return _NEVER.format(lag=_lag_text(readiness, unit), near=_near_text(unit))
    if readiness.is_ready_at_once:
        return _sentences(_ALREADY.format(near=_near_text(unit)), _lag_sentence(readiness, unit))
    usable, settled, mirror = readiness.usable, readiness.settled, readiness.mirror
    usable_words = _USABLE[mirror is None, usable.measured].format(
        span=span_text(usable.low_minutes, usable.high_minutes)
    )
    settled_words = None
    if settled is not None and mirror is not None and readiness.settles_later:
        settled_words = _SETTLED.format(
            mirror=_mirror_text(mirror), span=_long_span_text(settled.low_minutes, settled.high_minutes)
        )
    return _sentences(usable_words, settled_words, _lag_sentence(readiness, unit))


def time_outside_text(
    readiness: Readiness, outside_since: datetime, clock: SiteClock, *, unit: TemperatureUnit = _CELSIUS
) -> str:
    """Return since when a telescope stands outside and when it is ready, each estimate as a span of time."""
    since = clock.time(outside_since)
    usable, settled, mirror = readiness.usable, readiness.settled, readiness.mirror
    if readiness.never:
        return _OUTSIDE.format(since=since, readiness=readiness_text(readiness, unit=unit))
    if readiness.is_ready_at_once:
        return _sentences(
            _OUTSIDE_ALREADY.format(since=since, near=_near_text(unit)), _lag_sentence(readiness, unit)
        )

    def after(minutes: float) -> str:
        return clock.time(estimated_at(outside_since, minutes))

    usable_words = _OUTSIDE_USABLE[mirror is None, usable.measured].format(
        since=since,
        soonest=after(usable.low_minutes),
        latest=after(usable.high_minutes),
        likely=after(usable.likely_minutes),
    )
    settled_words = None
    if settled is not None and mirror is not None and readiness.settles_later:
        settled_words = _OUTSIDE_SETTLED.format(
            mirror=_mirror_text(mirror),
            soonest=after(settled.low_minutes),
            latest=after(settled.high_minutes),
            likely=after(settled.likely_minutes),
        )
    return _sentences(usable_words, settled_words, _lag_sentence(readiness, unit))


def mirror_climb_text(climb: MirrorClimb, clock: SiteClock, *, now: datetime | None) -> str:
    """Return how the ceiling climbs as the mirror cools: ``now about 90x, 150x from about 21:40``."""
    return (_CLIMB_NOW if climb.at == now else _CLIMB_AT).format(
        at=clock.time(climb.at),
        power=_about_power_text(climb.power),
        later_power=_about_power_text(climb.later_power),
        later=clock.about(climb.later),
    )


def mirror_climb_later_text(climb: MirrorClimb, clock: SiteClock) -> str:
    """Return what the ceiling climbs to as the mirror cools, and when, in few words."""
    return _CLIMB_LATER.format(
        later_power=_about_power_text(climb.later_power), later=clock.about(climb.later)
    )


def brief_outside_text(
    likely: datetime | None, now: datetime, clock: SiteClock, *, unit: str, is_assumed: bool
) -> str:
    """Return what follows the figure for a telescope's warmth: its unit, and when it is likely usable."""
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


def settled_text(settled: Settled | None) -> str | None:
    """Return how long a mirror takes to settle as a figure, ``90 to 180 min``; None for a lens."""
    if settled is None:
        return None
    if settled.likely_minutes == 0.0:
        return _AT_ONCE
    return _long_span_text(settled.low_minutes, settled.high_minutes, minutes=_SHORT_SPAN, hours=_SHORT_HOURS)


def rounded_minutes(minutes: float) -> int:
    """Return minutes to the nearest 5, at least 5, as an estimate deserves."""
    return max(_STEP_MINUTES, _STEP_MINUTES * int(rounded(minutes / _STEP_MINUTES)))


def span_text(low_minutes: float, high_minutes: float) -> str:
    """Return the two ends of an estimate to the nearest 5 minutes, at least 5 apart: ``25 to 55``."""
    low = rounded_minutes(low_minutes)
    return _SPAN.format(low=low, high=max(rounded_minutes(high_minutes), low + _STEP_MINUTES))


def _long_span_text(
    low_minutes: float, high_minutes: float, *, minutes: str = _MINUTES, hours: str = _HOURS
) -> str:
    """Return the two ends of an estimate with their unit, from two hours on in halves of an hour."""
    if low_minutes < _IN_HOURS_FROM_MINUTES:
        return minutes.format(span=span_text(low_minutes, high_minutes))
    low, high = (rounded(each / 30.0) / 2.0 for each in (low_minutes, high_minutes))
    return hours.format(
        span=_SPAN.format(low=trimmed_text(low, 1), high=trimmed_text(max(high, low + 0.5), 1))
    )


def _about_power_text(power: float) -> str:
    """Return a power to the nearest 5, as an estimate deserves."""
    return power_text(_STEP_POWER * rounded(power / _STEP_POWER))


def _sentences(*sentences: str | None) -> str:
    return " ".join(filter(None, sentences))


def _lag_sentence(readiness: Readiness, unit: TemperatureUnit) -> str | None:
    """Return how far the mirror stays behind the air, where that is worth a word."""
    return None if readiness.stays_warmer_c is None else _LAGS.format(lag=_lag_text(readiness, unit))


def _lag_text(readiness: Readiness, unit: TemperatureUnit) -> str:
    return _difference_text(readiness.stays_warmer_c or 0.0, unit, decimals=1)


def _near_text(unit: TemperatureUnit) -> str:
    return _difference_text(READY_WITHIN_C, unit, decimals=0)


def _difference_text(warmer_by_c: float, unit: TemperatureUnit, *, decimals: int) -> str:
    warmer_by = warmer_by_c * (_FAHRENHEIT_PER_CELSIUS if unit is TemperatureUnit.FAHRENHEIT else 1.0)
    return _DIFFERENCES[unit].format(figure=rounded_text(warmer_by, decimals))


def _mirror_text(mirror: CoolingMirror) -> str:
    template = _THICK_ASSUMED if mirror.thickness_assumed else _THICK
    return template.format(thickness=length_text(rounded(mirror.thickness_mm)))
