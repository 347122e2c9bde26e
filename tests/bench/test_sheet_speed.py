"""The sheet of an evening, from the choices to the finished file; skipped unless asked for.

``pytest tests/bench --benchmark-only``: aims are told beside the medians.
"""

import subprocess
import sys
from datetime import UTC, date, datetime
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from core.drawing.paper_sizes import Paper
from core.export.evening_file import write_evening
from core.record.profile import read_profile
from core.situation.choices import Choices
from core.situation.situation import Situation
from tests.bench.timing import tell_aim

ROOT = Path(__file__).resolve().parents[2]
PROFILE = ROOT / "sample_profiles" / "balcony_greece.toml"
EVENING = date(2026, 12, 5)


@pytest.mark.parametrize("ending", ["pdf", "png", "ics", "csv"])
def test_a_file_in_the_window(benchmark: BenchmarkFixture, ending: str, tmp_path: Path) -> None:
    """A new evening computed and written, with all libraries at hand: A4, three targets."""
    profile, path = read_profile(PROFILE), tmp_path / f"evening.{ending}"

    def write() -> None:
        situation = Situation(Choices(profile=profile, evening=EVENING), datetime.now(UTC))
        write_evening(path, situation, Paper.A4)

    benchmark.pedantic(write, rounds=5, warmup_rounds=1)

    tell_aim(benchmark, 1.0)


def test_the_whole_command(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    """From a terminal: Python started, everything imported, a PDF of two pages written."""
    words = ["-m", "gui.app", "sheet", str(PROFILE), "--evening", str(EVENING), "--replace", "-o"]

    def write() -> None:
        subprocess.run([sys.executable, *words, str(tmp_path / "evening.pdf")], cwd=ROOT, check=True)

    benchmark.pedantic(write, rounds=5, warmup_rounds=1)

    tell_aim(benchmark, 2.0)
