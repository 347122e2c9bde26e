"""The power ladder: everything that fits, merged into rungs, with the limits drawn across it."""

import math
from collections.abc import Iterator, Sequence
from enum import StrEnum

from attrs import frozen

from core.air.blur import Blur
from core.air.limits import NO_CEILING, Ceiling, Limits, ceiling_of
from core.air.usual_air import USUAL_AIR_POWER
from core.gear.combinations import MOST_COMBINATIONS, Combination, combinations, misfits
from core.gear.eye import USUAL_EYE, Eye
from core.gear.optics import drift_s, is_past_limit
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.gear.simplest import simplest_first
from core.ladder.aim import Aim
from core.ladder.notices import Notice, kit_notices, rung_notices
from core.ladder.usual_powers import useful_power
from core.sky.bodies import Body

# Powers this close to the lowest of a group count as one rung (ours).
ONE_RUNG_RATIO = 1.03


class Standing(StrEnum):
    """Where a rung stands: too low to show much, good, worth a try, or too high.

    Worth a try is what lies over the ceiling, but inside the band of a calm moment.
    """

    BELOW = "below"
    GOOD = "good"
    TRY = "try"
    ABOVE = "above"


@frozen(kw_only=True)
class Rung:
    """One step of the ladder: the combination shown first, and the others that give nearly its power.

    ``drift_s`` is None where the field is unknown or the mount is driven, ``standing`` without a ceiling.
    """

    power: float
    combination: Combination
    alternatives: tuple[Combination, ...]
    exit_pupil_mm: float
    true_field_deg: float | None
    drift_s: float | None
    standing: Standing | None
    notices: tuple[Notice, ...]

    @property
    def label(self) -> str:
        """Eyepiece and Barlow by the owner's names, ``10 mm + 2x``."""
        return self.combination.label


@frozen(kw_only=True)
class Ladder:
    """The ladder of one telescope pointed somewhere in tonight's air, lowest rung first.

    ``start`` and ``climb_to`` are powers of rungs; ``climb_to`` is None when no rung stays under the
    ceiling, both are None without a ceiling. There are no rungs where the aim offers nothing. ``notices``
    speak of the kit as a whole; ``misfits`` are what is owned and too wide for the focuser.
    """

    scope: Telescope
    aim: Aim
    blur: Blur
    limits: Limits
    ceiling: Ceiling
    start: float | None
    climb_to: float | None
    rungs: tuple[Rung, ...]
    notices: tuple[Notice, ...] = ()
    misfits: tuple[Eyepiece | Barlow, ...] = ()


def build_ladder(
    *,
    scope: Telescope,
    eyepieces: Sequence[Eyepiece],
    barlows: Sequence[Barlow],
    eye: Eye = USUAL_EYE,
    aim: Aim,
    blur: Blur,
    mirror_arcsec: float = 0.0,
    usual_air: float = USUAL_AIR_POWER,
) -> Ladder:
    """Return the ladder for a telescope with the owner's kit, where it points and tonight's blur.

    ``mirror_arcsec`` is the blur of a mirror still warmer than the air; ``usual_air`` is 300x, or 400x when
    the owner lifts it for the night.
    """
    limits = aim.limits_of(scope, blur=blur, mirror_arcsec=mirror_arcsec, usual_air=usual_air)
    ceiling = ceiling_of(limits) if aim.is_offered else NO_CEILING
    found = combinations(scope, eyepieces, barlows) if aim.is_offered else ()
    rungs = tuple(
        _rung(group, scope=scope, aim=aim, limits=limits, ceiling=ceiling, eye=eye)
        for group in one_rung_groups(found)
    )
    return Ladder(
        scope=scope,
        aim=aim,
        blur=blur,
        limits=limits,
        ceiling=ceiling,
        start=None if ceiling.power is None else _start(rungs, eye),
        climb_to=_climb_to(rungs, ceiling),
        rungs=rungs,
        notices=kit_notices(
            rungs[0].combination if rungs else None,
            scope=scope,
            eyepieces=eyepieces,
            ceiling_power=ceiling.power,
            is_cut=len(found) >= MOST_COMBINATIONS,
        )
        if aim.is_offered
        else (),
        misfits=misfits(scope, eyepieces, barlows),
    )


