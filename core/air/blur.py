"""How far the air blurs: straight overhead, at a height, and from where the figure comes."""

from enum import StrEnum
from typing import Final, Self, TypeVar

from attrs import field, frozen

from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook, Judged
from core.arrays import Floats
from core.checks import within

# What a blur overhead may be, full width at half maximum (common practice, no source).
BLUR_ARCSEC: Final = within(0.2, 8, "arcsec")
# Blur grows as this power of the air path (Kolmogorov turbulence; Roddier 1981, Progress in Optics 19, 281).
BLUR_EXPONENT: Final = 0.6

_FloatOrArray = TypeVar("_FloatOrArray", float, Floats)


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

    overhead_arcsec: float = field(validator=BLUR_ARCSEC)
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

    >>> round(blur_at(1.45, 2.0), 1)
    2.2
    """
    growth: _FloatOrArray = path**BLUR_EXPONENT
    return overhead_arcsec * growth


def carried_overhead_arcsec(seen_arcsec: float, path: float) -> float:
    """Return the overhead blur in arcsec of one judged through ``path`` times the air overhead.

    The reverse of ``blur_at``, kept from 0.2 to 8 arcsec.

    >>> round(carried_overhead_arcsec(2.2, 2.0), 2)
    1.45
    """
    return BLUR_ARCSEC.nearest(float(seen_arcsec * path**-BLUR_EXPONENT))


def judged_blur(seen_arcsec: float, judged: Judged, *, path: float | None) -> Blur:
    """Return the blur overhead of one judged through ``path`` times the air overhead, None for overhead."""
    overhead_arcsec = carried_overhead_arcsec(seen_arcsec, 1.0 if path is None else path)
    return Blur(overhead_arcsec=overhead_arcsec, judged=judged)
