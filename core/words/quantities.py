"""Figures as words, rounded to what a marked focal length or a rule of thumb can bear.

Halves round up everywhere: 162.5x is told as 163x. What is rounded is the figure as a person would write it,
so that the dust of binary fractions does not turn a half into less than a half.
"""

from decimal import ROUND_HALF_UP, Decimal

UNKNOWN = "unknown"
DRIVEN = "none: driven"
_OVER_AN_HOUR = "over 1 h"

_MINUTE_S, _HOUR_S = 60.0, 3600.0
# From here up rough powers are told in steps of five, and of ten.
_FIVES_FROM_POWER, _TENS_FROM_POWER = 10.0, 100.0
# What binary fractions and a turn into mm and back leave behind.
_DUST = 1e-6
# Drifts are told in seconds up to here.
_SECONDS_UP_TO_S = 120.0


def rounded_text(value: float, decimals: int = 0) -> str:
    """Return a number with so many decimals, halves away from zero, and never as ``-0``.

    ``decimals`` may be negative: -1 tells whole tens.
    """
    figure = _as_written(value).quantize(Decimal(1).scaleb(-decimals), ROUND_HALF_UP)
    return f"{abs(figure) if figure.is_zero() else figure:f}"


def rounded(value: float, decimals: int = 0) -> float:
    """Return the number that ``rounded_text`` writes."""
    return float(rounded_text(value, decimals))


def trimmed_text(value: float, decimals: int) -> str:
    """Return a number with at most so many decimals: ``31.75``, ``8``."""
    text = rounded_text(value, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text


def two_figures(value: float) -> str:
    """Return a number of any size to two figures, never with an exponent: ``0.57``, ``1.8``, ``230``."""
    return figures_text(value, 2)


def figures_text(value: float, count: int) -> str:
    """Return a number of any size to so many figures, without an exponent or zeros that tell nothing."""
    figure = _as_written(value)
    if figure.is_zero():
        return "0"
    decimals = count - 1 - figure.adjusted()
    # 99.6 to two figures is 100, one figure more before the point.
    return trimmed_text(float(rounded_text(value, decimals)), max(0, decimals))


def percent_text(share: float) -> str:
    """Return a share of one in whole per cent: ``25%``."""
    return f"{rounded_text(share * 100.0)}%"


def angle_text(angle_deg: float, decimals: int = 0) -> str:
    """Return an angle in degrees with so many decimals: ``45°``, ``-0.8°``."""
    return f"{rounded_text(angle_deg, decimals)}°"


def path_text(path: float) -> str:
    """Return the air path, in times the path overhead, to a tenth: ``1.4``."""
    return rounded_text(path, 1)


def power_text(power: float) -> str:
    """Return ``48x``, or ``7.5x`` below 10."""
    return f"{trimmed_text(power, 1 if power < 10 else 0)}x"


def factor_figure(factor: float) -> str:
    """Return a factor as it is marked on a Barlow: ``0.63x``."""
    return f"{figures_text(factor, 6)}x"


def about_power_text(power: float) -> str:
    """Return a power as roughly as a rule of thumb knows it: ``55x``, ``120x``."""
    step = 10.0 if power >= _TENS_FROM_POWER else 5.0 if power >= _FIVES_FROM_POWER else 1.0
    return power_text(float(rounded_text(power / step)) * step)


def per_mm_text(power: float, aperture_mm: float) -> str:
    """Return the power per mm of aperture, ``2.5x per mm``."""
    return f"{rounded_text(power / aperture_mm, 1)}x per mm"


def times_text(ratio: float) -> str:
    """Return how many times as much one thing is as another, to two figures: ``1.8 times``."""
    return f"{two_figures(ratio)} times"


def converted_text(value: float, *, as_typed: int, converted: int) -> str:
    """Return a figure as it was typed where ``as_typed`` decimals hold it, else ``converted`` ones.

    More would be told of a length turned from inches into mm than anybody has measured.
    """
    is_whole = abs(rounded(value, as_typed) - value) < _DUST
    return trimmed_text(value, as_typed if is_whole else converted)


def millimetres_text(length_mm: float) -> str:
    """Return a length in mm without its unit: ``31.75``, and ``90.5`` for 3 9/16 in."""
    return converted_text(length_mm, as_typed=2, converted=1)


def inches_text(length_in: float) -> str:
    """Return a length in inches without its unit: ``4.5``, ``3.5625``, and ``5.91`` for 150 mm."""
    return converted_text(length_in, as_typed=4, converted=2)


def length_text(length_mm: float) -> str:
    """Return a length in mm, ``31.75 mm``."""
    return f"{millimetres_text(length_mm)} mm"


def pupil_text(exit_pupil_mm: float) -> str:
    """Return an exit pupil, to a tenth of a mm from 1 mm up and to a hundredth below."""
    return f"{rounded_text(exit_pupil_mm, 1 if exit_pupil_mm >= 1 else 2)} mm"


def field_text(field_deg: float | None) -> str:
    """Return a field: two figures in degrees from 1 degree up, below that whole minutes or seconds of arc."""
    if field_deg is None:
        return UNKNOWN
    if field_deg >= 1:
        return f"{two_figures(field_deg)}°"
    minutes = field_deg * 60.0
    return f"{rounded_text(minutes)}′" if minutes >= 1 else f"{rounded_text(minutes * 60.0)}″"


def detail_text(arcsec: float) -> str:
    """Return the size of a detail, a blur or a limit of resolution, to two figures: ``0.77″``."""
    return f"{two_figures(arcsec)}″"


def drift_text(drift_s: float | None, *, driven: bool = False) -> str:
    """Return how long a planet takes through the field: "41 s", "3.5 min", "over 1 h", or why it is not told.

    None is told as driven where the mount follows the sky, else as unknown.
    """
    if driven:
        return DRIVEN
    if drift_s is None:
        return UNKNOWN
    if rounded(drift_s) < _SECONDS_UP_TO_S:
        return f"{rounded_text(drift_s)} s"
    return f"{rounded_text(drift_s / _MINUTE_S, 1)} min" if drift_s < _HOUR_S else _OVER_AN_HOUR


def _as_written(value: float) -> Decimal:
    """Return a number as a person would write it: twelve figures leave out the dust of binary fractions."""
    return Decimal(f"{value:.12g}")
