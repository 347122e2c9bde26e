"""How long a log of 100,000 lines takes to open and to search."""

from contextlib import closing
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from core.record.log import Log
from tests.bench.timing import tell_aim
from tests.core.record.log_lines import PROFILE, line

_LINES = 100_000


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("log")
    with closing(Log.open(folder)) as log:
        log.add_unknown(line(n, note=f"belts sharp in moment {n}") for n in range(_LINES))
    return folder


def test_opening_a_large_log(folder: Path, benchmark: BenchmarkFixture) -> None:
    """Open the file and read the newest 200 lines."""

    def open_it() -> int:
        with closing(Log.open(folder)) as log:
            return len(log.entries(PROFILE, newest=200))

    assert benchmark(open_it) == 200
    tell_aim(benchmark, aim_s=0.3)


def test_searching_a_large_log(folder: Path, benchmark: BenchmarkFixture) -> None:
    """Search for a word that stands in every line and one that stands in one."""
    with closing(Log.open(folder)) as log:
        assert benchmark(lambda: len(log.entries(PROFILE, search="belts 54321", newest=200))) == 1
    tell_aim(benchmark, aim_s=0.1)
