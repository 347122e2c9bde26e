"""Nights at an eyepiece that know nothing of the belief: verdicts from what a lens and the air let through.

How much a power shows is the transfer of a round aperture (diffraction) and of the air in short exposures
(Fried 1966, most of the image motion removed), weighed by the eye's sensitivity to contrast (Mannos and
Sakrison 1974, shifted so that perfect air bears 2x per mm), summed over all detail of a planet. The observer
tells two powers apart when that sum differs by a few percent, and answers at random now and then.

Run as a module it prints the table that the tests read.
"""

import math
from collections.abc import Callable, Sequence
from functools import cache
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.ladder.belief import STEP_UP_FROM, Belief, Evidence, LineOfSight, first_belief
from core.record.log_entry import Verdict

Floats = NDArray[np.float64]

_PER_ARCSEC: Final = np.linspace(0.01, 3.0, 300)
_WAVELENGTH_MM: Final = 550e-6
_ARCSEC: Final = 206_264.8
_MOTION_REMOVED: Final = 0.85
_EYE_SHIFT: Final = 1.5
_TOLD_APART: Final = 0.02
_UNSURE: Final = 0.03
MINUTES_A_STEP: Final = 4.0
MOST_STEPS: Final = 14
CONFIRMING_STEPS: Final = 2


def transfer(aperture_mm: float, blur_arcsec: float) -> Floats:
    """How much contrast of each fineness (cycles per arcsec) an aperture and the air let through."""
    finest = aperture_mm / _WAVELENGTH_MM / _ARCSEC
    part = np.clip(_PER_ARCSEC / finest, 0.0, 1.0)
    lens = 2.0 / np.pi * (np.arccos(part) - part * np.sqrt(1.0 - part**2))
    fried_mm = 0.98 * _WAVELENGTH_MM * _ARCSEC / blur_arcsec
    apart_mm = _PER_ARCSEC * _ARCSEC * _WAVELENGTH_MM
    still = 1.0 - _MOTION_REMOVED * np.clip(apart_mm / aperture_mm, 0.0, 1.0) ** (1.0 / 3.0)
    return np.asarray(lens * np.exp(-3.44 * (apart_mm / fried_mm) ** (5.0 / 3.0) * still))


@cache
def _eye(power: float) -> Floats:
    per_degree = 0.114 * _EYE_SHIFT * _PER_ARCSEC * 3600.0 / power
    return np.asarray(2.6 * (0.0192 + per_degree) * np.exp(-(per_degree**1.1)))


@cache
def _kept_transfer(aperture_mm: float, hundredths: int) -> Floats:
    return transfer(aperture_mm, math.exp(hundredths / 100.0))


def shown(power: float, aperture_mm: float, blur_arcsec: float) -> float:
    """How much a power shows, of a scale of its own."""
    let_through = _kept_transfer(aperture_mm, round(100.0 * math.log(blur_arcsec)))
    return float(np.sum(let_through * _eye(power)))


def best_power(aperture_mm: float, blur_arcsec: float) -> float:
    """The power that shows most."""
    powers = np.geomspace(20.0, 1500.0, 300)
    shows = [shown(power, aperture_mm, blur_arcsec) for power in powers.tolist()]
    return float(powers[int(np.argmax(shows))])


@frozen(kw_only=True)
class Night:
    """One night: a kit's powers, where the telescope points, and the overhead blur over minutes."""

    powers: tuple[float, ...]
    line: LineOfSight
    overhead_arcsec: Callable[[float], float]
    careless: float

    def blur(self, minutes: float) -> float:
        """The blur at the height looked at."""
        return float(self.overhead_arcsec(minutes) * self.line.path**0.6)

    def best_rung(self, minutes: float) -> int:
        """The number of the rung that shows most."""
        aperture_mm, blur = self.line.aperture_mm, self.blur(minutes)
        return max(range(len(self.powers)), key=lambda rung: shown(self.powers[rung], aperture_mm, blur))

    def answer(self, before: int, after: int, minutes: float, chance: np.random.Generator) -> Verdict:
        """What the observer says after a step between two rungs."""
        if chance.random() < self.careless:
            return list(Verdict)[int(chance.integers(3))]
        aperture_mm, blur = self.line.aperture_mm, self.blur(minutes)
        gain = math.log(
            shown(self.powers[after], aperture_mm, blur) / shown(self.powers[before], aperture_mm, blur)
        )
        gain += chance.normal(0.0, _UNSURE)
        if abs(gain) < _TOLD_APART:
            return Verdict.NO_CHANGE
        return Verdict.MORE if gain > 0.0 else Verdict.LESS


