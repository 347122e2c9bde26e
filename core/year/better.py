"""The next evening that shows a planet clearly better than a poor one in hand, and the best of two years."""

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import lru_cache, partial
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.moments.details import USUAL_SHARPNESS, Sharpness
from core.sky.bodies import FACTS, Body
from core.sky.ephemeris import usable_dates
from core.sky.site import Site
from core.year.detail import details_by_evening
from core.year.evenings import Evenings, evenings_from_any
from core.year.outlook import BodyOutlook, compute_outlook

# How far ahead is looked; Mars, the slowest to come round, takes 780 days from one opposition to the next.
LOOKED_AHEAD: Final = timedelta(days=2 * 365)

# An evening is clearly better that shows so much more detail than the one in hand, and so large a part of
# what the best of the two years shows (ours).
_CLEARLY_MORE: Final = 1.25
_PART_OF_BEST: Final = 2.0 / 3.0

# Evenings are looked through in blocks on a fixed grid, kept for the next time: neighbouring evenings share
# their answer.
_BLOCK_DAYS: Final = 122
_KEPT_BLOCKS: Final = 128


@frozen(kw_only=True)
class FineEvening:
    """An evening to come: its date, how high the body gets in a dark sky then, and how large it is."""

    day: date
    altitude_deg: float
    diameter_arcsec: float


@frozen(kw_only=True)
class Better:
    """When a body is better than on the evening in hand.

    ``first`` is the next evening that is clearly better, None where the one in hand is about as good as any;
    ``best`` is the one with the most detail of all that were looked through. ``highest_deg`` is how high the
    body gets in a dark sky on the evening in hand, None where it is not up in one. ``dark_from`` is the next
    evening on which the sky itself gets dark enough, where it does not on the evening in hand.
    """

    first: FineEvening | None
    best: FineEvening
    highest_deg: float | None = None
    dark_from: date | None = None


def better_evening(
    site: Site,
    body: Body,
    evening: date,
    *,
    sharpness: Sharpness = USUAL_SHARPNESS,
    dark_below_deg: float | None = None,
) -> Better | None:
    """Return when a body is better than on an evening, within two years; None where it never is.

    Evenings are compared by the detail across the disc, in a sky dark enough for the body with nothing of the
    site's blocked sky before it; never means under 10 degrees in such a sky. ``dark_below_deg`` is the
    altitude under which the Sun must stand, where it is not the usual one. The search ends where the planet
    tables end.
    """
    below_deg = FACTS[body].dark_enough_sun_altitude_deg if dark_below_deg is None else dark_below_deg
    last = min(evening + LOOKED_AHEAD, usable_dates()[1])
    blocks = range(evening.toordinal() // _BLOCK_DAYS, last.toordinal() // _BLOCK_DAYS + 1)
    outlooks = tuple(filter(None, (_block_of(site, body, below_deg, block) for block in blocks)))
    table = _Table.of(outlooks, sharpness)
    to_come = np.array([evening < day <= last for day in table.days], dtype=bool)
    if not (table.details[to_come] > 0.0).any():
        return None
    best = int(np.argmax(np.where(to_come, table.details, -1.0)))
    now = table.of_day(evening)
    details_now = 0.0 if now is None else table.details[now]
    enough = max(_PART_OF_BEST * table.details[best], _CLEARLY_MORE * details_now)
    better = np.flatnonzero(to_come & (table.details >= enough))
    return Better(
        first=table.fine(int(better[0])) if len(better) else None,
        best=table.fine(best),
        highest_deg=None if now is None else table.height_deg(now),
        dark_from=None if now is None else table.dark_from(now),
    )


@frozen(eq=False)
class _Table:
    """Evenings in order: their dates, and what each of them gives, all (N,)."""

    days: tuple[date, ...]
    altitude_deg: Floats
    diameter_arcsec: Floats
    sky_dark_hours: Floats
    details: Floats

    @classmethod
    def of(cls, outlooks: Sequence[BodyOutlook], sharpness: Sharpness) -> "_Table":
        """Join outlooks that follow one another."""

        def joined(column: Callable[[BodyOutlook], Floats]) -> Floats:
            return np.concatenate([np.empty(0), *map(column, outlooks)])

        return cls(
            tuple(day for each in outlooks for day in each.evenings.dates),
            joined(lambda each: each.best_altitude_deg),
            joined(lambda each: each.diameter_arcsec),
            joined(lambda each: each.sky_dark_hours),
            joined(partial(details_by_evening, sharpness=sharpness)),
        )

    def of_day(self, day: date) -> int | None:
        """Return the number of a date; None for one that the zone skipped."""
        return self.days.index(day) if day in self.days else None

    def height_deg(self, number: int) -> float | None:
        """Return how high the body gets in a dark sky, None where it is not up in one."""
        altitude_deg = float(self.altitude_deg[number])
        return None if np.isnan(altitude_deg) else altitude_deg

    def fine(self, number: int) -> FineEvening:
        """Return an evening by its number."""
        return FineEvening(
            day=self.days[number],
            altitude_deg=float(self.altitude_deg[number]),
            diameter_arcsec=float(self.diameter_arcsec[number]),
        )

    def dark_from(self, number: int) -> date | None:
        """Return the next evening on which the sky gets dark after one on which it does not."""
        dark = np.flatnonzero(self.sky_dark_hours[number:] > 0.0)
        return self.days[number + int(dark[0])] if len(dark) and dark[0] > 0 else None


@lru_cache(maxsize=_KEPT_BLOCKS)
def _block_of(site: Site, body: Body, below_deg: float, block: int) -> BodyOutlook | None:
    """Return the outlook of one block; None where it has no evening in the planet tables."""
    evenings = _evenings_of(site, block)
    if evenings is None:
        return None
    (outlook,) = compute_outlook(evenings, [body], dark_enough={body: below_deg})
    return outlook


def _evenings_of(site: Site, block: int) -> Evenings | None:
    """Return the evenings of one block, None where it has none in the planet tables."""
    earliest, latest = usable_dates()
    first = max(date.fromordinal(block * _BLOCK_DAYS), earliest)
    days = (block + 1) * _BLOCK_DAYS - first.toordinal()
    if first > latest or days <= 0:
        return None
    return evenings_from_any(site, first, days)
