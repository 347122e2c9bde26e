"""The hours under a chart: made in UTC, named in the site's time.

Across a clock change the repeated hour is there twice and the missing one not at all.
"""

from datetime import UTC, date, datetime, timedelta, tzinfo

from attrs import frozen

from core.words.time_axis import axis_name, zone_label


@frozen(kw_only=True)
class Tick:
    """A full hour of the site's clock.

    ``zone`` is the name of the time kept there, given only beside a clock change; ``day`` is the new
    date at midnight, else None.
    """

    time: datetime
    hour: int
    zone: str | None = None
    day: date | None = None


@frozen(kw_only=True)
class Stretch:
    """Time during which the site's clock keeps one offset from UTC: ``start`` <= t < ``end``."""

    start: datetime
    end: datetime
    offset: timedelta
    zone: str


def stretches(start: datetime, end: datetime, zone: tzinfo) -> tuple[Stretch, ...]:
    """Return the times of one offset between two moments, in order; more than one across a clock change."""
    found = []
    begin = start
    while begin < end:
        until = _next_change(begin, end, zone)
        offset = begin.astimezone(zone).utcoffset() or timedelta()
        found.append(Stretch(start=begin, end=until, offset=offset, zone=zone_label(begin, zone)))
        begin = until
    return tuple(found)


def _next_change(start: datetime, end: datetime, zone: tzinfo) -> datetime:
    """Return the first second at which the clock's offset differs from that at ``start``, or ``end``."""
    offset = start.astimezone(zone).utcoffset()
    early, late = start, start
    while late.astimezone(zone).utcoffset() == offset:
        early = late
        if late >= end:
            return end
        late = min(late + timedelta(minutes=30), end)
    while late - early > timedelta(seconds=1):
        middle = (early + (late - early) / 2).replace(microsecond=0)
        if middle <= early:
            break
        if middle.astimezone(zone).utcoffset() == offset:
            early = middle
        else:
            late = middle
    return late


def hour_ticks(start: datetime, end: datetime, zone: tzinfo, *, every: int = 1) -> tuple[Tick, ...]:
    """Return the full hours of the site's clock from ``start`` to ``end``, every ``every`` hours of it.

    Beside a clock change the hours before and after it are always given, with the zone's name.
    """
    pieces = stretches(start, end, zone)
    ticks: list[Tick] = []
    for number, piece in enumerate(pieces):
        hours = _full_hours(piece, last=number == len(pieces) - 1)
        for place, (time, local) in enumerate(hours):
            near_change = (place == 0 and number > 0) or (
                place == len(hours) - 1 and number < len(pieces) - 1
            )
            if near_change or local.hour % every == 0:
                zone_name = piece.zone if near_change else None
                day = local.date() if local.hour == 0 else None
                ticks.append(Tick(time=time, hour=local.hour, zone=zone_name, day=day))
    return tuple(ticks)


def _full_hours(piece: Stretch, *, last: bool) -> list[tuple[datetime, datetime]]:
    """Return the full hours of a stretch as (UTC, clock reading without zone)."""
    reading = (piece.start + piece.offset).replace(tzinfo=None)
    full = reading.replace(minute=0, second=0, microsecond=0)
    if full < reading:
        full += timedelta(hours=1)
    hours: list[tuple[datetime, datetime]] = []
    while True:
        time = (full - piece.offset).replace(tzinfo=UTC)
        if time > piece.end or (time == piece.end and not last):
            return hours
        hours.append((time, full))
        full += timedelta(hours=1)


def axis_words(start: datetime, end: datetime, zone: tzinfo) -> tuple[str, str]:
    """Return the name of the time axis with the time kept there, in full and short.

    "Site time, hours: CET (UTC+1)"; a clock change names both times.
    """
    return axis_name([(piece.zone, piece.offset) for piece in stretches(start, end, zone)])
