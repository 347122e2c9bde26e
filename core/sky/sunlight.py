"""The Sun beside a body that is looked for."""

from datetime import datetime
from typing import Final

from attrs import frozen

from core.sky.bodies import Body
from core.sky.events import SUN_HORIZON_DEG
from core.sky.night import Night
from core.sky.track import separation_deg

# Nearer to the Sun than this nothing is offered (safety; common practice, no source).
TOO_NEAR_THE_SUN_DEG: Final = 15.0

# What can be found with the Sun up at all; Mercury only by the well practised (common practice, no source).
LOOKED_AT_BY_DAY: Final = frozenset({Body.MOON, Body.VENUS, Body.JUPITER, Body.MERCURY})


@frozen(kw_only=True)
class Daylight:
    """A body at a moment at which the Sun is up: how far from it, and on which side."""

    body: Body
    from_sun_deg: float
    east_of_sun: bool

    @property
    def is_too_near(self) -> bool:
        """Whether it stands so near the Sun that nothing is offered."""
        return self.from_sun_deg < TOO_NEAR_THE_SUN_DEG


def daylight_at(night: Night, body: Body, time: datetime) -> Daylight | None:
    """Return how a body stands to the Sun at a time (aware), None while no part of the Sun is up."""
    sun = night.position(Body.SUN, time)
    if sun.altitude_deg <= SUN_HORIZON_DEG:
        return None
    return Daylight(
        body=body,
        from_sun_deg=separation_deg(sun, night.position(body, time)),
        east_of_sun=is_east_of_sun(body, time),
    )


def is_east_of_sun(body: Body, time: datetime) -> bool:
    """Tell whether a body stands east of the Sun, on its evening side."""
    # What this is found with takes a while to load, and most questions about the Sun do without it.
    from core.sky.disc import disc_at

    return disc_at(body, time).east_of_sun
