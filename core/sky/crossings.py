"""When a smooth quantity, such as the sine of an altitude, passes through given levels.

Nothing here knows what is followed, or how its place is found: everything is asked of a function of
Unix seconds. All events of a span, be it an evening or a year, are solved together, as vectors.
"""

from collections.abc import Callable, Sequence
from functools import cached_property
from typing import Final

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Floats, Truths

Quantity = Callable[[Floats], Floats]

# Between samples this far apart an altitude turns once at most, or by so little that no eye could tell
# (under 0.001 degrees); next to the poles, where the daily turn and the body's own motion may balance.
ALTITUDE_STEP_S: Final = 1800.0
# Around a turning point found between samples, a finer parabola is laid through points this far apart.
_FINE_STEP_S: Final = 120.0
# Events are solved to this.
_TOLERANCE_S: Final = 0.001
_SMALL_STEP_S: Final = 1.0
_MOST_ROUNDS: Final = 80


@frozen(eq=False)
class Crossings:
    """Unix seconds at which a quantity climbs and falls through one level, each in order.

    ``above_s`` are the spans (N, 2) with the quantity above the level, cut off at start and end.
    """

    climbs_s: Floats
    falls_s: Floats
    above_s: Floats


@frozen(kw_only=True, slots=False, eq=False)
class Course:
    """One quantity from ``start_s`` up to, not including, ``end_s`` (Unix seconds).

    The quantity must be smooth, turn no more than once within ``step_s``, and be defined for that long
    before the start and after the end.
    """

    quantity: Quantity
    start_s: float
    end_s: float
    step_s: float = ALTITUDE_STEP_S

    @cached_property
    def knots(self) -> tuple[Floats, Floats]:
        """Times in order, and values: between neighbours the quantity runs one way."""
        count = int(np.ceil((self.end_s - self.start_s) / self.step_s)) + 3
        times_s = np.linspace(self.start_s - self.step_s, self.end_s + self.step_s, count)
        values = self.quantity(times_s)
        turns_s = turning_points(self.quantity, times_s, values)
        times_s = np.concatenate([times_s, turns_s])
        values = np.concatenate([values, self.quantity(turns_s)])
        order = np.argsort(times_s, kind="stable")
        return times_s[order], values[order]

    def crossings(self, levels: Sequence[float]) -> tuple[Crossings, ...]:
        """Return the crossings of each level, however many there are."""
        _, values = self.knots
        over = values >= np.asarray(levels, dtype=float)[:, np.newaxis]
        which, left = np.nonzero(over[:, 1:] != over[:, :-1])
        wanted = np.asarray(levels, dtype=float)[which]
        climbing = over[which, left + 1]
        found_s = self._solve_between(left, wanted)
        inside = (found_s >= self.start_s) & (found_s < self.end_s)
        return tuple(
            self._sort_out(level, found_s, inside & (which == index), climbing)
            for index, level in enumerate(levels)
        )

    def _solve_between(self, left: NDArray[np.intp], wanted: Floats) -> Floats:
        """Return when the quantity has each wanted value (N,) between a knot and the next."""
        times_s, values = self.knots
        return solve(
            lambda t, chosen: self.quantity(t) - wanted[chosen],
            (times_s[left], times_s[left + 1]),
            (values[left] - wanted, values[left + 1] - wanted),
        )

    def _sort_out(self, level: float, found_s: Floats, chosen: Truths, climbing: Truths) -> Crossings:
        climbs_s, falls_s = found_s[chosen & climbing], found_s[chosen & ~climbing]
        if len(climbs_s) and len(falls_s):
            starts_above = falls_s[0] < climbs_s[0]
        elif len(climbs_s) or len(falls_s):
            starts_above = len(falls_s) > 0
        else:
            starts_above = self.highest[1] > level
        edges_s = np.concatenate([[self.start_s] if starts_above else [], found_s[chosen]])
        if len(edges_s) % 2:
            edges_s = np.append(edges_s, self.end_s)
        return Crossings(climbs_s, falls_s, edges_s.reshape(-1, 2))

    @property
    def highest(self) -> tuple[float, float]:
        """The time and value of the greatest value, start and end allowed."""
        return self._extremes[1]

    @property
    def lowest(self) -> tuple[float, float]:
        """The time and value of the least value, start and end allowed."""
        return self._extremes[0]

    @property
    def _knots_inside(self) -> tuple[Floats, Floats]:
        """The start, the end and the knots between them, with the values there."""
        return self._candidates(np.array([[self.start_s, self.end_s]]))

    @cached_property
    def _extremes(self) -> tuple[tuple[float, float], tuple[float, float]]:
        times_s, values = self._knots_inside
        least, greatest = int(np.argmin(values)), int(np.argmax(values))
        return (
            (float(times_s[least]), float(values[least])),
            (float(times_s[greatest]), float(values[greatest])),
        )

    def highest_within(self, spans_s: Floats) -> tuple[float, float]:
        """Return the time and value of the greatest value in spans (N, 2) of the course, edges allowed."""
        times_s, values = self._candidates(spans_s)
        best = int(np.argmax(values))
        return float(times_s[best]), float(values[best])

    def _candidates(self, spans_s: Floats) -> tuple[Floats, Floats]:
        """Return the edges of some spans and the knots within them, with the values there."""
        times_s, values = self.knots
        inside = (times_s[:, np.newaxis] > spans_s[:, 0]) & (times_s[:, np.newaxis] < spans_s[:, 1])
        chosen = inside.any(axis=1)
        edges_s = spans_s.ravel()
        return (
            np.concatenate([edges_s, times_s[chosen]]),
            np.concatenate([self.quantity(edges_s), values[chosen]]),
        )


