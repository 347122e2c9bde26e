"""What two telescopes side by side come to, in sentences that stay the same when the two change places."""

from datetime import date
from typing import Final

from core.gear.aperture import working_aperture_mm, working_obstruction_ratio
from core.gear.collimation import Collimation
from core.ladder.compare import Comparison
from core.ladder.differences import Difference, DifferenceKind
from core.ladder.side import Side
from core.words.advice import advice_text
from core.words.aim import aim_words
from core.words.air import blur_text, source_text
from core.words.cooling import span_text
from core.words.dates import date_text
from core.words.limit_names import limit_in_full
from core.words.limits import BUILT_IN
from core.words.quantities import (
    angle_text,
    detail_text,
    drift_text,
    field_text,
    percent_text,
    power_text,
    pupil_text,
    times_text,
    two_figures,
)

_DIFFERENCES = {
    DifferenceKind.CLIMBS: (
        "{scope} may climb to about {power} (limited by {limit}), {other} to about {other_power} (limited by "
        "{other_limit})."
    ),
    DifferenceKind.FINER_WHILE_STEADY: (
        "It depends on the air: at this height {scope} shows more only while the blur overhead is under "
        "about {figure_detail}; in worse air nobody could tell the two apart."
    ),
    DifferenceKind.FINER_AT_NO_HEIGHT: "In tonight's air {scope} shows no finer detail at any height.",
    DifferenceKind.FINER_AT_ANY_HEIGHT: "In tonight's air {scope} shows finer detail at any useful height.",
    DifferenceKind.FINER_FROM_HEIGHT: (
        "In tonight's air {scope} shows finer detail only above about {figure_altitude}."
    ),
    DifferenceKind.LIGHT_ALIKE: "They gather about the same light.",
    DifferenceKind.LITTLE_MORE_LIGHT: "{scope} gathers a little more light.",
    DifferenceKind.MORE_LIGHT: "{scope} gathers {light} the light, so that its view is brighter.",
    DifferenceKind.WIDER_PUPIL: (
        "{scope} gathers {light} the light: at {figure_power} its exit pupil is {pupil} against "
        "{other_pupil}, so that its view is brighter."
    ),
    DifferenceKind.WIDER_PUPIL_FEWER_FLOATERS: (
        "{scope} gathers {light} the light: at {figure_power} its exit pupil is {pupil} against "
        "{other_pupil}, so that its view is brighter and shows fewer floaters."
    ),
    DifferenceKind.UNOBSTRUCTED: (
        "{scope} has nothing in the way of its light, {other} {other_obstruction} of its diameter: a small "
        "gain in contrast, for soft markings."
    ),
    DifferenceKind.LESS_OBSTRUCTED: (
        "{scope} has less in the way of its light, {obstruction} of its diameter against "
        "{other_obstruction}: a small gain in contrast, for soft markings."
    ),
    DifferenceKind.NOTHING_UNDER_CEILING: "None of its eyepieces stays under the ceiling of {scope}.",
    DifferenceKind.SHORT_OF_CEILING: (
        "With its eyepieces {scope} reaches only {figure_power} of its {ceiling}."
    ),
    DifferenceKind.WIDER_FIELD: (
        "{scope} shows the wider field, {field} against {other_field}: easier for finding."
    ),
    DifferenceKind.READY_SOONER: (
        "{scope} is usable sooner: about {minutes} minutes to cool against {other_minutes}."
    ),
    DifferenceKind.FOLLOWS: "{scope} follows the sky; {other} must be nudged along by hand.",
    DifferenceKind.FOLLOWS_WITH_DRIFT: (
        "{scope} follows the sky; {other} must be nudged along by hand, every {figure_drift} or so at "
        "{other_climb_to}."
    ),
    DifferenceKind.COLLIMATION: "{scope} needs its collimation checked; the other needs none.",
    DifferenceKind.OBSTRUCTION_ASSUMED: (
        "{scope}'s secondary mirror is taken as {obstruction} of its aperture wide (assumed)."
    ),
}
_AT_A_POWER: Final = (DifferenceKind.WIDER_PUPIL, DifferenceKind.WIDER_PUPIL_FEWER_FLOATERS)
COMPARED_BY_RULES: Final = (
    "Detail, ceilings and times are rules of thumb; apertures, light and fields are not."
)
_CONDITIONS: Final = "Both {aim} on the evening of {day}, with a blur of {blur} overhead ({source}). {rules}"
_CONDITIONS_OVERHEAD: Final = "Both {aim}, with a blur of {blur} overhead ({source}). {rules}"
_NOT_NEEDED = "No collimation needed."
_CHECK = (
    "Check the collimation roughly by day, indoors or in shade and never towards the Sun, then by a star "
    "test at high power once it is cool."
)
_CHECK_STRICTLY = (
    "Check the collimation roughly by day, indoors or in shade and never towards the Sun, then by a star "
    "test at high power once it is cool. At f/{focal_ratio} it must be about {times} times as exact as at "
    "f/8."
)


