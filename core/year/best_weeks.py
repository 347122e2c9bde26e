"""Which weeks of an outlook are worth the most: high in a dark sky for long enough, and large.

The marks set here are ours: half an hour in the evening; two thirds of the largest disc for a planet beyond
the Earth (Mars shrinks to a quarter); 45 degrees where a third of the evenings above 30 get so high; gaps of
a week bridged.
"""

from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.sky.bodies import Body
from core.sky.ephemeris import Floats
from core.sky.events import BEST_DEG, FAIR_DEG, LOWEST_USEFUL_DEG
from core.year.outlook import GOOD_HOURS, NEARLY_HIGHEST, BodyOutlook

_ENOUGH_EVENINGS: Final = 7
_ENOUGH_OF_THEM: Final = 1.0 / 3.0
_LARGE_ENOUGH: Final = 2.0 / 3.0
_BRIDGED_EVENINGS: Final = 7
_SHORTEST_EVENINGS: Final = 4
_MOST_STRETCHES: Final = 3
# Heights so close together are told apart by how long the body stays up.
_SAME_HEIGHT_DEG: Final = 1.0

_BEYOND_THE_EARTH: Final = frozenset({Body.MARS, Body.JUPITER, Body.SATURN, Body.URANUS, Body.NEPTUNE})


@frozen(kw_only=True)
class BestWeeks:
    """The best weeks of an outlook, by the numbers of its evenings.

    ``above_deg`` is the height, 45 or 30 degrees, that makes them the best; None where the body is hardly
    ever above 30, and then they are those of its greatest heights. ``stretches`` are first and last evenings,
    in order; none of the Moon, which comes round each month. ``highest`` and ``largest`` are single evenings,
    None for a body that is never above 10 degrees in a dark sky.
    """

    above_deg: float | None
    stretches: tuple[tuple[int, int], ...]
    highest: int | None
    largest: int | None


def find_best_weeks(outlook: BodyOutlook) -> BestWeeks:
    """Return the best weeks of an outlook."""
    useful = outlook.best_altitude_deg >= LOWEST_USEFUL_DEG
    if not useful.any():
        return BestWeeks(above_deg=None, stretches=(), highest=None, largest=None)
    above_deg, good = _good_evenings(outlook)
    stretches = () if outlook.body is Body.MOON else _stretches(good)
    return BestWeeks(
        above_deg=above_deg,
        stretches=stretches,
        highest=_highest(outlook, above_deg),
        largest=int(np.argmax(np.where(useful, outlook.diameter_arcsec, 0.0))),
    )


def _good_evenings(outlook: BodyOutlook) -> tuple[float | None, NDArray[np.bool_]]:
    """Return the height that counts, and which evenings (N,) are good by it."""
    fair = outlook.dark_hours_30 >= GOOD_HOURS
    if fair.sum() >= _ENOUGH_EVENINGS:
        fair &= _is_large(outlook, fair)
        best = fair & (outlook.dark_hours_45 >= GOOD_HOURS)
        return (BEST_DEG, best) if best.sum() >= _ENOUGH_OF_THEM * fair.sum() else (FAIR_DEG, fair)
    altitude_deg = np.nan_to_num(outlook.best_altitude_deg)
    return None, altitude_deg >= max(NEARLY_HIGHEST * altitude_deg.max(), LOWEST_USEFUL_DEG)


def _is_large(outlook: BodyOutlook, good: NDArray[np.bool_]) -> NDArray[np.bool_]:
    if outlook.body not in _BEYOND_THE_EARTH:
        return good
    diameter_arcsec = outlook.diameter_arcsec
    return np.asarray(diameter_arcsec >= _LARGE_ENOUGH * diameter_arcsec[good].max())


def _stretches(good: NDArray[np.bool_]) -> tuple[tuple[int, int], ...]:
    """Return the longest runs of good evenings, in order; short gaps are bridged."""
    numbers = np.flatnonzero(good)
    runs = np.split(numbers, np.flatnonzero(np.diff(numbers) > _BRIDGED_EVENINGS + 1) + 1)
    long_enough = [run for run in runs if len(run) >= _SHORTEST_EVENINGS] or runs
    longest = sorted(long_enough, key=len, reverse=True)[:_MOST_STRETCHES]
    return tuple(sorted((int(run[0]), int(run[-1])) for run in longest))


def _highest(outlook: BodyOutlook, above_deg: float | None) -> int:
    """Return the evening of the greatest height; of several about as high, the one that lasts longest."""
    altitude_deg = np.nan_to_num(outlook.best_altitude_deg)
    hours: Floats = outlook.dark_hours_45 if above_deg == BEST_DEG else outlook.dark_hours_30
    as_high = altitude_deg >= altitude_deg.max() - _SAME_HEIGHT_DEG
    longest = np.where(as_high, hours, -1.0).max()
    # Of several that last as long, the highest.
    return int(np.argmax(np.where(as_high & (hours >= longest - 1e-6), altitude_deg, -1.0)))
