"""From a verdict to a redrawn ladder: 50 ms, with a night of verdicts behind it.

A verdict is written to the log on disk, read back with the evening's others, believed, and drawn: rungs,
band, words, and once the screen at the eyepiece over them. The pictures in the eyepiece, which follow away
from the window's thread, are left out. Asserted is only that the twentieth verdict of an evening takes not
much longer than the first.
"""

from collections.abc import Callable
from datetime import UTC, datetime
from itertools import cycle
from pathlib import Path

import pytest
from attrs import evolve
from PySide6.QtWidgets import QApplication
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from core.record.log_entry import Verdict
from core.situation.choices import Choices
from core.sky.bodies import Body
from gui.jobs import Jobs
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.widgets.theme import Theme
from tests.bench.timing import best_of, tell_aim
from tests.gui.conftest import HandClock, make_profile
from tests.gui.later import Later
from tests.gui.showing import show

VERDICT_S = 0.050
NIGHT = 20


@pytest.fixture
def state(qapp: QApplication, own_data_folder: Path) -> AppState:
    assert own_data_folder.name
    Theme.of(qapp).wear("day")
    profile = evolve(make_profile(), id="9f6f1a06-4a0e-4a55-9b37-7f4bbf3c0a11")
    # The work that the test asks for is done, and none of what follows later.
    later = Later()
    clock = HandClock(datetime(2026, 12, 5, 20, tzinfo=UTC))
    state = AppState(Choices(profile=profile), clock=clock, jobs=Jobs(later))
    state.prepare_sky()
    later.works.pop()()
    state.set_planet(Body.SATURN)
    return state


@pytest.fixture
def view(qtbot: QtBot, state: AppState) -> LadderView:
    view = LadderView(state)
    show(qtbot, view, size=(1000, 440))
    return view


def stepping(state: AppState) -> Callable[[], None]:
    """Return what takes a step up or down, in turn, and shows it."""
    ways = cycle((1, -1))

    def step() -> None:
        state.step_rung(next(ways))
        QApplication.processEvents()

    return step


def test_a_verdict_to_a_redrawn_ladder(
    benchmark: BenchmarkFixture, view: LadderView, state: AppState
) -> None:
    step = stepping(state)

    def give() -> None:
        view.log_book.give(Verdict.MORE)
        QApplication.processEvents()

    step()
    first_s = best_of(3, give)
    for _ in range(NIGHT):
        step()
        give()
    benchmark.pedantic(give, setup=step, rounds=10, warmup_rounds=1)
    tell_aim(benchmark, VERDICT_S)
    assert benchmark.stats is not None
    assert benchmark.stats.stats.min < 3.0 * first_s
    assert view.canvas.chart is not None


def test_a_verdict_at_the_eyepiece(benchmark: BenchmarkFixture, view: LadderView, state: AppState) -> None:
    screen = view.go_to_eyepiece()

    def give() -> None:
        view.log_book.give(Verdict.MORE)
        QApplication.processEvents()

    benchmark.pedantic(give, setup=stepping(state), rounds=10, warmup_rounds=2)
    tell_aim(benchmark, VERDICT_S)
    assert screen.words.asked.startswith("More detail")
