"""Colour filters: how much light each passes, and what observers use it for.

Transmittances are published; uses and smallest apertures are common practice without a source. A filter
gives a small gain in contrast and shows no new feature.
"""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any

from attrs import frozen

from core.sky.bodies import Body


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


@cache
def wratten_table() -> dict[str, FilterFacts]:
    """Return all known filters by Wratten number, read from the program's own data."""
    text = files("resources").joinpath("filters.toml").read_text("utf-8")
    return {row["wratten"]: _facts(row) for row in tomllib.loads(text)["filters"]}


def _facts(row: dict[str, Any]) -> FilterFacts:
    return FilterFacts(
        wratten=row["wratten"],
        colour=row["colour"],
        transmittance=row["transmittance"],
        smallest_aperture_mm=row["smallest_aperture_mm"],
        daylight=row["daylight"],
        uses=tuple(FilterUse(body=Body(use["body"]), what=use["what"]) for use in row["uses"]),
    )
