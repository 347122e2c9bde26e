"""Another palette in the whole window within 100 ms.

What is timed lies between the key and the last pixel, in a window of 1280 by 800 pixels whose three views
have all been made: every widget is dressed, also those of the views behind the one that is shown, Height, and
that one is painted anew.

Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

import itertools
from datetime import UTC, datetime
from pathlib import Path

from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from core.record.profile import read_profile
from core.situation.choices import Choices
from gui.jobs import AtOnce, Jobs
from gui.state import AppState
from gui.widgets.theme import Theme
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.bench.timing import tell_aim

SAMPLE = Path(__file__).resolve().parent.parent.parent / "sample_profiles" / "balcony_greece.toml"
MOMENT = datetime(2026, 12, 5, 21, 30, tzinfo=UTC)
AIM_S = 0.100


def test_another_palette(benchmark: BenchmarkFixture, qapp: QApplication, qtbot: QtBot) -> None:
    choices = Choices(profile=read_profile(SAMPLE))
    state = AppState(choices, clock=lambda: MOMENT, jobs=Jobs(AtOnce()))
    state.prepare_sky()
    shell = Shell(state, Theme.of(qapp))
    qtbot.addWidget(shell)
    shell.resize(1280, 800)
    shell.show()
    for number in (GEAR, LADDER, HEIGHT):
        shell.show_view(number)
        qapp.processEvents()
    names = itertools.cycle(("dusk", "night", "day"))

    def change() -> None:
        state.set_palette(next(names))
        qapp.processEvents()

    benchmark.pedantic(change, rounds=12, warmup_rounds=3)

    tell_aim(benchmark, AIM_S)
