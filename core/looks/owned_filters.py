"""What is known of a filter that somebody owns, however it is written down."""

from typing import Final

from core.gear.owned import Filter
from core.looks.filter_names import NEUTRAL, wratten_number
from core.looks.filters import FilterFacts, wratten_table

# A filter that passes less light than this could be taken for one that keeps the Sun out (ours).
DARK_TRANSMITTANCE: Final = 0.2
# One that passes more, and neither number nor name tells its colour, takes away no glare (ours).
NEUTRAL_BELOW: Final = 0.5


def facts_of(owned: Filter) -> FilterFacts | None:
    """Return what is known of an owned filter by its Wratten number, however it is written."""
    number = None if owned.wratten is None else wratten_number(owned.wratten)
    return None if number is None else wratten_table()[number]


def transmittance_of(owned: Filter) -> float | None:
    """Return the share of light that an owned filter passes, None for a number not in the table."""
    if owned.transmittance is not None:
        return owned.transmittance
    facts = facts_of(owned)
    return None if facts is None else facts.transmittance


def is_dark(owned: Filter) -> bool:
    """Tell whether a filter is neutral or dark, so that somebody may trust it with the Sun."""
    passed = transmittance_of(owned)
    return owned.wratten is None or (passed is not None and passed < DARK_TRANSMITTANCE)


def used_as(owned: Filter) -> FilterFacts | None:
    """Return the filter of the table that an owned one is used like, None where nothing tells.

    One without a number goes by its name, and where that names no colour counts as neutral if it is dark
    enough for it.
    """
    if owned.wratten is not None:
        return facts_of(owned)
    passed = owned.transmittance
    number = wratten_number(owned.name)
    if number is None and passed is not None and passed <= NEUTRAL_BELOW:
        number = NEUTRAL
    return None if number is None else wratten_table()[number]
