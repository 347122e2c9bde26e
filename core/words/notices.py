"""What deserves a word about a rung, a kit or a thing in it, in calm sentences."""

from collections.abc import Iterable

from core.gear.optics import aperture_limit, is_past_limit
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.ladder import Ladder, Rung
from core.ladder.notices import Notice, NoticeKind
from core.words.aim import aim_notices
from core.words.quantities import (
    factor_figure,
    length_text,
    per_mm_text,
    percent_text,
    power_text,
    pupil_text,
)
from core.words.units import USUAL_UNITS, Units

_NOTICES = {
    NoticeKind.NO_EYEPIECE: "Add an eyepiece in Gear, and the powers that it gives {scope} appear here.",
    NoticeKind.NOTHING_FITS: "No eyepiece owned fits {scope}, so there is no power to show yet.",
    NoticeKind.NOTHING_UNDER_CEILING: (
        "Nothing owned stays under the ceiling of {limit}. "
        "The best of it is {combination} at {power}, {per_mm}: expect a soft view."
    ),
    NoticeKind.FAR_OVER_APERTURE: (
        "Far too much for {aperture} of aperture: {per_mm}. The limit is {limit}, 2x per mm."
    ),
    NoticeKind.OVER_APERTURE: (
        "Over the aperture limit of {limit}, 2x per mm: at {per_mm} the view grows dimmer and shows no more."
    ),
    NoticeKind.OVER_USUAL_AIR: "Over {limit}, the most that the air usually allows any aperture.",
    NoticeKind.OVER_LIFTED_AIR: "Over {limit}, more than even a rare steady night allows.",
    NoticeKind.OVER_TONIGHTS_AIR: "Not tonight: over the ceiling of about {limit}.",
    NoticeKind.WORTH_A_TRY: "Over the ceiling of about {limit}, but worth a try in calm moments.",
    NoticeKind.FLOATERS_STRONG: (
        "Exit pupil {exit_pupil}: floaters in the eye trouble most people (a rule of thumb); "
        "less power, both eyes, or a larger aperture at the same power helps."
    ),
    NoticeKind.FLOATERS_COMMON: (
        "Exit pupil {exit_pupil}: floaters in the eye are a common complaint (a rule of thumb); "
        "less power, both eyes, or a larger aperture at the same power helps."
    ),
    NoticeKind.FLOATERS_BEGIN: (
        "Exit pupil {exit_pupil}: floaters in the eye begin to show (a rule of thumb)."
    ),
    NoticeKind.LIGHT_WASTED: (
        "Exit pupil {exit_pupil} is wider than your pupil of {eye_pupil}: some light is wasted, "
        "as if the aperture were {narrower} narrower."
    ),
    NoticeKind.TWO_BARLOWS: "Two Barlows together: the power is approximate, since their spacing changes it.",
    NoticeKind.REDUCER: "A reducer's factor changes with spacing, so this power is approximate.",
    NoticeKind.VIGNETTING: "With the reducer the edge of this field may be dim or cut off (vignetting).",
    NoticeKind.MEASURED_FACTOR: "Counted with the measured {measured_factor}, not the marked {factor}.",
    NoticeKind.FIELD_CUT: (
        "The field is cut to what a {barrel} barrel leaves room for, a field stop of about {stop}; "
        "the figures of this eyepiece ask for more."
    ),
    NoticeKind.MASKED_LENS: (
        "With the mask it is a telescope of {used_aperture}: a steadier and dimmer view, with less detail "
        "than the whole {aperture} shows."
    ),
    NoticeKind.MASKED_MIRROR: (
        "With the off-axis mask it is a telescope of {used_aperture} without obstruction: a steadier and "
        "dimmer view, with less detail than the whole {aperture} shows. The mirror cools no faster."
    ),
    NoticeKind.TOO_MANY_COMBINATIONS: (
        "This kit can be put together in more ways than are looked at, the first {count}: those with the "
        "fewest Barlows, in the order of your list."
    ),
    NoticeKind.BINOVIEWER_PAIR: (
        "In the bino-viewer a pair of {combination} gives about {power}, with half of the light for each "
        "eye; the {factor} of its corrector changes with spacing."
    ),
    NoticeKind.BINOVIEWER_WITHOUT_PAIR: (
        "The bino-viewer wants two equal eyepieces, and there is no such pair here; "
        "these powers are without it."
    ),
    NoticeKind.GLASSES_OFF: (
        "Eye relief {eye_relief} is too short for glasses, which need 15 to 20 mm as a rule of thumb; "
        "without astigmatism take them off and refocus."
    ),
    NoticeKind.GLASSES_OFF_SMALL_PUPIL: (
        "Eye relief {eye_relief} is too short for glasses, which need 15 to 20 mm as a rule of thumb; "
        "with so small an exit pupil most astigmatism does not show, so try without them."
    ),
    NoticeKind.LONGER_EYEPIECE: (
        "Eye relief {eye_relief} is too short for glasses, which need 15 to 20 mm as a rule of thumb; "
        "with astigmatism a longer eyepiece in a Barlow is the usual cure."
    ),
    NoticeKind.RELIEF_UNKNOWN_OFF: (
        "Eye relief unknown, so whether glasses can stay on is unknown too; "
        "without astigmatism take them off and refocus."
    ),
    NoticeKind.RELIEF_UNKNOWN_SMALL_PUPIL: (
        "Eye relief unknown, so whether glasses can stay on is unknown too; "
        "with so small an exit pupil most astigmatism does not show, so try without them."
    ),
    NoticeKind.RELIEF_UNKNOWN_LONGER_EYEPIECE: (
        "Eye relief unknown, so whether glasses can stay on is unknown too; "
        "with astigmatism a longer eyepiece in a Barlow is the usual cure."
    ),
}
_MISFIT = "{thing} has a {barrel} barrel and does not fit the {focuser} focuser of {scope}."
_CLAIM_OVER = "{power} is {per_mm}; {aperture} of aperture bears about {limit}."
_CLAIM_WITHIN = "{power} is {per_mm}, within the {limit} that {aperture} of aperture bears."
_MARKED_BARLOW = "A Barlow's factor changes with its distance to the eyepiece, so {marked} is approximate."
_MARKED_REDUCER = "A reducer's factor changes with its distance to the eyepiece, so {marked} is approximate."


