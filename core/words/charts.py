"""The words on the charts of an evening and of a year: beside the curves, over the hours, along the axes."""

from collections.abc import Iterable, Iterator
from datetime import date, datetime
from typing import Final

from core.sky.bodies import Body
from core.sky.night import SunNight
from core.words.dates import short_date_text
from core.words.directions import altitude_text
from core.words.site_clock import SiteClock
from core.words.sizes import disc_size_text

# In full, and in short where the chart is low or narrow.
ALTITUDE_AXIS: Final = ("Geometric altitude", "Altitude", "Height")
PATH_AXIS: Final = ("Air path, overhead = 1", "Air path", "Path")
BEST_BAND: Final = "best air (seeing)"
FAIR_BAND: Final = "fair"
THICK_BAND: Final = "thick air"
STRIP: Final = "evening"
BEST_WEEKS: Final = "best weeks"
HIGHEST_IN_THE_DARK: Final = ("Highest in the dark", "Highest", "Height")
HOURS_IN_THE_DARK: Final = (
    "Hours in the dark above 30° (light) and above 45° (full)",
    "Dark hours above 30° (light), 45° (full)",
    "Dark hours",
)
HOURS_UNIT: Final = " h"

_TRANSIT: Final = "transit {time}, {height}"
_ABSENT: Final = "Not up in these hours: {bodies}"
_MORE: Final = "+{count} more"
_STEP: Final = "{title} {times}"
_STEP_DONE: Final = "✓ {title}"
_NOW: Final = "now {time}"
_SUNSET: Final = "sunset {time}"
_SUNRISE: Final = "sunrise {time}"
_DARK_FROM: Final = "dark from {time}"
_DARK_UNTIL: Final = "dark until {time}"
_SUN_STAYS_UP: Final = "the Sun stays up"
_SUN_STAYS_DOWN: Final = "the Sun stays down"
_TWILIGHT: Final = "twilight all night"
# A Sun that sets is lower than this at its lowest.
_SET_DEG: Final = -1.0
_SIZE: Final = "Apparent size"
_SIZE_AND_LARGEST: Final = "Apparent size: largest {size}, {day}"


def transit_words(time: datetime, altitude_deg: float, clock: SiteClock) -> str:
    """Return what stands beside a transit: when, and how high."""
    return _TRANSIT.format(time=clock.time(time), height=altitude_text(altitude_deg))


def absent_words(bodies: Iterable[Body]) -> str:
    """Return which bodies have no curve, for they do not rise in the hours of the chart."""
    return _ABSENT.format(bodies=", ".join(body.heading for body in bodies))


def more_words(count: int) -> str:
    """Return how many steps of the evening found no room."""
    return _MORE.format(count=count)


def step_title(title: str, *, is_done: bool) -> str:
    """Return a step's title as it stands on its bar, with a tick where it is done."""
    return _STEP_DONE.format(title=title) if is_done else title


def step_words(title: str, start: datetime, end: datetime, clock: SiteClock) -> str:
    """Return a step's title on its bar with its times."""
    return _STEP.format(title=title, times=clock.times(start, end))


def now_words(now: datetime, clock: SiteClock) -> str:
    """Return what stands over the line of the present moment."""
    return _NOW.format(time=clock.time(now))


def sun_words(sun: SunNight, clock: SiteClock) -> Iterator[tuple[datetime, str]]:
    """Yield the moments over which it stands what the Sun does, with the words, the weightiest first."""
    marks = (
        (sun.set, _SUNSET),
        (sun.rise, _SUNRISE),
        (sun.astronomical_dusk, _DARK_FROM),
        (sun.astronomical_dawn, _DARK_UNTIL),
    )
    for moment, template in marks:
        if moment is not None:
            yield moment, template.format(time=clock.time(moment))


def unusual_sun_words(sun: SunNight) -> str:
    """Return what is unusual about the Sun this evening, or nothing."""
    if sun.set is None and sun.rise is None:
        return _SUN_STAYS_UP if sun.lowest_altitude_deg > _SET_DEG else _SUN_STAYS_DOWN
    if sun.astronomical_dusk is None and sun.astronomical_dawn is None:
        return _TWILIGHT if sun.lowest_altitude_deg < _SET_DEG else ""
    return ""


def size_panel_words(largest_arcsec: float | None, day: date | None) -> str:
    """Return the name of a year's panel of sizes, with the greatest and its date where there is one."""
    if largest_arcsec is None or day is None:
        return _SIZE
    return _SIZE_AND_LARGEST.format(size=disc_size_text(largest_arcsec), day=short_date_text(day))
