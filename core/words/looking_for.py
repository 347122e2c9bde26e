"""What to expect, in words: the feature, how likely, and what that rests on."""

from typing import Final

from core.gear.optics import visible_detail_arcsec
from core.looks.feature_rules import Feature, HeldBack, Likelihood
from core.looks.features import TITAN_MM, FeatureChance, Seen
from core.sky.bodies import Body
from core.words.names import capitalised, uncapitalised
from core.words.quantities import (
    about_power_text,
    length_text,
    percent_text,
    power_text,
    rounded_text,
    two_figures,
)
from core.words.sizes import arcsec_text, disc_size_text

# Powers below this are had in every telescope, and are not told as something to reach for.
_ANY_POWER: Final = 10.0
# A size below this is as good as none.
_NOTHING_ARCSEC: Final = 0.05
_TENTHS_BELOW_DEG: Final = 10.0

_LIKELIHOODS: Final = {
    Likelihood.LIKELY: "Likely",
    Likelihood.POSSIBLE: "Possible",
    Likelihood.UNLIKELY: "Unlikely",
}
_FEATURES: Final = {
    Feature.MOONS: "The bright moons",
    Feature.MAIN_BELTS: "The two main belts",
    Feature.THIN_BELTS: "Thinner belts",
    Feature.RED_SPOT: "The red spot, while it faces us",
    Feature.MOON_SHADOW: "{moon}'s shadow on the disc",
    Feature.RING: "The ring, as a shape around the globe",
    Feature.RING_LINE: "The ring as a thin line, nearly closed",
    Feature.RING_SPACE: "The dark space between ring and globe",
    Feature.RING_GAP: "The gap in the ring",
    Feature.FINE_GAP: "The narrow gap near the ring's outer edge",
    Feature.RING_SHADOW: "The ring's shadow on the globe",
    Feature.GLOBE_SHADOW: "The globe's shadow on the ring",
    Feature.GLOBE_BELT: "A belt on the globe",
    Feature.TITAN: "Titan, the largest moon",
    Feature.DARK_MARKINGS: "Large dark markings",
    Feature.NORTH_CAP: "The northern polar cap",
    Feature.SOUTH_CAP: "The southern polar cap",
    Feature.PHASE: "The phase, like a small Moon's",
    Feature.FAINT_MARKINGS: "Markings",
    Feature.SMALL_DISC: "A small disc, not a point like a star",
    Feature.RELIEF: "Craters and mountains with their shadows",
    Feature.RAYS: "Bright rays around young craters",
}
_BEGIN_WITH_A_NAME: Final = frozenset({Feature.MOON_SHADOW, Feature.TITAN})
_CRESCENT: Final = "The crescent"
_SHADOWED_SIDE: Final = "A shadowed side, like a Moon before full"
_CLOUDS: Final = "Markings in the clouds"
_GROUND: Final = "Markings on the ground"

_OF_EACH: Final = "each is about {size} wide"
_OF_CAP: Final = "bright; in a usual year it now reaches in by {size}"
_WELL_SHADED: Final = "{lit} is lit, and the disc is {diameter} across"
_SIZES: Final = {
    Feature.MAIN_BELTS: _OF_EACH,
    Feature.THIN_BELTS: _OF_EACH,
    Feature.RED_SPOT: "pale, about {size} across",
    Feature.MOON_SHADOW: "a black dot of {size}, while it crosses",
    Feature.RING: "{opening} open, {size} from tip to tip",
    Feature.RING_LINE: "only {opening} open, {width} from its near to its far edge",
    Feature.RING_SPACE: "{size} on either side of the globe",
    Feature.RING_GAP: "a dark line, at most {size}",
    Feature.FINE_GAP: "a dark line, at most {size}",
    Feature.RING_SHADOW: "a dark line, {size} of it to be seen",
    Feature.GLOBE_SHADOW: "a black edge of {size} beside the globe",
    Feature.GLOBE_BELT: "pale, about {size} wide",
    Feature.TITAN: "like a star of magnitude 8.4, at most four and a half widths of the ring from the globe",
    Feature.DARK_MARKINGS: "a fifth of the disc is {size}",
    Feature.NORTH_CAP: _OF_CAP,
    Feature.SOUTH_CAP: _OF_CAP,
    Feature.PHASE: "{lit} is lit, the dark part is {size} wide",
    Feature.SMALL_DISC: "it is {size} across",
    Feature.RELIEF: "along the line of day and night, craters from about {smallest_km} km up",
    Feature.RAYS: "{lit} is lit, and the Sun stands high over most of it",
}
_NOTHING: Final = {
    Feature.GLOBE_SHADOW: "it falls behind the globe, where no one sees it",
    Feature.RING_SHADOW: "it lies behind the ring, where no one sees it",
    Feature.PHASE: "the whole disc is lit",
    Feature.NORTH_CAP: "only its rim is turned towards us",
    Feature.SOUTH_CAP: "only its rim is turned towards us",
}
_DUSTY: Final = "a fifth of the disc is {size}, but in this season dust storms may veil them"
_DUSTY_CAP: Final = "in a usual year it now reaches in by {size}, but in this season dust storms may veil it"
_ONLY_OPEN: Final = "the ring is only {opening} open"
_HELD_BACK: Final = {
    HeldBack.POWER: "usually from about {from_power}, more than the {power} to be had tonight",
    HeldBack.APERTURE: "like a star of magnitude 8.4: it takes about {titan_aperture} of aperture",
    HeldBack.OPENING: _ONLY_OPEN,
    HeldBack.UNLIT_SIDE: "the ring's unlit side faces us",
    HeldBack.TURNED_AWAY: "it is turned away from us",
}
_DUST: Final = {
    Feature.DARK_MARKINGS: _DUSTY,
    Feature.NORTH_CAP: _DUSTY_CAP,
    Feature.SOUTH_CAP: _DUSTY_CAP,
}
_MOON_PHASES: Final = {
    Feature.RELIEF: "near full Moon hardly anything casts a shadow",
    Feature.RAYS: "{lit} is lit; rays are bright only where the Sun stands high",
}
_HARDLY_EVER_SEEN: Final = "hardly ever seen by eye, whatever the telescope"
_OUT_OF_REACH: Final = "out of reach of the usual telescopes"
_MOONS_BESIDE: Final = (
    "none of the four stands beside it at this time",
    "one of four stands beside it at this time",
    "two of four stand beside it at this time",
    "three of four stand beside it at this time",
    "all four stand beside it at this time",
)
_JUDGED: Final = (
    "Judged at {power}, which shows the eye detail from {shown} up; aperture and air (seeing) let {detail} "
    "through."
)
_REASON: Final = "{reason}."
_REASON_FROM_POWER: Final = "{reason}. From about {power}."
_SENTENCE: Final = "{chance}: {feature}. {reason}"
_SHORT: Final = "{feature}: {reason}."


