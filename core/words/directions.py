"""Where in the sky something stands, as words: how high, and in which direction."""

from typing import Final

from core.words.quantities import angle_text, rounded

_COMPASS: Final = (
    "north",
    "north-east",
    "east",
    "south-east",
    "south",
    "south-west",
    "west",
    "north-west",
)


def altitude_text(altitude_deg: float, *, under_deg: float | None = None) -> str:
    """Return an altitude in whole degrees, below the horizon with a true minus sign.

    One that is ``under_deg`` but rounds up to it keeps a tenth, so that "under 30°" is never told as 30°.
    """
    if under_deg is not None and rounded(altitude_deg) >= under_deg > altitude_deg:
        return angle_text(int(altitude_deg * 10) / 10, 1)
    return angle_text(altitude_deg).replace("-", "−")


def compass_text(azimuth_deg: float) -> str:
    """Return the nearest of eight compass points to a true azimuth in degrees: ``south-west``."""
    return _COMPASS[int(rounded(azimuth_deg / 45.0)) % 8]


def compass_letters(azimuth_deg: float) -> str:
    """Return the nearest of eight compass points in letters: ``SW``."""
    return "".join(word[0].upper() for word in compass_text(azimuth_deg).split("-"))


def azimuth_text(azimuth_deg: float) -> str:
    """Return a true azimuth in whole degrees, 360 told as nought: ``212°``."""
    return f"{int(rounded(azimuth_deg)) % 360}°"
