"""The finest detail that aperture, air and dispersion leave together, and the power that shows all of it.

theta² = (116 / D)² + (k b)² + (0.45 s)², in arcsec, with the aperture D in mm, the blur b at the height
looked at, and the spread s of the colours from 450 to 650 nm. The eye follows part of the image motion and
waits for calm moments, so it sees finer than the long-exposure blur, and a larger aperture keeps its lead.

Sources: 116 is of Dawes 1867; the direction of k follows Noll 1976 (image motion) and Fried 1966 and 1978
(short exposures, lucky moments); the constants are ours.
"""

import math
from enum import StrEnum
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import ArrayLike

from core.air.usual_air import USUAL_AIR_POWER
from core.arrays import Floats
from core.gear.optics import APERTURE_POWER_PER_MM, DAWES_ARCSEC_MM

# Power makes the finest detail look this large when no more can be gained. Derived here: 2 x 116, so that an
# aperture limited by diffraction alone (116 / D arcsec, Dawes 1867) gets exactly 2x per mm.
FINEST_DETAIL_AT_EYE_ARCSEC: Final = APERTURE_POWER_PER_MM * DAWES_ARCSEC_MM
# Share of the blur that counts: mostly, in a typical moment, and in a calm one (ours).
MOSTLY: Final = 0.60
TYPICAL_MOMENT: Final = 0.75
CALM_MOMENT: Final = 0.50
# The band is never drawn narrower than this share of the power to either side (ours).
LEAST_BAND: Final = 0.12
# A band learned from verdicts is never drawn finer than this (seeing is told apart by 10 % at best).
LEAST_LEARNED_BAND: Final = 0.15
# Width of the spread of colours to the eye, weighted by its sensitivity, over that from 450 to 650 nm (ours).
SEEN_DISPERSION: Final = 0.45


class LimitKind(StrEnum):
    """What may set the ceiling, in the order in which a tie is told."""

    APERTURE = "aperture"
    USUAL_AIR = "usual_air"
    TONIGHT_AIR = "tonight_air"
    MIRROR = "mirror"
    HEIGHT = "height"


@frozen(kw_only=True)
class FinestDetail:
    """The three parts of the finest detail at one moment, in arcsec, as they stand in the sum of squares.

    ``dispersion_arcsec`` is what height adds by smearing the colours; the longer path is in ``air_arcsec``,
    and so is the blur of a warm mirror, which ``mirror_is_worse`` says to be the larger part of it.
    """

    aperture_arcsec: float
    air_arcsec: float
    dispersion_arcsec: float
    mirror_is_worse: bool = False

    @property
    def arcsec(self) -> float:
        """The finest detail, the root of the sum of the squares."""
        return math.hypot(self.aperture_arcsec, self.air_arcsec, self.dispersion_arcsec)

    @property
    def power(self) -> float:
        """The power at which it looks 232 arcsec across."""
        return FINEST_DETAIL_AT_EYE_ARCSEC / self.arcsec

    @property
    def air_power(self) -> float:
        """The power that the air alone would bear; dispersion counts as air. Infinite in perfect air."""
        air_alone = math.hypot(self.air_arcsec, self.dispersion_arcsec)
        return FINEST_DETAIL_AT_EYE_ARCSEC / air_alone if air_alone > 0.0 else math.inf

    @property
    def largest_part(self) -> LimitKind:
        """Which part has the largest share of the sum of squares; never the usual air."""
        parts = {
            LimitKind.APERTURE: self.aperture_arcsec,
            (LimitKind.MIRROR if self.mirror_is_worse else LimitKind.TONIGHT_AIR): self.air_arcsec,
            LimitKind.HEIGHT: self.dispersion_arcsec,
        }
        return max(parts, key=parts.__getitem__)

    def limit(self, *, usual_air: float = USUAL_AIR_POWER) -> LimitKind:
        """Return what sets the ceiling: the usual air where it is the lower, else the largest part."""
        return LimitKind.USUAL_AIR if usual_air < self.power else self.largest_part


def finest_detail(
    *,
    aperture_mm: float,
    blur_arcsec: float,
    dispersion_arcsec: float = 0.0,
    mirror_is_worse: bool = False,
) -> FinestDetail:
    """Return the finest detail at one moment.

    Takes the aperture in mm, the blur at the height looked at (full width at half maximum, with that of the
    mirror), and the spread of the colours from 450 to 650 nm there, both in arcsec.
    """
    aperture, air, dispersion = _parts_arcsec(aperture_mm, blur_arcsec, dispersion_arcsec, MOSTLY)
    return FinestDetail(
        aperture_arcsec=float(aperture),
        air_arcsec=float(air),
        dispersion_arcsec=float(dispersion),
        mirror_is_worse=mirror_is_worse,
    )


