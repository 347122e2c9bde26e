"""What is told of a ladder's limits: in a sentence, as lines across it and on the page of limits."""

from typing import Final

from attrs import frozen

from core.air.blur import Blur, BlurSource
from core.air.finest_detail import LimitKind
from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook
from core.air.limits import Line
from core.air.usual_air import USUAL_AIR_POWER
from core.gear.aperture import working_aperture_mm
from core.ladder.ladder import Ladder
from core.words.aim import aim_words
from core.words.air import blur_text, blur_words, judgement_text, overhead_blur_words
from core.words.ladder import no_ceiling_text
from core.words.limit_names import limit_in_full
from core.words.names import listed
from core.words.quantities import angle_text, figures_text, power_text, rounded_text

_LINES: Final = {
    Line.APERTURE: "The aperture",
    Line.USUAL_AIR: "The usual air",
    Line.TOGETHER: "Aperture and air (seeing)",
}
# As a line across a ladder is named.
_ACROSS: Final = {
    Line.APERTURE: "aperture limit",
    Line.USUAL_AIR: "usual air",
    Line.TOGETHER: "aperture and air",
}
_ACROSS_EXPLAINED: Final = {
    Line.APERTURE: "aperture limit",
    Line.USUAL_AIR: "usual air (seeing)",
    Line.TOGETHER: "aperture and air (seeing)",
}
# By whether the scope points straight up, and whether the air is only assumed.
_TOGETHER: Final = {
    (True, False): "{name} overhead",
    (True, True): "{name} overhead, assumed",
    (False, False): "{name} at {height}",
    (False, True): "{name} at {height}, assumed",
}
# By whether the air is only assumed.
_BAND: Final = {True: "perhaps {low}–{high}", False: "likely {low}–{high}"}
_LIFTED: Final = (
    "The usual limit is lifted to {power} for tonight. Nights that bear so much are rare: believe the view, "
    "not the number."
)
# As what can bear a power, by whether the air is only assumed.
_TONIGHTS: Final = (
    "aperture and tonight's air (seeing)",
    "aperture and tonight's air (seeing, assumed fair)",
)
_WITH_THE_MIRROR: Final = (
    "aperture, tonight's air (seeing) and the warm mirror",
    "aperture, tonight's air (seeing, assumed fair) and the warm mirror",
)
_AT_THE_HEIGHT: Final = (
    "aperture and tonight's air (seeing) at this height",
    "aperture and tonight's air (seeing, assumed fair) at this height",
)
_ON_MOST_NIGHTS: Final = "the air on most nights"
_BEARERS: Final = {
    LimitKind.APERTURE: _TONIGHTS,
    LimitKind.USUAL_AIR: (_ON_MOST_NIGHTS, _ON_MOST_NIGHTS),
    LimitKind.TONIGHT_AIR: _TONIGHTS,
    LimitKind.MIRROR: _WITH_THE_MIRROR,
    LimitKind.HEIGHT: _AT_THE_HEIGHT,
}
BUILT_IN: Final = "its built-in power"

_CEILING: Final = "{power}, by {limit}"
# The line beside it tells that aperture and air bound it together.
_CEILING_THERE: Final = {
    LimitKind.APERTURE: "Ceiling about {power} {where}, mostly by the aperture.",
    LimitKind.USUAL_AIR: "Ceiling about {power} {where}, by the usual air.",
    LimitKind.TONIGHT_AIR: "Ceiling about {power} {where}, mostly by the air.",
    LimitKind.MIRROR: "Ceiling about {power} {where}, mostly by the warm mirror.",
    LimitKind.HEIGHT: "Ceiling about {power} {where}, mostly by the height, which smears the colours.",
}
_NO_TELESCOPE: Final = "Add a telescope in Gear, and its ladder appears here."
_CEILING_NOTE: Final = "the ceiling, set by {limit}: a rule of thumb, not a lock"
_NO_CEILING: Final = "No ceiling: {reason}."
NO_CEILING_HERE: Final = "no ceiling"
_CEILING_AT: Final = "{power} ceiling"
_CEILING_BESIDE: Final = "ceiling: {limit}"
_RULES_WITHOUT_AIR: Final = "Rules of thumb: aperture {aperture} and usual air {usual_air}."
# By whether a first look is named by its word, and whether the air is only assumed.
_RULES: Final = {
    (True, False): (
        "Rules of thumb: aperture {aperture}, usual air {usual_air} and aperture and air (seeing) together "
        "{together} with {look} air."
    ),
    (True, True): (
        "Rules of thumb: aperture {aperture}, usual air {usual_air} and aperture and air (seeing) together "
        "{together} with {look} air, assumed."
    ),
    (False, False): (
        "Rules of thumb: aperture {aperture}, usual air {usual_air} and aperture and air (seeing) together "
        "{together} with a blur of {blur} overhead."
    ),
    (False, True): (
        "Rules of thumb: aperture {aperture}, usual air {usual_air} and aperture and air (seeing) together "
        "{together} with a blur of {blur} overhead, assumed."
    ),
}
_LIMITS: Final = (
    "Limits of power there: aperture {aperture}, usual air {usual_air}, tonight's air (seeing) {tonight_air} "
    "({blur}), aperture and air together {together}; the lowest is the ceiling."
)
# By whether the mirror is worse than the air.
_LIMITS_WITH_MIRROR: Final = {
    True: (
        "Limits of power there: aperture {aperture}, usual air {usual_air}, the warm mirror {tonight_air} "
        "(its blur of {mirror}″ outweighs that of the air (seeing); {blur}), all together {together}; the "
        "lowest is the ceiling."
    ),
    False: (
        "Limits of power there: aperture {aperture}, usual air {usual_air}, tonight's air (seeing) with the "
        "warm mirror {tonight_air} ({blur}; mirror {mirror}″), all together {together}; the lowest is the "
        "ceiling."
    ),
}
_LIMITS_WITHOUT_AIR: Final = (
    "Limits of power there: aperture {aperture}, usual air {usual_air}, tonight's air (seeing) unknown."
)
# By a mirror that is warmer than the air.
_WITH_MIRROR: Final = "{blur}; warm mirror {mirror}″"
_PER_MM: Final = "2x per mm of {aperture_mm} mm"
_COMMON_PRACTICE: Final = "common practice"
_TOO_LOW: Final = "too low to say"
_NONE: Final = "none"
# Limits this close, as a ratio, share one line and one label.
ONE_LINE_RATIO: Final = 1.004


