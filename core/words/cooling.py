"""When a telescope that stands outside is ready, told by the site's clock."""

from datetime import datetime, timedelta

from core.air.cooling import READY_WITHIN_C, Readiness, rounded_minutes
from core.words.site_clock import SiteClock


def ready_at(readiness: Readiness, outside_since: datetime) -> datetime | None:
    """Return when a telescope is likely ready, None where it never is."""
    if readiness.likely_minutes is None:
        return None
    return outside_since + timedelta(minutes=readiness.likely_minutes)


def words_outside(readiness: Readiness, outside_since: datetime, clock: SiteClock) -> str:
    """Return since when a telescope stands outside and when it is ready, the estimate as a span of time."""
    since = f"The telescope is outside since {clock.time(outside_since)}"
    likely = ready_at(readiness, outside_since)
    if likely is None or readiness.low_minutes is None:
        return f"{since}. {readiness.words}"
    if likely == outside_since:
        return f"{since}, and was within {READY_WITHIN_C:.0f} °C of the air then."
    soonest = clock.time(outside_since + timedelta(minutes=rounded_minutes(readiness.low_minutes)))
    source = "from your own measured time" if readiness.measured else "an estimate"
    if readiness.high_minutes is None:
        reach = f"perhaps from {soonest}, perhaps not at all tonight"
    else:
        latest = clock.time(outside_since + timedelta(minutes=rounded_minutes(readiness.high_minutes)))
        reach = f"somewhere from {soonest} to {latest}, likely at {clock.time(likely)}"
    return (
        f"{since} and comes within {READY_WITHIN_C:.0f} °C of the air {reach} ({source}). "
        "Low power is usable at once."
    )