def detail_arcsec(
    aperture_mm: ArrayLike,
    blur_arcsec: ArrayLike,
    dispersion_arcsec: ArrayLike = 0.0,
    *,
    share: float = MOSTLY,
) -> Floats:
    """Return the finest detail in arcsec; the arguments are as in ``finest_detail``, of any common shape.

    ``share`` is the part of the blur that counts: 0.60 mostly, 0.75 in a typical moment, 0.50 in a calm one.
    NaN stays NaN.

    >>> round(float(detail_arcsec(150, 1.45)), 2)
    1.16
    """
    aperture, air, dispersion = _parts_arcsec(aperture_mm, blur_arcsec, dispersion_arcsec, share)
    return np.asarray(np.sqrt(aperture**2 + air**2 + dispersion**2))


def power_showing(finest_arcsec: ArrayLike) -> Floats:
    """Return the power at which a detail of so many arcsec looks 232 arcsec across, any shape.

    >>> float(power_showing(2.0))
    116.0
    """
    return np.asarray(FINEST_DETAIL_AT_EYE_ARCSEC / np.asarray(finest_arcsec, dtype=float))


def ceiling_power(
    aperture_mm: ArrayLike,
    blur_arcsec: ArrayLike,
    dispersion_arcsec: ArrayLike = 0.0,
    *,
    usual_air: float = USUAL_AIR_POWER,
) -> Floats:
    """Return the power that aperture and air bear together, cut at the usual air limit, any shape.

    >>> [round(float(power)) for power in ceiling_power([80, 150, 400], 1.45)]
    [137, 199, 253]
    """
    return np.minimum(power_showing(detail_arcsec(aperture_mm, blur_arcsec, dispersion_arcsec)), usual_air)


def power_band(
    aperture_mm: ArrayLike,
    blur_arcsec: ArrayLike,
    dispersion_arcsec: ArrayLike = 0.0,
    *,
    usual_air: float = USUAL_AIR_POWER,
) -> tuple[Floats, Floats]:
    """Return the powers that a typical and a calm moment bear, at least 12 % from the usual one, any shape.

    Both ends are cut at the usual air limit.

    >>> [round(float(power)) for power in power_band(150, 1.45)]
    [174, 223]
    """
    usual = power_showing(detail_arcsec(aperture_mm, blur_arcsec, dispersion_arcsec))
    typical = power_showing(detail_arcsec(aperture_mm, blur_arcsec, dispersion_arcsec, share=TYPICAL_MOMENT))
    calm = power_showing(detail_arcsec(aperture_mm, blur_arcsec, dispersion_arcsec, share=CALM_MOMENT))
    low = np.minimum(typical, usual * (1.0 - LEAST_BAND))
    high = np.maximum(calm, usual * (1.0 + LEAST_BAND))
    return np.minimum(low, usual_air), np.minimum(high, usual_air)


def learned_band(
    aperture_mm: float,
    blurs_arcsec: tuple[float, float, float],
    dispersion_arcsec: float = 0.0,
    *,
    usual_air: float = USUAL_AIR_POWER,
) -> tuple[float, float]:
    """Return the band of powers between a finest and a coarsest blur that are likely, the middle one between.

    Never finer than 15 % from the power of the middle, and cut at the usual air limit.
    """
    high, middle, low = (
        float(power_showing(detail_arcsec(aperture_mm, blur, dispersion_arcsec))) for blur in blurs_arcsec
    )
    low, high = min(low, middle * (1.0 - LEAST_LEARNED_BAND)), max(high, middle * (1.0 + LEAST_LEARNED_BAND))
    return min(low, usual_air), min(high, usual_air)


def _parts_arcsec(
    aperture_mm: ArrayLike, blur_arcsec: ArrayLike, dispersion_arcsec: ArrayLike, share: float
) -> tuple[Floats, Floats, Floats]:
    """Return what aperture, air and dispersion each take of the finest detail, any shapes."""
    return (
        np.asarray(DAWES_ARCSEC_MM / np.asarray(aperture_mm, dtype=float)),
        np.asarray(share * np.asarray(blur_arcsec, dtype=float)),
        np.asarray(SEEN_DISPERSION * np.asarray(dispersion_arcsec, dtype=float)),
    )
