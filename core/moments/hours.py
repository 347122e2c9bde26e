"""The hours that the owner is outside on one evening."""

from datetime import datetime, time, timedelta
from enum import StrEnum
from typing import Final
from zoneinfo import ZoneInfo

from attrs import evolve, frozen

from core.checks import is_clock_time
from core.gear.numbers import shown
from core.problems import refuse
from core.record.observer import FROM_DUSK, UNTIL_DAWN, USUAL_OUT_UNTIL
from core.sky.night import Night

# Ours, all of them.
DUSK_AFTER_SUNSET: Final = timedelta(minutes=20)
# Off the planet, and the cap on, this long before sunrise (safety).
STOP_BEFORE_SUNRISE: Final = timedelta(minutes=10)
# From so long before the stop line until sunrise is past nothing else is said (safety).
LAST_CALL: Final = timedelta(minutes=15)
DUSK_WITHOUT_SUNSET: Final = time(18)
DAWN_WITHOUT_SUNRISE: Final = time(6)
SHORTEST_ASSUMED: Final = timedelta(minutes=60)
LENGTHENED_TO: Final = timedelta(minutes=90)
# Whoever looks at the program when the hours are nearly over, or past, stays at least so long.
STAYS_AT_LEAST: Final = timedelta(minutes=30)
_NOON: Final = time(12)
# What begins from here on is rather for whoever gets up early than for whoever stays up.
EARLY_FROM: Final = time(3)
_STAYS_UP_FOR: Final = timedelta(hours=3)
_DAY: Final = timedelta(days=1)
HALF_HOUR: Final = timedelta(minutes=30)


class Twilight(StrEnum):
    """Hours that move with the Sun: dusk is 20 minutes after sunset, dawn 10 minutes before sunrise."""

    DUSK = FROM_DUSK
    DAWN = UNTIL_DAWN


Hour = time | Twilight

USUAL_FROM: Final = Twilight.DUSK
USUAL_UNTIL: Final = time.fromisoformat(USUAL_OUT_UNTIL)


@frozen(kw_only=True)
class HoursOut:
    """When the owner is outside (aware UTC); ``assumed`` where nothing was said of them."""

    start: datetime
    end: datetime
    assumed: bool

    def holds(self, moment: datetime) -> bool:
        """Tell whether a moment lies inside."""
        return self.start <= moment < self.end

    def are_over(self, now: datetime | None) -> bool:
        """Tell whether they have ended by now; not where now lies in no part of the evening."""
        return now is not None and now >= self.end

    def asks_to_get_up(self, moment: datetime, zone: ZoneInfo, *, now: datetime | None) -> bool:
        """Tell whether a moment after the hours is so late that one rather gets up for it (ours).

        Whoever is outside still after the hours may stay up for what is not long to come.
        """
        if now is not None and self.are_over(now) and moment - now <= _STAYS_UP_FOR:
            return False
        return moment >= self.end and EARLY_FROM <= moment.astimezone(zone).time() < _NOON

    def held_open(self, moment: datetime) -> "HoursOut":
        """Return the hours as they count at a moment: whoever is outside then stays half an hour or more."""
        if moment < self.start:
            return self
        return evolve(self, end=max(self.end, moment + STAYS_AT_LEAST))


