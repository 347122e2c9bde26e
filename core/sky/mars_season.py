"""The season on Mars: the Sun's areocentric longitude, and what it means for the look of the disc."""

from datetime import datetime
from typing import Final

import astronomy
import numpy as np
from attrs import frozen

from core.sky.axes import array_of, direction, pose
from core.sky.bodies import Body

_SEASONS: Final = ("spring", "summer", "autumn", "winter")
_PARTS: Final = ("early", "mid", "late")


@frozen(kw_only=True)
class MarsSeason:
    """The season on Mars: ``solar_longitude_deg`` is Ls, 0 at the start of northern spring."""

    solar_longitude_deg: float

    @property
    def northern(self) -> str:
        """The northern season in words, such as "late spring"; the southern one is half a year off."""
        return _season(self.solar_longitude_deg)

    @property
    def southern(self) -> str:
        """The southern season in words."""
        return _season((self.solar_longitude_deg + 180.0) % 360.0)

    @property
    def dust_likely(self) -> bool:
        """Whether it is the time of year of wide dust storms, Ls 180 to 330 (common practice)."""
        return 180.0 <= self.solar_longitude_deg < 330.0

    @property
    def north_cap_edge_deg(self) -> float:
        """Planetographic latitude down to which the northern cap reaches; see ``_cap_edge_deg``."""
        return _cap_edge_deg(self.solar_longitude_deg)

    @property
    def south_cap_edge_deg(self) -> float:
        """The same for the southern cap, as a positive latitude."""
        return _cap_edge_deg((self.solar_longitude_deg + 180.0) % 360.0)


def _season(longitude_deg: float) -> str:
    quarter, within = divmod(longitude_deg % 360.0, 90.0)
    return f"{_PARTS[int(within // 30.0)]} {_SEASONS[int(quarter)]}"


def _cap_edge_deg(longitude_deg: float) -> float:
    """Return the latitude of a cap's edge, given Ls counted from that hemisphere's spring.

    A rough year common to both caps: largest at the end of winter, melted back by midsummer, hidden
    under autumn's haze and growing in winter (common practice, no source).
    """
    return float(
        np.interp(longitude_deg % 360.0, (0.0, 60.0, 120.0, 180.0, 270.0, 360.0), (62, 74, 84, 84, 68, 62))
    )


def mars_season(time: datetime) -> MarsSeason:
    """Return the season on Mars as it is seen from the Earth at a time (aware).

    Ls is counted along the plane in which Mars moves just then, from its rising through the plane of
    Mars' equator; against the mean orbit that is a few hundredths of a degree.
    """
    turned = pose(Body.MARS, time.timestamp())
    state = astronomy.HelioState(astronomy.Body.Mars, turned.left)
    orbit = np.cross(array_of(state.Position()), [state.vx, state.vy, state.vz])
    orbit = direction(orbit)
    spring = direction(np.cross(turned.pole, orbit))
    ahead = np.cross(orbit, spring)
    longitude = np.degrees(np.arctan2(turned.to_sun @ ahead, turned.to_sun @ spring))
    return MarsSeason(solar_longitude_deg=float(longitude) % 360.0)
