"""Sizes that everybody knows, to set others against."""

from typing import Final

# Mean apparent diameter of the Moon to the naked eye: 3474.8 km at 384 400 km.
NAKED_EYE_MOON_ARCMIN: Final = 31.07
