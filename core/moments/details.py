"""How many details an instrument in tonight's air shows across a body, along the body's evening."""

from typing import Final

import numpy as np
from attrs import frozen

from core.air.atmosphere import air_path, standard_pressure_hpa
from core.air.blur import Blur, BlurSource, blur_at
from core.air.dispersion import spread_arcsec
from core.air.finest_detail import detail_arcsec
from core.air.usual_air import USUAL_BLUR_ARCSEC
from core.arrays import Floats
from core.gear.aperture import working_aperture_mm
from core.gear.owned import Telescope
from core.moments.worth import details_across
from core.sky.bodies import Body
from core.sky.geocentric import diameter_arcsec
from core.sky.night import Night

# Taken while nobody has a telescope; the choice hardly depends on it (ours).
USUAL_APERTURE_MM: Final = 150.0


@frozen(kw_only=True)
class Sharpness:
    """What limits detail wherever it points: the aperture in mm, and the blur overhead in arcsec."""

    aperture_mm: float = USUAL_APERTURE_MM
    overhead_blur_arcsec: float = USUAL_BLUR_ARCSEC

    @classmethod
    def through(cls, scope: Telescope | None, overhead_blur_arcsec: float = USUAL_BLUR_ARCSEC) -> "Sharpness":
        """Return that of a telescope, masked or not, or of a usual one, in air of a blur overhead."""
        aperture_mm = USUAL_APERTURE_MM if scope is None else working_aperture_mm(scope)
        return cls(aperture_mm=aperture_mm, overhead_blur_arcsec=overhead_blur_arcsec)

    @classmethod
    def of(cls, scope: Telescope | None, blur: Blur) -> "Sharpness":
        """Return that of a telescope in tonight's air, where nothing was said of it the usual one."""
        is_said = blur.source is not BlurSource.ASSUMED
        return cls.through(scope, blur.overhead_arcsec if is_said else USUAL_BLUR_ARCSEC)


USUAL_SHARPNESS: Final = Sharpness()


def details_along(night: Night, body: Body, unix_s: Floats, sharpness: Sharpness) -> tuple[Floats, Floats]:
    """Return N and the geometric altitude in degrees at times (N,) of an evening; N is NaN under 5 degrees.

    The height is read off the minutes of the body's track.
    """
    track = night.of(body).track
    altitude_deg = np.interp(unix_s, track.unix_s, track.altitude_deg)
    apparent_deg = np.interp(unix_s, track.unix_s, track.apparent_altitude_deg)
    pressure_hpa = float(standard_pressure_hpa(night.site.elevation_m))
    finest_arcsec = detail_arcsec(
        sharpness.aperture_mm,
        blur_at(sharpness.overhead_blur_arcsec, air_path(apparent_deg)),
        spread_arcsec(apparent_deg, pressure_hpa=pressure_hpa),
    )
    return details_across(body, diameter_arcsec(body, unix_s), finest_arcsec), altitude_deg
