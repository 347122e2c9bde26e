"""The Height view shows the evening, or with one click the year, and leads from there to any evening."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from gui.height.view import EVENING, YEAR, HeightView
from gui.state import AppState
from gui.window.shell import Shell


def height_of(shell: Shell) -> HeightView:
    view = shell.current_view
    assert isinstance(view, HeightView)
    return view


def test_a_click_shows_the_year_and_another_the_evening(qtbot: QtBot, shell: Shell) -> None:
    view = height_of(shell)
    assert view.canvas.isVisible()

    qtbot.mouseClick(view.to_year, Qt.MouseButton.LeftButton)
    assert not view.canvas.isVisible()
    qtbot.waitUntil(lambda: "best" in view.year.sentence.text())
    qtbot.mouseClick(view.year.back, Qt.MouseButton.LeftButton)

    assert view.canvas.isVisible()


def test_an_evening_chosen_in_the_year_is_the_evening_that_is_shown(
    qtbot: QtBot, shell: Shell, state: AppState
) -> None:
    view = height_of(shell)
    before = state.situation.evening
    qtbot.mouseClick(view.to_year, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: view.year.canvas.year is not None)

    qtbot.keyClick(view.year.canvas, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(view.year.canvas, Qt.Key.Key_Return)

    assert (state.situation.evening - before).days == 7
    assert view.canvas.isVisible()


def test_escape_leads_back_from_the_year(qtbot: QtBot, shell: Shell) -> None:
    view = height_of(shell)
    qtbot.mouseClick(view.to_year, Qt.MouseButton.LeftButton)

    qtbot.keyClick(view.year.canvas, Qt.Key.Key_Escape)

    assert view.canvas.isVisible()


def test_both_pages_fit_a_small_window(
    qtbot: QtBot, make_shell: Callable[..., Shell], state: AppState
) -> None:
    shell = make_shell(state, size=(1000, 640))
    view = height_of(shell)
    for page in (YEAR, EVENING):
        view.show_page(page)

        assert (shell.width(), shell.height()) == (1000, 640)
