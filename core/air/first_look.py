"""What the air is, from a first look, from a step of a scale, or with nothing said.

A look is judged at the height looked at and carried overhead. All figures are estimates, ours.
"""

from statistics import NormalDist
from typing import Final

import numpy as np
from attrs import field, frozen
from numpy.typing import NDArray

from core.air.steadiness import BLUR_EXPONENT, BLUR_RANGE_ARCSEC, Blur, Judged, Scale, ScaleStep
from core.checks import within

# With nothing said: log-normal about this median, with this spread of the natural logarithm.
USUAL_BLUR_ARCSEC: Final = 1.6
USUAL_SPREAD: Final = 0.4

# The ten-step scale is defined on a star in about 127 mm; 10 is the best.
_FIRST_OF_TEN_ARCSEC: Final = 6.0
_RATIO_OF_TEN: Final = 0.76
# The five-step scale, I (the best) to V.
FIVE_STEPS_ARCSEC: Final = {1: 0.7, 2: 1.0, 3: 1.6, 4: 2.5, 5: 4.0}
_COUNTS: Final = {Scale.FIVE_STEPS: 5, Scale.TEN_STEPS: 10}
# The best air first.
SCALE_STEPS: Final = (
    *(ScaleStep(Scale.FIVE_STEPS, number) for number in range(1, 6)),
    *(ScaleStep(Scale.TEN_STEPS, number) for number in range(10, 0, -1)),
)


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


def scale_arcsec(step: ScaleStep) -> float:
    """Return the blur in arcsec that a step of a scale means, where it is judged.

    Ours, estimates: of five steps from a table; of ten 6.0 x 0.76^(number - 1), for about 127 mm of aperture.
    """
    if step not in SCALE_STEPS:
        raise ValueError(f"must be a whole step from 1 to {_COUNTS[step.scale]}, not {step.number!r}")
    if step.scale is Scale.FIVE_STEPS:
        return FIVE_STEPS_ARCSEC[step.number]
    return float(_FIRST_OF_TEN_ARCSEC * _RATIO_OF_TEN ** (step.number - 1))


def judged_blur(seen_arcsec: float, judged: Judged, *, path: float | None) -> Blur:
    """Return the blur overhead of one judged through ``path`` times the air overhead, None for overhead."""
    overhead_arcsec = carried_overhead_arcsec(seen_arcsec, 1.0 if path is None else path)
    return Blur(overhead_arcsec=overhead_arcsec, judged=judged)
