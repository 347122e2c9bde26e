"""In which order an evening's targets are looked at, and for how long each. Ours.

What sinks first comes first; every target has a block of at least 15 minutes in one of its windows, and no
two overlap. Where that order cannot serve them all, another one that serves more is taken. One that opens
late keeps none waiting: it changes places with the next, which opens before it, where that is worth more.
The best hour and a half at a planet is what counts, half an hour at a faint one: more of it gives little
more, so that the others have their turn while they stand well.
"""

from collections.abc import Callable, Sequence
from functools import cache
from typing import Final, Generic, TypeVar

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Floats, Truths

KeyT = TypeVar("KeyT")

STEP_S: Final = 300.0
SHORTEST_STEPS: Final = 3
# A step at a target is worth this much in itself, so that no minute stays unused for want of detail, nor in
# waiting for another target.
_BY_ITSELF: Final = 0.03
_NEVER: Final = 10**9
# After enough of a target a step is worth so much of what it was.
_OF_THE_REST: Final = 0.05


@frozen(kw_only=True)
class Target(Generic[KeyT]):
    """What may be looked at: its windows inside the hours (Unix seconds), and when it sinks or ends for good.

    ``worth`` gives what a look is worth at times (N,), never below 0; after its best ``enough_s`` seconds it
    gives little more.
    """

    key: KeyT
    windows_s: tuple[tuple[float, float], ...]
    sinks_s: float
    worth: Callable[[Floats], Floats]
    enough_s: float = 5400.0


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
    possible are served, those that sink first before the others; then the blocks are drawn so that the sum of
    what they are worth is greatest.
    """
    count = max(int((end_s - start_s) // STEP_S), 0)
    by_sinking = sorted(targets, key=lambda target: target.sinks_s)
    open_steps = [_open_steps(target, start_s, count) for target in by_sinking]
    chosen = _order(open_steps)
    middles = np.asarray(start_s + STEP_S * (np.arange(count) + 0.5), dtype=float)
    blocks = [
        _block_worths(
            open_steps[number],
            by_sinking[number].worth(middles),
            max(round(by_sinking[number].enough_s / STEP_S), SHORTEST_STEPS),
        )
        for number in chosen
    ]
    order, spans = _changing_places([open_steps[number] for number in chosen], blocks)
    chosen = [chosen[place] for place in order]
    return tuple(
        Block(
            key=by_sinking[number].key,
            start_s=start_s + STEP_S * begin,
            end_s=start_s + STEP_S * end,
        )
        for number, (begin, end) in zip(chosen, spans, strict=True)
    )


def _open_steps(target: Target[KeyT], start_s: float, count: int) -> Truths:
    """Return which steps lie wholly inside a window."""
    begins = np.asarray(start_s + STEP_S * np.arange(count))
    found = np.zeros(count, dtype=bool)
    for low_s, high_s in target.windows_s:
        found |= (begins >= low_s - 1.0) & (begins + STEP_S <= high_s + 1.0)
    return found


def _first_ends(open_steps: Truths) -> list[int]:
    """Return, for every step, the earliest end of a shortest block that begins there or later."""
    count = len(open_steps)
    ends = [_NEVER] * (count + 1)
    run = 0
    for step in range(count - 1, -1, -1):
        run = run + 1 if open_steps[step] else 0
        ends[step] = step + SHORTEST_STEPS if run >= SHORTEST_STEPS else ends[step + 1]
    return ends


def _order(open_steps: Sequence[Truths]) -> list[int]:
    """Return the numbers of the targets served, in their order; they are given in the order of sinking."""
    ends = [_first_ends(steps) for steps in open_steps]

    @cache
    def most(left: frozenset[int], step: int) -> int:
        """Return how many of those left can still be served from a step on."""
        served = 0
        for number in left:
            end = ends[number][step]
            if end < _NEVER:
                served = max(served, 1 + most(left - {number}, end))
                if served == len(left):
                    break
        return served

    order: list[int] = []
    left, step = frozenset(number for number, each in enumerate(ends) if each[0] < _NEVER), 0
    while wanted := most(left, step):
        for number in sorted(left):
            end = ends[number][step]
            if end < _NEVER and 1 + most(left - {number}, end) == wanted:
                order.append(number)
                left, step = left - {number}, end
                break
    return order


def _changing_places(
    open_steps: Sequence[Truths], blocks: Sequence[Floats]
) -> tuple[list[int], list[tuple[int, int]]]:
    """Return the places of targets, given in their order, and their spans after neighbours changed places."""
    order = list(range(len(blocks)))
    spans = _spans(blocks)
    worth = _worth(spans, blocks)
    opens = [int(np.argmax(steps)) for steps in open_steps]
    for place in range(len(order) - 1):
        if opens[order[place + 1]] >= opens[order[place]]:
            continue
        other = [*order[:place], order[place + 1], order[place], *order[place + 2 :]]
        other_blocks = [blocks[number] for number in other]
        other_spans = _spans(other_blocks)
        if all(begin >= 0 for begin, _ in other_spans):
            other_worth = _worth(other_spans, other_blocks)
            if other_worth > worth:
                order, spans, worth = other, other_spans, other_worth
    return order, spans


def _worth(spans: Sequence[tuple[int, int]], blocks: Sequence[Floats]) -> float:
    return float(sum(block[begin, end] for (begin, end), block in zip(spans, blocks, strict=True)))


def _block_worths(open_steps: Truths, values: Floats, enough_steps: int) -> Floats:
    """Return what a block from a step to before another is worth, (N + 1, N + 1); -inf for no block.

    Its best run counts in full, as long as is enough, the rest of its steps little.
    """
    count = len(values)
    found = np.full((count + 1, count + 1), -np.inf)
    edges = np.flatnonzero(np.diff(np.concatenate([[False], open_steps, [False]]).astype(int)))
    for first, last in zip(edges[::2], edges[1::2], strict=True):
        places = np.arange(last - first + 1)
        lengths = places - places[:, np.newaxis]
        up_to = np.concatenate([[0.0], np.cumsum(values[first:last])])
        in_all = up_to - up_to[:, np.newaxis]
        best = np.where(lengths > enough_steps, _best_runs(up_to, enough_steps), in_all)
        worths = best + _OF_THE_REST * (in_all - best) + _BY_ITSELF * lengths
        found[first : last + 1, first : last + 1] = np.where(lengths >= SHORTEST_STEPS, worths, -np.inf)
    return found


def _best_runs(up_to: Floats, enough_steps: int) -> Floats:
    """Return the sum of the best run in each block that is as long as is enough, (N + 1, N + 1).

    ``up_to`` (N + 1,) are the sums of the steps before each; shorter blocks have none, -inf.
    """
    count = len(up_to)
    runs = up_to[enough_steps:] - up_to[:-enough_steps]
    begins = np.arange(count)[:, np.newaxis]
    beginning_inside = np.where(np.arange(len(runs)) >= begins, runs, -np.inf)
    best = np.full((count, count), -np.inf)
    best[:, enough_steps:] = np.maximum.accumulate(beginning_inside, axis=1)
    return best


def _spans(blocks: Sequence[Floats]) -> list[tuple[int, int]]:
    """Return the first and last-plus-one step of each block, in the order given, worth most in all.

    ``blocks`` are what each of a target's blocks is worth. Where that order cannot serve them all, every one
    is (-1, -1).
    """
    if not blocks:
        return []
    # The most that the blocks so far are worth when the last ends at a step or before.
    most = np.zeros(len(blocks[0]))
    by_end: list[tuple[Floats, NDArray[np.intp]]] = []
    for block in blocks:
        total = most[:, np.newaxis] + block
        by_end.append((total.max(axis=0), total.argmax(axis=0)))
        most = np.maximum.accumulate(by_end[-1][0])
    found: list[tuple[int, int]] = []
    latest = len(most) - 1
    for worths, begins in reversed(by_end):
        end = int(np.argmax(worths[: latest + 1]))
        if np.isneginf(worths[end]):
            return [(-1, -1)] * len(blocks)
        latest = int(begins[end])
        found.append((latest, end))
    return found[::-1]