def turning_points(
    quantity: Quantity, times_s: Floats, values: Floats, *, fine_step_s: float = _FINE_STEP_S
) -> Floats:
    """Return where a quantity, sampled at even steps, turns; by a coarse and then a fine parabola."""
    turns = turns_at(values)
    before, here, after = values[:-2], values[1:-1], values[2:]
    step_s = float(times_s[1] - times_s[0])
    middle_s = times_s[1:-1][turns]
    near_s = middle_s + _vertex(before[turns], here[turns], after[turns], step_s)
    fine = quantity(near_s + np.array([[-fine_step_s], [0.0], [fine_step_s]]))
    found_s = near_s + _vertex(fine[0], fine[1], fine[2], fine_step_s)
    return np.clip(found_s, middle_s - step_s, middle_s + step_s)


def turns_at(values: Floats) -> Truths:
    """Tell of each sample but the first and the last (N - 2,) whether the quantity turns at it."""
    before, here, after = values[:-2], values[1:-1], values[2:]
    return np.asarray(((here >= before) & (here > after)) | ((here <= before) & (here < after)))


def _vertex(before: Floats, here: Floats, after: Floats, step_s: float) -> Floats:
    """Return how far from the middle of three samples their parabola turns, at most one step."""
    bend = before - 2.0 * here + after
    safe_bend = np.where(bend == 0.0, 1.0, bend)
    shift = np.where(bend == 0.0, 0.0, 0.5 * (before - after) / safe_bend)
    return np.asarray(np.clip(shift, -1.0, 1.0) * step_s)


def solve(
    difference: Callable[[Floats, NDArray[np.intp]], Floats],
    brackets_s: tuple[Floats, Floats],
    ends: tuple[Floats, Floats],
) -> Floats:
    """Return one zero in each bracket, (N,), by false position with the Illinois rule.

    ``difference`` takes times and which brackets they belong to; ``ends`` are its values, of unlike sign,
    at the two ends of each bracket. Source: Dowell and Jarratt 1971, BIT 11, 168.
    """
    older_s, newer_s = (np.array(side) for side in brackets_s)
    older, newer = (np.array(side) for side in ends)
    active = np.nonzero(newer != 0.0)[0]
    for _ in range(_MOST_ROUNDS):
        if len(active) == 0:
            break
        a_s, b_s, a, b = older_s[active], newer_s[active], older[active], newer[active]
        next_s = b_s - b * (b_s - a_s) / (b - a)
        value = difference(next_s, active)
        kept = np.signbit(value) == np.signbit(b)
        older_s[active] = np.where(kept, a_s, b_s)
        older[active] = np.where(kept, a / 2.0, b)
        newer_s[active], newer[active] = next_s, value
        # Where the quantity only grazes its level, the first steps are tiny and the goal still far: what is
        # left to go is judged by the slope over the last step as well.
        step_s = np.abs(next_s - b_s)
        near = np.abs(value) * step_s <= _TOLERANCE_S * np.abs(value - b)
        settled = ((step_s < _SMALL_STEP_S) & near & (value != b)) | (value == 0.0)
        active = active[~settled]
    return newer_s
