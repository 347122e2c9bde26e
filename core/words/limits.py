"""The names of what limits power, the same wherever they stand, and whether a figure was only assumed."""

from core.air.steadiness import BlurSource, LimitKind
from core.ladder.ladder import Ladder
from core.words.quantities import power_text

_NAMES = {
    LimitKind.APERTURE: "the aperture",
    LimitKind.USUAL_AIR: "the usual air",
    LimitKind.TONIGHT_AIR: "tonight's air",
}
# With the other word of the trade for the air, which each view says once.
_EXPLAINED = {
    LimitKind.APERTURE: "the aperture",
    LimitKind.USUAL_AIR: "the usual air",
    LimitKind.TONIGHT_AIR: "tonight's air (seeing)",
}
BUILT_IN = "its built-in power"

_CEILING = "{power}, by {limit}"
_BLUR = {
    BlurSource.GIVEN: "{blur} overhead, as given",
    BlurSource.ASSUMED: "{blur} overhead, assumed",
    BlurSource.LOG: "{blur} overhead, from your log",
}


def limit_name(kind: LimitKind, *, explain_air: bool = False) -> str:
    """Return the name of a limit, as inside a sentence; ``explain_air`` adds the word "seeing" to the air."""
    return (_EXPLAINED if explain_air else _NAMES)[kind]


def limit_heading(kind: LimitKind) -> str:
    """Return the name of a limit as it opens a line, with the word "seeing" beside the air."""
    name = limit_name(kind, explain_air=True)
    return f"{name[0].upper()}{name[1:]}"


def ceiling_figure_text(ladder: Ladder) -> str | None:
    """Return a ladder's ceiling and what sets it: ``150x, by tonight's air``; None without one."""
    ceiling = ladder.ceiling
    if ceiling.power is None or ceiling.set_by is None:
        return None
    return _CEILING.format(power=power_text(ceiling.power), limit=limit_name(ceiling.set_by))


def blur_text(blur: str, source: BlurSource) -> str:
    """Return a blur overhead, already written as a figure, and where it comes from."""
    return _BLUR[source].format(blur=blur)
