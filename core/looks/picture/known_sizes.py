"""How large something looks, against the Moon as the naked eye sees it: a size that everybody knows."""

from typing import Final

# Mean apparent diameter: 3474.8 km at 384 400 km.
NAKED_EYE_MOON_ARCMIN: Final = 31.07

_FRACTIONS: Final = (
    (1 / 10, "a tenth"),
    (1 / 5, "a fifth"),
    (1 / 4, "a quarter"),
    (1 / 3, "a third"),
    (2 / 5, "two fifths"),
    (1 / 2, "half"),
    (2 / 3, "two thirds"),
    (3 / 4, "three quarters"),
)


def against_moon(apparent_arcmin: float) -> str:
    """Return how wide something looks, in words: ``half as wide as the Moon to the naked eye``."""
    ratio = apparent_arcmin / NAKED_EYE_MOON_ARCMIN
    moon = "the Moon to the naked eye"
    if ratio < 0.08:
        return f"a small fraction of the width of {moon}"
    if ratio < 0.85:
        _, words = min(_FRACTIONS, key=lambda fraction: abs(fraction[0] - ratio))
        return f"{words} as wide as {moon}"
    if ratio < 1.15:
        return f"as wide as {moon}"
    if ratio < 1.75:
        return f"about one and a half times as wide as {moon}"
    if ratio < 10.0:
        return f"about {_halves(ratio)} times as wide as {moon}"
    rounded = round(ratio) if ratio < 100.0 else round(ratio, -1)
    return f"about {rounded:.0f} times as wide as {moon}"


def moons_text(apparent_arcmin: float) -> str:
    """Return the same as a bare figure for a table: ``0.05``, ``1.5``, ``46``."""
    ratio = apparent_arcmin / NAKED_EYE_MOON_ARCMIN
    if ratio < 0.095:
        return f"{ratio:.2f}"
    return f"{ratio:.1f}" if ratio < 9.95 else f"{ratio:.0f}"


def _halves(ratio: float) -> str:
    whole, half = divmod(round(ratio * 2.0), 2)
    return f"{whole}½" if half else f"{whole}"


def angle_text(arcmin: float) -> str:
    """Return an angle as it looks at the eye: seconds, minutes, or degrees to a tenth."""
    if arcmin < 1.0:
        return f"{arcmin * 60.0:.0f}″"
    if arcmin < 99.5:
        return f"{arcmin:.2g}′" if arcmin < 10.0 else f"{arcmin:.0f}′"
    return f"{arcmin / 60.0:.1f}°" if arcmin < 597.0 else f"{arcmin / 60.0:.0f}°"
