"""The last minutes before sunrise, in which nothing counts but to stop."""

from datetime import datetime, timedelta

from attrs import frozen

from core.moments.best_minutes import stop_time
from core.moments.hours import LAST_CALL
from core.sky.night import Night

_HALF_A_MINUTE = timedelta(seconds=30)


@frozen(kw_only=True)
class LastCall:
    """The stop line and the sunrise after it, told at ``now``."""

    now: datetime
    stop: datetime
    sunrise: datetime

    @property
    def since(self) -> datetime:
        """When it began."""
        return self.stop - LAST_CALL

    @property
    def is_past(self) -> bool:
        """Whether the stop line is reached, to the minute, and only the sunrise to come."""
        return self.now + _HALF_A_MINUTE >= self.stop


def last_call(night: Night, now: datetime | None) -> LastCall | None:
    """Return that it is time to stop, from 15 minutes before the stop line to sunrise; else None."""
    stop, sunrise = stop_time(night), night.sun.rise
    if now is None or stop is None or sunrise is None or not stop - LAST_CALL <= now < sunrise:
        return None
    return LastCall(now=now, stop=stop, sunrise=sunrise)
