"""Colour filters: how much light each passes, and what observers use it for.

Transmittances are published; uses and smallest apertures are common practice without a source. A filter
gives a small gain in contrast and shows no new feature.
"""

import re
import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from attrs import frozen

from core.gear.owned import Filter
from core.sky.bodies import Body

# A filter that passes less light than this could be taken for one that keeps the Sun out (ours).
DARK_TRANSMITTANCE = 0.2
_WRATTEN_NUMBER = re.compile(r"\d+[A-E]?(-\d\.\d)?")


@frozen(kw_only=True)
class FilterUse:
    """One body and what the filter helps to see on it (common practice)."""

    body: Body
    what: str


@frozen(kw_only=True)
class FilterFacts:
    """What is known of one Wratten number.

    ``transmittance`` is luminous, 0 to 1, for illuminant C; ``smallest_aperture_mm`` is the aperture below
    which the filter dims too much (common practice; 0 for any); ``daylight`` says that its uses call for
    the caution about the Sun.
    """

    wratten: str
    colour: str
    transmittance: float
    smallest_aperture_mm: float
    daylight: bool
    uses: tuple[FilterUse, ...]

    def use_on(self, body: Body) -> str | None:
        """Return what it helps to see on a body, or None."""
        return next((use.what for use in self.uses if use.body is body), None)


@cache
def wratten_table() -> dict[str, FilterFacts]:
    """Return all known filters by Wratten number, read from the program's own data."""
    text = files("resources").joinpath("filters.toml").read_text("utf-8")
    return {row["wratten"]: _facts(row) for row in tomllib.loads(text)["filters"]}


def facts_of(owned: Filter) -> FilterFacts | None:
    """Return what is known of an owned filter by its Wratten number, however it is written."""
    if owned.wratten is None:
        return None
    number = _WRATTEN_NUMBER.search(owned.wratten.upper().replace(" ", ""))
    return None if number is None else wratten_table().get(number[0])


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


def too_dark_notice(owned: Filter, aperture_mm: float) -> str | None:
    """Return a sentence when a filter is usually kept for larger apertures (common practice)."""
    facts = facts_of(owned)
    if facts is None or aperture_mm >= facts.smallest_aperture_mm:
        return None
    return (
        f"{owned.name} passes {facts.transmittance:.0%} of the light and is usually kept for apertures from "
        f"{facts.smallest_aperture_mm:g} mm up."
    )


def _facts(row: dict[str, Any]) -> FilterFacts:
    return FilterFacts(
        wratten=row["wratten"],
        colour=row["colour"],
        transmittance=row["transmittance"],
        smallest_aperture_mm=row["smallest_aperture_mm"],
        daylight=row["daylight"],
        uses=tuple(FilterUse(body=Body(use["body"]), what=use["what"]) for use in row["uses"]),
    )
