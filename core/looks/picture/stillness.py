"""In which moments the picture is taken: as it mostly looks, or in a calm moment.

The eye follows part of the image motion and waits for what is better than the average; the shares of the
blur are those of the ladder's band, so that the picture and the band tell the same.
"""

from enum import StrEnum
from typing import Final

from core.air.finest_detail import CALM_MOMENT, MOSTLY, TYPICAL_MOMENT

# The part of the image motion, as variance, that the eye follows (ours). With it a wider aperture is never
# softer at any size of detail.
MOTION_FOLLOWED: Final = 0.5


class Stillness(StrEnum):
    """What a person chooses to be shown."""

    MOSTLY = "mostly"
    CALM = "calm"


_SHARE: Final = {Stillness.MOSTLY: MOSTLY, Stillness.CALM: CALM_MOMENT}


def stilled_arcsec(blur_arcsec: float, stillness: Stillness) -> float:
    """Return the blur in arcsec that is left in such moments of air of a long-exposure blur.

    A typical moment has all of it, less the motion that is followed; better ones less, in proportion to
    their shares in the band.
    """
    return blur_arcsec * _SHARE[stillness] / TYPICAL_MOMENT
