"""When an evening that serves a planet poorly is bettered by another one."""

from datetime import date
from typing import Final

from core.sky.ephemeris import usable_dates
from core.sky.events import FAIR_DEG, LOWEST_USEFUL_DEG
from core.tonight.prospect import Prospect
from core.words.dates import date_text
from core.words.directions import altitude_text
from core.words.quantities import angle_text
from core.year.better import LOOKED_AHEAD, Better

# A height that another evening betters by less than this is as good (ours).
_AS_HIGH_DEG = 1.0

_Templates = dict[tuple[bool, bool], str]

# By whether something blocks the view from the site, and whether the planet tables end within two years.
_NEVER: Final[_Templates] = {
    (False, False): "It does not get above {lowest} in a dark sky within two years.",
    (True, False): (
        "It does not get above {lowest} in a dark sky, clear of what blocks the view, within two years."
    ),
    (False, True): (
        "It does not get above {lowest} in a dark sky before the planet tables end, on {tables_end}."
    ),
    (True, True): (
        "It does not get above {lowest} in a dark sky, clear of what blocks the view, before the planet "
        "tables end, on {tables_end}."
    ),
}
_NO_HIGHER: Final[_Templates] = {
    (False, False): "It hardly gets any higher in a dark sky within two years.",
    (True, False): (
        "It hardly gets any higher in a dark sky, clear of what blocks the view, within two years."
    ),
    (False, True): "It hardly gets any higher in a dark sky before the planet tables end, on {tables_end}.",
    (True, True): (
        "It hardly gets any higher in a dark sky, clear of what blocks the view, before the planet tables "
        "end, on {tables_end}."
    ),
}
_STAYS_LOW: Final[_Templates] = {
    (False, False): (
        "It stays under {fair} in a dark sky for two years, and next nears its highest, {height}, on {day}."
    ),
    (True, False): (
        "It stays under {fair} in a dark sky, clear of what blocks the view, for two years, and next nears "
        "its highest, {height}, on {day}."
    ),
    (False, True): (
        "It stays under {fair} in a dark sky until the planet tables end, on {tables_end}, and next nears "
        "its highest, {height}, on {day}."
    ),
    (True, True): (
        "It stays under {fair} in a dark sky, clear of what blocks the view, until the planet tables end, on "
        "{tables_end}, and next nears its highest, {height}, on {day}."
    ),
}
# By whether something blocks the view from the site.
_FAIR_FROM: Final = (
    "It stands above {fair} in a dark sky from {day}.",
    "It stands above {fair} in a dark sky, clear of what blocks the view, from {day}.",
)


def better_sentence(prospect: Prospect, better: Better | None) -> str:
    """Return when it is better, or that this is about as good as it gets; None where it never is."""
    evening, is_blocked = prospect.night.evening, bool(prospect.night.site.blocked)
    tables_end = usable_dates()[1]
    case = is_blocked, evening > tables_end - LOOKED_AHEAD
    figures = {
        "lowest": angle_text(LOWEST_USEFUL_DEG),
        "fair": angle_text(FAIR_DEG),
        "tables_end": date_text(tables_end),
    }
    if better is None:
        return _NEVER[case].format(**figures)
    if better.is_good:
        return _FAIR_FROM[is_blocked].format(day=_day_text(better, evening), **figures)
    if prospect.position is not None and prospect.position.altitude_deg >= better.altitude_deg - _AS_HIGH_DEG:
        return _NO_HIGHER[case].format(**figures)
    height = altitude_text(better.altitude_deg, under_deg=FAIR_DEG)
    return _STAYS_LOW[case].format(height=height, day=_day_text(better, evening), **figures)


def _day_text(better: Better, evening: date) -> str:
    return date_text(better.day, beside=evening)
