"""One telescope's mirror through an evening: how warm it is, what it blurs, and when it has settled."""

from collections.abc import Sequence
from datetime import datetime

from attrs import frozen

from core.air.mirror import AirCourse, mirror_blur_arcsec, mirror_excess_c
from core.air.mirror_of import CoolingMirror, Settled, settled_range
from core.air.usual_air import USUAL_AIR_POWER
from core.arrays import Floats


@frozen(kw_only=True)
class MirrorCourse:
    """A mirror carried out ``start_c`` warm at ``out_at`` into air that runs from ``epoch`` on.

    ``air`` counts its minutes from ``epoch``; it is followed until ``end``, mostly sunrise.
    """

    mirror: CoolingMirror
    air: AirCourse
    epoch: datetime
    start_c: float
    out_at: datetime
    end: datetime

    def excess_c(self, moment: datetime) -> float:
        """Return by how many °C the mirror is warmer than the air (negative: colder) at a moment."""
        return float(self._excess_c([moment])[0])

    def blur_arcsec(self, moment: datetime) -> float:
        """Return the mirror's own blur in arcsec at a moment."""
        return float(self.blurs_arcsec([moment])[0])

    def blurs_arcsec(self, moments: Sequence[datetime]) -> Floats:
        """Return the mirror's own blur in arcsec at moments, (N,)."""
        return mirror_blur_arcsec(self._excess_c(moments))

    def minutes_at(self, moment: datetime) -> float:
        """Return a moment in minutes from ``epoch``."""
        return (moment - self.epoch).total_seconds() / 60.0

    def settled_minutes(
        self, *, aperture_mm: float, blur_arcsec: float, usual_air: float = USUAL_AIR_POWER
    ) -> Settled:
        """Return when it settles, counted from being carried out; at once for one carried out at the end."""
        return settled_range(
            self.mirror,
            self.air,
            aperture_mm=aperture_mm,
            blur_arcsec=blur_arcsec,
            start_c=self.start_c,
            out_minutes=self.minutes_at(self.out_at),
            end_minutes=self.minutes_at(self.end),
            usual_air=usual_air,
        )

    def _excess_c(self, moments: Sequence[datetime]) -> Floats:
        return mirror_excess_c(
            self.air,
            start_c=self.start_c,
            constant_minutes=self.mirror.constant_minutes,
            minutes=[self.minutes_at(moment) for moment in moments],
            out_minutes=self.minutes_at(self.out_at),
        )
