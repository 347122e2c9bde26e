"""Whether dew or frost will settle on the glass.

Dew point: Alduchov and Eskridge 1996, J. Appl. Meteorol. 35, 601. Glass under an open sky loses heat to it;
the sky's emissivity is of Berdahl and Martin 1984, Solar Energy 32, 663. The shares of the sky seen and the
heat that the air gives back are ours.
"""

import math
from enum import StrEnum
from typing import Final

from attrs import field, frozen

from core.checks import within
from core.gear.ranges import TEMPERATURE_C

_STEFAN_BOLTZMANN_W_M2_K4: Final = 5.670374e-8
_ZERO_C_IN_K: Final = 273.15
_GLASS_EMISSIVITY: Final = 0.9  # from memory
# How well moving air warms the glass (W/m²K), and what radiation among the surroundings adds.
CALM_W_M2_K: Final = 5.0
BREEZE_W_M2_K: Final = 10.0
_RADIATION_W_M2_K: Final = 4.5
# From this relative humidity dew settles even on shaded glass and on eyepieces.
WET_HUMIDITY_PCT: Final = 98.0


class Shelter(StrEnum):
    """How much of the open sky the glass faces."""

    BARE = "bare"
    SHIELDED = "shielded"
    DOWN_A_TUBE = "down_a_tube"


# Share of the loss to the sky that each keeps: bare front glass, behind a shield 1.5 diameters long, and a
# mirror at the bottom of a tube.
SKY_SHARE: Final = {Shelter.BARE: 0.9, Shelter.SHIELDED: 0.1, Shelter.DOWN_A_TUBE: 0.0}


@frozen(kw_only=True)
class DewRisk:
    """What settles on the glass.

    ``glass_c`` is as cold as the glass may get, ``margin_c`` how much warmer than the dew point that is.
    ``frost`` is told where the dew point is below freezing. ``everywhere`` says that the air itself is so wet
    that shaded glass and eyepieces take dew too.
    """

    dew_point_c: float
    glass_c: float
    everywhere: bool

    @property
    def margin_c(self) -> float:
        """How much warmer than the dew point the glass stays, negative where it falls below."""
        return self.glass_c - self.dew_point_c

    @property
    def wet(self) -> bool:
        """Whether something settles."""
        return self.everywhere or self.margin_c <= 0.0

    @property
    def frost(self) -> bool:
        """Whether what settles is frost."""
        return self.wet and self.dew_point_c < 0.0


@frozen(kw_only=True)
class DampAir:
    """The air about the glass: its temperature in °C, relative humidity in percent, and whether it moves."""

    temperature_c: float = field(validator=TEMPERATURE_C)
    humidity_pct: float = field(validator=within(1, 100, "%"))
    breeze: bool = False

    @property
    def dew_point_c(self) -> float:
        """The temperature in °C at which the air's water settles (Alduchov and Eskridge 1996)."""
        gamma = math.log(self.humidity_pct / 100.0) + _water(self.temperature_c)
        return 243.04 * gamma / (17.625 - gamma)

    @property
    def sky_emissivity(self) -> float:
        """How much a clear sky radiates, as a share of a black body as warm as the air; at most 1."""
        hundreds = self.dew_point_c / 100.0
        return min(0.711 + 0.56 * hundreds + 0.73 * hundreds**2, 1.0)

    def cooled_to(self, temperature_c: float) -> "DampAir":
        """Return the same air, with the same water in it, at another temperature; never over 100 %."""
        dew_point_c = self.dew_point_c
        warmth = _water(dew_point_c) - _water(temperature_c)
        humidity_pct = min(max(100.0 * math.exp(warmth), 1.0), 100.0)
        return DampAir(temperature_c=temperature_c, humidity_pct=humidity_pct, breeze=self.breeze)

    def glass_below_c(self, shelter: Shelter) -> float:
        """Return by how many °C a glass may fall below the air."""
        warmth = self.temperature_c + _ZERO_C_IN_K
        sent = _GLASS_EMISSIVITY * _STEFAN_BOLTZMANN_W_M2_K4 * warmth**4
        lost = SKY_SHARE[shelter] * sent * (1.0 - self.sky_emissivity)
        return lost / ((BREEZE_W_M2_K if self.breeze else CALM_W_M2_K) + _RADIATION_W_M2_K)

    def risk(self, shelter: Shelter) -> DewRisk:
        """Return what settles on glass so sheltered."""
        return DewRisk(
            dew_point_c=self.dew_point_c,
            glass_c=self.temperature_c - self.glass_below_c(shelter),
            everywhere=self.humidity_pct >= WET_HUMIDITY_PCT,
        )


def _water(temperature_c: float) -> float:
    """Return the logarithm of how much water air can hold, but for a constant (Alduchov and Eskridge)."""
    return 17.625 * temperature_c / (243.04 + temperature_c)