def ceiling_title(power: float) -> str:
    """Return what stands at the line of the ceiling: ``170x ceiling``."""
    return _CEILING_AT.format(power=power_text(power))


def ceiling_beside(limit: str) -> str:
    """Return a limit that is the ceiling, where that finds no room beside its power."""
    return _CEILING_BESIDE.format(limit=limit)


@frozen(kw_only=True)
class LimitWords:
    """One line across a ladder: its power, the limits that meet there, and whether it is the ceiling."""

    power: float
    kinds: tuple[Line, ...]
    is_ceiling: bool
    words: str


@frozen(kw_only=True)
class LimitLine:
    """One limit of power: its name, the power, why it is what it is, and whether it sets the ceiling."""

    kind: Line
    name: str
    power: str
    why: str
    sets_ceiling: bool


def ceiling_figure_text(ladder: Ladder) -> str | None:
    """Return a ladder's ceiling and what sets it: ``150x, by aperture and air, ...``; None without one."""
    ceiling = ladder.ceiling
    if ceiling.power is None or ceiling.set_by is None:
        return None
    return _CEILING.format(power=power_text(ceiling.power), limit=limit_in_full(ceiling.set_by))


def limits_sentence(ladder: Ladder) -> str:
    """Return the three limits of power, as rules of thumb."""
    limits, blur = ladder.limits, ladder.blur
    aperture, usual_air = power_text(limits.aperture), power_text(limits.usual_air)
    if limits.together is None:
        return _RULES_WITHOUT_AIR.format(aperture=aperture, usual_air=usual_air)
    look = _named_look(blur)
    return _RULES[look is not None, blur.source is BlurSource.ASSUMED].format(
        aperture=aperture,
        usual_air=usual_air,
        together=power_text(limits.together),
        look="" if look is None else judgement_text(look),
        blur=blur_text(blur),
    )


def all_limits_sentence(ladder: Ladder) -> str:
    """Return what bounds power where the scope points, with the blur that it rests on."""
    limits = ladder.limits
    aperture, usual_air = power_text(limits.aperture), power_text(limits.usual_air)
    if limits.tonight_air is None or limits.together is None:
        return _LIMITS_WITHOUT_AIR.format(aperture=aperture, usual_air=usual_air)
    mirror = _mirror_text(ladder)
    template = _LIMITS
    if mirror is not None:
        template = _LIMITS_WITH_MIRROR[limits.detail is not None and limits.detail.mirror_is_worse]
    return template.format(
        aperture=aperture,
        usual_air=usual_air,
        tonight_air=power_text(limits.tonight_air),
        together=power_text(limits.together),
        blur=overhead_blur_words(ladder.blur),
        mirror=mirror,
    )


def what_sets_ceiling(ladder: Ladder) -> str:
    """Return what sets the ceiling, as what can bear a power: ``aperture and tonight's air (seeing)``."""
    set_by = ladder.ceiling.set_by
    assert set_by is not None
    return _BEARERS[set_by][ladder.blur.source is BlurSource.ASSUMED]


