"""What is asked after a step on the ladder."""

from typing import Final

from core.situation.situation import Situation
from core.words.quantities import power_text

_ASKED: Final = "{power} after {before}: what did the step do to the detail?"
_NOT_YET: Final = "Step to another power; then say here what it did to the detail."


def asked_words(situation: Situation) -> str:
    """Return the question after a step, or that a step has to come first."""
    rung, before = situation.rung, situation.power_before
    if not situation.can_be_judged or rung is None or before is None:
        return _NOT_YET
    return _ASKED.format(power=power_text(rung.power), before=power_text(before))
