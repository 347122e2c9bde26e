"""Standard air: how far it lifts what is seen, and how much of it lies in the line of sight."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Floats

# Below this apparent altitude no path is given: the formula holds, but real air seldom does.
LOWEST_PATH_ALTITUDE_DEG: Final = 5.0

STANDARD_TEMPERATURE_C: Final = 10.0
STANDARD_PRESSURE_HPA: Final = 1013.25  # at sea level


def standard_pressure_hpa(elevation_m: ArrayLike) -> Floats:
    """Return the pressure of the standard atmosphere (hPa) at heights above the sea in metres.

    Source: ISO 2533 (the ICAO standard atmosphere), its lowest layer, up to 11 km.
    """
    return np.asarray(
        STANDARD_PRESSURE_HPA * (1.0 - 2.25577e-5 * np.asarray(elevation_m, dtype=float)) ** 5.25588
    )


def refraction_deg(
    true_altitude_deg: ArrayLike, *, pressure_hpa: ArrayLike = 1010.0, temperature_c: ArrayLike = 10.0
) -> Floats:
    """Return how far the air lifts a body that stands at true altitudes, degrees in and out.

    Below the horizon the value at 0 degrees is kept, so that a curve has no step there; it never falls
    under zero near the zenith.

    Source: Saemundsson 1986, for 1010 hPa and 10 °C, scaled for other air, as in Meeus, Astronomical
    Algorithms, 2nd ed. (1998), ch. 16.

    >>> round(float(refraction_deg(0.0)), 2)
    0.48
    """
    altitude = np.clip(np.asarray(true_altitude_deg, dtype=float), 0.0, 90.0)
    arcminutes = 1.02 / np.tan(np.radians(altitude + 10.3 / (altitude + 5.11)))
    scale = np.asarray(pressure_hpa) / 1010.0 * 283.0 / (273.0 + np.asarray(temperature_c))
    return np.asarray(np.maximum(arcminutes, 0.0) * scale / 60.0)


def apparent_altitude_deg(true_altitude_deg: ArrayLike, *, elevation_m: float = 0.0) -> Floats:
    """Return apparent from true altitudes (degrees), in the standard air of a site at 10 °C."""
    lift = refraction_deg(
        true_altitude_deg,
        pressure_hpa=standard_pressure_hpa(elevation_m),
        temperature_c=STANDARD_TEMPERATURE_C,
    )
    return np.asarray(np.asarray(true_altitude_deg, dtype=float) + lift)


def air_path(apparent_altitude_deg: ArrayLike) -> Floats:
    """Return the path through the air, times the path overhead, at apparent altitudes in degrees.

    NaN below 5 degrees.

    Source: Kasten and Young 1989, Applied Optics 28, 4735.

    >>> round(float(air_path(30.0)), 2)
    1.99
    """
    given = np.asarray(apparent_altitude_deg, dtype=float)
    altitude = np.maximum(given, 0.0)
    path = 1.0 / (np.sin(np.radians(altitude)) + 0.50572 * (altitude + 6.07995) ** -1.6364)
    return np.where(given >= LOWEST_PATH_ALTITUDE_DEG, path, np.nan)