def verdict_texts(comparison: Comparison) -> tuple[str, ...]:
    """Return what a comparison comes to: which telescope to take, then a sentence for each difference."""
    return advice_text(comparison.advice), *difference_texts(comparison)


def difference_texts(comparison: Comparison) -> tuple[str, ...]:
    """Return what stands below the advice, one sentence or two for each difference."""
    return tuple(_difference_text(each) for each in comparison.differences)


def collimation_text(collimation: Collimation) -> str:
    """Return what the alignment of the optics asks of the owner."""
    if not collimation.is_needed:
        return _NOT_NEEDED
    if collimation.times_as_exact is None or collimation.focal_ratio is None:
        return _CHECK
    return _CHECK_STRICTLY.format(
        focal_ratio=two_figures(collimation.focal_ratio), times=two_figures(collimation.times_as_exact)
    )


def conditions_text(comparison: Comparison, evening: date) -> str:
    """Return where the telescopes point and through which air they are compared."""
    aim, blur = comparison.a.ladder.aim, comparison.a.ladder.blur
    return (_CONDITIONS_OVERHEAD if aim.overhead else _CONDITIONS).format(
        aim=aim_words(aim),
        day=date_text(evening),
        blur=blur_text(blur),
        source=source_text(blur),
        rules=COMPARED_BY_RULES,
    )


def stopped_by_text(side: Side) -> str | None:
    """Return the name of what stops the power of one side, None where nothing is known to."""
    if side.ladder.ceiling.set_by is None:
        return None
    return BUILT_IN if side.is_stopped_by_built_in_power else limit_in_full(side.ladder.ceiling.set_by)


def _difference_text(difference: Difference) -> str:
    figure, side = difference.figure, difference.side
    figures = {
        "light": times_text(side.light_ratio_to_other),
        "ceiling": _power(side.ladder.ceiling.power),
        **_figures_of(side),
        **{f"other_{name}": text for name, text in _figures_of(difference.other).items()},
        "scope": side.scope.name,
        "other": difference.other.scope.name,
    }
    if figure is not None:
        figures |= {
            "figure_power": power_text(figure),
            "figure_detail": detail_text(figure),
            "figure_altitude": angle_text(figure),
            "figure_drift": drift_text(figure),
        }
    if figure is not None and difference.kind in _AT_A_POWER:
        figures |= {
            "pupil": pupil_text(working_aperture_mm(side.scope) / figure),
            "other_pupil": pupil_text(working_aperture_mm(difference.other.scope) / figure),
        }
    return _DIFFERENCES[difference.kind].format_map(figures)


def _figures_of(side: Side) -> dict[str, str | None]:
    minutes = side.usable_minutes
    return {
        "obstruction": percent_text(working_obstruction_ratio(side.scope)),
        "power": _power(side.usable_power),
        "limit": stopped_by_text(side),
        "climb_to": _power(side.ladder.climb_to),
        "field": field_text(side.widest_field_deg),
        "minutes": None if minutes is None else span_text(minutes[0], minutes[2]),
    }


def _power(power: float | None) -> str | None:
    return None if power is None else power_text(power)
