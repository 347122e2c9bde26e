"""The hours under a chart: made in UTC, named in the site's time.

Across a clock change the repeated hour is there twice and the missing one not at all.
"""

from datetime import UTC, date, datetime, timedelta, tzinfo

from attrs import frozen

_HOUR_S = 3600
# Not strftime's: a window may set the locale, and one drawing speaks one language.
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_TWELVE_HOURS = 12


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


def zone_label(time: datetime, zone: tzinfo) -> str:
    """Return how the time kept at a place is called then: "CET", or "UTC+5:45" where it has no name."""
    local = time.astimezone(zone)
    name = local.tzname() or ""
    return name if name[:1].isalpha() else offset_label(local.utcoffset() or timedelta())


def offset_label(offset: timedelta) -> str:
    """Return an offset from UTC in words: "UTC", "UTC+1", "UTC−3:30"."""
    seconds = round(offset.total_seconds())
    if seconds == 0:
        return "UTC"
    hours, rest = divmod(abs(seconds), _HOUR_S)
    minutes, second = divmod(rest, 60)
    text = f"UTC{'+' if seconds > 0 else '−'}{hours}"
    if minutes or second:
        text += f":{minutes:02d}"
    return f"{text}:{second:02d}" if second else text


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


def hour_words(hour: int, *, clock: int = 24) -> str:
    """Return a full hour as it stands under an axis: "21" or "9 pm"."""
    if clock == _TWELVE_HOURS:
        return f"{hour % 12 or 12} {'am' if hour < 12 else 'pm'}"
    return f"{hour:02d}"


def day_words(day: date) -> str:
    """Return a date as it stands under an axis: "Sat 5 Dec"."""
    return f"{_DAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]}"


def axis_words(start: datetime, end: datetime, zone: tzinfo) -> tuple[str, str]:
    """Return the name of the time axis with the time kept there, in full and short.

    "Site time, hours: CET (UTC+1)"; a clock change names both times.
    """
    full, short = [], []
    for piece in stretches(start, end, zone):
        offset = offset_label(piece.offset)
        full.append(piece.zone if piece.zone == offset else f"{piece.zone} ({offset})")
        short.append(piece.zone)
    title = "Site time, hours: "
    return title + ", then ".join(full), title + ", then ".join(short)
