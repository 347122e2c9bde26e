"""With large letters in a small window the head folds, so that the view and not the pickers has the room."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.sky.bodies import Body
from gui.height.view import HeightView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import MakeShell
from tests.gui.test_underlined_letters import twice

SMALL = (1000, 640)


def settle() -> None:
    for _ in range(5):
        QApplication.processEvents()


@pytest.fixture
def low_shell(make_shell: MakeShell, state: AppState) -> Shell:
    """The smallest window with letters twice as large."""
    state.set_text_scale(2.0)
    state.set_planet(Body.SATURN)
    shell = make_shell(state, size=SMALL)
    settle()
    return shell


@pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("planet", [None, Body.SATURN, Body.MERCURY])
def test_half_of_the_page_shows_the_chart_without_scrolling(
    make_shell: MakeShell, state: AppState, scale: float, planet: Body | None
) -> None:
    state.set_text_scale(scale)
    state.set_planet(planet)
    shell = make_shell(state, size=SMALL)
    settle()
    view = shell.current_view
    assert isinstance(view, HeightView)
    page, seen = shell.page, view.canvas.visibleRegion().boundingRect().height()

    assert seen >= view.visibleRegion().boundingRect().height() / 2
    if scale >= 1.5:
        # Below the menus, with all that the head still tells.
        assert seen >= page.height() / 2


def test_at_the_usual_size_of_text_nothing_is_folded(make_shell: MakeShell, state: AppState) -> None:
    shell = make_shell(state, size=SMALL)
    settle()

    assert not shell.head.is_folded
    assert not shell.head.more.isVisible()
    assert shell.strip.isVisible()
    assert shell.answer_bar.why.isVisible()


def test_a_folded_head_tells_evening_scope_site_and_clock(low_shell: Shell, state: AppState) -> None:
    line = low_shell.head.line

    assert not low_shell.strip.isVisible()
    assert line.told.text() == "Sat 5 Dec · Six-inch"
    assert line.clock.text() == low_shell.strip.clock.text()
    state.step_evening(1)
    assert line.told.text().startswith("Sun 6 Dec")


def test_a_folded_answer_tells_its_first_sentences_whole(low_shell: Shell) -> None:
    bar = low_shell.answer_bar
    told, everything = bar.detail.text(), bar.detail.accessibleDescription()

    assert told.endswith(".")
    assert everything.startswith(told[:-1])
    assert len(told) < len(everything)


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_more_brings_everything_back_and_less_folds_it(qtbot: QtBot, low_shell: Shell, view: int) -> None:
    low_shell.go_to_view(view)
    head, bar = low_shell.head, low_shell.answer_bar

    qtbot.mouseClick(head.more, Qt.MouseButton.LeftButton)
    settle()
    assert low_shell.strip.planet.isVisible()
    assert low_shell.hours.isVisible()
    assert bar.detail.text() == bar.detail.accessibleDescription()
    assert not head.line.told.isVisible()

    qtbot.mouseClick(bar.why, Qt.MouseButton.LeftButton)
    assert bar.panel.isVisible()
    qtbot.mouseClick(head.more, Qt.MouseButton.LeftButton)
    settle()
    assert head.is_folded
    assert not bar.panel.isVisible()
    assert not low_shell.strip.isVisible()


def test_the_keyboard_unfolds_it(qtbot: QtBot, low_shell: Shell) -> None:
    assert QKeySequence.mnemonic(low_shell.head.more.text()).toString() == "Alt+M"
    assert twice(low_shell) == []

    QTest.keyClick(low_shell, Qt.Key.Key_M, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(low_shell.strip.isVisible)
    assert twice(low_shell) == []


@pytest.mark.parametrize(
    ("letter", "reached"),
    [
        ("S", lambda shell: shell.strip.site.hasFocus()),
        ("P", lambda shell: shell.strip.planet.hasFocus()),
        ("R", lambda shell: shell.hours.start.hasFocus()),
        ("W", lambda shell: shell.answer_bar.panel.isVisible()),
        ("U", lambda shell: shell.outside.since.hasFocus()),
    ],
)
def test_letters_of_what_is_folded_away_unfold_it_and_lead_there(
    qtbot: QtBot, low_shell: Shell, letter: str, reached: Callable[[Shell], bool]
) -> None:
    QTest.keyClick(low_shell, getattr(Qt.Key, f"Key_{letter}"), Qt.KeyboardModifier.AltModifier)

    qtbot.waitUntil(lambda: reached(low_shell))
    assert not low_shell.head.is_folded
    assert twice(low_shell) == []


def test_a_larger_window_or_smaller_letters_unfold_it(low_shell: Shell, state: AppState) -> None:
    low_shell.resize(1600, 1000)
    settle()
    assert low_shell.strip.isVisible()
    assert not low_shell.head.more.isVisible()

    low_shell.resize(*SMALL)
    settle()
    assert low_shell.head.is_folded

    state.set_text_scale(1.0)
    settle()
    assert low_shell.strip.isVisible()


def test_what_is_due_is_told_when_the_head_is_folded(low_shell: Shell) -> None:
    low_shell.outside.start.click()
    settle()

    assert low_shell.head.is_folded
    assert low_shell.notices.isVisible() == bool(low_shell.notices.text.text())
    assert not low_shell.outside.isVisible()
