"""On which evenings Mars turns a chosen longitude towards us while it is highest."""

from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import runs
from core.checks import within
from core.sky.axes import pose
from core.sky.bodies import Body
from core.sky.disc import central_meridians
from core.sky.events import LOWEST_USEFUL_DEG
from core.year.best_weeks import Stretches
from core.year.outlook import BodyOutlook

MARS_LONGITUDE_DEG: Final = within(0, 360, "degrees")
# It crosses the middle within two hours then, and has not begun to foreshorten much (ours).
_NEAR_MIDDLE_DEG: Final = 30.0


@frozen(kw_only=True)
class FacingUs:
    """The evenings on which a west longitude on Mars faces us: first and last of each run, in order."""

    longitude_deg: float
    evenings: Stretches


def evenings_facing(outlook: BodyOutlook, longitude_deg: float) -> FacingUs:
    """Return when a west longitude lies within 30 degrees of the middle while Mars is highest in the dark.

    From night to night the face that we see at the same time slips by some 10 degrees, so that each
    longitude comes round about every 36 days.
    """
    seen = np.flatnonzero(outlook.best_altitude_deg >= LOWEST_USEFUL_DEG)
    off_middle_deg = [_off_middle_deg(unix_s, longitude_deg) for unix_s in outlook.best_s[seen]]
    facing = seen[np.array(off_middle_deg) <= _NEAR_MIDDLE_DEG]
    return FacingUs(
        longitude_deg=longitude_deg,
        evenings=tuple((int(run[0]), int(run[-1])) for run in runs(facing)),
    )


def _off_middle_deg(unix_s: float, longitude_deg: float) -> float:
    (middle,) = central_meridians(pose(Body.MARS, float(unix_s)))
    return abs((longitude_deg - middle.longitude_deg + 180.0) % 360.0 - 180.0)
