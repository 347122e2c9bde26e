"""Pictures for measuring: in brightness alone, as large and as blurred as on the retina, and of a star."""

from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Values
from core.looks.picture.blur import Blurring, blurred
from core.looks.picture.colours import brightness_of
from core.looks.picture.sight import PICTURE_SIZE, Sight, window_for

# Narrower than this the eye's own blur would not have room beside the body: six of its widths.
_LEAST_WINDOW_DEG: Final = 0.2


@frozen(eq=False, kw_only=True)
class TrueScale:
    """A picture as it comes to the retina; a pixel's width on the sky and through the eyepiece."""

    brightness: Values
    pixel_arcsec: float
    apparent_pixel_arcsec: float


def window(sight: Sight, width_deg: float, *, with_eye: bool = False) -> Values:
    """The brightness (N, N) of a window so many degrees wide to the eye."""
    return brightness_of(sight.coloured_window(width_deg, with_eye=with_eye))


def at_true_scale(sight: Sight) -> TrueScale:
    """A body as telescope, air and the eye blur it at a power, in a window with room for it."""
    window_deg = max(_LEAST_WINDOW_DEG, window_for(sight.subject, sight.power))
    apparent_pixel_arcsec = window_deg * 3600.0 / PICTURE_SIZE
    return TrueScale(
        brightness=window(sight, window_deg, with_eye=True),
        pixel_arcsec=apparent_pixel_arcsec / sight.power,
        apparent_pixel_arcsec=apparent_pixel_arcsec,
    )


def star_picture(size: int, pixel_arcsec: float, blurring: Blurring) -> Values:
    """A star in the middle of a grid (size, size), sum 1; ``size`` is odd."""
    point = np.zeros((size, size), dtype=np.float32)
    point[size // 2, size // 2] = 1.0
    return blurred(point, pixel_arcsec, blurring)
