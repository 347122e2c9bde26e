"""The Moon's phase, and where on it day and night meet."""

from datetime import datetime
from enum import StrEnum
from typing import Final

import astronomy
from attrs import frozen

from core.sky.axes import engine_time, pose
from core.sky.bodies import Body

# A quarter, a full or a new Moon is called so within this much of the exact elongation: half a day (ours).
_EXACT_WITHIN_DEG: Final = 6.0


class PhaseName(StrEnum):
    """The eight usual names, in order of age."""

    NEW = "new Moon"
    WAXING_CRESCENT = "waxing crescent"
    FIRST_QUARTER = "first quarter"
    WAXING_GIBBOUS = "waxing gibbous"
    FULL = "full Moon"
    WANING_GIBBOUS = "waning gibbous"
    LAST_QUARTER = "last quarter"
    WANING_CRESCENT = "waning crescent"


@frozen(kw_only=True)
class MoonPhase:
    """The Moon's phase from the centre of the Earth.

    ``ahead_of_sun_deg`` is its ecliptic longitude from the Sun's, 0 new and 180 full. Longitudes on the
    Moon are east positive, -180 to 180. ``colongitude_deg`` is the Sun's selenographic colongitude, the
    west longitude of the sunrise line. The librations are the latitude and longitude that face the Earth.
    """

    name: PhaseName
    ahead_of_sun_deg: float
    colongitude_deg: float
    sunrise_longitude_deg: float
    sunset_longitude_deg: float
    libration_longitude_deg: float
    libration_latitude_deg: float

    @property
    def is_waxing(self) -> bool:
        """Whether more of it is lit from night to night."""
        return self.ahead_of_sun_deg < 180.0

    @property
    def terminator_longitude_deg(self) -> float:
        """The longitude on the near side where day and night meet: sunrise while waxing, else sunset."""
        return self.sunrise_longitude_deg if self.is_waxing else self.sunset_longitude_deg


def phase_name(ahead_of_sun_deg: float) -> PhaseName:
    """Return the name of the phase at an ecliptic longitude from the Sun's, degrees.

    >>> phase_name(180.0).value
    'full Moon'
    """
    names = tuple(PhaseName)
    quarter, within = divmod(ahead_of_sun_deg % 360.0, 90.0)
    if within <= _EXACT_WITHIN_DEG:
        return names[int(quarter) * 2]
    if within >= 90.0 - _EXACT_WITHIN_DEG:
        return names[(int(quarter) * 2 + 2) % 8]
    return names[int(quarter) * 2 + 1]


def _signed(longitude_deg: float) -> float:
    return (longitude_deg + 180.0) % 360.0 - 180.0


def moon_phase(time: datetime) -> MoonPhase:
    """Return the Moon's phase at a time (aware)."""
    unix_s = time.timestamp()
    turned = pose(Body.MOON, unix_s)
    ahead = float(astronomy.MoonPhase(engine_time(unix_s)))
    noon = turned.east_longitude_deg(turned.to_sun)
    return MoonPhase(
        name=phase_name(ahead),
        ahead_of_sun_deg=ahead,
        colongitude_deg=(90.0 - noon) % 360.0,
        sunrise_longitude_deg=_signed(noon - 90.0),
        sunset_longitude_deg=_signed(noon + 90.0),
        libration_longitude_deg=_signed(turned.east_longitude_deg(turned.to_earth)),
        libration_latitude_deg=turned.latitude_deg(turned.to_earth),
    )
