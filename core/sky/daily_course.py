"""A quantity that swings once a day, followed for many days: the same events as of a course, at less cost.

Between its turning points such a quantity runs much like a cosine. Events are therefore looked for along
the phase of that cosine, in which it runs evenly: two or three looks find each of them, and one that only
grazes its level takes no more.
"""

from functools import cached_property
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Floats
from core.sky.crossings import Course, turning_points

DAY_S: Final = 86_400.0
# Samples so far apart find every turning point to some 5 minutes, and a parabola of this width its place.
_STEP_S: Final = 14_400.0
_FINE_STEP_S: Final = 600.0
# A step along the phase is right within a twentieth: after one so small an event is found to 1 ms.
_LAST_STEP_S: Final = 0.02
_MOST_ROUNDS: Final = 40


@frozen(kw_only=True, slots=False, eq=False)
class DailyCourse(Course):
    """A course that turns twice a day, up and down by turns; defined for two days beyond both of its ends.

    Altitudes swing so from everywhere but near the poles (``turns_daily_at``).
    """

    @cached_property
    def knots(self) -> tuple[Floats, Floats]:
        """The turning points: times in order, and values."""
        margin_s = 1.5 * DAY_S
        count = int(np.ceil((self.end_s - self.start_s + 2.0 * margin_s) / _STEP_S)) + 1
        times_s = np.linspace(self.start_s - margin_s, self.end_s + margin_s, count)
        turns_s = turning_points(self.quantity, times_s, self.quantity(times_s), fine_step_s=_FINE_STEP_S)
        return turns_s, self.quantity(turns_s)

    @property
    def highs_s(self) -> Floats:
        """The times of the greatest values, one a day."""
        times_s, values = self.knots
        turns = values[1:-1]
        return times_s[1:-1][(turns > values[:-2]) & (turns > values[2:])]

    def _solve_between(self, left: NDArray[np.intp], wanted: Floats) -> Floats:
        times_s, values = self.knots
        middle, reach = (values[left] + values[left + 1]) / 2.0, (values[left + 1] - values[left]) / 2.0

        def phase(value: Floats, chosen: NDArray[np.intp]) -> Floats:
            """Return 0 at the first knot and pi at the second."""
            return np.asarray(np.arccos(np.clip((middle[chosen] - value) / reach[chosen], -1.0, 1.0)))

        active = np.arange(len(left))
        goal = phase(wanted, active)
        seconds_per_phase = (times_s[left + 1] - times_s[left]) / np.pi
        found_s = times_s[left] + goal * seconds_per_phase
        for _ in range(_MOST_ROUNDS):
            step_s = (goal[active] - phase(self.quantity(found_s[active]), active)) * seconds_per_phase[
                active
            ]
            found_s[active] += step_s
            active = active[np.abs(step_s) > _LAST_STEP_S]
            if len(active) == 0:
                break
        return found_s


# Nearer to a pole the daily swing is so narrow that the Moon's own motion bends it.
_TURNS_UP_TO_DEG: Final = 80.0


def turns_daily_at(latitude_deg: float) -> bool:
    """Tell whether altitudes at a latitude swing evenly enough for a ``DailyCourse``, else a ``Course``."""
    return abs(latitude_deg) <= _TURNS_UP_TO_DEG
