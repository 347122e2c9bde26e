"""In which order an evening's targets are looked at, and for how long each. Ours.

What sinks first comes first; every target has a block of at least 15 minutes in one of its windows, and no
two overlap. Where that order cannot serve them all, another one that serves more is taken. One that opens
late keeps none waiting: it changes places with the next, which opens before it, where that is worth more.
"""

from collections.abc import Callable, Sequence
from functools import cache
from typing import Final, Generic, TypeVar

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

Floats = NDArray[np.float64]
KeyT = TypeVar("KeyT")

STEP_S: Final = 300.0
SHORTEST_STEPS: Final = 3
# Time at a target is worth this much in itself, so that no minute stays unused for want of detail.
_BY_ITSELF: Final = 1e-3
_NEVER: Final = 10**9
# How many times as much the other order must be worth.
_GOOD_DEAL: Final = 1.1


@frozen(kw_only=True)
class Target(Generic[KeyT]):
    """What may be looked at: its windows inside the hours (Unix seconds), and when it sinks or ends for good.

    ``worth`` gives what a look is worth at times (N,), never below 0.
    """

    key: KeyT
    windows_s: tuple[tuple[float, float], ...]
    sinks_s: float
    worth: Callable[[Floats], Floats]


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
    values = [
        np.where(open_steps[number], by_sinking[number].worth(middles) + _BY_ITSELF, 0.0) for number in chosen
    ]
    steps = [open_steps[number] for number in chosen]
    order, spans = _changing_places(steps, values)
    chosen = [chosen[place] for place in order]
    return tuple(
        Block(
            key=by_sinking[number].key,
            start_s=start_s + STEP_S * begin,
            end_s=start_s + STEP_S * end,
        )
        for number, (begin, end) in zip(chosen, spans, strict=True)
    )


def _open_steps(target: Target[KeyT], start_s: float, count: int) -> NDArray[np.bool_]:
    """Return which steps lie wholly inside a window."""
    begins = np.asarray(start_s + STEP_S * np.arange(count))
    found = np.zeros(count, dtype=bool)
    for low_s, high_s in target.windows_s:
        found |= (begins >= low_s - 1.0) & (begins + STEP_S <= high_s + 1.0)
    return found


def _first_ends(open_steps: NDArray[np.bool_]) -> list[int]:
    """Return, for every step, the earliest end of a shortest block that begins there or later."""
    count = len(open_steps)
    ends = [_NEVER] * (count + 1)
    run = 0
    for step in range(count - 1, -1, -1):
        run = run + 1 if open_steps[step] else 0
        ends[step] = step + SHORTEST_STEPS if run >= SHORTEST_STEPS else ends[step + 1]
    return ends


def _order(open_steps: Sequence[NDArray[np.bool_]]) -> list[int]:
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
    open_steps: Sequence[NDArray[np.bool_]], values: Sequence[Floats]
) -> tuple[list[int], list[tuple[int, int]]]:
    """Return the places of targets, given in their order, and their spans after neighbours changed places."""
    order = list(range(len(values)))
    spans = _spans(open_steps, values)
    worth = _worth(spans, values)
    opens = [int(np.argmax(steps)) for steps in open_steps]
    for place in range(len(order) - 1):
        if opens[order[place + 1]] >= opens[order[place]]:
            continue
        other = [*order[:place], order[place + 1], order[place], *order[place + 2 :]]
        other_values = [values[number] for number in other]
        other_spans = _spans([open_steps[number] for number in other], other_values)
        if all(begin >= 0 for begin, _ in other_spans):
            other_worth = _worth(other_spans, other_values)
            if other_worth > _GOOD_DEAL * worth:
                order, spans, worth = other, other_spans, other_worth
    return order, spans


def _worth(spans: Sequence[tuple[int, int]], values: Sequence[Floats]) -> float:
    return float(sum(value[begin:end].sum() for (begin, end), value in zip(spans, values, strict=True)))


def _spans(open_steps: Sequence[NDArray[np.bool_]], values: Sequence[Floats]) -> list[tuple[int, int]]:
    """Return the first and last-plus-one step of each block, in the order given, worth most in all.

    Where that order cannot serve them all, every one is (-1, -1).
    """
    if not open_steps:
        return []
    count = len(open_steps[0])
    # best[e]: the most that the blocks so far are worth when the last ends at e or before.
    best = np.zeros(count + 1)
    ended: list[list[tuple[int, int]]] = []
    for steps, value in zip(open_steps, values, strict=True):
        total = np.concatenate([[0.0], np.cumsum(value)])
        after = np.full(count + 1, -np.inf)
        spans = [(-1, -1)] * (count + 1)
        begin, gained = -1, -np.inf
        for end in range(count + 1):
            if end and not steps[end - 1]:
                begin, gained = -1, -np.inf
            # A block that ends here may have begun three steps back, if the window held since.
            first = end - SHORTEST_STEPS
            if first >= 0 and steps[first:end].all() and best[first] - total[first] > gained:
                begin, gained = first, best[first] - total[first]
            if end:
                after[end], spans[end] = after[end - 1], spans[end - 1]
            if begin >= 0 and gained + total[end] > after[end]:
                after[end], spans[end] = gained + total[end], (begin, end)
        ended.append(spans)
        best = after
    found: list[tuple[int, int]] = []
    end = count
    for spans in reversed(ended):
        begin, end_here = spans[end]
        if begin < 0:
            return [(-1, -1)] * len(ended)
        found.append((begin, end_here))
        end = begin
    return found[::-1]
