"""Verdicts in the window: given by key and by button, in the log at once, taken back by Undo."""

from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import attrs
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.air.blur import BlurSource
from core.record.log import FILE_NAME, Log
from core.record.log_entry import LogEntry, Verdict
from core.sky.bodies import Body
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.window.shell import Shell
from tests.core.record.log_lines import PROFILE, line
from tests.gui.conftest import MakeShell

LADDER = 2


@pytest.fixture
def shell(make_shell: MakeShell, state: AppState) -> Shell:
    state.set_planet(Body.SATURN)  # up at this hour, as Jupiter is not
    return make_shell(state, view=LADDER)


@pytest.fixture
def view(qtbot: QtBot, shell: Shell) -> LadderView:
    assert isinstance(shell.current_view, LadderView)
    shell.activateWindow()
    shell.current_view.setFocus()
    qtbot.waitUntil(shell.current_view.canvas.hasFocus)
    return shell.current_view


def _written(folder: Path, state: AppState) -> tuple[LogEntry, ...]:
    with closing(Log.open(folder)) as log:
        return log.entries(state.profile.id)


def _step_up(state: AppState) -> tuple[float, float]:
    before = state.situation.rung
    assert before is not None
    state.step_rung(1)
    after = state.situation.rung
    assert after is not None
    return before.power, after.power


def test_looking_alone_begins_no_log(view: LadderView, own_data_folder: Path) -> None:
    assert view.isVisible()
    assert not (own_data_folder / FILE_NAME).exists()


def test_before_a_step_there_is_nothing_to_judge(view: LadderView, state: AppState) -> None:
    assert not any(button.isEnabled() for button in view.pane.verdicts.buttons.values())
    assert view.pane.verdicts.asked.text().startswith("After a step, press")
    _step_up(state)
    assert all(button.isEnabled() for button in view.pane.verdicts.buttons.values())


@pytest.mark.parametrize(
    ("key", "verdict"),
    [
        (Qt.Key.Key_M, Verdict.MORE),
        (Qt.Key.Key_N, Verdict.NO_CHANGE),
        (Qt.Key.Key_L, Verdict.LESS),
        (Qt.Key.Key_C, Verdict.CANNOT_TELL),
    ],
)
def test_a_bare_key_writes_a_verdict_at_once(
    view: LadderView, state: AppState, own_data_folder: Path, key: Qt.Key, verdict: Verdict
) -> None:
    before, after = _step_up(state)

    QTest.keyClick(view.canvas, key)

    (written,) = _written(own_data_folder, state)
    assert (written.verdict, written.from_power, written.power) == (verdict, before, after)


def test_a_button_writes_a_verdict_and_the_ladder_listens(
    qtbot: QtBot, view: LadderView, state: AppState
) -> None:
    _step_up(state)

    qtbot.mouseClick(view.pane.verdicts.buttons[Verdict.LESS], Qt.MouseButton.LeftButton)

    assert state.situation.ladder is not None
    assert state.situation.ladder.blur.source is BlurSource.VERDICTS
    assert view.pane.next.text().startswith(("Back to", "Perhaps back to"))


def test_a_verdict_is_taken_back_and_given_again(
    view: LadderView, state: AppState, own_data_folder: Path
) -> None:
    _step_up(state)
    QTest.keyClick(view.canvas, Qt.Key.Key_L)

    state.undo_stack.undo()
    assert _written(own_data_folder, state) == ()
    assert not state.situation.has_taught
    state.undo_stack.redo()

    assert len(_written(own_data_folder, state)) == 1
    assert state.situation.has_taught


def test_a_verdict_leaves_a_saved_profile_as_it_is(shell: Shell, view: LadderView, state: AppState) -> None:
    # A profile that was never saved is given its id by the first verdict, which is an edit to save.
    state.load(attrs.evolve(state.profile, id=PROFILE), None)
    _step_up(state)
    QTest.keyClick(view.canvas, Qt.Key.Key_M)

    assert not state.is_modified
    assert not shell.isWindowModified()


def test_verdicts_of_an_earlier_start_are_there_again(
    make_shell: MakeShell, make_state: Callable[..., AppState], view: LadderView, state: AppState
) -> None:
    _step_up(state)
    QTest.keyClick(view.canvas, Qt.Key.Key_L)
    view.log_book.close()

    later = make_state(state.profile)
    later.set_planet(Body.SATURN)
    make_shell(later, view=LADDER)

    assert later.situation.has_taught


def test_what_another_window_wrote_is_taken_up_with_the_next_beat(
    shell: Shell, view: LadderView, state: AppState, own_data_folder: Path
) -> None:
    _step_up(state)
    QTest.keyClick(view.canvas, Qt.Key.Key_M)
    (mine,) = state.choices.verdicts
    with closing(Log.open(own_data_folder)) as log:
        log.add(line(5, profile_id=mine.profile_id, evening=mine.evening, site_id=mine.site_id))

    shell._beat()

    assert len(state.choices.verdicts) == 2


def test_a_verdict_that_cannot_be_written_is_told_once_and_kept(
    view: LadderView, state: AppState, own_data_folder: Path, qtbot: QtBot
) -> None:
    own_data_folder.mkdir(parents=True)
    (own_data_folder / FILE_NAME).mkdir()
    _step_up(state)
    with qtbot.waitSignal(state.told) as told:
        QTest.keyClick(view.canvas, Qt.Key.Key_L)

    assert told.args is not None
    assert told.args[0].startswith("The log: cannot be opened")
    assert told.args[0].endswith("is kept in the window and tried again.")
    assert state.situation.has_taught
    (own_data_folder / FILE_NAME).rmdir()
    _step_up(state)
    QTest.keyClick(view.canvas, Qt.Key.Key_N)
    assert len(_written(own_data_folder, state)) == 2


def test_what_is_not_in_sight_cannot_be_judged(
    view: LadderView, state: AppState, own_data_folder: Path
) -> None:
    """Jupiter rises after midnight; the ladder shows its best moment, at which nobody has looked yet."""
    state.set_planet(Body.JUPITER)
    _step_up(state)

    assert view.pane.verdicts.asked.text() == "What a step does to Jupiter can be judged once it is in sight."
    assert not any(button.isEnabled() for button in view.pane.verdicts.buttons.values())
    QTest.keyClick(view.canvas, Qt.Key.Key_M)
    assert not (own_data_folder / FILE_NAME).exists()
