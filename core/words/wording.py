"""How times, dates and planets are written out for a person, in the site's own time."""

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta, tzinfo

from attrs import frozen

from core.sky.bodies import Body


@frozen(kw_only=True)
class SiteClock:
    """A site's time zone and the observer's habit: a clock of 12 or 24 hours."""

    zone: tzinfo
    hours: int = 24

    def time(self, moment: datetime) -> str:
        """Return a time of day to the nearest minute: ``18:40``, or ``6:40 pm``.

        An hour that the clocks show twice carries the short name of its zone.
        """
        local = _nearest_minute(moment).astimezone(self.zone)
        shown = self._time_of_day(local)
        return f"{shown} {_zone_text(local)}" if _is_repeated(local) else shown

    def span(self, start: datetime, end: datetime) -> str:
        """Return two times, ``18:40–21:15``; both carry their zone when the clocks change between them."""
        first, last = (_nearest_minute(moment).astimezone(self.zone) for moment in (start, end))
        if first.utcoffset() == last.utcoffset():
            return f"{self.time(start)}–{self.time(end)}"
        zoned = (f"{self._time_of_day(local)} {_zone_text(local)}" for local in (first, last))
        return "–".join(zoned)

    def day(self, moment: datetime) -> date:
        """Return the calendar day of a moment."""
        return moment.astimezone(self.zone).date()

    def _time_of_day(self, local: datetime) -> str:
        if self.hours == 24:
            return f"{local:%H:%M}"
        return f"{local.hour % 12 or 12}:{local:%M} {'am' if local.hour < 12 else 'pm'}"


def date_text(day: date, *, beside: date | None = None) -> str:
    """Return a date, ``12 March 2027``; the year is left out when it is that of ``beside``."""
    month = month_text(day)
    if beside is not None and beside.year == day.year:
        return f"{day.day} {month}"
    return f"{day.day} {month} {day.year}"


def month_text(day: date) -> str:
    """Return the name of a date's month: ``March``."""
    return _MONTHS[day.month - 1]


def short_date_text(day: date) -> str:
    """Return a date without its year, the month cut to three letters: ``5 Dec``."""
    return f"{day.day} {month_text(day)[:3]}"


def weekday_text(day: date) -> str:
    """Return a date with its weekday, ``Sat 5 December 2026``."""
    return f"{_WEEKDAYS[day.weekday()]} {date_text(day)}"


def opening(body: Body) -> str:
    """Return a body's name as it opens a sentence: ``Saturn``, ``The Moon``."""
    return body.label[0].upper() + body.label[1:]


def altitude_text(altitude_deg: float, *, under_deg: float | None = None) -> str:
    """Return an altitude in whole degrees.

    One that is ``under_deg`` but rounds up to it keeps a tenth, so that "under 30°" is never told as 30°.
    """
    if under_deg is not None and round(altitude_deg) >= under_deg > altitude_deg:
        return f"{int(altitude_deg * 10) / 10:.1f}°"
    # Not by a format, which tells a hair below the horizon as -0°.
    return f"{round(altitude_deg)}°"


def listed(words: Iterable[str]) -> str:
    """Join words as in a sentence: ``a, b and c``."""
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last


# Not from strftime, whose names follow the machine's language and not the program's.
_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def _nearest_minute(moment: datetime) -> datetime:
    return (moment.astimezone(UTC) + timedelta(seconds=30)).replace(second=0, microsecond=0)


def _is_repeated(local: datetime) -> bool:
    """Tell whether the clocks show this time of day twice on this date."""
    before, after = local.replace(fold=0).utcoffset(), local.replace(fold=1).utcoffset()
    return before is not None and after is not None and before > after


def _zone_text(local: datetime) -> str:
    """Return the short name of the zone; the many that have none are told by their offset."""
    name = local.tzname() or ""
    return f"UTC{name}" if name.startswith(("+", "-")) else name


def compass_text(azimuth_deg: float) -> str:
    """Return the nearest of eight compass points to a true azimuth in degrees: ``south-west``."""
    return _COMPASS[round(azimuth_deg / 45.0) % 8]


_COMPASS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
