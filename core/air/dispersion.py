"""How far the air spreads a planet's colours apart, blue towards the zenith and red towards the ground.

Source: Filippenko 1982, PASP 94, 715, with the refractive index of air of Edlén 1953.
"""

from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import ArrayLike

from core.air.atmosphere import (
    LOWEST_PATH_ALTITUDE_DEG,
    STANDARD_PRESSURE_HPA,
    STANDARD_TEMPERATURE_C,
    standard_pressure_hpa,
)
from core.arrays import Floats
from core.gear.optics import ARCSEC_PER_RADIAN

# The colours between which the spread is told: where the eye by night sees well (ours).
BLUE_NM: Final = 450.0
RED_NM: Final = 650.0

# Below this altitude a yellow filter (8, 12, 15) is worth its light; it takes away the blue end and so this
# share of the spread (ours).
YELLOW_HELPS_BELOW_DEG: Final = 35.0
YELLOW_CUTS: Final = 0.28

# Water vapour in air of 10 °C and 60 % humidity; it hardly matters.
USUAL_VAPOUR_HPA: Final = 7.4

_MMHG_PER_HPA: Final = 760.0 / STANDARD_PRESSURE_HPA


@frozen(kw_only=True)
class Dispersion:
    """The spread of the colours from ``blue_nm`` to ``red_nm`` at an apparent altitude."""

    arcsec: float
    altitude_deg: float
    blue_nm: float = BLUE_NM
    red_nm: float = RED_NM

    @property
    def yellow_helps(self) -> bool:
        """Whether it stands so low that a yellow filter is worth its light."""
        return self.altitude_deg < YELLOW_HELPS_BELOW_DEG


def refractivity(
    wavelength_nm: ArrayLike,
    *,
    pressure_hpa: float = STANDARD_PRESSURE_HPA,
    temperature_c: float = STANDARD_TEMPERATURE_C,
    vapour_hpa: float = USUAL_VAPOUR_HPA,
) -> Floats:
    """Return the refractive index of air less one, at wavelengths in nm (300 to 1000), any shape.

    Filippenko 1982, equations 1 to 3.
    """
    wavenumber = (1000.0 / np.asarray(wavelength_nm, dtype=float)) ** 2  # of 1/µm, squared
    pressure, vapour = pressure_hpa * _MMHG_PER_HPA, vapour_hpa * _MMHG_PER_HPA
    warm = 1.0 + 0.003661 * temperature_c
    standard = 64.328 + 29_498.1 / (146.0 - wavenumber) + 255.4 / (41.0 - wavenumber)
    density = pressure * (1.0 + (1.049 - 0.0157 * temperature_c) * 1e-6 * pressure) / (720.883 * warm)
    moisture = (0.0624 - 0.000680 * wavenumber) / warm * vapour
    return np.asarray((standard * density - moisture) * 1e-6)


def spread_arcsec(
    altitude_deg: ArrayLike,
    *,
    blue_nm: float = BLUE_NM,
    red_nm: float = RED_NM,
    pressure_hpa: float = STANDARD_PRESSURE_HPA,
    temperature_c: float = STANDARD_TEMPERATURE_C,
    vapour_hpa: float = USUAL_VAPOUR_HPA,
) -> Floats:
    """Return how much higher blue is seen than red (arcsec) at apparent altitudes in degrees, any shape.

    Filippenko 1982, equation 4: for flat layers of air, 3 % too much at 15 degrees. NaN under 5 degrees.

    >>> round(float(spread_arcsec(45.0)), 1)
    0.9
    """
    altitude = np.asarray(altitude_deg, dtype=float)
    blue, red = (
        refractivity(
            wavelength, pressure_hpa=pressure_hpa, temperature_c=temperature_c, vapour_hpa=vapour_hpa
        )
        for wavelength in (blue_nm, red_nm)
    )
    spread = (
        ARCSEC_PER_RADIAN
        * (blue - red)
        / np.tan(np.radians(np.clip(altitude, LOWEST_PATH_ALTITUDE_DEG, 90.0)))
    )
    return np.where(altitude >= LOWEST_PATH_ALTITUDE_DEG, spread, np.nan)


def dispersion_at(altitude_deg: float, *, elevation_m: float = 0.0) -> Dispersion | None:
    """Return the spread at an apparent altitude in a site's standard air at 10 °C; None under 5 degrees."""
    arcsec = float(spread_arcsec(altitude_deg, pressure_hpa=float(standard_pressure_hpa(elevation_m))))
    return None if np.isnan(arcsec) else Dispersion(arcsec=arcsec, altitude_deg=altitude_deg)