@frozen(kw_only=True)
class Outcome:
    """How a night went: the rung settled on, the best one then, how many steps it took, and the belief."""

    rung: int
    best: int
    steps: int
    belief: Belief | None
    minutes: float

    @property
    def off(self) -> int:
        """How many rungs it is off."""
        return abs(self.rung - self.best)


def recommended(belief: Belief, night: Night) -> int:
    """The rung to which every step still pays more likely than not."""
    rung = 0
    while rung + 1 < len(night.powers) and (
        belief.chance_better(night.line, night.powers[rung], night.powers[rung + 1]) >= 0.5
    ):
        rung += 1
    return rung


def listen(night: Night, chance: np.random.Generator) -> Outcome:
    """Climb one rung at a time by the belief, and take the rung it recommends once it suggests no step.

    Two steps more make sure of it: from what it recommends to the rung beside and back.
    """
    now, rung = first_belief(), 0
    minutes, steps, sure = 0.0, 0, 0
    while steps < MOST_STEPS:
        following = _next_rung(now, night, rung)
        if following is None or sure:
            if sure == CONFIRMING_STEPS:
                break
            sure += 1
            following = _beside(rung, night, up=sure % 2 == 1)
        minutes += MINUTES_A_STEP
        answer = night.answer(rung, following, minutes, chance)
        now = now.learned(
            Evidence(
                unix_s=60.0 * minutes,
                line=night.line,
                from_power=night.powers[rung],
                to_power=night.powers[following],
                verdict=answer,
            )
        )
        rung, steps = following, steps + 1
    return Outcome(
        rung=recommended(now, night), best=night.best_rung(minutes), steps=steps, belief=now, minutes=minutes
    )


def _next_rung(belief: Belief, night: Night, rung: int) -> int | None:
    powers, line = night.powers, night.line
    if rung > 0 and belief.chance_better(line, powers[rung - 1], powers[rung]) < STEP_UP_FROM:
        return rung - 1
    is_last = rung + 1 == len(powers)
    if not is_last and belief.chance_better(line, powers[rung], powers[rung + 1]) >= STEP_UP_FROM:
        return rung + 1
    return None


def _beside(rung: int, night: Night, *, up: bool) -> int:
    return rung + 1 if rung == 0 or (up and rung + 1 < len(night.powers)) else rung - 1


def plain(night: Night, chance: np.random.Generator) -> Outcome:
    """Climb until the first "less detail" and go back one rung."""
    rung, minutes, steps = 0, 0.0, 0
    while rung + 1 < len(night.powers):
        minutes, steps = minutes + MINUTES_A_STEP, steps + 1
        if night.answer(rung, rung + 1, minutes, chance) is Verdict.LESS:
            break
        rung += 1
    return Outcome(rung=rung, best=night.best_rung(minutes), steps=steps, belief=None, minutes=minutes)


# Invented kits: aperture and powers.
KITS: Final = (
    (80.0, (16.0, 40.0, 57.0, 80.0, 114.0, 133.0, 160.0)),
    (150.0, (48.0, 96.0, 120.0, 150.0, 200.0, 240.0, 300.0)),
    (150.0, (37.5, 60.0, 75.0, 100.0, 125.0, 150.0, 187.5, 250.0)),
    (254.0, (48.0, 80.0, 120.0, 150.0, 200.0, 240.0, 300.0, 400.0)),
)
PATHS: Final = (1.05, 1.3, 1.7)


def steady(chance: np.random.Generator) -> Callable[[float], float]:
    """Air that stays as it is."""
    overhead = math.exp(chance.normal(math.log(1.6), 0.4))
    return lambda _minutes: overhead


