"""How large a disc or a detail is on the sky, and how large it looks in the eyepiece.

What looks large is set against the Moon as the naked eye sees it: a size that everybody knows.
"""

from typing import Final

from core.gear.optics import NAKED_EYE_MOON_ARCMIN
from core.words.quantities import rounded, rounded_text, trimmed_text

# From here up the Moon's diameter, and no planet's.
_MINUTES_FROM_ARCSEC: Final = 120.0

_SMALL_FRACTION: Final = "a small fraction of the width of the Moon to the naked eye"
_FRACTION: Final = {
    1 / 10: "a tenth as wide as the Moon to the naked eye",
    1 / 5: "a fifth as wide as the Moon to the naked eye",
    1 / 4: "a quarter as wide as the Moon to the naked eye",
    1 / 3: "a third as wide as the Moon to the naked eye",
    2 / 5: "two fifths as wide as the Moon to the naked eye",
    1 / 2: "half as wide as the Moon to the naked eye",
    2 / 3: "two thirds as wide as the Moon to the naked eye",
    3 / 4: "three quarters as wide as the Moon to the naked eye",
}
_AS_WIDE: Final = "as wide as the Moon to the naked eye"
_ONE_AND_A_HALF: Final = "about one and a half times as wide as the Moon to the naked eye"
_TIMES: Final = "about {times} times as wide as the Moon to the naked eye"


def arcsec_text(value: float) -> str:
    """Return a small angle, to a hundredth of an arcsecond below two and to a tenth above."""
    return f"{rounded_text(value, 2 if value < 2.0 else 1)}″"


def disc_size_text(diameter_arcsec: float) -> str:
    """Return the size of a disc on the sky: ``19.9″``, ``45″``, ``31.4′``."""
    if diameter_arcsec >= _MINUTES_FROM_ARCSEC:
        return f"{rounded_text(diameter_arcsec / 60.0, 1)}′"
    return f"{rounded_text(diameter_arcsec, 0 if diameter_arcsec >= 20.0 else 1)}″"


def apparent_size_text(arcmin: float) -> str:
    """Return an angle as it looks at the eye: seconds, minutes, or degrees to a tenth."""
    if arcmin < 1.0:
        return f"{rounded_text(arcmin * 60.0)}″"
    if arcmin < 99.5:
        return f"{trimmed_text(arcmin, 1 if arcmin < 10.0 else 0)}′"
    return f"{rounded_text(arcmin / 60.0, 1 if arcmin < 597.0 else 0)}°"


def against_moon(apparent_arcmin: float) -> str:
    """Return how wide something looks, in words: ``half as wide as the Moon to the naked eye``."""
    ratio = apparent_arcmin / NAKED_EYE_MOON_ARCMIN
    if ratio < 0.08:
        return _SMALL_FRACTION
    if ratio < 0.85:
        return _FRACTION[min(_FRACTION, key=lambda fraction: abs(fraction - ratio))]
    if ratio < 1.15:
        return _AS_WIDE
    if ratio < 1.75:
        return _ONE_AND_A_HALF
    if ratio < 10.0:
        return _TIMES.format(times=_halves(ratio))
    return _TIMES.format(times=rounded_text(ratio, 0 if ratio < 100.0 else -1))


def moons_text(apparent_arcmin: float) -> str:
    """Return the same as a bare figure for a table: ``0.05``, ``1.5``, ``46``."""
    ratio = apparent_arcmin / NAKED_EYE_MOON_ARCMIN
    if ratio < 0.095:
        return rounded_text(ratio, 2)
    return rounded_text(ratio, 1 if ratio < 9.95 else 0)


def _halves(ratio: float) -> str:
    whole, half = divmod(int(rounded(ratio * 2.0)), 2)
    return f"{whole}½" if half else f"{whole}"
