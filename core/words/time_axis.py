"""The words of a time axis: its full hours, the zone whose time is kept, and its name."""

from collections.abc import Sequence
from datetime import datetime, timedelta, tzinfo
from typing import Final

_HOUR_S: Final = 3600
_TWELVE_HOURS: Final = 12
_HOUR: Final = "{hour:02d}"
_HOUR_AM: Final = "{hour} am"
_HOUR_PM: Final = "{hour} pm"
_UTC: Final = "UTC"
_OFFSET: Final = "UTC{sign}{hours}"
_OFFSET_MINUTES: Final = "UTC{sign}{hours}:{minutes:02d}"
_OFFSET_SECONDS: Final = "UTC{sign}{hours}:{minutes:02d}:{seconds:02d}"
_ZONE: Final = "{name} ({offset})"
_AXIS: Final = "Site time, hours: {zones}"
_THEN: Final = ", then "


def hour_words(hour: int, *, clock: int = 24) -> str:
    """Return a full hour as it stands under an axis: "21" or "9 pm"."""
    if clock != _TWELVE_HOURS:
        return _HOUR.format(hour=hour)
    template = _HOUR_AM if hour < _TWELVE_HOURS else _HOUR_PM
    return template.format(hour=hour % _TWELVE_HOURS or _TWELVE_HOURS)


def zone_label(time: datetime, zone: tzinfo) -> str:
    """Return how the time kept at a place is called then: "CET", or "UTC+5:45" where it has no name."""
    local = time.astimezone(zone)
    name = local.tzname() or ""
    return name if name[:1].isalpha() else offset_label(local.utcoffset() or timedelta())


def offset_label(offset: timedelta) -> str:
    """Return an offset from UTC in words: "UTC", "UTC+1", "UTC−3:30"."""
    total_s = round(offset.total_seconds())
    if total_s == 0:
        return _UTC
    hours, rest = divmod(abs(total_s), _HOUR_S)
    minutes, seconds = divmod(rest, 60)
    template = _OFFSET_SECONDS if seconds else _OFFSET_MINUTES if minutes else _OFFSET
    return template.format(sign="+" if total_s > 0 else "−", hours=hours, minutes=minutes, seconds=seconds)


def axis_name(zones: Sequence[tuple[str, timedelta]]) -> tuple[str, str]:
    """Return the name of the time axis with the time kept there, in full and short.

    ``zones`` are the names kept one after the other, with their offsets: more than one across a clock change.
    """
    full = (_zone_words(name, offset_label(offset)) for name, offset in zones)
    short = (name for name, _ in zones)
    return _AXIS.format(zones=_THEN.join(full)), _AXIS.format(zones=_THEN.join(short))


def _zone_words(name: str, offset: str) -> str:
    return name if name == offset else _ZONE.format(name=name, offset=offset)
