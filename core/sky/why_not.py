"""Why a body has no window in an evening, as a kind and in words."""

from enum import StrEnum

import numpy as np

from core.sky.bodies import Body
from core.sky.ephemeris import Floats
from core.sky.events import LOWEST_USEFUL_DEG, SUN_HORIZON_DEG, BodyState, Heights
from core.sky.windows import UNNAMED_BLOCK, View, blocked_words, intersect


class WhyNot(StrEnum):
    """The kinds of reason for having no window."""

    NEVER_UP = "never_up"
    SUN_UP = "sun_up"
    NO_DARK_SKY = "no_dark_sky"
    BLOCKED = "blocked"
    TOO_LOW = "too_low"


def explain(
    body: Body, view: View, heights: Heights, sun: Heights, sun_below_deg: float
) -> tuple[WhyNot, str]:
    """Return why a body has no window: the kind, and words that follow its name ("never above 7° ...").

    ``sun_below_deg`` is the altitude under which the Sun must stand for this body. The reasons are tried
    in the order never up, Sun up or no dark sky, behind blocked sky, too low: the first that holds is told.
    """
    state = heights.state()
    if state is BodyState.NEVER_UP:
        return WhyNot.NEVER_UP, f"never up: it stays at least {-heights.highest_deg:.1f}° below the horizon"
    always = "always up, but " if state is BodyState.ALWAYS_UP else ""
    if len(view.dark) == 0:
        return WhyNot.NO_DARK_SKY, always + _bright_sky_words(body, sun.lowest_deg, sun_below_deg)
    seen = intersect(view.dark, view.up)
    if len(seen) == 0:
        return WhyNot.SUN_UP, "up only while the Sun is up too or the sky is still too bright"
    useful = intersect(view.dark, view.useful)
    hidden = useful if len(useful) else seen
    blocked_by = [name for name, spans in view.blocked if len(intersect(hidden, spans))]
    if len(useful) or (blocked_by and _all_blocked(seen, view)):
        where = f"above {LOWEST_USEFUL_DEG:.0f}°" if len(useful) else "up"
        names = [name for name in dict.fromkeys(blocked_by) if name != UNNAMED_BLOCK]
        behind = blocked_words(" and ".join(names) or UNNAMED_BLOCK)
        return WhyNot.BLOCKED, f"{always}{behind} whenever it is {where} in a dark sky"
    highest_deg = np.degrees(np.arcsin(heights.course.highest_within(seen)[1]))
    return WhyNot.TOO_LOW, f"{always}never above {max(highest_deg, 0.0):.0f}° in a dark sky"


def _bright_sky_words(body: Body, sun_lowest_deg: float, sun_below_deg: float) -> str:
    if sun_lowest_deg > SUN_HORIZON_DEG:
        return "no dark sky: the Sun stays up"
    return (
        f"no dark sky: the Sun gets {-sun_lowest_deg:.1f}° below the horizon at most, "
        f"and {body.label} needs {-sun_below_deg:g}°"
    )


def _all_blocked(seen: Floats, view: View) -> bool:
    """Tell whether every moment of some spans is behind something, but for a minute in all."""
    left_s = float(np.sum(seen[:, 1] - seen[:, 0]))
    for _, spans in view.blocked:
        shared = intersect(seen, spans)
        left_s -= float(np.sum(shared[:, 1] - shared[:, 0]))
    return left_s < 60.0
