"""Where the telescope points: at a planet, at a height, or straight overhead."""

from datetime import datetime
from enum import StrEnum

from attrs import frozen

from core.air.atmosphere import apparent_altitude_deg
from core.air.blur import Blur
from core.air.dispersion import Dispersion, dispersion_at
from core.air.limits import Limits, find_limits
from core.air.usual_air import USUAL_AIR_POWER
from core.gear.aperture import working_aperture_mm
from core.gear.owned import Telescope
from core.sky.bodies import Body
from core.sky.sunlight import Daylight
from core.sky.track import path_or_none
from core.sky.why_not import NoWindow


class Refusal(StrEnum):
    """Why nothing is offered on a body, in the order in which it is asked."""

    TOO_NEAR_THE_SUN = "too_near_the_sun"
    BELOW_HORIZON = "below_horizon"
    NOT_BY_DAY = "not_by_day"
    SKY_TOO_BRIGHT = "sky_too_bright"
    NO_WINDOW = "no_window"
    ONLY_BEFORE_SUNRISE = "only_before_sunrise"


@frozen(kw_only=True)
class Aim:
    """A direction for the telescope.

    ``altitude_deg`` is geometric. ``path`` is None below 5 degrees apparent altitude;
    ``dispersion_arcsec`` is the spread of the colours there. Where a ``refusal``
    stands nothing is offered; without a moment to offer (``at``) there is no direction either, and
    ``why_not`` has the reason of the whole evening. ``behind`` names what blocks that part of the sky,
    ``through`` what warms the air in the line of sight; ``daylight`` is set while the Sun is up, or without
    a moment for a body that is too near it; ``sunrise_is_near`` within the last minutes before it rises.
    """

    planet: Body | None
    at: datetime | None
    altitude_deg: float | None
    apparent_altitude_deg: float | None
    path: float | None
    declination_deg: float | None
    dispersion_arcsec: float = 0.0
    overhead: bool = False
    behind: str | None = None
    through: str | None = None
    daylight: Daylight | None = None
    sunrise_is_near: bool = False
    refusal: Refusal | None = None
    why_not: NoWindow | None = None

    @property
    def is_offered(self) -> bool:
        """Whether powers are offered there."""
        return self.refusal is None

    def limits_of(
        self,
        scope: Telescope,
        *,
        blur: Blur,
        mirror_arcsec: float = 0.0,
        usual_air: float = USUAL_AIR_POWER,
    ) -> Limits:
        """Return the limits of power of a telescope pointed there, in tonight's blur; see ``find_limits``."""
        return find_limits(
            aperture_mm=working_aperture_mm(scope),
            path=self.path,
            dispersion_arcsec=self.dispersion_arcsec,
            blur=blur,
            mirror_arcsec=mirror_arcsec,
            usual_air=usual_air,
        )


def aim_altitude(altitude_deg: float) -> Aim:
    """Return the aim at a geometric altitude in degrees, in the standard air of sea level."""
    apparent_deg = float(apparent_altitude_deg(altitude_deg))
    return Aim(
        planet=None,
        at=None,
        altitude_deg=altitude_deg,
        apparent_altitude_deg=apparent_deg,
        path=path_or_none(apparent_deg),
        dispersion_arcsec=aim_spread_arcsec(dispersion_at(apparent_deg)),
        declination_deg=None,
    )


def aim_overhead() -> Aim:
    """Return the aim straight overhead, for when neither a planet nor a height is given."""
    return Aim(
        planet=None,
        at=None,
        altitude_deg=90.0,
        apparent_altitude_deg=90.0,
        path=1.0,
        declination_deg=None,
        overhead=True,
    )


def aim_spread_arcsec(dispersion: Dispersion | None) -> float:
    """Return the spread of the colours in arcsec as an aim has it, nothing where it cannot be told."""
    return 0.0 if dispersion is None else dispersion.arcsec
