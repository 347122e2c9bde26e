"""The events of one body in one evening: rises, transits, sets, and the spans above fixed heights."""

from collections.abc import Sequence
from enum import StrEnum
from functools import partial
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.gear.optics import SIDEREAL_DAY_S
from core.sky.bodies import Body
from core.sky.crossings import Course, Crossings
from core.sky.daily_course import DailyCourse, turns_daily_at
from core.sky.sampled_course import SampledCourse
from core.sky.viewpoint import Direction, Viewpoint

# Geometric altitudes of the centre at rise and set (Astronomical Almanac).
HORIZON_DEG: Final = -34.0 / 60.0
SUN_HORIZON_DEG: Final = -50.0 / 60.0
# Altitudes of the Sun at which the three twilights end (Astronomical Almanac).
CIVIL_DEG: Final = -6.0
NAUTICAL_DEG: Final = -12.0
ASTRONOMICAL_DEG: Final = -18.0

# With the Sun below this nothing of it is up, to the last digit of a time.
_SUN_GONE_DEG: Final = SUN_HORIZON_DEG - 0.0005
_ROUNDED_DEG: Final = 0.001

# The observer's heights (common practice, no source): nothing worth a look is lower than the first,
# thick air reaches up to the second, and above the third the air troubles least.
LOWEST_USEFUL_DEG: Final = 10.0
FAIR_DEG: Final = 30.0
BEST_DEG: Final = 45.0

# Closer than this to a pole, a meridian says nothing about height: no transits are told.
_POLE_DEG: Final = 89.999

# The angle to the meridian swings once a day and evenly, anywhere on the Earth.
_MERIDIAN_STEP_S: Final = 7200.0
# Towards a transit, hour angles are turned into time at the rate of the sky: right within a fortieth.
_TURN_RAD_PER_S: Final = 2.0 * np.pi / SIDEREAL_DAY_S
_LAST_STEP_S: Final = 0.02
_MOST_ROUNDS: Final = 20


class BodyState(StrEnum):
    """Whether a body passes the horizon in an evening, and if not, on which side it stays."""

    NORMAL = "normal"
    ALWAYS_UP = "always_up"
    NEVER_UP = "never_up"


@frozen(eq=False)
class Heights:
    """A body's geometric altitude over an evening, ready to be asked when it crosses altitudes in degrees."""

    course: Course

    @classmethod
    def of(cls, viewpoint: Viewpoint, body: Body, start_s: float, end_s: float) -> "Heights":
        """Follow a body from a viewpoint, from ``start_s`` up to ``end_s`` (Unix seconds)."""
        kind = DailyCourse if turns_daily_at(viewpoint.latitude_deg) else Course
        return cls(kind(quantity=partial(viewpoint.sine_altitude, body), start_s=start_s, end_s=end_s))

    @classmethod
    def along(cls, unix_s: Floats, direction: Direction) -> "Heights":
        """Read a body's altitude off where it stands at even times (N,), a minute apart or denser."""
        return cls(SampledCourse.through(unix_s, direction.sine_altitude))

    def crossings(self, altitudes_deg: Sequence[float]) -> tuple[Crossings, ...]:
        """Return the crossings of each geometric altitude, with the spans above it."""
        return self.course.crossings([float(np.sin(np.radians(altitude))) for altitude in altitudes_deg])

    @property
    def highest_s(self) -> float:
        """When the body is highest, in Unix seconds."""
        return self.course.highest[0]

    @property
    def highest_deg(self) -> float:
        """How high it gets."""
        return float(np.degrees(np.arcsin(self.course.highest[1])))

    @property
    def lowest_deg(self) -> float:
        """How low it gets."""
        return float(np.degrees(np.arcsin(self.course.lowest[1])))

    def state(self, horizon_deg: float = HORIZON_DEG) -> BodyState:
        """Tell whether the body passes the horizon."""
        if self.lowest_deg > horizon_deg:
            return BodyState.ALWAYS_UP
        return BodyState.NEVER_UP if self.highest_deg < horizon_deg else BodyState.NORMAL


def dark_spans(sun: Heights, below_deg: Sequence[float]) -> list[Floats]:
    """Return, for each altitude in degrees, the spans (N, 2) with the Sun below it.

    An altitude that is the horizon's own, rounded (-0.833 for -50'), is taken a hair lower, so that no
    moment with a rim of the Sun up counts as dark.
    """
    start_s, end_s = sun.course.start_s, sun.course.end_s
    levels_deg = [_SUN_GONE_DEG if abs(each - SUN_HORIZON_DEG) < _ROUNDED_DEG else each for each in below_deg]
    found = []
    for crossed in sun.crossings(levels_deg):
        edges_s = np.concatenate([[start_s], crossed.above_s.ravel(), [end_s]]).reshape(-1, 2)
        found.append(edges_s[edges_s[:, 1] > edges_s[:, 0]])
    return found


def upper_transits_s(viewpoint: Viewpoint, body: Body, heights: Heights) -> Floats:
    """Return when the apparent hour angle is zero in the time of ``heights``, in order; none at the poles."""
    course = heights.course
    if abs(viewpoint.latitude_deg) > _POLE_DEG:
        return np.empty(0)
    if isinstance(course, DailyCourse):
        found_s = _transits_near(viewpoint, body, course.highs_s)
        return found_s[(found_s >= course.start_s) & (found_s < course.end_s)]
    east = Course(
        quantity=partial(viewpoint.sine_east, body),
        start_s=course.start_s,
        end_s=course.end_s,
        step_s=_MERIDIAN_STEP_S,
    )
    return east.crossings([0.0])[0].falls_s


def transits_along(viewpoint: Viewpoint, unix_s: Floats, direction: Direction) -> Floats:
    """Return the upper transits among even times (N,), a minute apart or denser; none at the poles."""
    if abs(viewpoint.latitude_deg) > _POLE_DEG:
        return np.empty(0)
    return SampledCourse.through(unix_s, direction.sine_east).crossings([0.0])[0].falls_s


def _transits_near(viewpoint: Viewpoint, body: Body, near_s: Floats) -> Floats:
    """Return the transit next to each time, at which the body is not far from the meridian."""
    for _ in range(_MOST_ROUNDS):
        step_s = viewpoint.hour_angle_rad(body, near_s) / _TURN_RAD_PER_S
        near_s = near_s - step_s
        if np.abs(step_s).max(initial=0.0) < _LAST_STEP_S:
            break
    return near_s
