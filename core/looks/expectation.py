"""What is worth looking for on a planet tonight with one telescope: by size and detail, never by power alone.

Each feature is set against the finest detail that reaches the eye (aperture, air, built-in power), and
after that against the power that tonight allows: power can take a promise away, never make one.
"""

from enum import StrEnum
from typing import Final, NamedTuple

from attrs import frozen

from core.words.quantities import power_text


class Chance(StrEnum):
    """How likely a feature is to be seen."""

    LIKELY = "likely"
    POSSIBLE = "possible"
    UNLIKELY = "unlikely"


@frozen(kw_only=True)
class Expectation:
    """One thing to look for: what, how likely, and why; ``from_power`` is where it usually begins to show."""

    what: str
    chance: Chance
    why: str
    from_power: float | None = None


class Rule(NamedTuple):
    """How many finest details wide a feature must be to be likely or possible, and the power it asks for.

    All of them are ours, after common practice: a dark line or a bright cap shows even when it is smaller
    than the finest detail, a pale band only when it is larger.
    """

    likely_from: float
    possible_from: float
    from_power: float


MAIN_BELTS: Final = Rule(1.2, 0.6, 50.0)
THIN_BELTS: Final = Rule(1.2, 0.8, 100.0)
RED_SPOT: Final = Rule(3.0, 1.6, 100.0)
SHADOW: Final = Rule(0.8, 0.5, 100.0)
RING: Final = Rule(0.9, 0.4, 25.0)
GAP: Final = Rule(0.7, 0.35, 100.0)
GLOBE_BELT: Final = Rule(1.6, 0.8, 100.0)
DARK_MARKINGS: Final = Rule(1.3, 0.7, 100.0)
POLAR_CAP: Final = Rule(0.5, 0.25, 100.0)
PHASE: Final = Rule(1.0, 0.5, 50.0)
SMALL_DISC: Final = Rule(1.5, 1.0, 100.0)


def judge(rule: Rule, what: str, size_arcsec: float, size_words: str, detail_arcsec: float) -> Expectation:
    """Return what a feature of a size promises; ``size_words`` lead up to the size in the reason."""
    ratio = size_arcsec / detail_arcsec
    if ratio >= rule.likely_from:
        chance = Chance.LIKELY
    else:
        chance = Chance.POSSIBLE if ratio >= rule.possible_from else Chance.UNLIKELY
    size, detail = arcsec_text(size_arcsec), arcsec_text(detail_arcsec)
    why = f"{size_words} {size}; the finest detail tonight is {detail}"
    return Expectation(what=what, chance=chance, why=why, from_power=rule.from_power)


def capped(item: Expectation, highest_power: float | None) -> Expectation:
    """Return an expectation as power allows: what needs more than there is, is not promised."""
    if item.from_power is None or item.chance is Chance.UNLIKELY:
        return item
    if highest_power is not None and highest_power >= item.from_power:
        return item
    stop = "no power is right tonight"
    if highest_power is not None:
        stop = f"tonight stops at {power_text(highest_power)}"
    why = f"usually from about {power_text(item.from_power)}, and {stop}"
    return Expectation(what=item.what, chance=Chance.UNLIKELY, why=why, from_power=item.from_power)


def arcsec_text(value: float) -> str:
    """Return a small angle, to a hundredth of an arcsecond below two and to a tenth above."""
    return f"{value:.2f}″" if value < 2.0 else f"{value:.1f}″"
