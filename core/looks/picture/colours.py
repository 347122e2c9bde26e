"""The colours that the air parts: one picture for red, green and blue each, moved along the vertical.

Where light of 450 to 650 nm falls follows from the refractive index, nearly as the inverse square of the
wavelength (Filippenko 1982, PASP 94, 715); the three bands are equal thirds of that range.
"""

from itertools import pairwise
from typing import Final

import numpy as np

from core.arrays import Values

_BAND_EDGES_NM: Final = (650.0, 1750.0 / 3.0, 1550.0 / 3.0, 450.0)
# Where the eye is most sensitive by day (CIE 1924): this light stays where it is.
_MIDDLE_NM: Final = 555.0
# How much each band counts for brightness: red, green, blue (ITU-R BT.709).
LUMINOUS: Final = np.array([0.2126, 0.7152, 0.0722], dtype=np.float32)


def _raised(wavelength_nm: float) -> float:
    """Return how far towards the zenith a wavelength lies, 0 for 650 nm and 1 for 450 nm."""
    red, blue = _BAND_EDGES_NM[0] ** -2, _BAND_EDGES_NM[-1] ** -2
    return float((wavelength_nm**-2 - red) / (blue - red))


_EDGES: Final = tuple(_raised(edge) for edge in _BAND_EDGES_NM)
# Places of the three bands towards the zenith, and how wide one of them is, in spreads.
_PLACES: Final = tuple((low + high) / 2.0 - _raised(_MIDDLE_NM) for low, high in pairwise(_EDGES))
BAND_WIDTH: Final = 1.0 / 3.0


def parted(picture: Values, margin: int, spread_px: float, towards_zenith: tuple[float, float]) -> Values:
    """Return red, green and blue (M, M, 3) of the middle of a picture (N, N), each where the air puts it.

    ``margin`` pixels go at each edge; no colour is moved farther than them. ``spread_px`` is how far apart
    450 and 650 nm lie, in pixels; the direction is right and up, length 1.
    """
    right, up = towards_zenith
    size = picture.shape[0] - 2 * margin
    coloured = np.empty((size, size, len(_PLACES)), dtype=np.float32)
    for band, place in enumerate(_PLACES):
        across = _moved(picture.T, margin, place * spread_px * right).T
        coloured[..., band] = _moved(across, margin, -place * spread_px * up)
    return coloured


def brightness_of(coloured: Values) -> Values:
    """Return how bright a coloured picture (N, N, 3) looks, (N, N)."""
    return np.asarray(coloured @ LUMINOUS)


def _moved(picture: Values, margin: int, distance: float) -> Values:
    """Return the rows within a margin, moved down by parts of rows, neighbours mixed in proportion."""
    distance = float(np.clip(distance, 1 - margin, margin - 1))
    whole = int(np.floor(distance))
    part = np.float32(distance - whole)
    first, last = margin - whole, picture.shape[0] - margin - whole
    near = picture[first:last]
    return near + part * (picture[first - 1 : last - 1] - near)
