"""What is worth looking for, in words: the thing, how likely, and what that rests on."""

from collections.abc import Callable
from typing import Final

from core.looks.expectation import Chance, Expectation, Feature, Ground
from core.sky.moons import Moon
from core.words.names import capitalised
from core.words.quantities import percent_text, power_text, rounded_text, two_figures
from core.words.sizes import arcsec_text

_CHANCES: Final = {
    Chance.LIKELY: "Likely",
    Chance.POSSIBLE: "Possible",
    Chance.UNLIKELY: "Unlikely",
}
_FEATURES: Final = {
    Feature.NO_DETAIL: "No detail to count on",
    Feature.BRIGHT_MOONS: "The bright moons",
    Feature.MAIN_BELTS: "The two main belts",
    Feature.THIN_BELTS: "Thinner belts",
    Feature.RED_SPOT: "The red spot, while it faces us",
    Feature.MOON_SHADOW: "{moon}'s shadow on the disc",
    Feature.RING: "The ring, apart from the globe",
    Feature.LONG_SHAPE: "A longish shape: the ring is nearly closed",
    Feature.RING_LINE: "The ring as a thin line",
    Feature.RING_GAP: "The gap in the ring",
    Feature.GLOBE_BELT: "A belt on the globe",
    Feature.DARK_MARKINGS: "Large dark markings",
    Feature.NORTH_CAP: "The northern polar cap",
    Feature.SOUTH_CAP: "The southern polar cap",
    Feature.SHADOWED_SIDE: "A shadowed side, like a Moon before full",
    Feature.CRESCENT: "The crescent",
    Feature.PHASE: "The phase, like a small Moon's",
    Feature.CLOUDS: "Markings in the clouds",
    Feature.GROUND: "Markings on the ground",
    Feature.SMALL_DISC: "A small disc, not a point like a star",
    Feature.MARKINGS: "Markings",
    Feature.RAYS: "Bright rays and dark plains",
    Feature.CRATERS: "Craters and mountains with their shadows",
}
_OF_EACH: Final = "each is about {size}; the finest detail tonight is {detail}"
_OF_PALE: Final = "pale, about {size}; the finest detail tonight is {detail}"
_OF_CAP: Final = "bright; in a usual year it now reaches in by {size}; the finest detail tonight is {detail}"
_OF_DARK_PART: Final = "{lit} is lit, the dark part is {size}; the finest detail tonight is {detail}"
_OF_GAP: Final = "a dark line, at most {size}; the finest detail tonight is {detail}"
_SIZES: Final = {
    Feature.MAIN_BELTS: _OF_EACH,
    Feature.THIN_BELTS: _OF_EACH,
    Feature.RED_SPOT: _OF_PALE,
    Feature.MOON_SHADOW: "a black dot of {size}; the finest detail tonight is {detail}",
    Feature.RING: (
        "{whole_opening} open, with a dark space beside the globe of {size}; "
        "the finest detail tonight is {detail}"
    ),
    Feature.RING_GAP: _OF_GAP,
    Feature.GLOBE_BELT: _OF_PALE,
    Feature.DARK_MARKINGS: "a fifth of the disc is {size}; the finest detail tonight is {detail}",
    Feature.NORTH_CAP: _OF_CAP,
    Feature.SOUTH_CAP: _OF_CAP,
    Feature.SHADOWED_SIDE: _OF_DARK_PART,
    Feature.CRESCENT: _OF_DARK_PART,
    Feature.PHASE: _OF_DARK_PART,
    Feature.SMALL_DISC: "it is {size}; the finest detail tonight is {detail}",
}
_GROUNDS: Final = {
    Ground.TOO_LOW: "it stands so low that nothing can be said of the air there",
    Ground.HALF_DISC: "{lit} is lit, half the disc is {size}; the finest detail tonight is {detail}",
    Ground.SIZE_IN_NARROW_RING: (
        "a dark line, at most {size}; the finest detail tonight is {detail}, "
        "but the ring is only {whole_opening} open"
    ),
    Ground.BESIDE_THE_PLANET: "{count} of four stand beside it at this time",
    Ground.NEARLY_CLOSED: "only {opening} open, {size} from its near to its far edge",
    Ground.NEARLY_CLOSED_UNLIT: (
        "only {opening} open, {size} from its near to its far edge, and its unlit side faces us"
    ),
    Ground.RING_TOO_NARROW: "the ring is only {opening} open",
    Ground.RING_UNLIT: "the ring's unlit side faces us",
    Ground.TURNED_AWAY: "it is turned away from us",
    Ground.HARDLY_EVER_SEEN: "hardly ever seen by eye, whatever the telescope",
    Ground.OUT_OF_REACH: "out of reach of the usual telescopes",
    Ground.NO_SHADOWS: "near full Moon hardly anything casts a shadow",
    Ground.LONG_SHADOWS: "along the line of day and night, from about {smallest_km} km up",
    Ground.TONIGHT_STOPS: "usually from about {from_power}, and tonight stops at {highest_power}",
    Ground.NO_POWER: "usually from about {from_power}, and no power is right tonight",
}
_ALL_FOUR_BESIDE: Final = "all four stand beside it at this time"
_ALL_MOONS: Final = len(Moon)
_REASON: Final = "{reason}."
_REASON_FROM_POWER: Final = "{reason}. From about {power}."
_SENTENCE: Final = "{chance}: {feature}. {reason}"


def chance_text(chance: Chance) -> str:
    """Return how likely something is: ``Likely``."""
    return _CHANCES[chance]


def feature_text(item: Expectation) -> str:
    """Return what there is to look for, as a heading: ``The gap in the ring``."""
    return _FEATURES[item.feature].format(moon="" if item.moon is None else item.moon.label)


def ground_text(item: Expectation) -> str:
    """Return what a chance rests on, as words without a full stop."""
    figures = {
        "size": _or_empty(item.size_arcsec, arcsec_text),
        "detail": _or_empty(item.detail_arcsec, arcsec_text),
        "opening": _or_empty(item.opening_deg, lambda value: f"{rounded_text(value, 1)}°"),
        "whole_opening": _or_empty(item.opening_deg, lambda value: f"{rounded_text(value)}°"),
        "lit": _or_empty(item.lit_share, percent_text),
        "smallest_km": _or_empty(item.smallest_km, two_figures),
        "from_power": _or_empty(item.from_power, power_text),
        "highest_power": _or_empty(item.highest_power, power_text),
        "count": "" if item.count is None else str(item.count),
    }
    return _template(item).format(**figures)


def reason_text(item: Expectation) -> str:
    """Return what a chance rests on and from which power it shows, as sentences."""
    reason = capitalised(ground_text(item))
    if item.from_power is None:
        return _REASON.format(reason=reason)
    return _REASON_FROM_POWER.format(reason=reason, power=power_text(item.from_power))


def expectation_text(item: Expectation) -> str:
    """Return all of it as sentences: ``Likely: The bright moons. All four stand beside it ...``."""
    return _SENTENCE.format(
        chance=chance_text(item.chance), feature=feature_text(item), reason=reason_text(item)
    )


def _template(item: Expectation) -> str:
    if item.ground is Ground.SIZE:
        return _SIZES[item.feature]
    if item.ground is Ground.BESIDE_THE_PLANET and item.count == _ALL_MOONS:
        return _ALL_FOUR_BESIDE
    return _GROUNDS[item.ground]


def _or_empty(value: float | None, told: Callable[[float], str]) -> str:
    """Return a figure in words; one that an expectation has not stands in none of its templates."""
    return "" if value is None else told(value)
