"""The next good evening for a body whose evening in hand is a poor one."""

from datetime import date, timedelta
from functools import lru_cache
from typing import Final

import numpy as np
from attrs import frozen

from core.problems import ProblemsError
from core.sky.bodies import FACTS, Body
from core.sky.ephemeris import usable_dates
from core.sky.events import LOWEST_USEFUL_DEG
from core.sky.site import Site
from core.year.evenings import Evenings, evenings_from
from core.year.outlook import GOOD_HOURS, NEARLY_HIGHEST, compute_outlook

# How far ahead is looked; Mars, the slowest to come round, takes 780 days from one opposition to the next.
LOOKED_AHEAD: Final = timedelta(days=2 * 365)

# Evenings are looked through in blocks on a fixed grid, kept for the next time: neighbouring evenings share
# their answer.
_BLOCK_DAYS: Final = 122
_KEPT_BLOCKS: Final = 128


@frozen(kw_only=True)
class Better:
    """A better evening: its date, how high the body gets in a dark sky then, and whether that is good."""

    day: date
    altitude_deg: float
    is_good: bool


def better_evening(
    site: Site, body: Body, evening: date, *, dark_below_deg: float | None = None
) -> Better | None:
    """Return the first good evening after one, within two years.

    Good is half an hour above 30 degrees (geometric) in a sky dark enough for the body, with nothing of the
    site's blocked sky before it. Where there is none, it is the first evening on which the body gets nearly
    as high as it ever does in that time; None where that is under 10 degrees. ``dark_below_deg`` is the
    altitude under which the Sun must stand, where it is not the usual one. The search ends where the
    planet tables end.
    """
    below_deg = FACTS[body].dark_enough_sun_altitude_deg if dark_below_deg is None else dark_below_deg
    last = min(evening + LOOKED_AHEAD, usable_dates()[1])
    later: list[Better] = []
    for block in range(evening.toordinal() // _BLOCK_DAYS, last.toordinal() // _BLOCK_DAYS + 1):
        within = [each for each in _block_of(site, body, below_deg, block) if evening < each.day <= last]
        good = next((each for each in within if each.is_good), None)
        if good is not None:
            return good
        later += within
    enough_deg = NEARLY_HIGHEST * max((each.altitude_deg for each in later), default=0.0)
    if enough_deg < NEARLY_HIGHEST * LOWEST_USEFUL_DEG:
        return None
    return next(each for each in later if each.altitude_deg >= enough_deg)


@lru_cache(maxsize=_KEPT_BLOCKS)
def _block_of(site: Site, body: Body, below_deg: float, block: int) -> tuple[Better, ...]:
    """Return the evenings of one block on which the body is up in a dark sky, in order."""
    evenings = _evenings_of(site, block)
    if evenings is None:
        return ()
    (outlook,) = compute_outlook(evenings, [body], dark_enough={body: below_deg})
    return tuple(
        Better(day=day, altitude_deg=float(altitude_deg), is_good=bool(hours >= GOOD_HOURS))
        for day, altitude_deg, hours in zip(
            evenings.dates, outlook.best_altitude_deg, outlook.dark_hours_30, strict=True
        )
        if not np.isnan(altitude_deg)
    )


def _evenings_of(site: Site, block: int) -> Evenings | None:
    """Return the evenings of one block, None where it has none in the planet tables."""
    earliest, latest = usable_dates()
    first = max(date.fromordinal(block * _BLOCK_DAYS), earliest)
    days = (block + 1) * _BLOCK_DAYS - first.toordinal()
    if first > latest or days <= 0:
        return None
    try:
        return evenings_from(site, first, days)
    except ProblemsError:  # the zone skipped that date, and none ever skipped two in a row
        return evenings_from(site, first + timedelta(days=1), days - 1)
