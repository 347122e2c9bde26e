"""Which weeks of an outlook are worth the most: those that show the most detail across the disc.

A planet's height and its size are weighed as one figure, N of ``detail``, so that a large low Mars is not
passed over for a small high one. The marks set here are ours: from four fifths of the most detail of the
year; 45 or 30 degrees are told where half of the evenings get so high for half an hour; gaps of a week are
bridged.
"""

from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats, Truths, runs
from core.sky.bodies import Body
from core.sky.events import BEST_DEG, FAIR_DEG, LOWEST_USEFUL_DEG
from core.year.outlook import GOOD_HOURS, BodyOutlook

_ENOUGH_DETAIL: Final = 0.8
_ENOUGH_OF_THEM: Final = 0.5
_BRIDGED_EVENINGS: Final = 7
_SHORTEST_EVENINGS: Final = 4
_MOST_STRETCHES: Final = 3

# First and last evening of each, by number, in order.
Stretches = tuple[tuple[int, int], ...]


@frozen(kw_only=True)
class BestWeeks:
    """The best weeks of an outlook, by the numbers of its evenings.

    ``above_deg`` is the height, 45 or 30 degrees, that most of them get above; None where they stay low.
    ``stretches`` are first and last evenings, in order; none of the Moon, which comes round each month.
    ``sharpest`` shows the most detail, ``highest`` and ``largest`` are what their names say: single evenings,
    None for a body that is never above 10 degrees in a dark sky.
    """

    above_deg: float | None
    stretches: Stretches
    sharpest: int | None
    highest: int | None
    largest: int | None


def find_best_weeks(outlook: BodyOutlook, details: Floats) -> BestWeeks:
    """Return the best weeks of an outlook, given how much detail each evening (N,) shows across the disc."""
    useful = outlook.best_altitude_deg >= LOWEST_USEFUL_DEG
    if not useful.any():
        return BestWeeks(above_deg=None, stretches=(), sharpest=None, highest=None, largest=None)
    good = useful & (details >= _ENOUGH_DETAIL * details.max())
    above_deg = _above_deg(outlook, good)
    return BestWeeks(
        above_deg=above_deg,
        stretches=() if outlook.body is Body.MOON else _stretches(good),
        sharpest=int(np.argmax(details)),
        highest=_highest(outlook, above_deg),
        largest=int(np.argmax(np.where(useful, outlook.diameter_arcsec, 0.0))),
    )


def find_light_nights(outlook: BodyOutlook) -> Stretches:
    """Return the evenings on which the sky itself never gets dark enough for the body, whatever that does."""
    is_light = outlook.sky_dark_hours == 0.0
    return _stretches(is_light) if is_light.any() else ()


def _above_deg(outlook: BodyOutlook, good: Truths) -> float | None:
    """Return the height that most of the good evenings (N,) get above for long enough."""
    for bound_deg, hours in ((BEST_DEG, outlook.dark_hours_45), (FAIR_DEG, outlook.dark_hours_30)):
        if (hours[good] >= GOOD_HOURS).mean() >= _ENOUGH_OF_THEM:
            return bound_deg
    return None


def _stretches(marked: Truths) -> Stretches:
    """Return the longest runs of the evenings marked (N,), in order; short gaps are bridged."""
    found = runs(np.flatnonzero(marked), bridged=_BRIDGED_EVENINGS)
    long_enough = [run for run in found if len(run) >= _SHORTEST_EVENINGS] or found
    longest = sorted(long_enough, key=len, reverse=True)[:_MOST_STRETCHES]
    return tuple(sorted((int(run[0]), int(run[-1])) for run in longest))


def _highest(outlook: BodyOutlook, above_deg: float | None) -> int:
    """Return the evening of the greatest height; of several as high in whole degrees, the one up longest."""
    altitude_deg = np.nan_to_num(outlook.best_altitude_deg)
    hours: Floats = outlook.dark_hours_45 if above_deg == BEST_DEG else outlook.dark_hours_30
    # In whole degrees, as heights are told: no evening of a table beside it stands higher.
    whole_deg = np.floor(altitude_deg + 0.5)
    as_high = whole_deg >= whole_deg.max()
    longest = np.where(as_high, hours, -1.0).max()
    # Of several that last as long, the highest.
    return int(np.argmax(np.where(as_high & (hours >= longest - 1e-6), altitude_deg, -1.0)))
