"""What the ladder view says in words: where the scope points, what limits the power, and each rung."""

from attrs import frozen

from core.air.steadiness import BlurSource, LimitKind
from core.gear.numbers import number_text
from core.ladder.aim import Aim
from core.ladder.ladder import Ladder, Rung, Standing
from core.words.ladder import no_ceiling_text
from core.words.notices import notice_texts
from core.words.quantities import drift_text, field_text, per_mm_text, power_text, pupil_text
from core.words.site_clock import SiteClock

_LIMIT_NAMES = {
    LimitKind.APERTURE: "The aperture",
    LimitKind.USUAL_AIR: "The usual air",
    LimitKind.TONIGHT_AIR: "Tonight's air (seeing)",
}


@frozen(kw_only=True)
class LimitLine:
    """One limit of power: its name, the power, why it is what it is, and whether it sets the ceiling."""

    kind: LimitKind
    name: str
    power: str
    why: str
    sets_ceiling: bool


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
    height = f"{aim.altitude_deg:.0f}° high" if aim.altitude_deg >= 0 else "below the horizon"
    path = f", air path {aim.path:.1f}" if aim.path is not None else ""
    is_told_with_ceiling = aim.path is None or aim.too_near_the_sun
    assumed = "" if aim.reason is None or is_told_with_ceiling else f". {aim.reason}"
    words = f"{height}{path}{assumed}"
    return f"{words}. {' '.join(aim.notices)}" if aim.notices else words


def limit_lines(ladder: Ladder) -> tuple[LimitLine, ...]:
    """Return the three limits, in the order in which ties are told."""
    lines = []
    for kind in LimitKind:
        power = ladder.limits.of(kind)
        lines.append(
            LimitLine(
                kind=kind,
                name=_LIMIT_NAMES[kind],
                power="none" if power is None else power_text(power),
                why=_why(kind, ladder),
                sets_ceiling=ladder.ceiling.set_by is kind,
            )
        )
    return tuple(lines)


def rung_figures(rung: Rung) -> str:
    """Return a rung's exit pupil, field and drift in one line."""
    figures = [f"pupil {pupil_text(rung.exit_pupil_mm)}"]
    if rung.true_field_deg is not None:
        figures.append(f"field {field_text(rung.true_field_deg)}")
    if rung.drift_s is not None:
        figures.append(f"drift {drift_text(rung.drift_s)}")
    return "  ·  ".join(figures)


def next_step(rung: Rung, ladder: Ladder) -> str:
    """Return what to do after a rung, and why; common practice: one rung at a time."""
    top = ladder.climb_to
    if top is None or ladder.ceiling.set_by is None:
        return ""
    limit = _LIMIT_NAMES[ladder.ceiling.set_by].lower()
    if rung.power > top:
        return f"Over what {limit} allows: when it looks soft, step back to {power_text(top)}."
    if rung.power == top:
        return f"As far as {limit} allows. Give it a minute or two, and wait for the still moments."
    following = next(other for other in ladder.rungs if other.power > rung.power)
    return (
        f"Next {power_text(following.power)}, {following.label}: refocus, re-centre, let the mount settle, "
        "watch a minute or two."
    )


def rung_detail(rung: Rung, ladder: Ladder) -> str:
    """Return all that deserves a word about a rung, as sentences."""
    words = [next_step(rung, ladder)]
    words.append(
        f"{power_text(rung.power)} is {per_mm_text(rung.power, ladder.scope.aperture_mm)} of aperture."
    )
    if rung is ladder.rungs[0]:
        words += notice_texts(ladder.notices)
    words += notice_texts(rung.notices)
    if rung.alternatives:
        others = ", ".join(f"{other.label} ({power_text(other.power)})" for other in rung.alternatives)
        words.append(f"Nearly the same power: {others}.")
    return " ".join(word for word in words if word)


def part_of(rung: Rung, ladder: Ladder) -> str:
    """Return what part a rung plays tonight."""
    parts = []
    if rung.power == ladder.start:
        parts.append("start")
    if rung.power == ladder.climb_to:
        parts.append("climb to here")
    if rung.standing is Standing.ABOVE:
        parts.append("over the ceiling")
    elif rung.standing is Standing.BELOW and not parts:
        parts.append("low for a planet")
    return ", ".join(parts)


def ceiling_note(ladder: Ladder) -> str:
    """Return what the ceiling is and what sets it, or why there is none."""
    if ladder.ceiling.set_by is None:
        return f"No ceiling: {no_ceiling_text(ladder)}"
    name = _LIMIT_NAMES[ladder.ceiling.set_by].lower()
    return f"the ceiling, set by {name}: a rule of thumb, not a lock"


def _why(kind: LimitKind, ladder: Ladder) -> str:
    if kind is LimitKind.APERTURE:
        return f"2x for each of {ladder.scope.aperture_mm:g} mm"
    if kind is LimitKind.USUAL_AIR:
        return "common practice"
    if ladder.limits.tonight_air is None:
        return "too low to say"
    assumed = ", assumed" if ladder.blur.source is BlurSource.ASSUMED else ""
    return f"blur {number_text(ladder.blur.overhead_arcsec)}″{assumed}"
