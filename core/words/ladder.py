"""What stands beside a rung and beside a limit, in words."""

from collections.abc import Sequence

from attrs import frozen

from core.air.steadiness import BlurSource
from core.ladder.ladder import Ladder, Rung, Standing
from core.words.aim import no_ceiling_words
from core.words.quantities import drift_text, field_text, power_text, pupil_text, rounded_text

NOT_TONIGHT = "not tonight"
WORTH_A_TRY = "worth a try"
PERHAPS = "perhaps worth a try"
NOT_OWNED = "not owned"
NEW = "new"
ZOOM = "zoom"
_RUN = "{low}–{high}"
_ABOUT = "~{power}"
_EXACT = "{power}"
_START_AND_TOP = "Start here and stay."
_START = "Start here."
_TOP = "Climb to here."
_LOW = "Low for a planet."


@frozen(kw_only=True)
class RungWords:
    """The words of a rung, by column; an empty one says that the figure does not exist."""

    power: str
    eyepiece: str
    exit_pupil: str
    field: str
    drift: str
    remark: str
    is_owned: bool = True


def no_ceiling_text(ladder: Ladder) -> str:
    """Return why a ladder has no ceiling, as words without a full stop; empty where it has one."""
    return no_ceiling_words(ladder.aim) or ""


def rung_words(
    rung: Rung, ladder: Ladder, chosen: Rung | None, *, brief: bool = False, is_owned: bool = True
) -> RungWords:
    """Return what stands beside a rung, with shorter remarks where there is little room."""
    if not is_owned:
        remark = NEW if brief else NOT_OWNED
    else:
        remark = _brief_remark(rung, ladder, chosen) if brief else _remark(rung, ladder, chosen)
    return RungWords(
        power=(_ABOUT if rung.combination.approximate else _EXACT).format(power=power_text(rung.power)),
        eyepiece=rung.label,
        exit_pupil=pupil_text(rung.exit_pupil_mm),
        field="" if rung.true_field_deg is None else field_text(rung.true_field_deg),
        drift="" if rung.drift_s is None else drift_text(rung.drift_s),
        remark=remark,
        is_owned=is_owned,
    )


def run_words(
    rung: Rung, reach: tuple[float, float], *, brief: bool = False, is_owned: bool = False
) -> RungWords:
    """Return what stands beside the powers of a zoom, one of its rungs given and both its ends."""
    combination = rung.combination
    assert combination.eyepiece is not None
    barlows = tuple(barlow.name for barlow in combination.barlows)
    run = _RUN.format(low=rounded_text(reach[0]), high=power_text(reach[1]))
    # A name is cut before a figure, so that where there is little room the figures take its place.
    is_short = brief and is_owned
    return RungWords(
        power=ZOOM if is_short else run,
        eyepiece=" + ".join((run if is_short else combination.eyepiece.name, *barlows)),
        exit_pupil="",
        field="",
        drift="",
        remark="" if is_owned else NEW if brief else NOT_OWNED,
        is_owned=is_owned,
    )


def part_text(rung: Rung, ladder: Ladder) -> str:
    """Return what part a rung plays tonight, empty for one of the many between."""
    return _remark(rung, ladder, None)


def part_sentence(rung: Rung, ladder: Ladder) -> str:
    """Return what part a rung plays tonight as a sentence, empty for one of the many between."""
    is_start, is_top = rung.power == ladder.start, rung.power == ladder.climb_to
    if is_start or is_top:
        return _START_AND_TOP if is_start and is_top else _START if is_start else _TOP
    return _LOW if rung.standing is Standing.BELOW else ""


def _remark(rung: Rung, ladder: Ladder, chosen: Rung | None) -> str:
    wide = rung.standing is Standing.BELOW
    parts = []
    if rung.power == ladder.start:
        parts.append("wide start" if wide else "start")
    elif wide:
        parts.append("wide")
    if rung.power == ladder.climb_to:
        parts.append("no higher" if rung is chosen else "climb to here")
    if rung.standing is Standing.ABOVE:
        parts.append(NOT_TONIGHT)
    elif rung.standing is Standing.TRY:
        parts.append(PERHAPS if ladder.blur.source is BlurSource.ASSUMED else WORTH_A_TRY)
    if rung is chosen:
        parts.insert(0, "here" if parts else "you are here")
    return ", ".join(parts)


def _brief_remark(rung: Rung, ladder: Ladder, chosen: Rung | None) -> str:
    """Return a remark of one short word; that the dashed rungs are not for tonight is then said once."""
    if rung is chosen:
        return "here"
    if rung.power == ladder.climb_to:
        return "top"
    if rung.power == ladder.start:
        return "start"
    return {Standing.BELOW: "wide", Standing.TRY: "try"}.get(rung.standing, "") if rung.standing else ""


def rung_at_power(rungs: Sequence[Rung], power: float | None) -> Rung | None:
    """Return the rung nearest to a power on the ladder's scale, None without a power or rungs."""
    if power is None or not rungs:
        return None
    return min(rungs, key=lambda rung: abs(rung.power / power - 1.0))


def by_weight(ladder: Ladder, chosen: Rung | None) -> list[Rung]:
    """Return all rungs, those first whose words must not be missing when there is little room.

    First the chosen rung and what the answer speaks of, then the ends, then whichever is farthest, on the
    scale, from those already taken.
    """
    rungs = list(ladder.rungs)
    above = [rung for rung in rungs if rung.standing is Standing.ABOVE]
    wanted = [
        chosen,
        *(rung for rung in rungs if rung.power == ladder.climb_to),
        *(rung for rung in rungs if rung.power == ladder.start),
        *above[:1],
        *rungs[:1],
        *rungs[-1:],
    ]
    taken = list(dict.fromkeys(rung for rung in wanted if rung is not None))
    rest = {rung.power: rung for rung in rungs if rung not in taken}
    away = {power: min(_ratio(power, other.power) for other in taken) for power in rest}
    while away:
        farthest = max(away, key=away.__getitem__)
        del away[farthest]
        taken.append(rest[farthest])
        away = {power: min(ratio, _ratio(power, farthest)) for power, ratio in away.items()}
    return taken


def _ratio(one: float, other: float) -> float:
    return max(one, other) / min(one, other)
