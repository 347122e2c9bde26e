"""Which of two telescopes to take, in one short paragraph that stays the same when the two change places."""

from typing import Final

from core.gear.aperture import working_obstruction_ratio
from core.ladder.advice import Advice, AdviceKind, Outside, OutsideKind
from core.ladder.side import Side
from core.words.cooling import rounded_minutes
from core.words.ladder import no_ceiling_text
from core.words.quantities import detail_text, percent_text

_ADVICE: Final = {
    AdviceKind.NO_DETAIL: "{reason}. Neither telescope shows fine detail there.",
    AdviceKind.CLEARLY_FINER: (
        "{scope} for tonight and for steady nights: it shows clearly finer detail, about {detail} against "
        "{other_detail} in this air and {steady} against {other_steady} on a steady night."
    ),
    AdviceKind.CLEARLY_FINER_IN_STEADY_AIR: (
        "{scope} for tonight, which is a steady night: it shows clearly finer detail, about {detail} against "
        "{other_detail}."
    ),
    AdviceKind.LITTLE_FINER: (
        "{scope} for tonight by a little, and for steady nights: it shows about {detail} against "
        "{other_detail} in this air and {steady} against {other_steady} on a steady night."
    ),
    AdviceKind.LITTLE_FINER_IN_STEADY_AIR: (
        "{scope} by a little for tonight, which is a steady night: it shows about {detail} against "
        "{other_detail}."
    ),
    AdviceKind.LITTLE_FINER_BUT_SLOW: (
        "{scope} for a long evening and for steady nights, {other} for a short look tonight, since it is "
        "usable sooner: in this air they show about {detail} against {other_detail}, on a steady night "
        "{steady} against {other_steady}."
    ),
    AdviceKind.ONLY_ON_STEADY_NIGHTS: (
        "{scope} for steady nights; for tonight either will do, since through this air both show about "
        "{other_detail}. On a steady night they show {steady} against {other_steady}."
    ),
    AdviceKind.FINER_ONLY_NOW: (
        "{scope} for tonight: it shows about {detail} against {other_detail} as things stand; on a steady "
        "night, when both are cool, they show about the same, {other_steady}."
    ),
    AdviceKind.EACH_HAS_ITS_NIGHTS: (
        "{scope} for tonight, {other} for steady nights: as things stand they show about {detail} against "
        "{other_detail}, on a steady night, when both are cool, {steady} against {other_steady}."
    ),
    AdviceKind.ALIKE: (
        "{scope} or {other}, for tonight and for steady nights alike: they show the same detail, about "
        "{other_detail}, and the rest decides."
    ),
    AdviceKind.ALIKE_BUT_CLEARER: (
        "{scope} by a little, for tonight and for steady nights: it shows the same detail as {other}, about "
        "{other_detail}, with a little more contrast, since {obstruction} of its diameter is in the way of "
        "its light, against {other_obstruction}."
    ),
}
_OUTSIDE: Final = {
    OutsideKind.READY: (
        "{scope} already stands outside and should be usable; {other} still wants about {other_minutes} "
        "minutes (an estimate)."
    ),
    OutsideKind.READY_SOON: (
        "{scope} already stands outside and wants about {minutes} more minutes; {other}, carried out now, "
        "would want about {other_minutes} (an estimate)."
    ),
    OutsideKind.BOTH_WAIT: (
        "Both stand outside: {scope} wants about {minutes} more minutes, {other} about {other_minutes} "
        "(an estimate)."
    ),
}


def advice_text(advice: Advice) -> str:
    """Return which of two telescopes to take, and what standing outside already changes."""
    words = _ADVICE[advice.kind].format(
        reason=no_ceiling_text(advice.side.ladder),
        scope=advice.side.scope.name,
        other=advice.other.scope.name,
        detail=_detail(advice.side.finest_detail_arcsec),
        other_detail=_detail(advice.other.finest_detail_arcsec),
        steady=_detail(None if advice.steady is None else advice.steady[0]),
        other_steady=_detail(None if advice.steady is None else advice.steady[1]),
        obstruction=_obstruction(advice.side),
        other_obstruction=_obstruction(advice.other),
    )
    return " ".join(filter(None, (words, None if advice.outside is None else _outside_text(advice.outside))))


def _outside_text(outside: Outside) -> str:
    return _OUTSIDE[outside.kind].format(
        scope=outside.side.scope.name,
        other=outside.other.scope.name,
        minutes=rounded_minutes(outside.minutes),
        other_minutes=rounded_minutes(outside.other_minutes),
    )


def _detail(arcsec: float | None) -> str:
    return "" if arcsec is None else detail_text(arcsec)


def _obstruction(side: Side) -> str:
    ratio = working_obstruction_ratio(side.scope)
    return percent_text(ratio) if ratio > 0.0 else "nothing"
