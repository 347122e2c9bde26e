"""The numbers of one combination of telescope and eyepiece.

Geometric optics of an afocal telescope, unless a docstring names another source. Lengths are in mm, angles
as their names say; a power is the plain number before the x.
"""

import math

ARCSEC_PER_RADIAN = math.degrees(1.0) * 3600.0
SIDEREAL_RATE_ARCSEC_S = 15.041  # drift of the sky at the celestial equator
SIDEREAL_DAY_S = 86_164.1
DAWES_ARCSEC_MM = 116.0

APERTURE_POWER_PER_MM = 2.0
# The mean diameter of the Moon to the naked eye: 3474.8 km at 384,400 km.
NAKED_EYE_MOON_ARCMIN = 31.07


def power(focal_length_mm: float, eyepiece_focal_length_mm: float, factor: float = 1.0) -> float:
    """Return focal length times the factor of the Barlows or the reducer, over that of the eyepiece.

    >>> power(1200, 25, factor=2)
    96.0
    """
    return focal_length_mm * factor / eyepiece_focal_length_mm


def is_past_limit(value: float, limit: float | None) -> bool:
    """Tell whether a figure is past a limit, None for no limit; equal up to rounding is not past it."""
    return limit is not None and value > limit and not math.isclose(value, limit, rel_tol=1e-9)


def exit_pupil_mm(aperture_mm: float, power: float) -> float:
    """Return the width in mm of the beam that leaves the eyepiece.

    >>> exit_pupil_mm(150, 48)
    3.125
    """
    return aperture_mm / power


def true_field_deg(field_stop_mm: float, focal_length_mm: float) -> float:
    """Return the sky in degrees that a field stop shows, 2 atan(stop / 2F), F with Barlows or reducer.

    >>> round(true_field_deg(21.2, 1200), 2)
    1.01
    """
    return math.degrees(2.0 * math.atan(field_stop_mm / (2.0 * focal_length_mm)))


def true_field_from_apparent_deg(apparent_field_deg: float, power: float) -> float:
    """Return the sky in degrees from the eyepiece's apparent field; distortion makes it true to 5 or 10 %."""
    return apparent_field_deg / power


def drift_s(field_deg: float, declination_deg: float = 0.0) -> float:
    """Return the seconds in which the sky's turning carries an object through the middle of a field.

    Near the poles, where the sky hardly moves, it is capped at one turn of the sky.

    >>> round(drift_s(0.5))
    120
    """
    rate_arcsec_s = SIDEREAL_RATE_ARCSEC_S * math.cos(math.radians(declination_deg))
    field_arcsec = field_deg * 3600.0
    if rate_arcsec_s * SIDEREAL_DAY_S <= field_arcsec:
        return SIDEREAL_DAY_S
    return field_arcsec / rate_arcsec_s


def dawes_arcsec(aperture_mm: float) -> float:
    """Return the closest pair of equal stars in arcsec that an aperture splits (Dawes 1867).

    >>> round(dawes_arcsec(150), 2)
    0.77
    """
    return DAWES_ARCSEC_MM / aperture_mm


def visible_detail_arcsec(aperture_mm: float, power: float) -> float:
    """Return the finest detail in arcsec that a power shows the eye, never finer than Dawes; air left out.

    Details must look 232 arcsec wide, 2 x 116: then 2x per mm shows just what an aperture resolves (follows
    from Dawes and common practice).

    >>> round(visible_detail_arcsec(150, 120), 2)
    1.93
    """
    return DAWES_ARCSEC_MM * max(1.0 / aperture_mm, APERTURE_POWER_PER_MM / power)


def moons_across(field_deg: float) -> float:
    """Return how many Moons of mean size fit side by side across a field."""
    return field_deg * 60.0 / NAKED_EYE_MOON_ARCMIN


def aperture_limit(aperture_mm: float) -> float:
    """Return the power that an aperture bears, 2x per mm (common practice, no source)."""
    return APERTURE_POWER_PER_MM * aperture_mm
