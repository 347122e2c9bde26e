"""What the window says over its foot, and how it tells of an error that nobody caught."""

import threading
from pathlib import Path

import attrs
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.state import AppState
from gui.window.errors import LOG_NAME, ErrorDoor
from gui.window.shell import Shell
from tests.gui.conftest import make_profile


def test_a_message_stays_until_it_is_dismissed(qtbot: QtBot, shell: Shell, state: AppState) -> None:
    state.tell("Saved as <b>x</b>.")
    assert shell.message_line.text.text() == "Saved as <b>x</b>."
    assert shell.message_line.isVisible()
    qtbot.mouseClick(shell.message_line.dismiss, Qt.MouseButton.LeftButton)
    assert not shell.message_line.isVisible()


def test_a_message_moves_nothing_and_goes_when_it_has_been_read(
    qtbot: QtBot, shell: Shell, state: AppState
) -> None:
    before = shell.stack.geometry()
    state.tell("Saved as kit.toml.")
    qtbot.waitUntil(shell.message_line.isVisible)
    QApplication.processEvents()
    assert shell.stack.geometry() == before
    shell.resize(1000, 640)
    QApplication.processEvents()
    centre = shell.centralWidget()
    assert centre is not None
    assert centre.rect().contains(shell.message_line.geometry())
    assert 5_000 < shell.message_line.patience.remainingTime() < 60_000
    shell.message_line.patience.start(1)
    qtbot.waitUntil(lambda: not shell.message_line.isVisible())


def test_a_message_goes_with_the_step_or_the_profile_that_it_tells_of(shell: Shell, state: AppState) -> None:
    removed = attrs.evolve(state.profile, barlows=())
    state.edit_profile("Remove 2x", removed)
    state.tell("2x is removed. Undo brings it back.")
    assert shell.message_line.isVisible()
    state.undo_stack.undo()
    assert not shell.message_line.isVisible()

    state.tell("Saved as kit.toml.")
    state.load(make_profile(), None)
    assert not shell.message_line.isVisible()


def test_an_error_on_any_thread_is_told_on_the_window_s_and_logged(
    qtbot: QtBot, shell: Shell, state_folder: Path
) -> None:
    door = ErrorDoor(state_folder)
    door.raised.connect(shell.state.tell)
    heard_on: list[threading.Thread] = []
    door.raised.connect(lambda _text: heard_on.append(threading.current_thread()))

    def fail() -> None:
        raise RuntimeError("a fault")

    with door.open():
        thread = threading.Thread(target=fail)
        thread.start()
        thread.join()
        qtbot.waitUntil(lambda: heard_on != [])
    assert heard_on == [threading.main_thread()]
    assert "Something went wrong inside Stillair" in shell.message_line.text.text()
    assert "RuntimeError: a fault" in (state_folder / LOG_NAME).read_text("utf-8")
    assert shell.isVisible()


def test_a_message_of_one_line_is_no_higher_than_its_button_needs(shell: Shell, state: AppState) -> None:
    state.tell("Saved as kit.toml.")
    QApplication.processEvents()
    assert shell.message_line.height() <= shell.message_line.dismiss.height() + 20
