"""The ground of Mars: the large dark and bright regions that observers draw, and the haze over its limb.

Places and sizes of the regions are those of the usual maps of its brightness, rounded, from memory; how dark
they are is ours, by eye. What changes there from year to year is left out.
"""

from functools import cache
from typing import Final

import numpy as np

from core.arrays import Values
from core.looks.picture.bilinear import bilinear

_DESERT: Final = 0.95
# Middle (west longitude, latitude), half length and half breadth, degrees, and the darkest brightness.
_REGIONS: Final = (
    (290, 13, 8, 14, 0.60), (291, 0, 12, 8, 0.63),  # Syrtis Major
    (303, -14, 11, 9, 0.68), (262, -20, 18, 9, 0.65), (236, -12, 10, 8, 0.68),  # Iapygia, Tyrrhenum
    (212, -20, 24, 8, 0.65), (184, -32, 14, 8, 0.68),  # Cimmerium
    (154, -32, 22, 8, 0.66), (120, -36, 16, 7, 0.72),  # Sirenum
    (336, -9, 20, 5, 0.62), (0, -5, 8, 6, 0.60), (324, -32, 12, 13, 0.70),  # Sabaeus, Meridiani, Hellespontus
    (24, -8, 9, 10, 0.64), (40, -26, 20, 11, 0.67), (52, -13, 11, 7, 0.64),  # Margaritifer, Erythraeum
    (76, -11, 16, 4, 0.70), (87, -27, 8, 6, 0.66), (64, -42, 16, 8, 0.74),  # Coprates, Solis Lacus
    (32, 47, 16, 11, 0.64), (36, 29, 11, 5, 0.72),  # Acidalium, Niliacus
    (262, 44, 16, 10, 0.72), (284, 50, 12, 7, 0.72), (190, 48, 22, 8, 0.80),  # Utopia
    (40, -64, 60, 7, 0.76), (160, -64, 60, 7, 0.78), (280, -64, 60, 7, 0.76),  # Australe
    (60, 70, 90, 6, 0.82), (240, 70, 90, 6, 0.82),  # about the north
)  # fmt: skip
# The same for regions brighter than the desert.
_BRIGHT: Final = (
    (292, -44, 15, 11, 1.06), (42, -50, 10, 7, 1.02), (213, 24, 12, 10, 1.03), (330, 20, 22, 14, 1.0),
    (70, -8, 7, 6, 0.98), (110, 12, 24, 16, 1.0),
)  # fmt: skip
_EDGE: Final = 0.45
_CAP_BRIGHTNESS: Final = 1.6
# What the air of Mars looks like where one looks along it, and how much of the ground it hides at the limb.
_HAZE: Final = 0.90
_HIDDEN_AT_LIMB: Final = 0.85


def mars_brightness(latitude_deg: Values, west_longitude_deg: Values) -> Values:
    """Return how bright the bare ground is at places, any shape, of longitudes from -180 to 540."""
    return bilinear(_mars_map(), 90.0 - latitude_deg, west_longitude_deg + 180.0)


def with_cap(ground: Values, latitude_deg: Values, *, north_edge_deg: float, south_edge_deg: float) -> Values:
    """Return the ground with both caps on it, whose edges lie at such latitudes, away from the equator."""
    share = np.clip(latitude_deg - north_edge_deg, 0.0, 1.0)
    share += np.clip(-latitude_deg - south_edge_deg, 0.0, 1.0)
    return np.asarray(ground + share * (_CAP_BRIGHTNESS - ground), dtype=np.float32)


def through_haze(ground: Values, towards_eye: Values) -> Values:
    """Return the ground as its air lets it be seen; ``towards_eye`` is 1 in the middle, 0 at the limb."""
    hidden = _HIDDEN_AT_LIMB * (1.0 - towards_eye) ** 2
    return np.asarray(ground + hidden * (np.maximum(ground, _HAZE) - ground), dtype=np.float32)


@cache
def _mars_map() -> Values:
    """Return the brightness a degree apart, from the north, and westwards twice round, (181, 721)."""
    latitude = (90.0 - np.arange(181))[:, None]
    longitude = (np.arange(721) - 180.0)[None, :]
    found = np.full((181, 721), _DESERT)
    for west_deg, north_deg, half_length, half_breadth, brightness in (*_BRIGHT, *_REGIONS):
        # A degree of longitude is shorter away from the equator.
        along = (longitude - west_deg + 180.0) % 360.0 - 180.0
        along = along * np.cos(np.radians(latitude)) / np.cos(np.radians(north_deg))
        reach = np.hypot(along / half_length, (latitude - north_deg) / half_breadth)
        share = np.clip((1.0 + _EDGE / 2.0 - reach) / _EDGE, 0.0, 1.0)
        wanted = found + share * (brightness - found)
        found = np.minimum(found, wanted) if brightness < _DESERT else np.maximum(found, wanted)
    return found.astype(np.float32)
