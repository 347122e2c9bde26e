"""How much light of a planet's disc reaches the eye.

E = T L (pi / 4) d², in trolands: T the share of light that a filter passes, L the luminance of the disc, d
the exit pupil in mm, or the eye's own pupil where that is the narrower. Thresholds are ours.
"""

import math
from typing import Final

from core.gear.eye import USUAL_EYE, Eye
from core.sky.bodies import Body
from core.sky.disc import Disc

# From here on there is light enough to see colour and faint contrast by.
ENOUGH_TROLANDS: Final = 50.0
# From here on a disc glares to an eye that is used to the dark: Jupiter at an exit pupil of 3.2 mm.
GLARE_TROLANDS: Final = 6000.0
# Luminance of 0 mag/arcsec².
_ZERO_MAGNITUDE_CD_M2: Final = 1.08e5
# Mean surface brightness of the lit disc, mag/arcsec² (from memory); of the others it follows from the phase.
SURFACE_BRIGHTNESS_MAG: Final = {
    Body.VENUS: 1.5,
    Body.MARS: 4.3,
    Body.JUPITER: 5.4,
    Body.SATURN: 6.9,
    Body.URANUS: 8.2,
    Body.NEPTUNE: 9.4,
}


def luminance_cd_m2(surface_brightness_mag: float) -> float:
    """Return the luminance in cd/m² of a surface brightness in mag/arcsec².

    >>> round(luminance_cd_m2(5.4))
    747
    """
    return float(_ZERO_MAGNITUDE_CD_M2 * 10.0 ** (-0.4 * surface_brightness_mag))


def mean_surface_brightness_mag(magnitude: float, lit_area_arcsec2: float) -> float:
    """Return the mean brightness in mag/arcsec² of a lit area on the sky of a total magnitude."""
    return magnitude + 2.5 * math.log10(lit_area_arcsec2)


def surface_brightness_mag(disc: Disc) -> float:
    """Return the mean brightness of a disc's lit part, mag/arcsec².

    Of Moon and Mercury it follows from phase and magnitude; of the others it stands in a table, since
    Saturn's magnitude is with the ring.
    """
    known = SURFACE_BRIGHTNESS_MAG.get(disc.body)
    if known is not None:
        return known
    axes = disc.equatorial_diameter_arcsec * disc.polar_diameter_arcsec
    # A hair of a crescent still has some area; less light than that is none at all.
    lit = math.pi / 4.0 * axes * max(disc.illuminated_fraction, 1e-4)
    return mean_surface_brightness_mag(disc.magnitude, lit)


def light_trolands(
    surface_brightness: float, exit_pupil_mm: float, *, transmittance: float = 1.0, eye: Eye = USUAL_EYE
) -> float:
    """Return the light of a disc on the retina in trolands.

    Takes mag/arcsec², the exit pupil in mm, and the share of light that a filter passes.

    >>> round(light_trolands(5.4, 1.0))
    587
    """
    pupil_mm = min(exit_pupil_mm, eye.pupil_mm)
    return transmittance * luminance_cd_m2(surface_brightness) * math.pi / 4.0 * pupil_mm**2


def pupil_for_mm(light: float, surface_brightness: float, *, transmittance: float = 1.0) -> float:
    """Return the exit pupil in mm that lets a light in trolands through, of a disc of so many mag/arcsec².

    >>> round(pupil_for_mm(587, 5.4), 2)
    1.0
    """
    through_one_mm = transmittance * luminance_cd_m2(surface_brightness) * math.pi / 4.0
    return math.sqrt(light / through_one_mm)
