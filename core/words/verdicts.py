"""What is asked after a step on the ladder, and what is said when it was answered."""

from typing import Final

from core.record.log_entry import Verdict
from core.situation.situation import Situation
from core.words.mount import settling_words
from core.words.quantities import power_text

# Bare keys, the first letters of their words.
VERDICT_KEYS: Final = {
    Verdict.MORE: "M",
    Verdict.NO_CHANGE: "N",
    Verdict.LESS: "L",
    Verdict.CANNOT_TELL: "C",
}
_ASKED: Final = (
    "{power} after {before}: refocus, re-centre, {settle}, watch a minute or two. What did the step do to "
    "the detail?"
)
_NOT_YET: Final = "After a step, press what it did to the detail."
_OUT_OF_SIGHT: Final = "What a step does to {planet} can be judged once it is in sight."
_WRITTEN: Final = {
    Verdict.MORE: "More detail at {power} than at {before}, written down.",
    Verdict.NO_CHANGE: "No more detail at {power} than at {before}, written down.",
    Verdict.LESS: "Less detail at {power} than at {before}, written down.",
    Verdict.CANNOT_TELL: "{power} could not be told from {before}: written down, and nothing taken from it.",
}


def asked_words(situation: Situation) -> str:
    """Return the question after a step, what was answered, or that a step comes first; nothing of no rung.

    In the last minutes before sunrise nothing is asked.
    """
    rung, before, scope = situation.rung, situation.power_before, situation.scope
    if rung is None or situation.last_call is not None:
        return ""
    planet = situation.aim.planet
    if situation.is_out_of_sight and planet is not None:
        return _OUT_OF_SIGHT.format(planet=planet.label)
    if not situation.can_be_judged or before is None or scope is None:
        return _NOT_YET
    return written_words(situation) or _ASKED.format(
        power=power_text(rung.power), before=power_text(before), settle=settling_words(scope)
    )


def written_words(situation: Situation) -> str:
    """Return what was written down of the step to the rung in hand, nothing while it is not judged."""
    entry = situation.verdict_on_step
    if entry is None or entry.verdict is None or entry.power is None or entry.from_power is None:
        return ""
    return _WRITTEN[entry.verdict].format(power=power_text(entry.power), before=power_text(entry.from_power))
