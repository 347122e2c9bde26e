"""Words of safety: what must be said wherever optics and daylight meet (common practice, safety)."""

from datetime import datetime
from typing import Final

from core.sky.bodies import Body
from core.sky.sunlight import Daylight, is_east_of_sun
from core.words.names import opening
from core.words.quantities import angle_text

SUNLIGHT_BLINDS: Final = "Sunlight through any optics blinds at once."
FILTERS_AND_SUN = "No filter here makes the Sun safe to look at."
DARK_FILTERS_AND_SUN = (
    "No filter here makes the Sun safe to look at, not even a neutral or a dark one: it dims a planet, but "
    "lets enough sunlight through to blind."
)
FILTER_BY_DAY = (
    "For use by day: never sweep near the Sun; stand in the shadow of something solid, and cap the scope "
    "when you step away."
)
TELESCOPE_AND_SUN = (
    "Never point a telescope or its finder at the Sun or near it: that blinds at once. "
    "Cap both when they stand out by day."
)

MERCURY_AND_SUN = (
    "Mercury never stands far from the Sun: look for it only while all of the Sun is below the horizon, "
    "and cap the telescope and its finder before sunrise."
)
_INFERIOR_CONJUNCTION = (
    "{name} stands beside the Sun around its inferior conjunction, on {days}: do not look for it then. "
    "{blinds}"
)


CAP_BEFORE_SUNRISE: Final = (
    "Off the sky before sunrise: cap telescope and finder, and leave them capped by day."
)
HEATERS: Final = "On wet grass follow the heater's instructions and the local electrical rules."
SUN_IS_UP: Final = "The Sun is up: keep the telescope capped, and never point it near the Sun."
SUNRISE_IS_NEAR: Final = "The Sun rises within minutes: off the planet, and cap the telescope and its finder."
_TOO_NEAR: Final = "Do not look for {body} so near the Sun. {blinds}"
_BY_DAY_EAST: Final = (
    "{body} stands {angle} east of the Sun, which is up and goes ahead of it: stand in the shadow of "
    "something solid, never sweep, and cap the telescope when you step away. {blinds}"
)
_BY_DAY_WEST: Final = (
    "{body} stands {angle} west of the Sun, which is up and follows it across the sky: stand in the shadow "
    "of something solid, never sweep, and cap the telescope when you step away. {blinds}"
)
_MERCURY_BY_DAY: Final = "{caution} Mercury by day is very hard to find, and not worth a risk."
_BESIDE_EAST: Final = "{angle} east of the Sun"
_BESIDE_WEST: Final = "{angle} west of the Sun"


def daylight_caution(daylight: Daylight) -> str:
    """Return the words of safety for a body with the Sun up, as sentences."""
    body, angle = daylight.body, angle_text(daylight.from_sun_deg)
    if daylight.is_too_near:
        return _TOO_NEAR.format(body=body.label, blinds=SUNLIGHT_BLINDS)
    template = _BY_DAY_EAST if daylight.east_of_sun else _BY_DAY_WEST
    caution = template.format(body=opening(body), angle=angle, blinds=SUNLIGHT_BLINDS)
    return _MERCURY_BY_DAY.format(caution=caution) if body is Body.MERCURY else caution


def beside_the_sun(body: Body, elongation_deg: float, time: datetime) -> str:
    """Return how far from the Sun a body stands and on which side, ``6° east of the Sun``."""
    return side_of_the_sun(elongation_deg, east=is_east_of_sun(body, time))


def side_of_the_sun(angle_deg: float, *, east: bool) -> str:
    """Return an angle from the Sun and the side, ``6° east of the Sun``."""
    return (_BESIDE_EAST if east else _BESIDE_WEST).format(angle=angle_text(angle_deg))


def inferior_conjunction_caution(body: Body, days: str) -> str:
    """Return what must be known of the days on which a planet passes between the Sun and us."""
    return _INFERIOR_CONJUNCTION.format(name=body.heading, days=days, blinds=SUNLIGHT_BLINDS)


def filter_caution(*, is_dark: bool) -> str:
    """Return what must be known of a filter and the Sun; ``is_dark`` for a neutral or a dark one."""
    return DARK_FILTERS_AND_SUN if is_dark else FILTERS_AND_SUN
