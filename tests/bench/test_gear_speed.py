"""A kit of 12 eyepieces, 4 Barlows and 5 telescopes under the keys: every table and ladder within 16 ms.

In the gear view a key is timed to its last pixel: the form reads the figure, the profile changes as a step
that can be taken back, list, table and advice follow. In the whole window it is timed until the view that is
seen and the answer know of it, before they paint; what lies behind, Height and Ladder, takes it up when it
comes into sight. Drawings, which take no keys, may take 80 ms, what to buy 60 ms.
Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

import itertools
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from attrs import evolve
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytest_benchmark.fixture import BenchmarkFixture
from pytestqt.qtbot import QtBot

from core.gear.owned import Telescope, TelescopeKind
from core.ladder.buying import what_to_buy
from core.record.observer import Profile
from core.situation.choices import Choices
from core.sky.site import Site
from core.words.owned_kinds import Kind
from gui.gear.owned_list import OwnedRow
from gui.gear.view import GearView
from gui.jobs import AtOnce, Jobs
from gui.ladder.view import LadderView
from gui.profile.session import SessionFile
from gui.state import AppState
from gui.widgets.theme import Theme
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.bench.test_kit_speed import BARLOWS, EYEPIECES, LONG_EYEPIECES, SCOPE, WEAK_BARLOWS
from tests.bench.timing import tell_aim

KEY_S, LADDER_S, TWO_SCOPES_S, PURCHASE_S, COMES_S = 0.016, 0.016, 0.025, 0.060, 0.100
MOMENT = datetime(2026, 12, 5, 21, 42, tzinfo=UTC)
SCOPES = (
    evolve(SCOPE, stack_barlows=False),
    *(
        Telescope(
            name=f"Mirror {aperture_mm}",
            kind=TelescopeKind.REFLECTOR,
            aperture_mm=aperture_mm,
            focal_length_mm=aperture_mm * 6,
        )
        for aperture_mm in (114, 130, 150, 254)
    ),
)


@pytest.fixture
def state(qapp: QApplication) -> AppState:
    Theme.of(qapp).wear("day")
    site = Site(name="Terrace", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon")
    profile = Profile(sites=(site,), telescopes=SCOPES, eyepieces=tuple(EYEPIECES), barlows=tuple(BARLOWS))
    state = AppState(Choices(profile=profile), clock=lambda: MOMENT, jobs=Jobs(AtOnce()))
    state.prepare_sky()
    return state


@pytest.fixture
def show(qtbot: QtBot) -> Iterator[Callable[[QWidget], None]]:
    shown: list[QWidget] = []

    def show(view: QWidget) -> None:
        shown.append(view)
        view.resize(1280, 640)
        view.show()
        qtbot.waitExposed(view)

    yield show
    for view in shown:
        view.close()
        view.deleteLater()
        QApplication.sendPostedEvents(view, QEvent.Type.DeferredDelete)


def app() -> QApplication:
    running = QApplication.instance()
    assert isinstance(running, QApplication)
    return running


def test_a_key_in_a_focal_length(
    benchmark: BenchmarkFixture, state: AppState, show: Callable[[QWidget], None]
) -> None:
    """Change 20 mm to 2 mm and back, which moves five of about sixty rungs."""
    view = GearView(state)
    show(view)
    view._open(OwnedRow(Kind.EYEPIECE, 9))
    editor = view.form_column.form_of(Kind.EYEPIECE).fields["focal_length"].editor
    editor.setFocus()
    QTest.keyClick(editor, Qt.Key.Key_End)
    keys = itertools.cycle((Qt.Key.Key_Backspace, Qt.Key.Key_0))
    before = state.situation.ladder

    def press() -> None:
        QTest.keyClick(editor, next(keys))
        QApplication.processEvents()

    benchmark.pedantic(press, rounds=40, warmup_rounds=4)

    assert state.situation.ladder is not None
    assert before is not None
    assert len(state.situation.ladder.rungs) > 45
    tell_aim(benchmark, KEY_S)


def test_a_key_in_the_whole_window(
    benchmark: BenchmarkFixture, state: AppState, show: Callable[[QWidget], None], tmp_path: Path
) -> None:
    """The same key with the answer on top and two other views behind."""
    shell = Shell(state, Theme.of(app()), session_file=SessionFile(tmp_path), view=GEAR)
    show(shell)
    for number in (HEIGHT, LADDER, GEAR):
        shell.show_view(number)
        QApplication.processEvents()
    view = shell.current_view
    assert isinstance(view, GearView)
    view._open(OwnedRow(Kind.EYEPIECE, 9))
    editor = view.form_column.form_of(Kind.EYEPIECE).fields["focal_length"].editor
    editor.setFocus()
    QTest.keyClick(editor, Qt.Key.Key_End)
    keys = itertools.cycle((Qt.Key.Key_Backspace, Qt.Key.Key_0))
    benchmark.pedantic(
        lambda: QTest.keyClick(editor, next(keys)), setup=QApplication.processEvents, rounds=40
    )

    state.load(state.profile, None)
    tell_aim(benchmark, KEY_S)


def test_a_view_comes_into_sight_after_a_key(
    benchmark: BenchmarkFixture, state: AppState, show: Callable[[QWidget], None], tmp_path: Path
) -> None:
    """From another kit, shown in Gear, to the painted ladder, which has lain behind it meanwhile."""
    shell = Shell(state, Theme.of(app()), session_file=SessionFile(tmp_path), view=GEAR)
    show(shell)
    shell.show_view(LADDER)
    lengths = itertools.cycle((4.5, 5.5))

    def edit_in_gear() -> None:
        shell.show_view(GEAR)
        eyepieces = (evolve(EYEPIECES[1], focal_length_mm=next(lengths)), *EYEPIECES[2:])
        state.edit_profile("Change", evolve(state.profile, eyepieces=eyepieces))
        QApplication.processEvents()

    def show_ladder() -> None:
        shell.show_view(LADDER)
        QApplication.processEvents()

    benchmark.pedantic(show_ladder, setup=edit_in_gear, rounds=12)

    state.load(state.profile, None)
    tell_aim(benchmark, COMES_S)


def test_what_to_buy_in_the_panel(benchmark: BenchmarkFixture, state: AppState) -> None:
    scope = state.situation.scope
    assert scope is not None

    def ask() -> None:
        what_to_buy(scope, LONG_EYEPIECES, WEAK_BARLOWS)

    benchmark.pedantic(ask, rounds=20, warmup_rounds=2)
    tell_aim(benchmark, PURCHASE_S)


def test_a_key_with_two_scopes_side_by_side(
    benchmark: BenchmarkFixture, state: AppState, show: Callable[[QWidget], None]
) -> None:
    view = GearView(state)
    show(view)
    view.show_side_by_side(True)
    profiles = itertools.cycle(
        evolve(state.profile, eyepieces=(evolve(EYEPIECES[1], focal_length_mm=length), *EYEPIECES[2:]))
        for length in (4.5, 5.5)
    )

    def edit() -> None:
        state.edit_profile("Change", next(profiles))
        QApplication.processEvents()

    benchmark.pedantic(edit, rounds=10, warmup_rounds=2)
    tell_aim(benchmark, TWO_SCOPES_S)


def test_a_changed_kit_on_the_ladder(
    benchmark: BenchmarkFixture, state: AppState, show: Callable[[QWidget], None]
) -> None:
    view = LadderView(state)
    show(view)
    profiles = itertools.cycle(
        evolve(state.profile, eyepieces=(evolve(EYEPIECES[1], focal_length_mm=length), *EYEPIECES[2:]))
        for length in (4.5, 5.5)
    )

    def edit() -> None:
        state.edit_profile("Change", next(profiles))
        QApplication.processEvents()

    benchmark.pedantic(edit, rounds=10, warmup_rounds=2)
    tell_aim(benchmark, LADDER_S)
