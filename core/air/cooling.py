"""How long a telescope must stand outside before its own warmth no longer spoils the view.

The mirror (or lens) follows the air exponentially, with a time constant in proportion to its aperture:
common practice, no source, and an estimate; hence always a range. Before sunset it assumes shade and caps on.
"""

import math
from datetime import datetime, timedelta

from attrs import field, frozen

from core.checks import within
from core.gear.owned import Telescope, TelescopeKind

READY_WITHIN_C = 1.0
# An open reflector 17 °C too warm: 8, 10 and 12 inches take about 36, 45 and 54 minutes (common practice).
USUAL_WARMTH_C = 17.0
_CALIBRATED_MINUTES_PER_MM = 36.0 / 203.2
_TIME_CONSTANT_PER_MM = _CALIBRATED_MINUTES_PER_MM / math.log(USUAL_WARMTH_C / READY_WITHIN_C)
CLOSED_TUBE_FACTOR = 2.5
FAN_FACTOR = 0.5
SMALL_REFRACTOR_FACTOR = 0.7
SMALL_REFRACTOR_MM = 120.0
# The likely time may be this much too long or too short.
SHORTEST_SHARE = 0.7
LONGEST_SHARE = 1.5


@frozen(kw_only=True)
class Readiness:
    """When a telescope comes within 1 °C of the air, counted in minutes from being carried out.

    A time is None where it never comes so close; ``never`` says that even the likely time is None.
    ``settles_at_c`` is how much warmer than the falling air it stays in the end. ``measured`` marks the
    owner's own time.
    """

    warmer_by_c: float = field(validator=within(-60, 60, "°C"))
    falling_c_per_h: float = field(default=0.0, validator=within(-10, 10, "°C per hour"))
    low_minutes: float | None
    likely_minutes: float | None
    high_minutes: float | None
    settles_at_c: float
    measured: bool

    @property
    def never(self) -> bool:
        """Whether it most likely stays more than 1 °C from the air for good."""
        return self.likely_minutes is None

    @property
    def slowest_minutes(self) -> float | None:
        """The slow end of the estimate where it has one, else the likely time."""
        return self.likely_minutes if self.high_minutes is None else self.high_minutes

    @property
    def minutes(self) -> tuple[float, float, float] | None:
        """Low, likely and high, or None unless all three are known."""
        if self.low_minutes is None or self.likely_minutes is None or self.high_minutes is None:
            return None
        return self.low_minutes, self.likely_minutes, self.high_minutes

    def ready_at(self, outside_since: datetime) -> datetime | None:
        """Return when a telescope outside since a time (aware) is likely ready, None where it never is."""
        return None if self.likely_minutes is None else outside_since + timedelta(minutes=self.likely_minutes)


def time_constant_minutes(scope: Telescope) -> float:
    """Return the likely time constant in minutes; the owner's own measured time overrides the estimate."""
    if scope.cooling_minutes is not None and scope.cooling_from_c is not None:
        return scope.cooling_minutes / math.log(scope.cooling_from_c / READY_WITHIN_C)
    minutes = _TIME_CONSTANT_PER_MM * scope.aperture_mm
    if scope.kind in (TelescopeKind.REFRACTOR, TelescopeKind.FIXED):
        if scope.aperture_mm <= SMALL_REFRACTOR_MM:
            minutes *= SMALL_REFRACTOR_FACTOR
    elif scope.is_closed:
        minutes *= CLOSED_TUBE_FACTOR
    return minutes * FAN_FACTOR if scope.fan else minutes


def estimate_cooling(
    scope: Telescope, *, warmer_by_c: float = USUAL_WARMTH_C, falling_c_per_h: float = 0.0
) -> Readiness:
    """Return when a telescope ``warmer_by_c`` (negative if colder) than the air is ready.

    Air that falls steadily, ``falling_c_per_h``, is followed at a distance of rate times time constant: the
    telescope may then never come within 1 °C.
    """
    time_constant = time_constant_minutes(scope)

    def minutes(share: float) -> float | None:
        return minutes_until_ready(warmer_by_c, falling_c_per_h, time_constant * share)

    return Readiness(
        warmer_by_c=warmer_by_c,
        falling_c_per_h=falling_c_per_h,
        low_minutes=minutes(SHORTEST_SHARE),
        likely_minutes=minutes(1.0),
        high_minutes=minutes(LONGEST_SHARE),
        settles_at_c=falling_c_per_h / 60.0 * time_constant,
        measured=scope.cooling_minutes is not None,
    )


def minutes_until_ready(warmer_by_c: float, falling_c_per_h: float, time_constant: float) -> float | None:
    """Return the minutes until the difference to the air is within 1 °C, None if it does not stay so.

    The difference D obeys D' = -D / time constant + rate. Where the air's change helps, as warming air does
    for a warm telescope, it is the first moment within 1 °C.
    """
    side = math.copysign(1.0, warmer_by_c)
    start, settles_at = side * warmer_by_c, side * falling_c_per_h / 60.0 * time_constant
    if settles_at >= READY_WITHIN_C:
        return None
    if start <= READY_WITHIN_C:
        return 0.0
    return time_constant * math.log((start - settles_at) / (READY_WITHIN_C - settles_at))
