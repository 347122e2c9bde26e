"""What benchmarks share: the other side of a comparison, and aims that are told and fail nothing.

A busy machine takes longer for everything; only what is a ratio to a peer in the same run is asserted.
"""

from collections.abc import Callable
from time import perf_counter

from pytest_benchmark.fixture import BenchmarkFixture


def best_of(times: int, work: Callable[[], object]) -> float:
    """Return the seconds of the quickest of some runs, after one to warm up."""
    work()
    taken_s = []
    for _ in range(times):
        start = perf_counter()
        work()
        taken_s.append(perf_counter() - start)
    return min(taken_s)


def tell_aim(benchmark: BenchmarkFixture, aim_s: float) -> None:
    """Put the aim and how much of it the median takes beside the figures of a benchmark."""
    assert benchmark.stats is not None
    median_s = benchmark.stats.stats.median
    benchmark.extra_info.update(aim_ms=1000.0 * aim_s, share_of_aim=round(median_s / aim_s, 2))
