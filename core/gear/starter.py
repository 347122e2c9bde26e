"""Usual telescopes and eyepieces to begin a profile with.

Sizes are common practice, no source; they stand in ``resources/starter_gear.toml`` and carry no maker.
"""

import math
import tomllib
from functools import cache
from importlib import resources
from typing import Any

from attrs import evolve, frozen

from core.gear.fields import widest_apparent_field_deg
from core.gear.owned import USUAL_BARREL_MM, Barlow, Diagonal, Eyepiece, Telescope, TelescopeKind


@frozen(kw_only=True)
class StarterKit:
    """A telescope of a usual size, and the focal lengths of the eyepieces that mostly come with it."""

    telescope: Telescope
    eyepieces_mm: tuple[float, ...]


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(resources.files("resources").joinpath("starter_gear.toml").read_text("utf-8"))


@cache
def starter_kits() -> tuple[StarterKit, ...]:
    """Return the kits, those of a kind together, smallest aperture first."""
    return tuple(_kit(dict(entry)) for entry in _data()["telescopes"])


def kit_like(scope: Telescope) -> StarterKit | None:
    """Return the kit of a telescope of this kind, aperture and focal length, or None."""
    return next((kit for kit in starter_kits() if _size(kit.telescope) == _size(scope)), None)


def _size(scope: Telescope) -> tuple[object, ...]:
    return scope.kind, scope.aperture_mm, scope.focal_length_mm, scope.power, scope.power_min, scope.power_max


def _kit(entry: dict[str, Any]) -> StarterKit:
    eyepieces_mm = tuple(float(focal_length) for focal_length in entry.pop("with_eyepieces_mm"))
    kind, diagonal = TelescopeKind(entry.pop("kind")), Diagonal(entry.pop("diagonal", "none"))
    return StarterKit(telescope=Telescope(kind=kind, diagonal=diagonal, **entry), eyepieces_mm=eyepieces_mm)


def usual_eyepieces_mm() -> tuple[float, ...]:
    """Return the focal lengths (mm) of eyepieces that are found everywhere, shortest first."""
    return tuple(float(focal_length) for focal_length in _data()["eyepieces_mm"])


def usual_barlow_factors() -> tuple[float, ...]:
    """Return the factors of Barlows that are found everywhere, weakest first."""
    return tuple(float(factor) for factor in _data()["barlow_factors"])


def usual_eyepiece(focal_length_mm: float, *, scope: Telescope | None = None) -> Eyepiece:
    """Return an eyepiece in the widest usual barrel that the scope takes.

    Its apparent field is the usual one, or what a long focal length leaves of it in that barrel.
    """
    barrel_mm = USUAL_BARREL_MM if scope is None else min(USUAL_BARREL_MM, scope.barrel_mm)
    widest_deg = math.floor(widest_apparent_field_deg(barrel_mm, focal_length_mm))
    return Eyepiece(
        name=f"{focal_length_mm:g} mm",
        focal_length_mm=focal_length_mm,
        apparent_field_deg=float(min(_data()["apparent_field_deg"], widest_deg)),
        barrel_mm=barrel_mm,
    )


def usual_barlow(factor: float, *, scope: Telescope | None = None) -> Barlow:
    """Return a Barlow lens, or a reducer for a factor below 1, in a barrel that the scope takes."""
    barlow = Barlow(name=f"{factor:g}x", factor=factor)
    if scope is not None and scope.barrel_mm < barlow.barrel_mm:
        return evolve(barlow, barrel_mm=scope.barrel_mm)
    return barlow
