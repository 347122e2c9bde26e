"""When Jupiter's red spot crosses the middle of the disc, from the longitude that its owner keeps."""

from datetime import UTC, date, datetime
from math import ceil
from typing import Final

from attrs import frozen

from core.sky.axes import pose
from core.sky.bodies import Body
from core.sky.disc import SYSTEM_II_DEG_PER_DAY, central_meridians
from core.sky.ephemeris import DAY_S

# Past this age a longitude is told to be old (ours): the spot drifts by 1 to 2 degrees a month (common
# practice), so that by then a passage may come ten minutes off.
OLD_AFTER_DAYS: Final = 120
DRIFT_DEG_PER_MONTH: Final = 2.0
# It is well placed for this long before and after: nearer to the middle than to the edge (common practice).
WELL_PLACED_MINUTES: Final = 50


@frozen(kw_only=True)
class RedSpotPasses:
    """When the spot is in the middle of the disc (aware UTC), and how far its longitude can be trusted.

    ``days_from_measured`` is how long before or after the measuring of the longitude they come;
    ``uncertain_by_minutes`` is what a drift of 2 degrees a month makes of that, an estimate. ``next_seen`` is
    the next passage that can be looked at, where none of the ``times`` can.
    """

    longitude_deg: float
    measured_on: date
    times: tuple[datetime, ...]
    days_from_measured: int
    next_seen: datetime | None = None

    @property
    def is_old(self) -> bool:
        """Whether the longitude was measured too long before or after."""
        return self.days_from_measured > OLD_AFTER_DAYS

    @property
    def uncertain_by_minutes(self) -> int:
        """How far off a passage may be by the spot's drift, whole minutes rounded up."""
        drifted_deg = DRIFT_DEG_PER_MONTH * self.days_from_measured / 30.44
        return ceil(drifted_deg / SYSTEM_II_DEG_PER_DAY * 1440.0)


def red_spot_passes(longitude_deg: float, measured_on: date, start: datetime, end: datetime) -> RedSpotPasses:
    """Return when the spot passes the middle between two times (aware), from its System II longitude.

    The middle is that of the whole disc, without a correction for phase.
    """
    times = []
    moment_s = _next_pass_s(longitude_deg, start.timestamp())
    while moment_s < end.timestamp():
        times.append(datetime.fromtimestamp(moment_s, UTC))
        moment_s = _next_pass_s(longitude_deg, moment_s + 60.0)
    return RedSpotPasses(
        longitude_deg=longitude_deg,
        measured_on=measured_on,
        times=tuple(times),
        days_from_measured=abs((start.date() - measured_on).days),
    )


def _next_pass_s(longitude_deg: float, from_s: float) -> float:
    """Return the first Unix second from a given one on at which a System II longitude faces the Earth."""
    moment_s = from_s + (longitude_deg - _system_ii_deg(from_s)) % 360.0 / SYSTEM_II_DEG_PER_DAY * DAY_S
    for _ in range(2):
        left_deg = (longitude_deg - _system_ii_deg(moment_s) + 180.0) % 360.0 - 180.0
        moment_s += left_deg / SYSTEM_II_DEG_PER_DAY * DAY_S
    return moment_s


def _system_ii_deg(unix_s: float) -> float:
    found = central_meridians(pose(Body.JUPITER, unix_s))
    return next(meridian.longitude_deg for meridian in found if meridian.system == "II")