def rung_with(ladder: Ladder, combination: Combination, *, eye: Eye = USUAL_EYE) -> Rung:
    """Return one combination as a rung of its own, such as an alternative with its own figures."""
    return _rung(
        (combination,),
        scope=ladder.scope,
        aim=ladder.aim,
        limits=ladder.limits,
        ceiling=ladder.ceiling,
        eye=eye,
    )


def highest_not_above_ceiling(ladder: Ladder) -> float | None:
    """Return the highest power owned that is not above the ceiling, alternatives too; None without one."""
    ceiling = ladder.ceiling.power
    if ceiling is None:
        return None
    owned = (each.power for rung in ladder.rungs for each in (rung.combination, *rung.alternatives))
    return max((power for power in owned if not is_past_limit(power, ceiling)), default=None)


def nearest_rung(ladder: Ladder, power: float | None) -> Rung | None:
    """Return the rung nearest to a power by ratio, without a power the one to start with."""
    wanted = ladder.start if power is None else power
    if not ladder.rungs or wanted is None:
        return None
    return min(ladder.rungs, key=lambda rung: abs(math.log(rung.power / wanted)))


def one_rung_groups(found: Sequence[Combination]) -> Iterator[tuple[Combination, ...]]:
    """Split combinations, lowest power first, into rungs; the one to show comes first in each.

    A group starts at its lowest power and takes all up to 1.03 times that. The simplest is shown first.
    """
    group: list[Combination] = []
    for combination in found:
        if group and is_past_limit(combination.power, group[0].power * ONE_RUNG_RATIO):
            yield simplest_first(group)
            group = []
        group.append(combination)
    if group:
        yield simplest_first(group)


def _rung(
    group: tuple[Combination, ...],
    *,
    scope: Telescope,
    aim: Aim,
    limits: Limits,
    ceiling: Ceiling,
    eye: Eye,
) -> Rung:
    group = _under_ceiling_first(group, ceiling)
    shown = group[0]
    drift = None
    if shown.true_field_deg is not None and not scope.driven:
        declination_deg = aim.declination_deg if aim.declination_deg is not None else 0.0
        drift = drift_s(shown.true_field_deg, declination_deg)
    return Rung(
        power=shown.power,
        combination=shown,
        alternatives=group[1:],
        exit_pupil_mm=shown.exit_pupil_mm,
        true_field_deg=shown.true_field_deg,
        drift_s=drift,
        standing=_standing(shown.power, ceiling, limits, aim.planet),
        notices=rung_notices(shown, scope=scope, limits=limits, eye=eye),
    )


def _under_ceiling_first(group: tuple[Combination, ...], ceiling: Ceiling) -> tuple[Combination, ...]:
    """Return a group with what is not above the ceiling in front, so that a rung is not lost to 3 %.

    Nobody fits a reducer for that where nearly the same comes without one.
    """
    return tuple(sorted(group, key=lambda each: (each.has_reducer, is_past_limit(each.power, ceiling.power))))


def _standing(power: float, ceiling: Ceiling, limits: Limits, planet: Body | None) -> Standing | None:
    if ceiling.power is None or limits.band is None:
        return None
    if is_past_limit(power, ceiling.power):
        return Standing.ABOVE if is_past_limit(power, limits.band[1]) else Standing.TRY
    return Standing.BELOW if is_past_limit(useful_power(planet), power) else Standing.GOOD


def _start(rungs: Sequence[Rung], eye: Eye) -> float | None:
    """Return the lowest power whose exit pupil the eye takes in, or the highest if it takes in none."""
    for rung in rungs:
        if not is_past_limit(rung.exit_pupil_mm, eye.pupil_mm):
            return rung.power
    return rungs[-1].power if rungs else None


def _climb_to(rungs: Sequence[Rung], ceiling: Ceiling) -> float | None:
    if ceiling.power is None:
        return None
    return max((rung.power for rung in rungs if not is_past_limit(rung.power, ceiling.power)), default=None)
