"""Time the other side of a comparison as the benchmark times the program: warm, and at its quickest."""

from collections.abc import Callable
from time import perf_counter


def best_of(times: int, work: Callable[[], object]) -> float:
    """Return the seconds of the quickest of some runs, after one to warm up."""
    work()
    taken_s = []
    for _ in range(times):
        start = perf_counter()
        work()
        taken_s.append(perf_counter() - start)
    return min(taken_s)
