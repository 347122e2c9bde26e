"""A quantity known from even samples so close together that it runs as a parabola through any three of them.

An evening is sampled once a minute to be drawn; its events are read off the same samples, where looking for
each of them anew would take three times as long.
"""

from functools import cached_property
from typing import Final, Self

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Floats
from core.sky.crossings import Course, turns_at

# Keeps a level that is just reached, with nothing to solve, from being a division by zero.
_STEEP_ENOUGH: Final = float(np.finfo(float).tiny)


@frozen(eq=False)
class _Parabolas:
    """Through each sample (N,) and its two neighbours; the first and last share those of the next ones."""

    times_s: Floats
    values: Floats

    @property
    def step_s(self) -> float:
        """How far apart the samples are."""
        return float(self.times_s[1] - self.times_s[0])

    def of(self, centres: NDArray[np.intp]) -> tuple[Floats, Floats, Floats]:
        """Return value, slope and bend of the parabolas around samples, with a step as unit of time."""
        before, here, after = (self.values[centres + shift] for shift in (-1, 0, 1))
        return here, (after - before) / 2.0, (before + after) / 2.0 - here

    def near(self, unix_s: Floats) -> NDArray[np.intp]:
        """Return the samples whose parabolas serve some times."""
        nearest = np.rint((unix_s - self.times_s[0]) / self.step_s).astype(np.intp)
        return np.asarray(np.clip(nearest, 1, len(self.times_s) - 2))

    def at(self, unix_s: Floats) -> Floats:
        """Return the values at times."""
        centres = self.near(unix_s)
        value, slope, bend = self.of(centres)
        away = (unix_s - self.times_s[centres]) / self.step_s
        return np.asarray(value + away * (slope + away * bend))


@frozen(kw_only=True, slots=False, eq=False)
class SampledCourse(Course):
    """A course through samples, from the first up to, not including, the last.

    The sine of an altitude, sampled each minute, is within 1e-8 of it, and its events within 1 ms.
    """

    parabolas: _Parabolas

    @classmethod
    def through(cls, times_s: Floats, values: Floats) -> Self:
        """Return the course through values (N,) at even times (N,), N at least 3."""
        parabolas = _Parabolas(times_s, values)
        return cls(
            quantity=parabolas.at,
            start_s=float(times_s[0]),
            end_s=float(times_s[-1]),
            step_s=parabolas.step_s,
            parabolas=parabolas,
        )

    @cached_property
    def knots(self) -> tuple[Floats, Floats]:
        """The samples and the turning points between them, times in order, and values."""
        times_s, values, _ = self._centred_knots
        return times_s, values

    @cached_property
    def _centred_knots(self) -> tuple[Floats, Floats, NDArray[np.intp]]:
        """Return the knots, and whose parabola they lie on: of a mere sample, minus 1."""
        times_s, values = self.parabolas.times_s, self.parabolas.values
        centres = np.flatnonzero(turns_at(values)) + 1
        value, slope, bend = self.parabolas.of(centres)
        turns_s = times_s[centres] - slope / (2.0 * bend) * self.step_s
        places = times_s.searchsorted(turns_s)
        return (
            np.insert(times_s, places, turns_s),
            np.insert(values, places, value - slope**2 / (4.0 * bend)),
            np.insert(np.full(len(times_s), -1), places, centres),
        )

    @property
    def _knots_inside(self) -> tuple[Floats, Floats]:
        # Start and end are samples themselves.
        return self.knots

    def _solve_between(self, left: NDArray[np.intp], wanted: Floats) -> Floats:
        times_s, _, centres = self._centred_knots
        from_s, to_s = times_s[left], times_s[left + 1]
        # Next to a turning point it is the parabola that turns there, so that one just reached is found.
        turning = np.maximum(centres[left], centres[left + 1])
        centre = np.where(turning >= 0, turning, self.parabolas.near((from_s + to_s) / 2.0))
        value, slope, bend = self.parabolas.of(centre)
        # Of the two roots the one where the parabola runs the way the bracket does, free of cancellation.
        climbs = np.where(self.knots[1][left + 1] > self.knots[1][left], 1.0, -1.0)
        root = np.sqrt(np.maximum(slope**2 - 4.0 * bend * (value - wanted), 0.0))
        towards = np.copysign(1.0, slope)
        steep = towards * np.maximum(np.abs(slope) + root, _STEEP_ENOUGH)
        with np.errstate(divide="ignore"):  # a straight run has no second root, nor is it asked for
            away = np.where(towards == climbs, 2.0 * (wanted - value) / steep, -steep / (2.0 * bend))
        return np.asarray(np.clip(self.parabolas.times_s[centre] + away * self.step_s, from_s, to_s))
