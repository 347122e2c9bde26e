"""What two telescopes side by side come to, in sentences that stay the same when the two change places."""

from datetime import date
from typing import Final

from core.ladder.compare import Comparison
from core.ladder.side import Collimation, Side
from core.ladder.verdict import Finding, FindingKind
from core.words.aim import aim_words
from core.words.air import blur_text, source_text
from core.words.cooling import span_text
from core.words.dates import date_text
from core.words.ladder import no_ceiling_text
from core.words.limits import BUILT_IN, limit_name
from core.words.quantities import (
    angle_text,
    detail_text,
    drift_text,
    field_text,
    percent_text,
    power_text,
    times_text,
    two_figures,
)

_FINDINGS = {
    FindingKind.NO_DETAIL: "{reason}. Neither telescope shows fine detail there.",
    FindingKind.FINER_DETAIL: (
        "{scope} shows finer detail here, about {detail} against {other_detail}: {scope} may climb to "
        "{power}, where {limit} stops it; {other} may climb to {other_power}, where {other_limit} stops it."
    ),
    FindingKind.SLIGHTLY_FINER_DETAIL: (
        "{scope} shows slightly finer detail here, about {detail} against {other_detail}: {scope} may climb "
        "to {power}, where {limit} stops it; {other} may climb to {other_power}, where {other_limit} stops "
        "it."
    ),
    FindingKind.APERTURES_ALIKE: (
        "{scope} and {other} tie in detail, about {other_detail}: their apertures are alike."
    ),
    FindingKind.AIR_TIES_THEM: (
        "{scope} and {other} tie in detail: tonight's air (seeing) blurs to about {other_detail} at this "
        "height, whichever is used, and {other} gains nothing above about {figure_power}."
    ),
    FindingKind.DETAIL_ALIKE: "{scope} and {other} tie in detail, about {other_detail}.",
    FindingKind.LESS_OBSTRUCTED: "{scope} has less in the way of its light, a small gain in contrast.",
    FindingKind.FINER_WHILE_STEADY: (
        "It depends on the air: at this height {scope} shows more only while the blur overhead is under "
        "about {figure_detail}; in worse air the two tie."
    ),
    FindingKind.FINER_AT_NO_HEIGHT: "In tonight's air {scope} shows no finer detail at any height.",
    FindingKind.FINER_AT_ANY_HEIGHT: "In tonight's air {scope} shows finer detail at any useful height.",
    FindingKind.FINER_FROM_HEIGHT: (
        "In tonight's air {scope} shows finer detail only above about {figure_altitude}."
    ),
    FindingKind.LIGHT_ALIKE: "They gather about the same light.",
    FindingKind.LITTLE_MORE_LIGHT: "{scope} gathers a little more light.",
    FindingKind.MORE_LIGHT: (
        "{scope} gathers {light} the light: at the same power its view is brighter, and its wider exit pupil "
        "shows fewer floaters."
    ),
    FindingKind.NOTHING_UNDER_CEILING: "None of its eyepieces stays under the ceiling of {scope}.",
    FindingKind.SHORT_OF_CEILING: "With its eyepieces {scope} reaches only {figure_power} of its {ceiling}.",
    FindingKind.WIDER_FIELD: (
        "{scope} shows the wider field, {field} against {other_field}: easier for finding."
    ),
    FindingKind.READY_SOONER: (
        "{scope} is ready sooner: about {minutes} minutes to cool against {other_minutes}."
    ),
    FindingKind.FOLLOWS: "{scope} follows the sky; {other} must be nudged along by hand.",
    FindingKind.FOLLOWS_WITH_DRIFT: (
        "{scope} follows the sky; {other} must be nudged along by hand, every {figure_drift} or so at "
        "{other_climb_to}."
    ),
    FindingKind.COLLIMATION: "{scope} wants its collimation checked; the other needs none.",
    FindingKind.OBSTRUCTION_ASSUMED: (
        "{scope}'s secondary mirror is taken as {obstruction} of its aperture wide (assumed)."
    ),
}
_CONDITIONS: Final = (
    "Both {aim} in the evening of {day}, with a blur of {blur} overhead ({source}). "
    "All figures are rules of thumb."
)
_CONDITIONS_OVERHEAD: Final = (
    "Both {aim}, with a blur of {blur} overhead ({source}). All figures are rules of thumb."
)
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
    """Return what a comparison comes to, one sentence or two for each finding."""
    return tuple(_finding_text(finding) for finding in comparison.verdict)


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
        aim=aim_words(aim), day=date_text(evening), blur=blur_text(blur), source=source_text(blur)
    )


def stopped_by_text(side: Side) -> str | None:
    """Return the name of what stops the power of one side, None where nothing is known to."""
    if side.ladder.ceiling.set_by is None:
        return None
    return BUILT_IN if side.is_stopped_by_built_in_power else limit_name(side.ladder.ceiling.set_by)


def _finding_text(finding: Finding) -> str:
    figure, side = finding.figure, finding.side
    figures = {
        "reason": no_ceiling_text(side.ladder),
        "light": times_text(side.light_ratio_to_other),
        "obstruction": percent_text(side.scope.obstruction_ratio),
        "ceiling": _power(side.ladder.ceiling.power),
        **_figures_of(side),
        **{f"other_{name}": text for name, text in _figures_of(finding.other).items()},
        "scope": side.scope.name,
        "other": finding.other.scope.name,
    }
    if figure is not None:
        figures |= {
            "figure_power": power_text(figure),
            "figure_detail": detail_text(figure),
            "figure_altitude": angle_text(figure),
            "figure_drift": drift_text(figure),
        }
    return _FINDINGS[finding.kind].format_map(figures)


def _figures_of(side: Side) -> dict[str, str | None]:
    minutes = side.usable_minutes
    return {
        "detail": None if side.finest_detail_arcsec is None else detail_text(side.finest_detail_arcsec),
        "power": _power(side.usable_power),
        "limit": stopped_by_text(side),
        "climb_to": _power(side.ladder.climb_to),
        "field": field_text(side.widest_field_deg),
        "minutes": None if minutes is None else span_text(minutes[0], minutes[2]),
    }


def _power(power: float | None) -> str | None:
    return None if power is None else power_text(power)
