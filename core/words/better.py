"""When an evening that serves a planet poorly is bettered by another one."""

from datetime import timedelta
from typing import Final

from core.sky.bodies import Body
from core.sky.ephemeris import usable_dates
from core.sky.events import FAIR_DEG, LOWEST_USEFUL_DEG
from core.tonight.prospect import Prospect
from core.words.dates import date_text
from core.words.directions import altitude_text
from core.words.quantities import angle_text
from core.words.sizes import disc_size_text
from core.year.better import LOOKED_AHEAD, Better

# A height that another moment betters by less than this is as good (ours).
_AS_HIGH_DEG: Final = 3.0
# A best evening that comes so soon after a better one is told alone (ours).
_SOON: Final = timedelta(days=10)
# Within so long the Moon has been at every height that the season gives it.
_A_MONTH: Final = timedelta(days=31)

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
_WITHIN: Final = {False: "within two years", True: "before the planet tables end ({tables_end})"}
# Of two templates the second is for a site where something blocks the view.
_BEST: Final = (
    "In a dark sky it is best {within} on {best_day}: {best_size} at {best_height}.",
    (
        "In a dark sky, clear of what blocks the view, it is best {within} on {best_day}: "
        "{best_size} at {best_height}."
    ),
)
_BETTER: Final = (
    (
        "In a dark sky it is clearly better from {day}, {size} at {height}, and best {within} on "
        "{best_day}: {best_size} at {best_height}."
    ),
    (
        "In a dark sky, clear of what blocks the view, it is clearly better from {day}, {size} at "
        "{height}, and best {within} on {best_day}: {best_size} at {best_height}."
    ),
)
_NO_BETTER: Final = (
    "In a dark sky it hardly gets better {within}: {best_size} at {best_height} at most, on {best_day}.",
    (
        "In a dark sky, clear of what blocks the view, it hardly gets better {within}: {best_size} "
        "at {best_height} at most, on {best_day}."
    ),
)
_MOON: Final = (
    "In a dark sky it is better on {day}, {height} high.",
    "In a dark sky, clear of what blocks the view, it is better on {day}, {height} high.",
)
_MOON_AT_MOST: Final = "Even at its best, {best_height} high on {best_day}, it shows little more."
_DARK_FROM: Final = "The sky here gets dark enough again from {day}. {better}"


def better_sentence(prospect: Prospect, better: Better | None) -> str:
    """Return when it is better, or that this is about as good as it gets; None stands for never."""
    evening, is_blocked = prospect.night.evening, bool(prospect.night.site.blocked)
    tables_end = usable_dates()[1]
    ends = evening > tables_end - LOOKED_AHEAD
    lowest, tables_end_text = angle_text(LOWEST_USEFUL_DEG), date_text(tables_end)
    if better is None:
        return _NEVER[is_blocked, ends].format(lowest=lowest, tables_end=tables_end_text)
    best, first = better.best, better.first or better.best
    sentence = _templates(prospect, better)[is_blocked].format(
        within=_WITHIN[ends].format(tables_end=tables_end_text),
        day=date_text(first.day, beside=evening),
        size=disc_size_text(first.diameter_arcsec),
        height=altitude_text(first.altitude_deg, under_deg=FAIR_DEG),
        best_day=date_text(best.day, beside=evening),
        best_size=disc_size_text(best.diameter_arcsec),
        best_height=altitude_text(best.altitude_deg, under_deg=FAIR_DEG),
    )
    if better.dark_from is None:
        return sentence
    return _DARK_FROM.format(day=date_text(better.dark_from, beside=evening), better=sentence)


def _templates(prospect: Prospect, better: Better) -> tuple[str, str]:
    """Return what fits: the Moon, no better one to come, the best alone where that is soon, or both."""
    if prospect.planet is Body.MOON:
        is_soon = better.first is not None and better.first.day - prospect.night.evening <= _A_MONTH
        return _MOON if is_soon else (_MOON_AT_MOST, _MOON_AT_MOST)
    if better.first is None:
        return _NO_BETTER if _is_at_its_highest(prospect, better) else _BEST
    is_soon = better.best.day - better.first.day <= _SOON or better.first.day == better.dark_from
    return _BEST if is_soon else _BETTER


def _is_at_its_highest(prospect: Prospect, better: Better) -> bool:
    """Tell whether the moment that is offered is about as high as the body gets on this evening at all."""
    if prospect.position is None or better.highest_deg is None:
        return better.highest_deg is not None
    return prospect.position.altitude_deg >= better.highest_deg - _AS_HIGH_DEG
