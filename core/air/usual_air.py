"""The air of usual nights: the power that it bears, and its blur where nothing is known of tonight."""

from statistics import NormalDist
from typing import Final

import numpy as np
from attrs import field, frozen

from core.air.blur import BLUR_ARCSEC
from core.arrays import Floats
from core.checks import within

USUAL_AIR_POWER: Final = 300.0  # common practice, no source
LIFTED_AIR_POWER: Final = 400.0  # a rare steady night; common practice, no source

# Log-normal about this median, with this spread of the natural logarithm (ours, estimates).
USUAL_BLUR_ARCSEC: Final = 1.6
USUAL_SPREAD: Final = 0.4


@frozen(kw_only=True)
class BlurDistribution:
    """How the overhead blur spreads over many nights: log-normal with a median in arcsec.

    ``spread`` is the standard deviation of the natural logarithm.
    """

    median_arcsec: float = field(default=USUAL_BLUR_ARCSEC, validator=BLUR_ARCSEC)
    spread: float = field(default=USUAL_SPREAD, validator=within(0.0, 2.0))

    def equally_likely_arcsec(self, count: int) -> Floats:
        """Return equally likely blurs in arcsec, (count,), the middles of equal shares, finest first."""
        normal = NormalDist()
        places = [normal.inv_cdf((number + 0.5) / count) for number in range(count)]
        return np.asarray(self.median_arcsec * np.exp(self.spread * np.array(places)))


USUAL_BLURS: Final = BlurDistribution()
