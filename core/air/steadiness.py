"""How far the air lets one climb: blur at a height, the three limits of power, and the ceiling.

Every limit here is a rule of thumb, good for direction and not for the third digit.
"""

from enum import StrEnum
from typing import Self, TypeVar

import numpy as np
from attrs import field, frozen
from numpy.typing import NDArray

from core.checks import within

# Blur grows as this power of the air path (Kolmogorov turbulence; Roddier 1981, Progress in Optics 19, 281).
BLUR_EXPONENT = 0.6
# What a blur may be, full width at half maximum; what is carried overhead is kept inside (ours).
BLUR_RANGE_ARCSEC = (0.2, 8.0)
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


class Scale(StrEnum):
    """The scales by steps that observers judge the air by, beside a first look."""

    FIVE_STEPS = "five_steps"
    TEN_STEPS = "ten_steps"


@frozen
class ScaleStep:
    """A step of a scale; of five steps the first is the best, of ten the last."""

    scale: Scale
    number: int


@frozen(kw_only=True)
class Judged:
    """What somebody said of the air, and the altitude it was judged at in degrees, None for overhead."""

    by: FirstLook | ScaleStep
    altitude_deg: float | None = None


class BlurSource(StrEnum):
    """Where the figure for the blur comes from."""

    GIVEN = "given"
    ASSUMED = "assumed"
    LOG = "log"
    VERDICTS = "verdicts"


@frozen(kw_only=True)
class Blur:
    """Tonight's blur straight overhead, full width at half maximum in arcsec (0.2 to 8), and its source.

    ``judged`` is what it was carried overhead from, None for a figure. ``likely_arcsec`` is the range that it
    likely lies in, finest first, where verdicts have taught one.
    """

    overhead_arcsec: float = field(validator=within(*BLUR_RANGE_ARCSEC, "arcsec"))
    source: BlurSource = BlurSource.GIVEN
    judged: Judged | None = None
    likely_arcsec: tuple[float, float] | None = None

    @classmethod
    def assumed(cls) -> Self:
        """Return fair air, for want of any word about tonight."""
        return cls(overhead_arcsec=FIRST_LOOK_BLUR_ARCSEC[FirstLook.FAIR], source=BlurSource.ASSUMED)


def blur_at(overhead_arcsec: float, path: _FloatOrArray) -> _FloatOrArray:
    """Return the blur in arcsec through ``path`` times the air overhead, a number or an array (N,).

    Kolmogorov turbulence, path^0.6 (Roddier 1981). NaN stays NaN.
    """
    growth: _FloatOrArray = path**BLUR_EXPONENT
    return overhead_arcsec * growth
