"""How the ceiling climbs through the evening as a mirror cools."""

from datetime import datetime, timedelta
from typing import Final

import numpy as np
from attrs import frozen

from core.air.blur import blur_at
from core.air.finest_detail import ceiling_power
from core.air.mirror import SETTLED_SHARE, combined_blur_arcsec
from core.air.mirror_course import MirrorCourse
from core.gear.aperture import working_aperture_mm
from core.ladder.ladder import Ladder

# A climb that ends at no more than this times what it begins with is not worth a word (ours).
_WORTH_A_WORD: Final = 1.1
_STEP: Final = timedelta(minutes=1)


@frozen(kw_only=True)
class MirrorClimb:
    """The ceiling ``at`` a moment, and what it is from a later one on, for the mirror alone."""

    at: datetime
    power: float
    later_power: float
    later: datetime


def mirror_climb(ladder: Ladder, course: MirrorCourse, *, until: datetime) -> MirrorClimb | None:
    """Return how the ceiling climbs while the mirror cools, None where that is hardly anything.

    From the moment of the ladder until ``until``, at the height of the ladder; it is there when it is 90 % of
    the highest that it reaches.
    """
    at, path = ladder.aim.at, ladder.aim.path
    if at is None or path is None or ladder.ceiling.power is None or until <= at:
        return None
    moments = [at + number * _STEP for number in range((until - at) // _STEP + 1)]
    powers = ceiling_power(
        working_aperture_mm(ladder.scope),
        combined_blur_arcsec(blur_at(ladder.blur.overhead_arcsec, path), course.blurs_arcsec(moments)),
        ladder.aim.dispersion_arcsec,
        usual_air=ladder.limits.usual_air,
    )
    there = int(np.argmax(powers >= SETTLED_SHARE * powers.max()))
    first, later = float(powers[0]), float(powers[there])
    if later < first * _WORTH_A_WORD:
        return None
    return MirrorClimb(at=at, power=first, later_power=later, later=moments[there])
