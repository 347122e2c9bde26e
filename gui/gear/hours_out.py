"""The usual hours outside, as they are typed: a time by the owner's clock, or dusk and dawn."""

import re
from datetime import UTC, date, datetime, time

from core.words.gear_edits import WRITE_TIME_OR
from core.words.site_clock import SiteClock
from gui.widgets.field import Reading
from gui.widgets.readings import Read

_TIME = re.compile(r"(\d{1,2})(?:[:.h ](\d\d))? ?([ap])?\.?(?:m\.?)?", re.IGNORECASE)


def reads_time_or(word: str) -> Read:
    """Return the reader for ``19:30``, ``7:30 pm`` or the word; its values are as in a profile file."""

    def read(text: str) -> Reading[str]:
        typed = text.strip().casefold()
        if typed == word:
            return Reading(word)
        match = _TIME.fullmatch(typed)
        moment = _time_of(match) if match else None
        if moment is None:
            return Reading(problem=WRITE_TIME_OR.format(word=word))
        return Reading(moment.isoformat("minutes"))

    return read


def time_text(value: str, clock: int) -> str:
    """Return a value of a profile file by a clock of 24 or 12 hours."""
    if ":" not in value:
        return value
    # What a clock shows is the same in every zone and on every date.
    local = datetime.combine(date.min, time.fromisoformat(value))
    return SiteClock(zone=UTC, hours=clock).time_of_day(local)


def _time_of(match: re.Match[str]) -> time | None:
    hour, minute, half = int(match[1]), match[2], match[3]
    if half is not None:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half == "p" else 0)
    elif minute is None:
        # A bare figure may be of either half of the day.
        return None
    minutes = int(minute or 0)
    return time(hour, minutes) if hour < 24 and minutes < 60 else None
