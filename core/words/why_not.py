"""Why a body has no window in an evening, in words."""

from typing import Final

from core.sky.bodies import Body
from core.sky.events import LOWEST_USEFUL_DEG, SUN_HORIZON_DEG
from core.sky.why_not import NoWindow, WhyNot
from core.words.obstacles import all_blocked_words
from core.words.quantities import angle_text, trimmed_text

_NEVER_UP: Final = "never up, for it stays at least {depth} below the horizon"
_SUN_UP: Final = "up only while the Sun is up too or the sky is still too bright"
# Of two templates the second is for a body that never sets.
_SUN_STAYS_UP: Final = (
    "never up in a dark sky, for the Sun stays up",
    "always up, but never in a dark sky, for the Sun stays up",
)
_NO_DARK_SKY: Final = (
    (
        "never up in a dark sky, for the Sun gets {sun_depth} below the horizon at most, and {body} needs "
        "{needed}"
    ),
    (
        "always up, but never in a dark sky, for the Sun gets {sun_depth} below the horizon at most, and "
        "{body} needs {needed}"
    ),
)
_BLOCKED_WHEN_UP: Final = (
    "{behind} whenever it is up in a dark sky",
    "always up, but {behind} whenever it is up in a dark sky",
)
_BLOCKED_WHEN_HIGH: Final = (
    "{behind} whenever it is above {lowest} in a dark sky",
    "always up, but {behind} whenever it is above {lowest} in a dark sky",
)
# Up in it for a moment, and only in the haze of the horizon.
_NOT_CLEAR: Final = "never clear of the horizon in a dark sky"
_CLEAR_FROM_DEG: Final = 0.5
_TOO_LOW: Final = (
    "never above {highest} in a dark sky",
    "always up, but never above {highest} in a dark sky",
)


def why_not_words(body: Body, why_not: NoWindow) -> str:
    """Return why a body has no window, as words that follow its name: ``never above 7° in a dark sky``."""
    figures = {
        "body": body.label,
        "depth": angle_text(-why_not.highest_deg, 1),
        "highest": angle_text(max(why_not.highest_deg, 0.0)),
        "sun_depth": angle_text(-why_not.sun_lowest_deg, 1),
        "needed": f"{trimmed_text(-why_not.sun_below_deg, 3)}°",
        "behind": all_blocked_words(why_not.behind),
        "lowest": angle_text(LOWEST_USEFUL_DEG),
    }
    return _template(why_not).format(**figures)


def _template(why_not: NoWindow) -> str:
    if why_not.kind is WhyNot.NEVER_UP:
        return _NEVER_UP
    if why_not.kind is WhyNot.SUN_UP:
        return _SUN_UP
    if why_not.kind is WhyNot.NO_DARK_SKY:
        templates = _SUN_STAYS_UP if why_not.sun_lowest_deg > SUN_HORIZON_DEG else _NO_DARK_SKY
    elif why_not.kind is WhyNot.BLOCKED:
        templates = _BLOCKED_WHEN_HIGH if why_not.is_high_enough else _BLOCKED_WHEN_UP
    elif why_not.highest_deg < _CLEAR_FROM_DEG and not why_not.is_always_up:
        return _NOT_CLEAR
    else:
        templates = _TOO_LOW
    return templates[why_not.is_always_up]
