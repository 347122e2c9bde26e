"""A place to observe from: coordinates, time zone, and the sky that it hides or spoils."""

from functools import cached_property
from zoneinfo import ZoneInfo

import numpy as np
from attrs import field, frozen

from core.arrays import Floats, Truths
from core.checks import is_number, not_blank, within
from core.sky.zones import check_zone

# A heated roof spoils the air up to this much above its edge (common practice: 5 to 10 degrees).
WARM_BAND_ABOVE_ROOF_DEG = 10.0


def _wrapped_longitude(value: float) -> float:
    """Take east longitudes counted from 0 to 360 as well."""
    return value - 360.0 if is_number(value) and 180.0 < value <= 360.0 else value


@frozen(kw_only=True)
class _Sector:
    """Sky from one true azimuth clockwise to another, up to an apparent altitude; may pass through north."""

    azimuth_from_deg: float = field(validator=within(0, 360, "degrees"))
    azimuth_to_deg: float = field(validator=within(0, 360, "degrees"))
    below_altitude_deg: float = field(validator=within(0, 90, "degrees"))
    what: str = ""

    def spans(self, azimuth_deg: Floats) -> Truths:
        """Tell which azimuths (N,) in degrees lie in the sector, edges included."""
        width = (self.azimuth_to_deg - self.azimuth_from_deg) % 360.0
        if width == 0.0 and self.azimuth_to_deg != self.azimuth_from_deg:
            width = 360.0
        return np.asarray((np.asarray(azimuth_deg) - self.azimuth_from_deg) % 360.0 <= width)


@frozen(kw_only=True)
class BlockedSky(_Sector):
    """Sky that cannot be seen; ``heated`` adds a band of warm air up to 10 degrees above it."""

    heated: bool = False


@frozen(kw_only=True)
class WarmAir(_Sector):
    """Sky that is seen through rising warm air."""


@frozen(kw_only=True, slots=False)
class Site:
    """A place: degrees north and east positive, metres above the sea, an IANA time zone."""

    id: str = ""
    name: str = field(validator=not_blank)
    latitude_deg: float = field(validator=within(-90, 90, "degrees"))
    longitude_deg: float = field(converter=_wrapped_longitude, validator=within(-180, 180, "degrees"))
    elevation_m: float = field(default=0.0, validator=within(-430, 6000, "m"))
    time_zone: str = field(validator=lambda _i, _a, value: check_zone(value))
    blocked: tuple[BlockedSky, ...] = ()
    warm_air: tuple[WarmAir, ...] = ()

    @cached_property
    def zone(self) -> ZoneInfo:
        """The site's clock."""
        return ZoneInfo(self.time_zone)
