"""The colours of everything that Stillair draws, on screen and on paper."""

import re
import tomllib
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, Final

import attrs
from attrs import field, frozen

from core.sky.bodies import TARGETS, Body

_COLOUR = re.compile(r"#[0-9a-f]{6}\Z")


def _colour(_instance: object, attribute: "attrs.Attribute[Any]", value: object) -> None:
    if not isinstance(value, str) or not _COLOUR.match(value):
        raise ValueError(f"{attribute.name} must be a colour such as #1d2229, not {value!r}")


def _every_target(_instance: object, _attribute: "attrs.Attribute[Any]", value: Mapping[Body, str]) -> None:
    missing = [body.value for body in TARGETS if body not in value]
    if missing:
        raise ValueError(f"bodies lacks {', '.join(missing)}")
    for colour in value.values():
        _colour(None, _attribute, colour)


class PaletteName(StrEnum):
    """The palettes there are: light, dark, dim red for eyes used to the dark, and black on white paper."""

    DAY = "day"
    DUSK = "dusk"
    NIGHT = "night"
    PAPER = "paper"


# Those that a window can be dressed in.
PALETTES: Final = tuple(name.value for name in PaletteName if name is not PaletteName.PAPER)


@frozen(kw_only=True)
class Palette:
    """Colours as ``#rrggbb``; what each is for stands beside it in ``resources/palettes.toml``."""

    name: PaletteName
    background: str = field(validator=_colour)
    surface: str = field(validator=_colour)
    ink: str = field(validator=_colour)
    faint_ink: str = field(validator=_colour)
    line: str = field(validator=_colour)
    accent: str = field(validator=_colour)
    accent_ink: str = field(validator=_colour)
    chosen: str = field(validator=_colour)
    chosen_ink: str = field(validator=_colour)
    chosen_frame: str = field(validator=_colour)
    warning: str = field(validator=_colour)
    daylight: str = field(validator=_colour)
    civil_twilight: str = field(validator=_colour)
    nautical_twilight: str = field(validator=_colour)
    astronomical_twilight: str = field(validator=_colour)
    night_sky: str = field(validator=_colour)
    band_best: str = field(validator=_colour)
    band_fair: str = field(validator=_colour)
    band_low: str = field(validator=_colour)
    disc_field: str = field(validator=_colour)
    bodies: Mapping[Body, str] = field(validator=_every_target)


@cache
def load_palette(name: str) -> Palette:
    """Return the palette of that name ("day", "paper" ...); ValueError for any other."""
    wanted = PaletteName(name)
    text = resources.files("resources").joinpath("palettes.toml").read_text("utf-8")
    colours = tomllib.loads(text)[wanted.value]
    bodies = {Body(body): colour for body, colour in colours.pop("bodies").items()}
    return Palette(name=wanted, bodies=MappingProxyType(bodies), **colours)
