"""When a telescope is ready: usable for planets by the rule of thumb, settled as its glass follows the air.

Both are estimates, counted in minutes from being carried out.
"""

from datetime import UTC, datetime, timedelta
from typing import Final

from attrs import frozen

from core.air.blur import Blur
from core.air.cooling import READY_WITHIN_C, USUAL_WARMTH_C, UsableTime, usable_time
from core.air.finest_detail import ceiling_power
from core.air.mirror import AirCourse, combined_blur_arcsec
from core.air.mirror_course import MirrorCourse
from core.air.mirror_of import CoolingMirror, Settled, mirror_of, settled_range
from core.air.usual_air import USUAL_AIR_POWER
from core.gear.aperture import working_aperture_mm
from core.gear.owned import Telescope

# A mirror that to the end of the night costs more of the ceiling than this is never ready (ours).
NEVER_UNDER_SHARE: Final = 0.8
_A_DAY_MINUTES: Final = 24 * 60.0
_WORTH_WAITING_MINUTES: Final = 60.0
_TOLD_TO_S: Final = 300.0


@frozen(kw_only=True)
class Readiness:
    """Both estimates for one telescope.

    ``mirror`` and ``settled`` are None for a lens. ``stays_warmer_c`` is how much warmer than a falling air
    the mirror is at the end of the night, None where that is less than 1 °C or no temperatures are known;
    ``never`` says that it then still costs much of the ceiling.
    """

    usable: UsableTime
    mirror: CoolingMirror | None = None
    settled: Settled | None = None
    stays_warmer_c: float | None = None
    never: bool = False

    @property
    def is_ready_at_once(self) -> bool:
        """Whether it is as warm as the air from the beginning."""
        return self.usable.likely_minutes == 0.0 and not self.never

    @property
    def settles_later(self) -> bool:
        """Whether its mirror has settled only after it is usable by the rule of thumb."""
        return self.settled is not None and self.settled.likely_minutes > self.usable.likely_minutes

    @property
    def lead_minutes(self) -> float:
        """How long before the first look it should stand outside.

        So that even the slow end of the usable time is over, and that its mirror has settled where an hour
        is enough for it; also an hour for one that is never ready (ours).
        """
        if self.never:
            return _WORTH_WAITING_MINUTES
        settled = 0.0 if self.settled is None else self.settled.likely_minutes
        return max(self.usable.high_minutes, min(settled, _WORTH_WAITING_MINUTES))

    def usable_at(self, outside_since: datetime) -> datetime | None:
        """Return when a telescope outside since a time (aware) is likely usable, None where it never is."""
        return None if self.never else estimated_at(outside_since, self.usable.likely_minutes)


def estimated_at(outside_since: datetime, minutes: float) -> datetime:
    """Return when an estimate in minutes from being carried out (an aware time) is up, as it is told."""
    return as_estimate(outside_since + timedelta(minutes=minutes))


def as_estimate(moment: datetime) -> datetime:
    """Return an estimated moment (aware) to the nearest five minutes of the clock, UTC.

    No finer than an estimate deserves, and so the same wherever it stands (ours).
    """
    return datetime.fromtimestamp(_TOLD_TO_S * round(moment.timestamp() / _TOLD_TO_S), UTC)


def readiness_in_still_air(
    scope: Telescope, *, blur: Blur | None = None, warmer_by_c: float = USUAL_WARMTH_C
) -> Readiness:
    """Return both estimates for air that stays as it is, without a blur in fair air."""
    mirror = mirror_of(scope)
    settled = None
    if mirror is not None:
        settled = settled_range(
            mirror,
            AirCourse(minutes=(0.0,), celsius=(0.0,)),
            aperture_mm=working_aperture_mm(scope),
            blur_arcsec=(blur or Blur.assumed()).overhead_arcsec,
            start_c=warmer_by_c,
            end_minutes=_A_DAY_MINUTES,
        )
    return Readiness(usable=usable_time(scope, warmer_by_c=warmer_by_c), mirror=mirror, settled=settled)


def readiness_in(
    course: MirrorCourse, scope: Telescope, *, blur: Blur, usual_air: float = USUAL_AIR_POWER
) -> Readiness:
    """Return both estimates for a telescope whose mirror runs such a course."""
    aperture_mm, overhead_arcsec = working_aperture_mm(scope), blur.overhead_arcsec
    stays_warmer_c = course.excess_c(course.end)
    spoiled, whole = (
        float(
            ceiling_power(
                aperture_mm, combined_blur_arcsec(overhead_arcsec, mirror_arcsec), usual_air=usual_air
            )
        )
        for mirror_arcsec in (course.blur_arcsec(course.end), 0.0)
    )
    stays_warm = stays_warmer_c > READY_WITHIN_C
    return Readiness(
        usable=usable_time(scope, warmer_by_c=course.excess_c(course.out_at)),
        mirror=course.mirror,
        settled=course.settled_minutes(
            aperture_mm=aperture_mm, blur_arcsec=overhead_arcsec, usual_air=usual_air
        ),
        stays_warmer_c=stays_warmer_c if stays_warm else None,
        never=stays_warm and spoiled < NEVER_UNDER_SHARE * whole,
    )