@frozen(kw_only=True)
class Dusks:
    """What an evening's hours hang on: its start (noon) and the Sun's set and rise (aware)."""

    noon: datetime
    zone: ZoneInfo
    sunset: datetime | None
    sunrise: datetime | None

    @classmethod
    def of(cls, night: Night) -> "Dusks":
        """Return what the hours of a night hang on."""
        return cls(noon=night.start, zone=night.site.zone, sunset=night.sun.set, sunrise=night.sun.rise)

    def at(self, hour: Hour) -> datetime:
        """Return the time (UTC) of an hour of this evening; one before noon belongs to the next date.

        Of an hour that comes twice the first is taken; one that the clocks skip is as much later.
        """
        if hour is Twilight.DUSK:
            return (
                self._clock(DUSK_WITHOUT_SUNSET) if self.sunset is None else self.sunset + DUSK_AFTER_SUNSET
            )
        if hour is Twilight.DAWN:
            return self.stop or self._clock(DAWN_WITHOUT_SUNRISE)
        assert isinstance(hour, time)
        return self._clock(hour)

    @property
    def stop(self) -> datetime | None:
        """The stop line, 10 minutes before sunrise; None without a sunrise."""
        return None if self.sunrise is None else self.sunrise - STOP_BEFORE_SUNRISE

    def _clock(self, hour: time) -> datetime:
        day = self.noon.astimezone(self.zone).date()
        if hour < _NOON:
            day += _DAY
        local = datetime.combine(day, hour, tzinfo=self.zone)
        return local.astimezone(self.noon.tzinfo)


def usual_ends(start: time | None, end: time | None) -> tuple[Hour, Hour]:
    """Return the ends of the usual hours, None standing for dusk and for dawn."""
    return start or Twilight.DUSK, end or Twilight.DAWN


def are_assumed(ends: tuple[Hour, Hour]) -> bool:
    """Tell whether usual hours are those of nobody in particular, since nobody has said any."""
    return ends == (USUAL_FROM, USUAL_UNTIL)


def hours_out(dusks: Dusks, *, start: Hour | None = None, end: Hour | None = None) -> HoursOut:
    """Return the usual hours outside; what is not given is from dusk to 23:30.

    Hours with an end that moves with the Sun, and which would be shorter than 60 minutes, as in a light
    summer, are lengthened to 90 but never past the stop line.
    """
    begins = dusks.at(USUAL_FROM if start is None else start)
    ends = dusks.at(USUAL_UNTIL if end is None else end)
    are_of_the_clock = isinstance(start, time) and isinstance(end, time)
    if ends <= begins or (ends - begins < SHORTEST_ASSUMED and not are_of_the_clock):
        ends = begins + LENGTHENED_TO
        if dusks.stop is not None and begins < dusks.stop < ends:
            ends = dusks.stop
    return HoursOut(start=begins, end=ends, assumed=start is None and end is None)


def usual_hours(dusks: Dusks, *, start: Hour, end: Hour) -> HoursOut:
    """Return the hours outside as they usually are, assumed where they are those of nobody in particular."""
    if are_assumed((start, end)):
        return hours_out(dusks)
    return hours_out(dusks, start=start, end=end)


def typed_hours(dusks: Dusks, *, start: Hour, end: Hour) -> HoursOut:
    """Return hours that were typed for this very evening; ProblemsError unless they end after they start."""
    begins, ends = dusks.at(start), dusks.at(end)
    if ends <= begins:
        raise refuse("the hours outside must end after they start; times before noon are of the next morning")
    return HoursOut(start=begins, end=ends, assumed=False)


def stepped(hours: HoursOut, half_hours: int, dusks: Dusks) -> Hour | None:
    """Return the end of hours some full half hours later, or earlier; dawn where there is no later one.

    None where nothing of the hours would be left.
    """
    local = hours.end.astimezone(dusks.zone)
    past_the_half = timedelta(minutes=local.minute % 30, seconds=local.second, microseconds=local.microsecond)
    step = half_hours * HALF_HOUR
    if past_the_half and half_hours < 0:
        step += HALF_HOUR
    end = hours.end - past_the_half + step
    if dusks.stop is not None and end >= dusks.stop:
        return Twilight.DAWN
    return end.astimezone(dusks.zone).time() if end > hours.start else None


def read_hour(text: str, *, twilight: Twilight) -> Hour:
    """Return a time such as ``19:30``, or the one word allowed there; ProblemsError for anything else.

    >>> read_hour("19:30", twilight=Twilight.DUSK)
    datetime.time(19, 30)
    """
    if text == twilight.value:
        return twilight
    if is_clock_time(text):
        return time.fromisoformat(text)
    raise refuse(f"must be {twilight} or a time from 00:00 to 23:59, not “{shown(text)}”")
