"""Where the telescope points, in words."""

from core.ladder.aim import Aim
from core.words.directions import altitude_text
from core.words.quantities import rounded_text
from core.words.site_clock import SiteClock


def aim_words(aim: Aim) -> str:
    """Return where the scope points, as inside a sentence."""
    if aim.overhead:
        return "straight overhead"
    height = altitude_text(aim.altitude_deg)
    return f"for {aim.planet.label} at {height}" if aim.planet else f"at {height}"


def aim_heading(aim: Aim, clock: SiteClock | None, *, is_now: bool, is_moment: bool) -> str:
    """Return what the scope points at and when: now, at the moment looked at, or at its best."""
    if aim.planet is None or aim.at is None or clock is None:
        return "Straight overhead"
    when = clock.time(aim.at)
    if is_now:
        return f"{aim.planet.heading} now, {when}"
    if is_moment:
        return f"{aim.planet.heading} at {when}"
    # Without good minutes its highest is no best: that may well be at noon.
    return f"{aim.planet.heading} at its {'best' if aim.reason is None else 'highest'}, {when}"


def aim_detail(aim: Aim) -> str:
    """Return height and air path, what was assumed, and what must be known before looking there."""
    if aim.overhead:
        return "No site or planet yet, so the air is taken as thin as it gets."
    height = f"{rounded_text(aim.altitude_deg)}° high" if aim.altitude_deg >= 0 else "below the horizon"
    path = f", air path {rounded_text(aim.path, 1)}" if aim.path is not None else ""
    is_told_with_ceiling = aim.path is None or aim.too_near_the_sun
    assumed = "" if aim.reason is None or is_told_with_ceiling else f". {aim.reason}"
    words = f"{height}{path}{assumed}"
    return f"{words}. {' '.join(aim.notices)}" if aim.notices else words
