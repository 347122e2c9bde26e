"""What is said of a row in the table of powers: what is nearly the same, and its figures in a sentence."""

from collections.abc import Iterable
from typing import Final

from core.gear.combinations import Combination
from core.ladder.ladder import Rung
from core.words.quantities import power_text, rounded_text

_SAME_AS: Final = "Nearly the same as {eyepiece}."
_SAME: Final = "Nearly the same: {others}."
_OTHER: Final = "{eyepiece} ({power})"
# By whether the Moons across the field and the drift through it are known.
_DETAILS: Final = {
    (False, False): "{power} with {eyepiece}: shows detail from {detail}″ up.",
    (False, True): "{power} with {eyepiece}: shows detail from {detail}″ up, drift {drift}.",
    (True, False): "{power} with {eyepiece}: {moons} Moon widths, shows detail from {detail}″ up.",
    (True, True): (
        "{power} with {eyepiece}: {moons} Moon widths, shows detail from {detail}″ up, drift {drift}."
    ),
}


def same_as_words(rung: Rung) -> str:
    """Return which eyepiece gives nearly the same as an alternative."""
    return _SAME_AS.format(eyepiece=rung.label)


def same_words(combinations: Iterable[Combination]) -> str:
    """Return what else gives nearly the same, each with its power."""
    others = (_OTHER.format(eyepiece=each.label, power=power_text(each.power)) for each in combinations)
    return _SAME.format(others=", ".join(others))


def details_words(rung: Rung, *, detail_arcsec: float, moons: float | None, drift: str | None) -> str:
    """Return the figures of a power in a sentence; ``drift`` in words, None where it is not told."""
    return _DETAILS[moons is not None, drift is not None].format(
        power=power_text(rung.power),
        eyepiece=rung.label,
        moons="" if moons is None else rounded_text(moons, 1),
        detail=rounded_text(detail_arcsec, 1),
        drift=drift,
    )
