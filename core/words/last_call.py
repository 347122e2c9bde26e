"""The words of the last minutes before sunrise: off the planet, cap the telescope."""

from typing import Final

from core.moments.last_call import LastCall
from core.words.site_clock import SiteClock, minutes_between

_STOP_SOON: Final = (
    "Off the planet and cap the telescope by {stop}: {minutes} min left. The Sun rises at {sunrise}."
)
_STOP_NOW: Final = (
    "Off the planet, and cap the telescope and its finder now: the Sun rises in {minutes} min, at {sunrise}."
)


def last_call_words(call: LastCall, clock: SiteClock) -> str:
    """Return that it is time to stop, with a count of minutes."""
    return (_STOP_NOW if call.is_past else _STOP_SOON).format(
        minutes=minutes_between(call.now, call.sunrise if call.is_past else call.stop),
        stop=clock.time(call.stop),
        sunrise=clock.time(call.sunrise),
    )
