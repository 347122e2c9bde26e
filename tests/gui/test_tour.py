"""The tour of the first evening: five steps, left and taken up again, gone for good when it is done."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.words.tour import TOUR
from gui.profile.session import SessionFile
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import HEIGHT, LADDER
from tests.gui.conftest import action


@pytest.fixture
def shell(make_shell: Callable[..., Shell], state: AppState) -> Shell:
    return make_shell(state)


def test_five_steps_by_the_keyboard_alone_each_with_its_view(shell: Shell, qtbot: QtBot) -> None:
    assert not shell.tour.isVisible()
    action(shell, "Help", "A tour").trigger()

    seen = []
    for step in TOUR:
        assert shell.tour.heading.text().endswith(step.heading)
        assert shell.tour.onward.hasFocus()
        seen.append(shell.view_buttons.checkedId())
        QTest.keyClick(shell.tour.onward, Qt.Key.Key_Space)

    assert len(seen) == 5
    assert (seen[0], seen[-1]) == (HEIGHT, LADDER)
    assert not shell.tour.isVisible()
    assert shell.message_line.text.text() == "That was the tour. It can be taken again under Help."


def test_it_is_left_and_taken_up_where_it_was_even_after_a_restart(
    shell: Shell, qtbot: QtBot, make_shell: Callable[..., Shell], state: AppState, state_folder: Path
) -> None:
    action(shell, "Help", "A tour").trigger()
    qtbot.mouseClick(shell.tour.onward, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(shell.tour.onward, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(shell.tour.leave, Qt.MouseButton.LeftButton)
    assert not shell.tour.isVisible()
    assert "waits under Help" in shell.message_line.text.text()
    assert SessionFile(state_folder).read()[0].tour_step == 2

    again = Shell(
        state,
        shell._theme,
        session=SessionFile(state_folder).read()[0],
        session_file=SessionFile(state_folder),
    )
    qtbot.addWidget(again)
    action(again, "Help", "A tour").trigger()
    assert again.tour.heading.text().startswith("3 of 5")
    qtbot.mouseClick(again.tour.back, Qt.MouseButton.LeftButton)
    assert again.tour.heading.text().startswith("2 of 5")


@pytest.mark.parametrize("number", range(len(TOUR)))
def test_each_step_fits_a_small_window(shell: Shell, number: int) -> None:
    shell.resize(1000, 640)
    shell.tour.begin(number)

    assert (shell.width(), shell.height()) == (1000, 640)
    assert shell.tour.text.text() == TOUR[number].text


def test_after_the_set_up_height_stands_there_with_the_tour(shell: Shell) -> None:
    shell.show_view(LADDER)

    shell._after_guide()

    assert shell.view_buttons.checkedId() == HEIGHT
    assert shell.tour.isVisible()


@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
def test_each_step_is_in_sight_with_the_answer_it_speaks_of(
    make_shell: Callable[..., Shell], state: AppState, scale: float
) -> None:
    """At the foot of a page that scrolls it was out of sight."""
    state.set_text_scale(scale)
    shell = make_shell(state, size=(1000, 640))
    for number in range(len(TOUR)):
        shell.tour.begin(number)
        for _ in range(5):
            QApplication.processEvents()
        for part in (shell.tour.heading, shell.tour.text, shell.tour.onward, shell.answer_bar.sentence):
            assert part.visibleRegion().boundingRect() == part.rect(), (number, part.accessibleName())
    assert (shell.width(), shell.height()) == (1000, 640)
