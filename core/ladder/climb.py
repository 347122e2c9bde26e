"""The next step on the ladder: one rung up, one back, or stay, as the belief in tonight's air has it.

It starts low and goes up one rung at a time, as the trade does, and only ever suggests.
"""

import math
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from enum import StrEnum
from typing import Final

from attrs import frozen

from core.gear.aperture import working_aperture_mm
from core.gear.optics import is_past_limit
from core.ladder.belief import (
    BAND,
    STEP_UP_FROM,
    TRY_AGAIN_FROM,
    Belief,
    Evidence,
    LineOfSight,
    same_step,
)
from core.ladder.ladder import Ladder, Rung, Standing, nearest_rung
from core.record.log_entry import Verdict

# Rungs closer than this show no difference that anyone could judge; ours.
LEAST_STEP: Final = 1.2
_NEARLY: Final = 1.0 - 5e-3  # 119x is a step from 100x all the same
# Where the ceiling lies this much over a rung, and the next one is over it, the kit has a gap there; ours.
GAP_FROM: Final = 1.1
# What was in hand for less was passed by on the way to another, for no eyepiece is changed and looked through
# in that time; ours.
PASSED_BY: Final = timedelta(seconds=10)
# A power given up is left for at least so long: seeing decorrelates in tens of minutes (Racine 1996, PASP
# 108, 372); the figure ours.
LEFT_FOR: Final = timedelta(minutes=15)
# A chance that a step shows more is told as likely from here up, as a chance below.
LIKELY_FROM: Final = 0.6


class Move(StrEnum):
    """What to do next."""

    UP = "up"
    BACK = "back"
    STAY = "stay"


@frozen(kw_only=True)
class NextStep:
    """What to do after the rung in hand.

    ``to`` is the rung to go to, None to stay; ``chance`` is that of seeing more there than here, 0 to 1.
    ``above`` is the rung that a step up would take, None where there is none, ``try_again_at`` when that is
    worth another try (UTC). ``is_over_usual_air`` tells that only the usual limit of the air keeps one
    from it, ``is_gap`` that the ceiling lies well over the rung, with nothing owned up to ``above``.
    ``just_seen`` is the last verdict where that was on a step to the rung, told as one upwards, else None.
    """

    move: Move
    rung: Rung
    to: Rung | None = None
    chance: float = 0.0
    above: Rung | None = None
    try_again_at: datetime | None = None
    is_over_usual_air: bool = False
    is_gap: bool = False
    just_seen: Evidence | None = None

    @property
    def is_a_try(self) -> bool:
        """Whether the rung to go to is over what the ceiling allows, and only worth a try."""
        return self.to is not None and self.to.standing in (Standing.TRY, Standing.ABOVE)


def rung_above(ladder: Ladder, rung: Rung) -> Rung | None:
    """Return the next rung worth a step up: at least 1.2x as high, with no reducer to fit in the dark.

    From a power that shows little on its planet it is the lowest that shows something, without a Barlow where
    an eyepiece alone gives such a power under the ceiling (ours).
    """
    steps = [
        other
        for other in ladder.rungs
        if other.power >= rung.power * LEAST_STEP * _NEARLY and is_easily_reached(rung, other)
    ]
    if rung.standing is Standing.BELOW and ladder.climb_to is not None:
        showing = [
            step for step in steps if step.power <= ladder.climb_to and step.standing is not Standing.BELOW
        ]
        if showing:
            return min(showing, key=lambda step: (len(step.combination.barlows), step.power))
    return next(iter(steps), None)


def is_easily_reached(rung: Rung, other: Rung) -> bool:
    """Tell whether one gets from a rung to another without a reducer that is not in already."""
    reducers = [each for each in other.combination.barlows if each.is_reducer]
    return all(each in rung.combination.barlows for each in reducers)


def rung_below(ladder: Ladder, rung: Rung) -> Rung | None:
    """Return the next rung worth a step back, by the same rule."""
    return next(
        (
            other
            for other in reversed(ladder.rungs)
            if rung.power >= other.power * LEAST_STEP * _NEARLY and is_easily_reached(rung, other)
        ),
        None,
    )