def notice_text(notice: Notice, units: Units = USUAL_UNITS) -> str:
    """Return the sentence of one notice, apertures in the owner's units."""
    figures = {
        "scope": notice.scope,
        "combination": notice.combination,
        "power": None if notice.power is None else power_text(notice.power),
        "limit": None if notice.limit is None else power_text(notice.limit),
        "aperture": None if notice.aperture_mm is None else units.named_length_text(notice.aperture_mm),
        "used_aperture": (
            None if notice.used_aperture_mm is None else units.named_length_text(notice.used_aperture_mm)
        ),
        "exit_pupil": None if notice.exit_pupil_mm is None else pupil_text(notice.exit_pupil_mm),
        "eye_pupil": None if notice.eye_pupil_mm is None else pupil_text(notice.eye_pupil_mm),
        "barrel": None if notice.barrel_mm is None else length_text(notice.barrel_mm),
        "stop": None if notice.stop_mm is None else length_text(notice.stop_mm),
        "factor": None if notice.factor is None else factor_figure(notice.factor),
        "measured_factor": None if notice.measured_factor is None else factor_figure(notice.measured_factor),
        "count": None if notice.count is None else f"{notice.count:,}",
        "narrower": (
            None
            if notice.exit_pupil_mm is None or notice.eye_pupil_mm is None
            else percent_text(1.0 - notice.eye_pupil_mm / notice.exit_pupil_mm)
        ),
        "eye_relief": None if notice.eye_relief_mm is None else length_text(notice.eye_relief_mm),
    }
    if notice.power is not None and notice.aperture_mm is not None:
        figures["per_mm"] = per_mm_text(notice.power, notice.aperture_mm)
    return _NOTICES[notice.kind].format_map(figures)


def notice_texts(notices: Iterable[Notice], units: Units = USUAL_UNITS) -> tuple[str, ...]:
    """Return the sentences of several notices, each once, in their order."""
    return tuple(dict.fromkeys(notice_text(notice, units) for notice in notices))


def ladder_notice_texts(ladder: Ladder, units: Units = USUAL_UNITS) -> tuple[str, ...]:
    """Return what must be known of where a ladder points, words of safety first, and of the whole kit."""
    return (*aim_notices(ladder.aim), *notice_texts(ladder.notices, units))


def rung_notice_texts(rung: Rung, ladder: Ladder, units: Units = USUAL_UNITS) -> tuple[str, ...]:
    """Return what deserves a word about a rung; the first rung repeats what is said of the whole ladder."""
    is_first = bool(ladder.rungs) and rung is ladder.rungs[0]
    of_ladder = ladder_notice_texts(ladder, units) if is_first else ()
    return (*of_ladder, *notice_texts(rung.notices, units))


def misfit_text(thing: Eyepiece | Barlow, scope: Telescope) -> str:
    """Return that a thing's barrel is too wide for a telescope's focuser."""
    return _MISFIT.format(
        thing=thing.name,
        barrel=length_text(thing.barrel_mm),
        focuser=length_text(scope.barrel_mm),
        scope=scope.name,
    )


def misfit_texts(ladder: Ladder) -> tuple[str, ...]:
    """Return a sentence for each thing owned that does not go into the focuser of a ladder's telescope."""
    return tuple(misfit_text(thing, ladder.scope) for thing in ladder.misfits)


def claimed_power_text(claimed_power: float, aperture_mm: float, units: Units = USUAL_UNITS) -> str:
    """Return a maker's claimed greatest power beside what the aperture bears."""
    limit = aperture_limit(aperture_mm)
    template = _CLAIM_OVER if is_past_limit(claimed_power, limit) else _CLAIM_WITHIN
    return template.format(
        power=power_text(claimed_power),
        per_mm=per_mm_text(claimed_power, aperture_mm),
        aperture=units.named_length_text(aperture_mm),
        limit=power_text(limit),
    )


def factor_text(barlow: Barlow) -> str:
    """Return how far the factor of a Barlow or a reducer can be trusted."""
    marked = factor_figure(barlow.factor)
    if barlow.measured_factor is not None:
        return _NOTICES[NoticeKind.MEASURED_FACTOR].format(
            measured_factor=factor_figure(barlow.measured_factor), factor=marked
        )
    return (_MARKED_REDUCER if barlow.is_reducer else _MARKED_BARLOW).format(marked=marked)
