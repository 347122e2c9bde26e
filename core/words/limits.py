"""The names of what limits power, the same wherever they stand, and whether a figure was only assumed."""

from attrs import frozen

from core.air.finest_detail import LimitKind
from core.air.limits import Line
from core.air.steadiness import FIRST_LOOK_BLUR_ARCSEC, BlurSource
from core.gear.aperture import working_aperture_mm
from core.gear.numbers import number_text
from core.ladder.ladder import Ladder
from core.words.aim import aim_words
from core.words.ladder import no_ceiling_text
from core.words.names import listed
from core.words.quantities import figures_text, power_text, two_figures

_NAMES = {
    LimitKind.APERTURE: "the aperture",
    LimitKind.USUAL_AIR: "the usual air",
    LimitKind.TONIGHT_AIR: "tonight's air",
    LimitKind.HEIGHT: "the height, which smears the colours",
}
# With the other word of the trade for the air, which each view says once.
_EXPLAINED = {
    LimitKind.APERTURE: "the aperture",
    LimitKind.USUAL_AIR: "the usual air",
    LimitKind.TONIGHT_AIR: "tonight's air (seeing)",
    LimitKind.HEIGHT: "the height, which smears the colours",
}
_LINES = {
    Line.APERTURE: "The aperture",
    Line.USUAL_AIR: "The usual air",
    Line.TOGETHER: "Aperture and air (seeing)",
}
BUILT_IN = "its built-in power"

_CEILING = "{power}, by {limit}"


@frozen(kw_only=True)
class LimitLine:
    """One limit of power: its name, the power, why it is what it is, and whether it sets the ceiling."""

    kind: Line
    name: str
    power: str
    why: str
    sets_ceiling: bool


def limit_name(kind: LimitKind, *, explain_air: bool = False) -> str:
    """Return the name of a limit, as inside a sentence; ``explain_air`` adds the word "seeing" to the air."""
    return (_EXPLAINED if explain_air else _NAMES)[kind]


def ceiling_figure_text(ladder: Ladder) -> str | None:
    """Return a ladder's ceiling and what sets it: ``150x, by tonight's air``; None without one."""
    ceiling = ladder.ceiling
    if ceiling.power is None or ceiling.set_by is None:
        return None
    return _CEILING.format(power=power_text(ceiling.power), limit=limit_name(ceiling.set_by))


def limits_sentence(ladder: Ladder) -> str:
    """Return the three limits of power."""
    limits, blur = ladder.limits, ladder.blur
    words = [f"aperture {power_text(limits.aperture)}", f"usual air {power_text(limits.usual_air)}"]
    if limits.together is not None:
        look = next(
            (look for look, arcsec in FIRST_LOOK_BLUR_ARCSEC.items() if arcsec == blur.overhead_arcsec), None
        )
        air = f"{look} air" if look else f"a blur of {two_figures(blur.overhead_arcsec)}″ overhead"
        assumed = ", assumed" if blur.source is BlurSource.ASSUMED else ""
        words.append(f"aperture and air (seeing) together {power_text(limits.together)} with {air}{assumed}")
    return f"Rules of thumb: {listed(words)}."


def ceiling_sentence(ladder: Ladder) -> str:
    """Return how far up the ladder goes where the scope points, and what stops it."""
    ceiling = ladder.ceiling
    if ceiling.power is None or ceiling.set_by is None:
        return f"No ceiling: {no_ceiling_text(ladder)}"
    about = f"about {power_text(ceiling.power)} {aim_words(ladder.aim)}"
    return f"Ceiling {about}, set by {limit_name(ceiling.set_by)}."


def limit_lines(ladder: Ladder) -> tuple[LimitLine, ...]:
    """Return the three limits, in the order in which ties are told."""
    lines = []
    powers = ladder.limits.lines()
    for kind in Line:
        power = powers.get(kind)
        lines.append(
            LimitLine(
                kind=kind,
                name=_LINES[kind],
                power="none" if power is None else power_text(power),
                why=_why(kind, ladder),
                sets_ceiling=ladder.ceiling.line is kind,
            )
        )
    return tuple(lines)


def ceiling_note(ladder: Ladder) -> str:
    """Return what the ceiling is and what sets it, or why there is none."""
    if ladder.ceiling.set_by is None:
        return f"No ceiling: {no_ceiling_text(ladder)}"
    name = limit_name(ladder.ceiling.set_by, explain_air=True)
    return f"the ceiling, set by {name}: a rule of thumb, not a lock"


def _why(kind: Line, ladder: Ladder) -> str:
    if kind is Line.APERTURE:
        return f"2x for each of {figures_text(working_aperture_mm(ladder.scope), 6)} mm"
    if kind is Line.USUAL_AIR:
        return "common practice"
    if ladder.limits.together is None:
        return "too low to say"
    assumed = ", assumed" if ladder.blur.source is BlurSource.ASSUMED else ""
    return f"blur {number_text(ladder.blur.overhead_arcsec)}″{assumed}"