def drifting(chance: np.random.Generator) -> Callable[[float], float]:
    """Air that wanders by about a fifth in an hour."""
    start = chance.normal(math.log(1.6), 0.35)
    walk = start + np.concatenate([[0.0], np.cumsum(chance.normal(0.0, 0.2 / math.sqrt(60.0), 600))])
    return lambda minutes: math.exp(float(walk[min(int(minutes), 600)]))


def nights(
    count: int, air: Callable[[np.random.Generator], Callable[[float], float]], careless: float, seed: int
) -> list[Night]:
    """Invent nights over all kits and heights."""
    chance = np.random.default_rng(seed)
    found = []
    for number in range(count):
        aperture_mm, powers = KITS[number % len(KITS)]
        line = LineOfSight(aperture_mm=aperture_mm, path=PATHS[number // len(KITS) % len(PATHS)])
        found.append(Night(powers=powers, line=line, overhead_arcsec=air(chance), careless=careless))
    return found


@frozen(kw_only=True)
class Tally:
    """Shares and means over nights."""

    within_one: float
    mean_off: float
    steps: float
    band_holds: float


def tally(outcomes: Sequence[Outcome], over: Sequence[Night]) -> Tally:
    """Sum up outcomes; the band is that of the overhead blur, 15 to 85 % of the belief."""
    held = [
        one.belief.blur_arcsec(0.15) <= night.overhead_arcsec(one.minutes) <= one.belief.blur_arcsec(0.85)
        for one, night in zip(outcomes, over, strict=True)
        if one.belief is not None
    ]
    return Tally(
        within_one=float(np.mean([one.off <= 1 for one in outcomes])),
        mean_off=float(np.mean([one.off for one in outcomes])),
        steps=float(np.mean([one.steps for one in outcomes])),
        band_holds=float(np.mean(held)) if held else math.nan,
    )


def verdicts_after_a_jump(night: Night, chance: np.random.Generator, *, ratio: float) -> int:
    """Settle, let the blur jump by a ratio, and count verdicts until the ladder is within one rung again."""
    before = listen(night, chance)
    assert before.belief is not None
    calm = night.overhead_arcsec
    after = Night(
        powers=night.powers,
        line=night.line,
        overhead_arcsec=lambda minutes: calm(minutes) * ratio,
        careless=night.careless,
    )
    belief, minutes, rung = before.belief, before.minutes, before.rung
    for count in range(MOST_STEPS):
        if abs(recommended(belief, after) - after.best_rung(minutes)) <= 1:
            return count
        minutes += MINUTES_A_STEP
        following = _next_rung(belief, after, rung)
        if following is None:
            # What the observer tries when nothing is suggested: a look one rung away and back.
            following = _beside(rung, after, up=count % 2 == 0)
        belief = belief.learned(
            Evidence(
                unix_s=60.0 * minutes,
                line=night.line,
                from_power=night.powers[rung],
                to_power=night.powers[following],
                verdict=after.answer(rung, following, minutes, chance),
            )
        )
        rung = following
    return MOST_STEPS


def compare(
    count: int, air: Callable[[np.random.Generator], Callable[[float], float]], careless: float
) -> tuple[Tally, Tally]:
    """Return how the belief and the plain rule do on the same nights."""
    over = nights(count, air, careless, seed=8)
    chance = np.random.default_rng(9)
    heard = tally([listen(night, chance) for night in over], over)
    chance = np.random.default_rng(9)
    return heard, tally([plain(night, chance) for night in over], over)


def table(count: int) -> str:
    """Return the table of all cases."""
    lines = ["air      careless within one  mean off  steps   band | plain rule: the same"]
    for name, air in (("steady", steady), ("drifting", drifting)):
        for careless in (0.0, 0.1, 0.2):
            heard, simple = compare(count, air, careless)
            cells = [
                f"{each.within_one:10.1%} {each.mean_off:9.2f} {each.steps:6.1f}" for each in (heard, simple)
            ]
            lines.append(f"{name:9} {careless:7.0%} {cells[0]} {heard.band_holds:6.1%} | {cells[1]}")
    return "\n".join(lines)


if __name__ == "__main__":
    print(table(2000))  # noqa: T201
