"""Why a body has no window in an evening, as a kind and figures."""

from enum import StrEnum

import numpy as np
from attrs import evolve, frozen

from core.arrays import Floats
from core.sky.events import BodyState, Heights
from core.sky.sky_parts import UNNAMED_BLOCK
from core.sky.spans import intersect
from core.sky.windows import View


class WhyNot(StrEnum):
    """The kinds of reason for having no window."""

    NEVER_UP = "never_up"
    SUN_UP = "sun_up"
    NO_DARK_SKY = "no_dark_sky"
    BLOCKED = "blocked"
    TOO_LOW = "too_low"


@frozen(kw_only=True)
class NoWindow:
    """Why a body has no window: the kind, and the figures that belong to one kind or another.

    ``highest_deg`` is how high it gets: in a dark sky where it is up in one, else in the whole evening.
    ``sun_lowest_deg`` is how low the Sun gets, ``sun_below_deg`` how low it must for this body. ``behind``
    names what hides it, empty where the owner gave no name; ``is_high_enough`` tells whether it is hidden
    above 10 degrees, and not only lower down.
    """

    kind: WhyNot
    highest_deg: float
    sun_lowest_deg: float
    sun_below_deg: float
    is_always_up: bool = False
    is_high_enough: bool = False
    behind: tuple[str, ...] = ()


def explain(view: View, heights: Heights, sun: Heights, sun_below_deg: float) -> NoWindow:
    """Return why a body has no window.

    ``sun_below_deg`` is the altitude under which the Sun must stand for this body. The reasons are tried
    in the order never up, Sun up or no dark sky, behind blocked sky, too low: the first that holds is told.
    """
    state = heights.state()
    why_not = NoWindow(
        kind=WhyNot.NEVER_UP,
        highest_deg=heights.highest_deg,
        sun_lowest_deg=sun.lowest_deg,
        sun_below_deg=sun_below_deg,
        is_always_up=state is BodyState.ALWAYS_UP,
    )
    if state is BodyState.NEVER_UP:
        return why_not
    if len(view.dark) == 0:
        return evolve(why_not, kind=WhyNot.NO_DARK_SKY)
    seen = intersect(view.dark, view.up)
    if len(seen) == 0:
        return evolve(why_not, kind=WhyNot.SUN_UP)
    useful = intersect(view.dark, view.useful)
    is_high_enough = len(useful) > 0
    hidden = useful if is_high_enough else seen
    blocked_by = [name for name, spans in view.blocked if len(intersect(hidden, spans))]
    if is_high_enough or (blocked_by and _all_blocked(seen, view)):
        behind = tuple(name for name in dict.fromkeys(blocked_by) if name != UNNAMED_BLOCK)
        return evolve(why_not, kind=WhyNot.BLOCKED, is_high_enough=is_high_enough, behind=behind)
    highest_deg = float(np.degrees(np.arcsin(heights.course.highest_within(seen)[1])))
    return evolve(why_not, kind=WhyNot.TOO_LOW, highest_deg=highest_deg)


def _all_blocked(seen: Floats, view: View) -> bool:
    """Tell whether every moment of some spans is behind something, but for a minute in all."""
    left_s = float(np.sum(seen[:, 1] - seen[:, 0]))
    for _, spans in view.blocked:
        shared = intersect(seen, spans)
        left_s -= float(np.sum(shared[:, 1] - shared[:, 0]))
    return left_s < 60.0
