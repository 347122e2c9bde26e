"""In which order an evening's targets are looked at, and for how long each. Ours.

Every target has a block of at least 15 minutes in one of its windows, no two overlap, and as many as possible
are served. Of all such orders the one is taken that is worth most in all; where two are worth the same, what
sinks first comes first. The best hour and a half at a planet is what counts, half an hour at a faint one, its
beginning more than its end: more of it gives little more, so that the others have their turn while they
stand well.
"""

import math
from collections.abc import Callable, Sequence
from typing import Final, Generic, TypeVar

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Floats, Truths

KeyT = TypeVar("KeyT")

STEP_S: Final = 300.0
SHORTEST_STEPS: Final = 3
# A step at a target is worth this much in itself, so that no minute stays unused for want of detail, nor in
# waiting for another target; less outside the target's best minutes, which another may have.
_BY_ITSELF: Final = 0.03
_POOR_BY_ITSELF: Final = 0.005
# As many parts of what is enough count less and less.
_THIRDS: Final = 3
# After enough of a target a step is worth so much of what it was.
_OF_THE_REST: Final = 0.05


@frozen(kw_only=True)
class Target(Generic[KeyT]):
    """What may be looked at: its windows inside the hours (Unix seconds), and when it sinks or ends for good.

    ``worth`` gives what a look is worth at times (N,), never below 0; after its best ``enough_s`` seconds it
    gives little more. ``best_s`` is the span of its best minutes, all of the time where none is told.
    """

    key: KeyT
    windows_s: tuple[tuple[float, float], ...]
    sinks_s: float
    worth: Callable[[Floats], Floats]
    enough_s: float = 5400.0
    best_s: tuple[float, float] = (-math.inf, math.inf)


@frozen(kw_only=True)
class Block(Generic[KeyT]):
    """One target's time, in Unix seconds."""

    key: KeyT
    start_s: float
    end_s: float


