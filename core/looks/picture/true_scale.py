"""A body just as large and as blurred as it comes to the retina: for measuring what can be seen of it."""

from typing import Final

from attrs import frozen

from core.looks.picture.sight import PICTURE_SIZE, Sight, Values, window_for

# Narrower than this the eye's own blur would not have room beside the body (ours): six of its widths.
_LEAST_WINDOW_DEG: Final = 0.2


@frozen(eq=False, kw_only=True)
class TrueScale:
    """A picture as it comes to the retina.

    ``brightness`` (N, N) is against a matt white ball under the Sun; a pixel is ``pixel_arcsec`` wide on the
    sky, ``apparent_pixel_arcsec`` through the eyepiece.
    """

    brightness: Values
    pixel_arcsec: float
    apparent_pixel_arcsec: float


def at_true_scale(sight: Sight, size: int = PICTURE_SIZE) -> TrueScale:
    """Return a body as telescope, air and the eye blur it at a power, in a window with room for it.

    What the apparent size asks of the eye is in it, which the enlarged picture on a page leaves out. Of a
    Moon too wide for the window it is a part where day meets night.
    """
    window_deg = max(_LEAST_WINDOW_DEG, window_for(sight.subject, sight.power))
    apparent_pixel_arcsec = window_deg * 3600.0 / size
    return TrueScale(
        brightness=sight.window(window_deg, size, with_eye=True),
        pixel_arcsec=apparent_pixel_arcsec / sight.power,
        apparent_pixel_arcsec=apparent_pixel_arcsec,
    )
