"""What power observers usually look with: by planet, and by aperture (common practice, no source)."""

from typing import Final

from core.sky.bodies import Body

# Below this a planet shows little.
USEFUL_POWER: Final = 50.0
USEFUL_POWER_MARS: Final = 100.0
# More than this seldom shows more of these two.
RARELY_MORE: Final = {Body.JUPITER: 200.0, Body.SATURN: 250.0}
# Up to this aperture the aperture decides, beyond it the air.
USUAL_NIGHT_APERTURE_MM: Final = 150.0
_USUAL_NIGHT_PER_MM: Final = (1.2, 1.5)


def useful_power(planet: Body | None) -> float:
    """Return the power below which a planet shows little: 50x, for Mars 100x (common practice).

    >>> useful_power(Body.SATURN), useful_power(Body.MARS)
    (50.0, 100.0)
    """
    return USEFUL_POWER_MARS if planet is Body.MARS else USEFUL_POWER


def usual_night_powers(aperture_mm: float) -> tuple[float, float]:
    """Return the powers that observers use most on a usual night, 1.2 to 1.5x per mm of aperture.

    From 150 mm on, where the air decides, they stay what they are there (common practice, no source; that
    they stay so is ours).

    >>> usual_night_powers(100)
    (120.0, 150.0)
    """
    counted_mm = min(aperture_mm, USUAL_NIGHT_APERTURE_MM)
    low, high = _USUAL_NIGHT_PER_MM
    return low * counted_mm, high * counted_mm