def order_targets(
    targets: Sequence[Target[KeyT]], *, start_s: float, end_s: float
) -> tuple[Block[KeyT], ...]:
    """Return the blocks of the targets between two times, in their order.

    A target without 15 minutes of one window, in steps of 5 minutes from the start, has none. As many as
    possible are served, so that the sum of what their blocks are worth is greatest.
    """
    count = max(int((end_s - start_s) // STEP_S), 0)
    by_sinking = sorted(targets, key=lambda target: target.sinks_s)
    middles = np.asarray(start_s + STEP_S * (np.arange(count) + 0.5), dtype=float)
    runs = [
        _runs(
            _open_steps(target, start_s, count),
            target.worth(middles),
            max(round(target.enough_s / STEP_S), SHORTEST_STEPS),
            _inside(target.best_s, middles),
        )
        for target in by_sinking
    ]
    return tuple(
        Block(
            key=by_sinking[number].key,
            start_s=start_s + STEP_S * begin,
            end_s=start_s + STEP_S * end,
        )
        for number, (begin, end) in _worth_most(runs, count)
    )


def _open_steps(target: Target[KeyT], start_s: float, count: int) -> Truths:
    """Return which steps lie wholly inside a window."""
    begins = np.asarray(start_s + STEP_S * np.arange(count))
    found = np.zeros(count, dtype=bool)
    for low_s, high_s in target.windows_s:
        found |= (begins >= low_s - 1.0) & (begins + STEP_S <= high_s + 1.0)
    return found


def _inside(span_s: tuple[float, float], unix_s: Floats) -> Truths:
    return np.asarray((span_s[0] <= unix_s) & (unix_s < span_s[1]))


@frozen(eq=False)
class _Run:
    """The blocks of a target in one stretch of M steps that it is open in, from the step ``first`` on.

    ``by_end`` (M + 1, M + 1) is what each is worth, with its end along the first axis and its beginning along
    the last, along which the best one is sought; both are counted from ``first``, and -inf is no block.
    """

    first: int
    by_end: Floats

    @property
    def steps(self) -> slice:
        """Where the stretch lies among all steps, its end included."""
        return slice(self.first, self.first + len(self.by_end))

    def holds(self, end: int) -> bool:
        """Tell whether a block may end before a step of all."""
        return self.first <= end < self.first + len(self.by_end)


def _runs(open_steps: Truths, values: Floats, enough_steps: int, at_best: Truths) -> tuple[_Run, ...]:
    """Return the blocks of a target, from what each step is worth (N,); none reaches over a closed step."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], open_steps, [False]]).astype(int)))
    return tuple(
        _Run(int(first), _block_worths(values[first:last], enough_steps, at_best[first:last]))
        for first, last in zip(edges[::2], edges[1::2], strict=True)
        if last - first >= SHORTEST_STEPS
    )


def _block_worths(values: Floats, enough_steps: int, at_best: Truths) -> Floats:
    """Return what blocks of some steps (M,) are worth, by end and beginning (M + 1, M + 1).

    The best run in each counts, as long as is enough, the better third of it in full, the next for two thirds
    and the last for one; the rest of its steps little where they are ``at_best``.
    """
    places = np.arange(len(values) + 1)
    lengths = places - places[:, np.newaxis]
    up_to = _up_to(values)
    thirds = [
        _best_runs(up_to, lengths, max(enough_steps * third // _THIRDS, 1)) for third in range(1, _THIRDS + 1)
    ]
    rest = np.maximum(_sums(_up_to(np.where(at_best, values, 0.0))) - thirds[-1], 0.0)
    spare = _sums(_up_to(np.where(at_best, _BY_ITSELF, _POOR_BY_ITSELF)))
    worths = sum(thirds) / _THIRDS + _OF_THE_REST * rest + spare
    return np.ascontiguousarray(np.where(lengths >= SHORTEST_STEPS, worths, -np.inf).T)


def _best_runs(up_to: Floats, lengths: NDArray[np.int_], enough_steps: int) -> Floats:
    """Return the sum of the best run in each block that is as long as is enough, of all of a shorter one.

    ``up_to`` (M + 1,) are the sums of the steps before each, ``lengths`` (M + 1, M + 1) those of the blocks.
    """
    found = _sums(up_to)
    runs = up_to[enough_steps:] - up_to[:-enough_steps]
    count = len(runs)
    is_inside = lengths[:count, :count] >= 0
    best = np.maximum.accumulate(np.where(is_inside, runs, -np.inf), axis=1)
    np.copyto(found[:count, enough_steps:], best, where=is_inside)
    return found


def _up_to(values: Floats) -> Floats:
    """Return the sum of the steps before each edge between them, (M + 1,)."""
    return np.concatenate([[0.0], np.cumsum(values)])


def _sums(up_to: Floats) -> Floats:
    """Return the sum of the steps of each block from the sums before each edge, (M + 1, M + 1)."""
    return np.asarray(up_to - up_to[:, np.newaxis])


def _worth_most(targets: Sequence[Sequence[_Run]], count: int) -> list[tuple[int, tuple[int, int]]]:
    """Return the numbers of targets in their order, with the first and last-plus-one step of each block.

    A set of targets is served best by one of them as the last, and before it the set without that one in its
    own best way; sets are bits of a number.
    """
    # What each set is worth when all of it is over at a step or before.
    most = {0: np.zeros(count + 1)}
    # And what it is worth with one of them as the last, which ends at a step.
    ends: dict[int, dict[int, Floats]] = {}
    for chosen in range(1, 1 << len(targets)):
        found = {
            number: _worths_after(most[chosen ^ 1 << number], runs)
            for number, runs in enumerate(targets)
            if chosen & 1 << number and chosen ^ 1 << number in most
        }
        ends[chosen] = {number: worths for number, worths in found.items() if np.isfinite(worths.max())}
        if ends[chosen]:
            by_end = np.maximum.reduce(list(ends[chosen].values()))
            most[chosen] = np.maximum.accumulate(by_end)
    chosen = max(most, key=lambda each: (each.bit_count(), most[each][-1]))
    order: list[tuple[int, tuple[int, int]]] = []
    latest = count
    while chosen:
        # Of equal ones the last to sink, for the others come before it.
        number = max(
            sorted(ends[chosen], reverse=True),
            key=lambda each: round(float(ends[chosen][each][: latest + 1].max()), 9),
        )
        end = int(np.argmax(ends[chosen][number][: latest + 1]))
        chosen ^= 1 << number
        run = next(run for run in targets[number] if run.holds(end))
        latest = run.first + int(np.argmax(most[chosen][run.steps] + run.by_end[end - run.first]))
        order.append((number, (latest, end)))
    return order[::-1]


def _worths_after(before: Floats, runs: Sequence[_Run]) -> Floats:
    """Return what all is worth when a target's block ends at each edge, the others being over by its start.

    ``before`` (N + 1,) is what these are worth by each edge.
    """
    worths = np.full(len(before), -np.inf)
    for run in runs:
        worths[run.steps] = (run.by_end + before[run.steps]).max(axis=1)
    return worths
