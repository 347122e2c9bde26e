"""How far the air lets one climb: blur at a height, the three limits of power, and the ceiling.

Every limit here is a rule of thumb, good for direction and not for the third digit.
"""

from enum import StrEnum
from typing import Self, TypeVar

import numpy as np
from attrs import field, frozen
from numpy.typing import NDArray

from core.checks import is_number, within
from core.gear.optics import aperture_limit

# Blur grows as this power of the air path (Kolmogorov turbulence; Roddier 1981, Progress in Optics 19, 281).
BLUR_EXPONENT = 0.6
# Power makes the finest detail look this large when no more can be gained. Derived here: 2 x 116, so that an
# aperture limited by diffraction alone (116 / D arcsec, Dawes 1867) gets exactly 2x per mm.
FINEST_DETAIL_AT_EYE_ARCSEC = 232.0
USUAL_AIR_POWER = 300.0  # common practice, no source
LIFTED_AIR_POWER = 400.0  # a rare steady night; common practice, no source

_FloatOrArray = TypeVar("_FloatOrArray", float, NDArray[np.float64])


class FirstLook(StrEnum):
    """What a first glance at the planet or a bright star says about the air."""

    STEADY = "steady"
    FAIR = "fair"
    BOILING = "boiling"


# Usual overhead blur of each first look, full width at half maximum in arcsec (ours; an estimate).
FIRST_LOOK_BLUR_ARCSEC = {FirstLook.STEADY: 0.8, FirstLook.FAIR: 1.45, FirstLook.BOILING: 3.0}


class BlurSource(StrEnum):
    """Where the figure for the blur comes from."""

    GIVEN = "given"
    ASSUMED = "assumed"
    LOG = "log"


@frozen(kw_only=True)
class Blur:
    """Tonight's blur straight overhead, full width at half maximum in arcsec (0.2 to 8), and its source."""

    overhead_arcsec: float = field(validator=within(0.2, 8, "arcsec"))
    source: BlurSource = BlurSource.GIVEN

    @classmethod
    def assumed(cls) -> Self:
        """Return fair air, for want of any word about tonight."""
        return cls(overhead_arcsec=FIRST_LOOK_BLUR_ARCSEC[FirstLook.FAIR], source=BlurSource.ASSUMED)

    @classmethod
    def of_first_look(cls, look: FirstLook) -> Self:
        """Return the usual blur of a first look."""
        return cls(overhead_arcsec=FIRST_LOOK_BLUR_ARCSEC[look], source=BlurSource.GIVEN)


class LimitKind(StrEnum):
    """The three limits of power, in the order in which a tie is told."""

    APERTURE = "aperture"
    USUAL_AIR = "usual_air"
    TONIGHT_AIR = "tonight_air"


@frozen(kw_only=True)
class Limits:
    """The three limits as powers; ``tonight_air`` is None where no air path can be given."""

    aperture: float
    usual_air: float
    tonight_air: float | None

    def of(self, kind: LimitKind) -> float | None:
        """Return one of the three."""
        return {
            LimitKind.APERTURE: self.aperture,
            LimitKind.USUAL_AIR: self.usual_air,
            LimitKind.TONIGHT_AIR: self.tonight_air,
        }[kind]


@frozen(kw_only=True)
class Ceiling:
    """The lowest of the limits and which one it is; None for both where nothing can be said or is offered."""

    power: float | None
    set_by: LimitKind | None


NO_CEILING = Ceiling(power=None, set_by=None)


def blur_at(overhead_arcsec: float, path: _FloatOrArray) -> _FloatOrArray:
    """Return the blur in arcsec through ``path`` times the air overhead, a number or an array (N,).

    Kolmogorov turbulence, path^0.6 (Roddier 1981). NaN stays NaN.
    """
    growth: _FloatOrArray = path**BLUR_EXPONENT
    return overhead_arcsec * growth


def air_limit(overhead_arcsec: float, path: _FloatOrArray) -> _FloatOrArray:
    """Return the power at which the finest detail the air lets through looks 232 arcsec across.

    Takes the overhead blur in arcsec and the air path, a number or an array (N,). Derived here from
    2x per mm and Dawes' 116 arcsec mm: an estimate.
    """
    return FINEST_DETAIL_AT_EYE_ARCSEC / blur_at(overhead_arcsec, path)


def find_limits(
    *, aperture_mm: float, path: float | None, blur: Blur, usual_air: float = USUAL_AIR_POWER
) -> Limits:
    """Return the three limits for an aperture in mm, an air path and tonight's blur.

    ``usual_air`` is the owner's choice for the night: 300x, or 400x when lifted.
    """
    known = path is not None and is_number(path)
    return Limits(
        aperture=aperture_limit(aperture_mm),
        usual_air=usual_air,
        tonight_air=float(air_limit(blur.overhead_arcsec, path)) if known and path is not None else None,
    )


def ceiling_of(limits: Limits) -> Ceiling:
    """Return the lowest limit, ties told as aperture, usual air, tonight's air; none without the last."""
    if limits.tonight_air is None:
        return NO_CEILING
    powers = {kind: power for kind in LimitKind if (power := limits.of(kind)) is not None}
    lowest = min(powers, key=powers.__getitem__)
    return Ceiling(power=powers[lowest], set_by=lowest)
