"""How times of day and spans of them are written out for a person, in the site's own time."""

from datetime import UTC, date, datetime, timedelta, tzinfo
from typing import TYPE_CHECKING, Final

from attrs import frozen

from core.air.readiness import as_estimate
from core.words.time_axis import zone_label

if TYPE_CHECKING:
    # All that follows from the choices takes longer to load than to ask for a clock.
    from core.situation.situation import Situation

_MINUTE: Final = timedelta(minutes=1)
_UNDER_A_MINUTE: Final = "{time} (under a minute)"


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
        shown = self.time_of_day(local)
        return f"{shown} {zone_label(local, self.zone)}" if _is_repeated(local) else shown

    def about(self, moment: datetime) -> str:
        """Return a time of day to the nearest five minutes, as an estimate deserves."""
        return self.time(as_estimate(moment))

    def span(self, start: datetime, end: datetime) -> str:
        """Return two times, ``18:40–21:15``, or of less than a minute ``18:40 (under a minute)``.

        Both times carry their zone when the clocks change between them.
        """
        if end - start < _MINUTE:
            return _UNDER_A_MINUTE.format(time=self.time(start))
        first, last = (_nearest_minute(moment).astimezone(self.zone) for moment in (start, end))
        if first.utcoffset() == last.utcoffset():
            return f"{self.time(start)}–{self.time(end)}"
        zoned = (f"{self.time_of_day(local)} {zone_label(local, self.zone)}" for local in (first, last))
        return "–".join(zoned)

    def times(self, start: datetime, end: datetime) -> str:
        """Return a span of time, or the one time where both are the same moment."""
        return self.time(start) if start == end else self.span(start, end)

    def day(self, moment: datetime) -> date:
        """Return the calendar day of a moment."""
        return moment.astimezone(self.zone).date()

    def time_of_day(self, local: datetime) -> str:
        """Return what the site's clock shows at a local time, to the minute."""
        if self.hours == 24:
            return f"{local:%H:%M}"
        return f"{local.hour % 12 or 12}:{local:%M} {'am' if local.hour < 12 else 'pm'}"


def clock_of(situation: "Situation") -> SiteClock | None:
    """Return the clock of the site in hand, None without a site."""
    site = situation.site
    return None if site is None else SiteClock(zone=site.zone, hours=situation.preferences.clock)


def minutes_between(now: datetime, moment: datetime) -> int:
    """Return the minutes from now to a moment as the clock shows both: a count agrees with its time."""
    return (_nearest_minute(moment) - _nearest_minute(now)) // _MINUTE


def _nearest_minute(moment: datetime) -> datetime:
    return (moment.astimezone(UTC) + timedelta(seconds=30)).replace(second=0, microsecond=0)


def _is_repeated(local: datetime) -> bool:
    """Tell whether the clocks show this time of day twice on this date."""
    before, after = local.replace(fold=0).utcoffset(), local.replace(fold=1).utcoffset()
    return before is not None and after is not None and before > after
