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

# The height up to which each of these words is said.
_HOW_HIGH: Final = (
    (18.0, "low"),
    (27.0, "a quarter of the way up"),
    (38.0, "a third of the way up"),
    (53.0, "half way up"),
    (67.0, "two thirds of the way up"),
    (80.0, "high up"),
)
_WHERE: Final = "{direction}, {how_high}: {height}"
_OVERHEAD: Final = "nearly overhead: {height}"


def altitude_text(altitude_deg: float, *, under_deg: float | None = None) -> str:
    """Return an altitude in whole degrees, below the horizon with a true minus sign.

    One that is ``under_deg`` but rounds up to it is rounded down, so that "under 30°" is never told as 30°.
    """
    if under_deg is not None and rounded(altitude_deg) >= under_deg > altitude_deg:
        return angle_text(int(altitude_deg))
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


def where_text(altitude_deg: float, azimuth_deg: float, *, under_deg: float | None = None) -> str:
    """Return a direction in words and a height in words and figures: ``south, half way up: 50°``.

    ``under_deg`` is as in ``altitude_text``.
    """
    height = altitude_text(altitude_deg, under_deg=under_deg)
    how_high = next((words for below_deg, words in _HOW_HIGH if altitude_deg < below_deg), None)
    if how_high is None:
        return _OVERHEAD.format(height=height)
    return _WHERE.format(direction=compass_text(azimuth_deg), how_high=how_high, height=height)
