"""What the air is, from a first look, from a step of a scale, or with nothing said.

A look is judged at the height looked at and carried overhead. All figures are estimates, ours.
"""

from statistics import NormalDist
from typing import Final

import numpy as np
from attrs import field, frozen
from numpy.typing import NDArray

from core.air.steadiness import BLUR_EXPONENT
from core.checks import within

# With nothing said: log-normal about this median, with this spread of the natural logarithm.
USUAL_BLUR_ARCSEC: Final = 1.6
USUAL_SPREAD: Final = 0.4
# What a blur may be; what is carried overhead is kept inside.
BLUR_RANGE_ARCSEC: Final = (0.2, 8.0)

# The ten-step scale is defined on a star in about 127 mm; 10 is the best.
_FIRST_OF_TEN_ARCSEC: Final = 6.0
_RATIO_OF_TEN: Final = 0.76
TEN_STEPS: Final = range(1, 11)
# The five-step scale, I (the best) to V.
FIVE_STEPS_ARCSEC: Final = {1: 0.7, 2: 1.0, 3: 1.6, 4: 2.5, 5: 4.0}


@frozen(kw_only=True)
class BlurBelief:
    """What is believed of the overhead blur: log-normal with a median in arcsec.

    ``spread`` is the standard deviation of the natural logarithm.
    """

    median_arcsec: float = field(default=USUAL_BLUR_ARCSEC, validator=within(*BLUR_RANGE_ARCSEC, "arcsec"))
    spread: float = field(default=USUAL_SPREAD, validator=within(0.0, 2.0))

    def equally_likely_arcsec(self, count: int) -> NDArray[np.float64]:
        """Return equally likely blurs in arcsec, (count,), the middles of equal shares, finest first."""
        normal = NormalDist()
        places = [normal.inv_cdf((number + 0.5) / count) for number in range(count)]
        return np.asarray(self.median_arcsec * np.exp(self.spread * np.array(places)))


USUAL_BELIEF: Final = BlurBelief()


def carried_overhead_arcsec(seen_arcsec: float, path: float) -> float:
    """Return the overhead blur in arcsec of one judged through ``path`` times the air overhead.

    The reverse of ``steadiness.blur_at`` (Kolmogorov turbulence; Roddier 1981), kept from 0.2 to 8 arcsec.
    """
    low, high = BLUR_RANGE_ARCSEC
    return min(max(float(seen_arcsec * path**-BLUR_EXPONENT), low), high)


def ten_step_arcsec(step: int) -> float:
    """Return the blur in arcsec of a step of the ten-step scale, 1 (worst) to 10, where it is judged.

    6.0 x 0.76^(step - 1): ours, an estimate for about 127 mm of aperture.
    """
    if step not in TEN_STEPS:
        raise ValueError(f"must be a whole step from 1 to 10, not {step!r}")
    return float(_FIRST_OF_TEN_ARCSEC * _RATIO_OF_TEN ** (step - 1))


def five_step_arcsec(step: int) -> float:
    """Return the blur in arcsec of a step of the five-step scale, 1 (best) to 5 (ours)."""
    if step not in FIVE_STEPS_ARCSEC:
        raise ValueError(f"must be a whole step from 1 to 5, not {step!r}")
    return FIVE_STEPS_ARCSEC[step]
