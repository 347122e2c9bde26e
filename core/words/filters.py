"""Filters in words: what they are for, which to try first, and why not."""

from collections.abc import Iterator, Sequence
from typing import Final

from core.gear.owned import Filter
from core.looks.filter_offers import YELLOW, FilterAim, FilterOffer, FilterOffers, Offer
from core.looks.filters import FilterFacts
from core.looks.owned_filters import facts_of, is_dark
from core.words.cautions import filter_caution
from core.words.names import capitalised, listed
from core.words.quantities import length_text, percent_text, power_text

SMALL_GAIN: Final = "Expect a small gain in contrast and no new features (common practice)."
_AIMS: Final = {
    FilterAim.BELTS: "the belts",
    FilterAim.RED_SPOT: "the red spot",
    FilterAim.FESTOONS: "bluish streaks beside the belts (festoons)",
    FilterAim.RING: "the ring",
    FilterAim.DARK_MARKINGS: "the dark markings",
    FilterAim.POLAR_CAP: "the polar cap",
    FilterAim.CLOUDS: "clouds",
    FilterAim.DUST: "dust clouds",
    FilterAim.TERMINATOR: "the line of day and night",
    FilterAim.CONTRAST: "contrast",
    FilterAim.GLARE: "less glare",
    FilterAim.SMEARED_COLOURS: "less colour smeared by the air",
}
FILTER_IN: Final = "Filter in"
NO_FILTER: Final = "none"
FILTER_NUMBER: Final = "No. {number}"
FILTER_NUMBER_AND_COLOUR: Final = "No. {number}, {colour}"
NEUTRAL_FILTER: Final = "Neutral {share}"
UNKNOWN_FILTER: Final = "This number is not in the table, so its light is unknown."
CLEAR_GLASS: Final = "“{typed}” would be clear glass or more: did you mean {percent}?"
_USE: Final = "{body}: {what}."
_PASSES: Final = "{colour}, passes {share} of the light."
_HEADING: Final = "Filters on {planet} at {power}"
_ONE: Final = "For {aim}: {first}."
_TWO: Final = "For {aim}: {first}, else {second}."
_LARGER: Final = "Usually kept for a larger aperture, by a rule of thumb: {filters}."
_FROM: Final = "{filter} (from {aperture})"
_TOO_DARK: Final = "Too dark at this power: {filters}."
_UP_TO: Final = "{filter} (light enough up to about {power})"
_AT_NO_POWER: Final = "{filter} (at any power)"
_NOTHING: Final = "None of your filters would help here."
_KEPT_FOR_LARGER: Final = (
    "{filter} passes {share} of the light and is usually kept for apertures from {aperture} up, "
    "a rule of thumb."
)
_YELLOW_CUTS: Final = "A yellow filter ({0}, {1} or {2}) cuts that by about {share}."
# Powers as limits of light are told in steps of ten, cut down.
_STEP: Final = 10.0


def filters_heading(offers: FilterOffers) -> str:
    """Return what is told of and at which power: ``Filters on Mars at 150x``."""
    return _HEADING.format(planet=offers.planet.label, power=power_text(offers.power))


def filter_choices(owned: Sequence[Filter]) -> tuple[tuple[str, str], ...]:
    """Return what may be in, each by its id and its name; no filter comes first, with an empty id."""
    return (("", NO_FILTER), *((each.id, each.name) for each in owned))


def filter_sentences(offers: FilterOffers) -> tuple[str, ...]:
    """Return what to try for what, why not the others, and what to expect; nothing without a filter."""
    if not offers.owned:
        return ()
    if not offers.by_aim:
        return (_NOTHING,)
    wanted = tuple(_wanted(offers))
    gain = (SMALL_GAIN,) if wanted else ()
    caution = filter_caution(is_dark=any(map(is_dark, offers.owned)))
    return (*wanted, *_refused(offers), *gain, caution)


def filter_facts(facts: FilterFacts) -> tuple[str, ...]:
    """Return what is known of a filter: its colour and its light, then each of its uses."""
    passes = _PASSES.format(colour=capitalised(facts.colour), share=percent_text(facts.transmittance))
    return (passes, *(_USE.format(body=use.body.label, what=use.what) for use in facts.uses))


def kept_for_larger_text(owned: Filter, aperture_mm: float) -> str | None:
    """Return a sentence when a filter is usually kept for larger apertures (common practice)."""
    facts = facts_of(owned)
    if facts is None or aperture_mm >= facts.smallest_aperture_mm:
        return None
    return _KEPT_FOR_LARGER.format(
        filter=owned.name,
        share=percent_text(facts.transmittance),
        aperture=length_text(facts.smallest_aperture_mm),
    )


def yellow_filter_text(cut_share: float) -> str:
    """Return how much of the smeared colours a yellow filter takes away."""
    return _YELLOW_CUTS.format(*YELLOW, share=percent_text(cut_share))


def _wanted(offers: FilterOffers) -> Iterator[str]:
    for group in offers.by_aim:
        names = [each.filter.name for each in group.offers if each.offer is Offer.OFFERED]
        if names:
            first, *others = names
            template = _TWO if others else _ONE
            yield template.format(aim=_AIMS[group.aim], first=first, second=others[0] if others else "")


def _refused(offers: FilterOffers) -> Iterator[str]:
    """Yield why the others are not offered, each filter once."""
    refused = {each.filter: each for group in offers.by_aim for each in group.offers}.values()
    for offer, template in ((Offer.USUALLY_LARGER_APERTURE, _LARGER), (Offer.TOO_DARK, _TOO_DARK)):
        filters = [_why_not(each) for each in refused if each.offer is offer]
        if filters:
            yield template.format(filters=listed(filters))


def _why_not(each: FilterOffer) -> str:
    if each.offer is Offer.USUALLY_LARGER_APERTURE:
        return _FROM.format(filter=each.filter.name, aperture=length_text(each.smallest_aperture_mm))
    enough = 0.0 if each.enough_up_to is None else each.enough_up_to // _STEP * _STEP
    return (_UP_TO if enough else _AT_NO_POWER).format(filter=each.filter.name, power=power_text(enough))