def ceiling_sentence(ladder: Ladder) -> str:
    """Return how far up the ladder goes where the scope points, and what stops it."""
    ceiling = ladder.ceiling
    if ceiling.power is None or ceiling.set_by is None:
        return _NO_CEILING.format(reason=no_ceiling_text(ladder))
    return _CEILING_THERE[ceiling.set_by].format(power=power_text(ceiling.power), where=aim_words(ladder.aim))


def band_words(ladder: Ladder) -> str:
    """Return between which powers aperture and air most likely reach their limit; empty without an air."""
    band = ladder.limits.band
    if band is None:
        return ""
    low, high = rounded_text(band[0]), power_text(band[1])
    return _BAND[ladder.blur.source is BlurSource.ASSUMED].format(low=low, high=high)


def lifted_sentence(ladder: Ladder) -> str:
    """Return that the usual limit of the air is lifted, empty where it is not."""
    usual_air = ladder.limits.usual_air
    return _LIFTED.format(power=power_text(usual_air)) if usual_air > USUAL_AIR_POWER else ""


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
                power=_NONE if power is None else power_text(power),
                why=_why(kind, ladder),
                sets_ceiling=ladder.ceiling.line is kind,
            )
        )
    return tuple(lines)


def ladder_note(ladder: Ladder | None) -> str:
    """Return what the ceiling is and what sets it; empty where nothing is offered, told beside it."""
    if ladder is None:
        return _NO_TELESCOPE
    if not ladder.aim.is_offered:
        return ""
    if ladder.ceiling.set_by is None:
        return _NO_CEILING.format(reason=no_ceiling_text(ladder))
    return _CEILING_NOTE.format(limit=limit_in_full(ladder.ceiling.set_by, explain_air=True))


def limit_words(ladder: Ladder, *, explain_air: bool = True) -> tuple[LimitWords, ...]:
    """Return the lines across a ladder, lowest first; limits that tie share one.

    ``explain_air`` gives the trade's other word for the air, once in a view.
    """
    groups: list[list[tuple[float, Line]]] = []
    for kind, power in sorted(ladder.limits.lines().items(), key=lambda limit: limit[1]):
        if groups and power <= groups[-1][0][0] * ONE_LINE_RATIO:
            groups[-1].append((power, kind))
        else:
            groups.append([(power, kind)])
    found = []
    for group in groups:
        kinds = tuple(kind for kind in Line if kind in {kind for _, kind in group})
        words = listed(_line_words(kind, ladder, explain_air=explain_air) for kind in kinds)
        is_ceiling = ladder.ceiling.line in kinds
        found.append(LimitWords(power=group[0][0], kinds=kinds, is_ceiling=is_ceiling, words=words))
    return tuple(found)


def _line_words(kind: Line, ladder: Ladder, *, explain_air: bool) -> str:
    """Return the name of a line, and of the one that tonight decides where and by what it stands."""
    is_known = ladder.limits.tonight_air is not None
    name = (_ACROSS_EXPLAINED if explain_air and (kind is Line.TOGETHER or not is_known) else _ACROSS)[kind]
    if kind is not Line.TOGETHER:
        return name
    altitude_deg = None if ladder.aim.overhead else ladder.aim.altitude_deg
    template = _TOGETHER[altitude_deg is None, ladder.blur.source is BlurSource.ASSUMED]
    return template.format(name=name, height="" if altitude_deg is None else angle_text(altitude_deg))


def _named_look(blur: Blur) -> FirstLook | None:
    """Return the first look that a blur is named by: what was said, or whose usual figure it is."""
    if blur.judged is not None:
        return blur.judged.by if isinstance(blur.judged.by, FirstLook) else None
    looks = FIRST_LOOK_BLUR_ARCSEC.items()
    return next((look for look, arcsec in looks if arcsec == blur.overhead_arcsec), None)


def _why(kind: Line, ladder: Ladder) -> str:
    if kind is Line.APERTURE:
        return _PER_MM.format(aperture_mm=figures_text(working_aperture_mm(ladder.scope), 6))
    if kind is Line.USUAL_AIR:
        return _COMMON_PRACTICE
    return _TOO_LOW if ladder.limits.together is None else _with_mirror(blur_words(ladder.blur), ladder)


def _with_mirror(blur: str, ladder: Ladder) -> str:
    """Return what is said of the blur, with that of a mirror warmer than the air where it counts."""
    mirror = _mirror_text(ladder)
    return blur if mirror is None else _WITH_MIRROR.format(blur=blur, mirror=mirror)


def _mirror_text(ladder: Ladder) -> str | None:
    """Return the blur of a mirror warmer than the air, as a figure; None where it does not count."""
    mirror = rounded_text(ladder.limits.mirror_arcsec, 1)
    return None if mirror == rounded_text(0.0, 1) else mirror
