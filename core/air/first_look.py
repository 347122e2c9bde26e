"""What somebody says of the air after a look: a word, or a step of a scale, and the blur that each means.

A look is judged at the height looked at; ``blur`` carries it overhead. All figures are estimates, ours.
"""

from enum import StrEnum
from typing import Final

from attrs import frozen


class FirstLook(StrEnum):
    """What a first glance at the planet or a bright star says about the air."""

    STEADY = "steady"
    FAIR = "fair"
    BOILING = "boiling"


# Usual overhead blur of each first look, full width at half maximum in arcsec.
FIRST_LOOK_BLUR_ARCSEC: Final = {FirstLook.STEADY: 0.8, FirstLook.FAIR: 1.45, FirstLook.BOILING: 3.0}


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


def scale_arcsec(step: ScaleStep) -> float:
    """Return the blur in arcsec that a step of a scale means, where it is judged.

    Of five steps from a table; of ten 6.0 x 0.76^(number - 1), for about 127 mm of aperture.

    >>> scale_arcsec(ScaleStep(Scale.FIVE_STEPS, 3))
    1.6
    """
    if step not in SCALE_STEPS:
        raise ValueError(f"must be a whole step from 1 to {_COUNTS[step.scale]}, not {step.number!r}")
    if step.scale is Scale.FIVE_STEPS:
        return FIVE_STEPS_ARCSEC[step.number]
    return float(_FIRST_OF_TEN_ARCSEC * _RATIO_OF_TEN ** (step.number - 1))
