"""Shaping the sky that a site hides or spoils: sectors moved, widened and raised by hand.

All azimuths are true, in degrees clockwise from north; every result is in whole degrees when what went in
was, and stays within what a site allows.
"""

from collections.abc import Sequence
from enum import StrEnum
from typing import TypeVar

import numpy as np
from attrs import evolve

from core.sky.site import BlockedSky, WarmAir

Sector = BlockedSky | WarmAir
S = TypeVar("S", bound=Sector)

NARROWEST_DEG = 1.0
WIDEST_DEG = 359.0


class Preset(StrEnum):
    """A usual thing that stands in the sky, by the words shown."""

    HEATED_ROOF = "heated roof"
    COLD_ROOF = "shed or cold roof"
    TREES = "trees"
    WALL = "wall or fence"
    CHIMNEY = "warm air over a chimney"


# Width and height in degrees that a preset begins with (ours; meant to be dragged into place).
_PRESET_SIZES_DEG = {
    Preset.HEATED_ROOF: (50.0, 20.0),
    Preset.COLD_ROOF: (40.0, 15.0),
    Preset.TREES: (40.0, 25.0),
    Preset.WALL: (90.0, 10.0),
    Preset.CHIMNEY: (10.0, 45.0),
}


def from_preset(preset: Preset, middle_azimuth_deg: float) -> Sector:
    """Return a new sector of a usual size around an azimuth."""
    width_deg, height_deg = _PRESET_SIZES_DEG[preset]
    start_deg = (middle_azimuth_deg - width_deg / 2) % 360.0
    end_deg = (start_deg + width_deg) % 360.0
    if preset is Preset.CHIMNEY:
        return WarmAir(
            azimuth_from_deg=start_deg, azimuth_to_deg=end_deg, below_altitude_deg=height_deg, what="chimney"
        )
    return BlockedSky(
        azimuth_from_deg=start_deg,
        azimuth_to_deg=end_deg,
        below_altitude_deg=height_deg,
        what=preset.value,
        heated=preset is Preset.HEATED_ROOF,
    )


def open_azimuth_deg(sectors: Sequence[Sector], wanted_deg: float) -> float:
    """Return the azimuth nearest to a wanted one, in steps of 5 degrees, that no sector covers.

    Where everything is covered the wanted one comes back.
    """
    for step in range(37):
        for side in (1, -1):
            azimuth_deg = (wanted_deg + side * step * 5.0) % 360.0
            if not any(sector.spans(np.array([azimuth_deg]))[0] for sector in sectors):
                return azimuth_deg
    return wanted_deg


def width_deg(sector: Sector) -> float:
    """Return how wide a sector is, clockwise; a sector from 0 to 360 is the whole circle."""
    if sector.azimuth_to_deg - sector.azimuth_from_deg == 360.0:
        return 360.0
    return (sector.azimuth_to_deg - sector.azimuth_from_deg) % 360.0


def turned(sector: S, by_deg: float) -> S:
    """Return the sector moved along the horizon, clockwise positive, its width kept."""
    if width_deg(sector) == 360.0:
        return sector
    return evolve(
        sector,
        azimuth_from_deg=(sector.azimuth_from_deg + by_deg) % 360.0,
        azimuth_to_deg=(sector.azimuth_to_deg + by_deg) % 360.0,
    )


def raised(sector: S, by_deg: float) -> S:
    """Return the sector with its upper edge moved, held between 1 and 90 degrees."""
    return evolve(sector, below_altitude_deg=min(max(sector.below_altitude_deg + by_deg, 1.0), 90.0))


def start_moved(sector: S, by_deg: float) -> S:
    """Return the sector with its first edge moved clockwise by so much, its other edge kept."""
    new_width_deg = min(max(width_deg(sector) - by_deg, NARROWEST_DEG), WIDEST_DEG)
    return evolve(sector, azimuth_from_deg=(sector.azimuth_to_deg - new_width_deg) % 360.0)


def end_moved(sector: S, by_deg: float) -> S:
    """Return the sector with its second edge moved clockwise by so much, its first edge kept."""
    new_width_deg = min(max(width_deg(sector) + by_deg, NARROWEST_DEG), WIDEST_DEG)
    return evolve(sector, azimuth_to_deg=(sector.azimuth_from_deg + new_width_deg) % 360.0)
