"""How long a telescope must stand outside until it is usable for planets, by the rule of thumb.

In proportion to the aperture and to the logarithm of how much too warm it starts: common practice, no
source, and an estimate; hence always a range. It ends within 1 °C of the air. How the glass itself follows
the air is told in ``mirror``. Before sunset shade and caps are assumed.
"""

import math
from typing import Final

from attrs import field, frozen

from core.gear.owned import Telescope
from core.gear.ranges import TEMPERATURE_C

READY_WITHIN_C: Final = 1.0
# An open reflector 17 °C too warm: 8, 10 and 12 inches take about 36, 45 and 54 minutes (common practice).
USUAL_WARMTH_C: Final = 17.0
_CALIBRATED_MINUTES_PER_MM: Final = 36.0 / 203.2
_TIME_CONSTANT_PER_MM: Final = _CALIBRATED_MINUTES_PER_MM / math.log(USUAL_WARMTH_C / READY_WITHIN_C)
CLOSED_TUBE_FACTOR: Final = 2.5
FAN_FACTOR: Final = 0.5
SMALL_REFRACTOR_FACTOR: Final = 0.7
SMALL_REFRACTOR_MM: Final = 120.0
# The likely time may be this much too long or too short.
SHORTEST_SHARE: Final = 0.7
LONGEST_SHARE: Final = 1.5


@frozen(kw_only=True)
class UsableTime:
    """After how many minutes outside a telescope is usable for planets; ``measured`` by its owner.

    It starts ``warmer_by_c`` (negative if colder) than the air.
    """

    warmer_by_c: float = field(validator=TEMPERATURE_C)
    likely_minutes: float
    measured: bool

    @property
    def low_minutes(self) -> float:
        """The quick end of the estimate."""
        return self.likely_minutes * SHORTEST_SHARE

    @property
    def high_minutes(self) -> float:
        """The slow end of the estimate."""
        return self.likely_minutes * LONGEST_SHARE

    @property
    def minutes(self) -> tuple[float, float, float]:
        """Low, likely and high."""
        return self.low_minutes, self.likely_minutes, self.high_minutes


def time_constant_minutes(scope: Telescope) -> float:
    """Return the rule's time constant in minutes; the owner's own measured time overrides it."""
    if scope.cooling_minutes is not None and scope.cooling_from_c is not None:
        return scope.cooling_minutes / math.log(scope.cooling_from_c / READY_WITHIN_C)
    minutes = _TIME_CONSTANT_PER_MM * scope.aperture_mm
    if scope.has_lens:
        if scope.aperture_mm <= SMALL_REFRACTOR_MM:
            minutes *= SMALL_REFRACTOR_FACTOR
    elif scope.is_closed:
        minutes *= CLOSED_TUBE_FACTOR
    return minutes * FAN_FACTOR if scope.fan else minutes


def usable_time(scope: Telescope, *, warmer_by_c: float = USUAL_WARMTH_C) -> UsableTime:
    """Return when a telescope ``warmer_by_c`` (negative if colder) than the air is usable for planets."""
    off_by = max(abs(warmer_by_c) / READY_WITHIN_C, 1.0)
    return UsableTime(
        warmer_by_c=warmer_by_c,
        likely_minutes=time_constant_minutes(scope) * math.log(off_by),
        measured=scope.cooling_minutes is not None,
    )
