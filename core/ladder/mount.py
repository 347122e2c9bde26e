"""Whether the mount, or what it stands on, shakes too much for the powers that the air bears.

Common practice, no source: a view that rests within a second or two of a tap is firm, one that trembles for
three seconds and more is troublesome, and from about 100x on every touch and every step shows. A deck or a
balcony moves with whoever walks on it, so it is taken to shake until its owner has timed it.
"""

from typing import Final

from core.gear.owned import Stand, Telescope
from core.ladder.ladder import Ladder

TREMBLES_FROM_S: Final = 3.0
SHOWS_FROM_POWER: Final = 100.0


def shakes(scope: Telescope) -> bool:
    """Tell whether a telescope trembles long after a tap, or stands on what is taken to shake."""
    if scope.settles_s is not None:
        return scope.settles_s >= TREMBLES_FROM_S
    return scope.stands_on in (Stand.DECK, Stand.BALCONY)


def shaking_bites(ladder: Ladder) -> bool:
    """Tell whether shaking shows at the highest power that the kit has under the ceiling."""
    return ladder.climb_to is not None and ladder.climb_to >= SHOWS_FROM_POWER and shakes(ladder.scope)
