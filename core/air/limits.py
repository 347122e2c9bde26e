"""How far up one may climb: the limits of power, and the ceiling that they set.

Every limit here is a rule of thumb, good for direction and not for the third digit.
"""

from enum import StrEnum

from attrs import evolve, frozen

from core.air.blur import Blur, blur_at
from core.air.finest_detail import FinestDetail, LimitKind, finest_detail, learned_band, power_band
from core.air.mirror import combined_blur_arcsec
from core.air.usual_air import USUAL_AIR_POWER
from core.checks import is_number
from core.gear.optics import aperture_limit


class Line(StrEnum):
    """The lines that are drawn across a ladder."""

    APERTURE = "aperture"
    USUAL_AIR = "usual_air"
    TOGETHER = "together"


@frozen(kw_only=True)
class Limits:
    """The limits as powers; what needs the air is None where no air path can be given.

    ``tonight_air`` is what the air alone would bear, colours that it spreads and a warm mirror included,
    ``together`` what aperture and air bear together, ``band`` that in a typical and in a calm moment, cut at
    ``usual_air``. ``mirror_arcsec`` is the mirror's own blur.
    """

    aperture: float
    usual_air: float
    tonight_air: float | None = None
    together: float | None = None
    band: tuple[float, float] | None = None
    detail: FinestDetail | None = None
    mirror_arcsec: float = 0.0

    def lines(self) -> dict[Line, float]:
        """Return the limits that are drawn and told side by side, those that are known."""
        powers = {
            Line.APERTURE: self.aperture,
            Line.USUAL_AIR: self.usual_air,
            Line.TOGETHER: self.together,
        }
        return {line: power for line, power in powers.items() if power is not None}


@frozen(kw_only=True)
class Ceiling:
    """The lower of ``together`` and the usual limit of the air, and what sets it.

    None for both where nothing can be said or is offered.
    """

    power: float | None
    set_by: LimitKind | None

    @property
    def line(self) -> Line | None:
        """The line on which it lies, None without a ceiling."""
        if self.set_by is None:
            return None
        return Line.USUAL_AIR if self.set_by is LimitKind.USUAL_AIR else Line.TOGETHER


NO_CEILING = Ceiling(power=None, set_by=None)


def find_limits(
    *,
    aperture_mm: float,
    path: float | None,
    dispersion_arcsec: float = 0.0,
    blur: Blur,
    mirror_arcsec: float = 0.0,
    usual_air: float = USUAL_AIR_POWER,
) -> Limits:
    """Return the limits for an aperture in mm, an air path, the spread of the colours and tonight's blur.

    ``mirror_arcsec`` is the blur of a mirror warmer than the air, which counts as air at any height;
    ``usual_air`` the owner's choice for the night: 300x, or 400x when lifted.
    """
    limits = Limits(aperture=aperture_limit(aperture_mm), usual_air=usual_air)
    if path is None or not is_number(path):
        return limits
    air_arcsec = blur_at(blur.overhead_arcsec, path)
    seen_arcsec = float(combined_blur_arcsec(air_arcsec, mirror_arcsec)) if mirror_arcsec else air_arcsec
    detail = finest_detail(
        aperture_mm=aperture_mm,
        blur_arcsec=seen_arcsec,
        dispersion_arcsec=dispersion_arcsec,
        mirror_is_worse=mirror_arcsec > air_arcsec,
    )
    if blur.likely_arcsec is None:
        ends = power_band(aperture_mm, seen_arcsec, dispersion_arcsec, usual_air=usual_air)
        low, high = float(ends[0]), float(ends[1])
    else:
        finest_arcsec, coarsest_arcsec = (
            float(combined_blur_arcsec(blur_at(arcsec, path), mirror_arcsec)) for arcsec in blur.likely_arcsec
        )
        low, high = learned_band(
            aperture_mm,
            (finest_arcsec, seen_arcsec, coarsest_arcsec),
            dispersion_arcsec,
            usual_air=usual_air,
        )
    return evolve(
        limits,
        tonight_air=detail.air_power,
        together=detail.power,
        band=(low, high),
        detail=detail,
        mirror_arcsec=mirror_arcsec,
    )


def ceiling_of(limits: Limits) -> Ceiling:
    """Return the ceiling, told by what has the largest share of the finest detail; none without the air."""
    if limits.together is None or limits.detail is None:
        return NO_CEILING
    set_by = limits.detail.limit(usual_air=limits.usual_air)
    return Ceiling(power=min(limits.together, limits.usual_air), set_by=set_by)
