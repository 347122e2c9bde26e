"""The words of safety about the Sun that stand beside gear and in a year (common practice, safety)."""

from core.sky.bodies import Body
from core.sky.sunlight import SUNLIGHT_BLINDS

FILTERS_AND_SUN = "No filter here makes the Sun safe to look at."
DARK_FILTERS_AND_SUN = (
    "No filter here makes the Sun safe to look at, a neutral or a dark one as little as any other: "
    "what dims a planet lets through enough of the Sun to blind."
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
    f"{SUNLIGHT_BLINDS}"
)


def inferior_conjunction_caution(body: Body, days: str) -> str:
    """Return what must be known of the days on which a planet passes between the Sun and us."""
    return _INFERIOR_CONJUNCTION.format(name=body.heading, days=days)


def filter_caution(*, is_dark: bool) -> str:
    """Return what must be known of a filter and the Sun; ``is_dark`` for a neutral or a dark one."""
    return DARK_FILTERS_AND_SUN if is_dark else FILTERS_AND_SUN
