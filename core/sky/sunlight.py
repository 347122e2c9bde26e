"""The Sun beside a body that is looked for: what must be said wherever optics and daylight meet."""

from datetime import datetime
from typing import Final

from attrs import frozen

from core.sky.bodies import Body
from core.sky.events import SUN_HORIZON_DEG
from core.sky.night import Night
from core.sky.track import separation_deg

# Nearer to the Sun than this nothing is offered (safety; common practice, no source).
TOO_NEAR_THE_SUN_DEG: Final = 15.0

SUNLIGHT_BLINDS: Final = "Sunlight through any optics blinds at once."


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

    @property
    def refusal(self) -> str:
        """Why nothing is offered, as words without a full stop."""
        return (
            f"{self.body.heading} stands {self.from_sun_deg:.0f}° {_side(self.east_of_sun)} of the Sun, "
            "which is up: nothing is offered so near it"
        )

    @property
    def caution(self) -> str:
        """The words of safety, as sentences."""
        if self.is_too_near:
            return f"Do not look for {self.body.label} so near the Sun. {SUNLIGHT_BLINDS}"
        turning = "goes ahead of it" if self.east_of_sun else "follows it across the sky"
        return (
            f"{self.body.heading} stands {self.from_sun_deg:.0f}° {_side(self.east_of_sun)} of the Sun, "
            f"which is up and {turning}: stand in the shadow of something solid, never sweep, and cap the "
            f"telescope when you step away. {SUNLIGHT_BLINDS}"
        )


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
    from core.sky.disc import disc_at

    return disc_at(body, time).east_of_sun


def beside_the_sun(body: Body, elongation_deg: float, time: datetime) -> str:
    """Return how far from the Sun a body stands and on which side, ``6° east of the Sun``."""
    return f"{elongation_deg:.0f}° {_side(is_east_of_sun(body, time))} of the Sun"


def _side(east: bool) -> str:  # noqa: FBT001 - a word for a flag
    return "east" if east else "west"