def next_step(
    ladder: Ladder, rung: Rung, belief: Belief, evidence: Sequence[Evidence] = (), *, now: datetime | None
) -> NextStep | None:
    """Return what to do after a rung; None where the ladder has no ceiling.

    ``belief`` is that of now; ``now`` is None when the evening is looked at from afar. A power given up is
    taken up again only after ``LEFT_FOR``, and when it is as likely as not to show more.
    """
    line = line_of_sight(ladder)
    if line is None or ladder.ceiling.power is None:
        return None
    below, above = rung_below(ladder, rung), rung_above(ladder, rung)
    seen = _just_seen(rung, evidence)
    is_back = seen is not None and seen.verdict is Verdict.LESS
    if below is not None and (is_back or not _pays(belief, line, below.power, rung.power, evidence)):
        chance = 1.0 - belief.chance_better(line, below.power, rung.power)
        # As long as nothing was judged, straight back to what the air is taken to bear.
        top = None if evidence else _rung_of(ladder, ladder.climb_to)
        back = below if top is None or top.power >= rung.power else top
        return NextStep(
            move=Move.BACK,
            rung=rung,
            to=back,
            chance=chance,
            above=above,
            just_seen=seen,
        )
    if above is None:
        return NextStep(move=Move.STAY, rung=rung)
    pays = _pays(belief, line, rung.power, above.power, evidence)
    if is_past_limit(above.power, ladder.limits.usual_air):
        return NextStep(move=Move.STAY, rung=rung, above=above, is_over_usual_air=pays)
    chance = belief.chance_better(line, rung.power, above.power)
    if pays:
        return NextStep(move=Move.UP, rung=rung, to=above, chance=chance, above=above)
    again = _try_again_at(belief, line, rung.power, above.power, evidence) if now is not None else None
    return NextStep(
        move=Move.STAY,
        rung=rung,
        chance=chance,
        above=above,
        try_again_at=again,
        is_gap=_is_gap(ladder, rung, above),
    )


def line_of_sight(ladder: Ladder) -> LineOfSight | None:
    """Return what turns an overhead blur into a power where a ladder points, None without an air path."""
    if ladder.aim.path is None:
        return None
    return LineOfSight(
        aperture_mm=working_aperture_mm(ladder.scope),
        path=ladder.aim.path,
        dispersion_arcsec=ladder.aim.dispersion_arcsec,
        mirror_arcsec=ladder.limits.mirror_arcsec,
    )


def _is_gap(ladder: Ladder, rung: Rung, above: Rung) -> bool:
    """Tell whether the ceiling lies between two rungs, well over the lower, and no other rung does."""
    ceiling = ladder.ceiling.power
    if ceiling is None or ceiling < GAP_FROM * rung.power or not is_past_limit(above.power, ceiling):
        return False
    return not any(rung.power < other.power < above.power for other in ladder.rungs)


def _rung_of(ladder: Ladder, power: float | None) -> Rung | None:
    return None if power is None else nearest_rung(ladder, power)


def _just_seen(rung: Rung, evidence: Sequence[Evidence]) -> Evidence | None:
    """Return the last verdict, told as one upwards, where that was on a step to a rung from a lower one."""
    last = evidence[-1].upwards if evidence else None
    return last if last is not None and math.isclose(last.to_power, rung.power) else None


def _try_again_at(
    belief: Belief, line: LineOfSight, low: float, high: float, evidence: Sequence[Evidence]
) -> datetime | None:
    again_s = belief.try_again_at_s(line, low, high)
    if again_s is None:
        return None
    last = _last_on(evidence, low, high)
    left_until_s = again_s if last is None else last.unix_s + LEFT_FOR.total_seconds()
    return datetime.fromtimestamp(max(again_s, left_until_s), UTC)


def _last_on(evidence: Sequence[Evidence], low: float, high: float) -> Evidence | None:
    """Return the last word on a step, told as one upwards."""
    return next((each.upwards for each in reversed(evidence) if same_step(each, low, high)), None)


def _pays(belief: Belief, line: LineOfSight, low: float, high: float, evidence: Sequence[Evidence]) -> bool:
    """Tell whether a step up is worth it, or was.

    What was seen to show less is left for a while, whatever was believed. What lies over all that is likely,
    or was given up before, must be as likely as not to show more.
    """
    last = _last_on(evidence, low, high)
    if last is not None and last.verdict is Verdict.LESS:
        now_s = last.unix_s if belief.unix_s is None else belief.unix_s
        if now_s - last.unix_s < LEFT_FOR.total_seconds():
            return False
    was_given_up = last is not None and last.verdict is not Verdict.MORE
    is_far = high > float(line.power(belief.blur_arcsec(BAND[0])))
    least = TRY_AGAIN_FROM if was_given_up or is_far else STEP_UP_FROM
    return belief.chance_better(line, low, high) >= least