def likelihood_text(likelihood: Likelihood) -> str:
    """Return how likely something is: ``Likely``."""
    return _LIKELIHOODS[likelihood]


def judged_text(seen: Seen) -> str:
    """Return what a whole list is judged by, as a sentence."""
    return _JUDGED.format(
        power=power_text(seen.power),
        shown=arcsec_text(visible_detail_arcsec(seen.aperture_mm, seen.power)),
        detail=arcsec_text(seen.finest_arcsec),
    )


def feature_text(item: FeatureChance) -> str:
    """Return what there is to look for, as a heading: ``The gap in the ring``."""
    if item.feature is Feature.PHASE and item.face.body is Body.MARS:
        return _SHADOWED_SIDE
    if item.feature is Feature.PHASE and item.face.is_crescent:
        return _CRESCENT
    if item.feature is Feature.FAINT_MARKINGS and item.face.body is Body.VENUS:
        return _CLOUDS
    if item.feature is Feature.FAINT_MARKINGS and item.face.body is Body.MERCURY:
        return _GROUND
    return _FEATURES[item.feature].format(moon="" if item.moon is None else item.moon.label)


def listed_feature_text(item: FeatureChance) -> str:
    """Return the same inside a list: ``the gap in the ring``, ``Titan, the largest moon``."""
    words = feature_text(item)
    return words if item.feature in _BEGIN_WITH_A_NAME else uncapitalised(words)


def ground_text(item: FeatureChance) -> str:
    """Return what a likelihood rests on, as words without a full stop."""
    ring = item.face.ring
    return _template(item).format(
        size="" if item.size_arcsec is None else arcsec_text(item.size_arcsec),
        opening="" if ring is None else _opening_text(abs(ring.opening_deg)),
        width="" if ring is None else arcsec_text(ring.minor_axis_arcsec),
        lit=percent_text(item.face.illuminated_fraction),
        smallest_km="" if item.smallest_km is None else two_figures(item.smallest_km),
        from_power="" if item.looks_full_from is None else about_power_text(item.looks_full_from),
        power=power_text(item.seen.power),
        titan_aperture=length_text(TITAN_MM[1]),
        diameter=disc_size_text(item.face.diameter_arcsec),
    )


def reason_text(item: FeatureChance) -> str:
    """Return what a likelihood rests on and, where it may be seen, from which power, as sentences."""
    reason = capitalised(ground_text(item))
    power = item.looks_full_from
    if power is None or power < _ANY_POWER or item.likelihood is Likelihood.UNLIKELY or _lacks_power(item):
        return _REASON.format(reason=reason)
    return _REASON_FROM_POWER.format(reason=reason, power=about_power_text(power))


def short_text(item: FeatureChance) -> str:
    """Return a feature and what stands in its way as one short sentence, for what is unlikely."""
    return _SHORT.format(feature=feature_text(item), reason=ground_text(item))


def expectation_text(item: FeatureChance) -> str:
    """Return all of it as sentences: ``Likely: The bright moons. All four stand beside it ...``."""
    return _SENTENCE.format(
        chance=likelihood_text(item.likelihood), feature=feature_text(item), reason=reason_text(item)
    )


def _template(item: FeatureChance) -> str:
    feature, held_back_by = item.feature, item.held_back_by
    if held_back_by is HeldBack.NEVER:
        is_inner = item.face.body in (Body.VENUS, Body.MERCURY)
        return _HARDLY_EVER_SEEN if is_inner else _OUT_OF_REACH
    if item.size_arcsec is not None and item.size_arcsec < _NOTHING_ARCSEC and feature in _NOTHING:
        return _NOTHING[feature]
    if held_back_by is not None and item.likelihood is not Likelihood.LIKELY:
        found = {**_HELD_BACK, HeldBack.DUST: _DUST.get(feature), HeldBack.PHASE: _MOON_PHASES.get(feature)}
        template = found.get(held_back_by)
        if template is not None:
            return template
    if feature is Feature.MOONS:
        return _MOONS_BESIDE[item.face.moons_beside]
    if feature is Feature.PHASE and item.face.body is not Body.MARS and item.face.illuminated_fraction < 0.6:
        return _WELL_SHADED
    return _SIZES[feature]


def _lacks_power(item: FeatureChance) -> bool:
    return item.held_back_by is HeldBack.POWER and item.likelihood is not Likelihood.LIKELY


def _opening_text(opening_deg: float) -> str:
    return f"{rounded_text(opening_deg, 1 if opening_deg < _TENTHS_BELOW_DEG else 0)}°"
