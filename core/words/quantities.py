"""Figures as words, rounded to what a marked focal length or a rule of thumb can bear."""

_MINUTE_S, _HOUR_S = 60.0, 3600.0
# Drifts are told in seconds up to here.
_SECONDS_UP_TO_S = 120.0


def power_text(power: float) -> str:
    """Return ``48x``, or ``7.5x`` below 10."""
    return f"{_trimmed(power, 1)}x" if power < 10 else f"{power:.0f}x"


def per_mm_text(power: float, aperture_mm: float) -> str:
    """Return the power per mm of aperture, ``2.5x per mm``."""
    return f"{power / aperture_mm:.1f}x per mm"


def length_text(length_mm: float) -> str:
    """Return a length in mm with at most two decimals, ``31.75 mm``."""
    return f"{_trimmed(length_mm, 2)} mm"


def pupil_text(exit_pupil_mm: float) -> str:
    """Return an exit pupil, to a tenth of a mm from 1 mm up and to a hundredth below."""
    return f"{exit_pupil_mm:.1f} mm" if exit_pupil_mm >= 1 else f"{exit_pupil_mm:.2f} mm"


def field_text(field_deg: float) -> str:
    """Return a field: two figures in degrees from 1 degree up, below that whole minutes or seconds of arc."""
    if field_deg >= 1:
        return f"{two_figures(field_deg)}°"
    return f"{field_deg * 60:.0f}′" if field_deg * 60 >= 1 else f"{field_deg * 3600:.0f}″"


def drift_text(drift_s: float) -> str:
    """Return how long a planet takes through the field: "41 s", "3.5 min", "over 1 h"."""
    if drift_s < _SECONDS_UP_TO_S:
        return f"{drift_s:.0f} s"
    return f"{drift_s / _MINUTE_S:.1f} min" if drift_s < _HOUR_S else "over 1 h"


def two_figures(value: float) -> str:
    """Return a number of any size to two figures, never with an exponent: ``0.57``, ``1.8``, ``230``."""
    short = f"{value:.2g}"
    if "e" not in short:
        return short
    # Decimals as many as two figures need; none for a large number.
    decimals = max(0, 1 - int(short.partition("e")[2]))
    return f"{float(short):.{decimals}f}"


def _trimmed(value: float, decimals: int) -> str:
    text = f"{value:.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
