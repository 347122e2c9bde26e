"""The vertical scale of a drawing of power ladders, in points."""

import math
from collections.abc import Sequence

from attrs import frozen

from core.ladder.ladder import Ladder, Rung
from core.words.limits import limit_words

ROW = 14.3  # height of a rung's words


@frozen
class PowerScale:
    """The vertical scale: equal ratios of power are equally far apart."""

    low: float
    high: float
    bottom: float
    top: float

    def y(self, power: float) -> float:
        """Return the height of a power on the page, points."""
        share = math.log(power / self.low) / math.log(self.high / self.low)
        return self.bottom + share * (self.top - self.bottom)


def power_range(ladders: Sequence[Ladder], wished: Sequence[Rung] = ()) -> tuple[float, float]:
    """Return the lowest and highest power that a drawing of these ladders must show, with some air.

    It reaches down to what is wished for; what lies above all the owned powers and limits is left out.
    """
    powers = [rung.power for ladder in ladders for rung in ladder.rungs]
    powers += [limit.power for ladder in ladders for limit in limit_words(ladder)]
    low, high = min([*powers, *(rung.power for rung in wished)]), max(powers)
    return low / 1.06, high * 1.06
