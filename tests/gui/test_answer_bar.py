"""The answer on top: it follows what is chosen, and gives its reasons when asked."""

import gc
import re

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLayout, QLayoutItem, QWidget
from pytestqt.qtbot import QtBot

from core.air.first_look import FirstLook
from core.sky.bodies import Body
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import MakeShell, MakeState
from tests.gui.fitting import faults


def test_the_answer_follows_planet_and_air_and_gives_its_reasons(
    qtbot: QtBot, shell: Shell, state: AppState
) -> None:
    bar = shell.answer_bar
    assert bar.sentence.text().startswith(
        "Neptune still stands well, above 30° until 22:54; better still is Jupiter"
    )
    assert not bar.reasons.isVisible()

    qtbot.mouseClick(bar.why, Qt.MouseButton.LeftButton)
    assert bar.reasons.isVisible()
    assert "Neptune: rises" in bar.reasons.text()
    assert bar.panel.geometry().top() >= bar.geometry().bottom()
    assert (shell.width(), shell.height()) == (1280, 800)

    QTest.keyClick(bar.panel, Qt.Key.Key_Escape)
    assert not bar.reasons.isVisible()

    # One letter: on a slow machine a second would begin another search.
    qtbot.keyClicks(shell.strip.planet, "J")
    shell.strip.planet.activated.emit(shell.strip.planet.currentIndex())
    assert state.situation.planet is Body.JUPITER
    assert bar.sentence.text().startswith("Jupiter is best")

    before = bar.detail.text()
    assert before.startswith("25 mm first, 48x; then 10 mm, 120x")
    state.set_first_look(FirstLook.BOILING)
    assert bar.detail.text() != before
    assert "assumed" not in bar.detail.text()


def test_a_poor_answer_names_the_next_better_evening(shell: Shell, state: AppState) -> None:
    state.set_planet(Body.MERCURY)
    assert "Mercury is never above" in shell.answer_bar.sentence.text()
    detail = shell.answer_bar.detail.text()
    assert re.search(r"clearly better from \d+ \w+ 2027, .* best within two years on \d+ \w+ 202\d", detail)


def test_until_the_sky_is_read_the_window_says_so(make_shell: MakeShell, make_state: MakeState) -> None:
    state = make_state(sky=False)
    state.prepare_sky = lambda: None  # type: ignore[method-assign]  # the reading takes its time
    shell = make_shell(state)
    assert shell.answer_bar.sentence.text() == "Reading the sky tables …"
    del state.prepare_sky
    state.prepare_sky()
    assert shell.answer_bar.sentence.text().startswith("Neptune still stands well")


def test_reasons_go_with_escape_and_with_another_view(qtbot: QtBot, shell: Shell) -> None:
    bar = shell.answer_bar
    qtbot.mouseClick(bar.why, Qt.MouseButton.LeftButton)
    assert bar.panel.isVisible()
    height = shell.current_view
    assert height is not None
    height.setFocus()
    QTest.keyClick(height, Qt.Key.Key_Escape)
    assert not bar.panel.isVisible()
    assert bar.why.hasFocus()

    qtbot.mouseClick(bar.why, Qt.MouseButton.LeftButton)
    assert bar.panel.isVisible()
    QTest.keyClick(shell, Qt.Key.Key_3, Qt.KeyboardModifier.ControlModifier)
    assert not bar.panel.isVisible()


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
@pytest.mark.parametrize("size", [(1000, 640), (1280, 800)])
def test_why_covers_no_control_of_the_view(
    make_shell: MakeShell, state: AppState, view: int, size: tuple[int, int]
) -> None:
    shell = make_shell(state, view=view, size=size)
    shell.answer_bar.why.click()
    for _ in range(5):
        QApplication.processEvents()
    panel = shell.answer_bar.panel
    assert panel.isVisible()
    covered = QRect(panel.mapTo(shell, QPoint(0, 0)), panel.size())
    under = [
        widget.accessibleName()
        for widget in shell.findChildren(QWidget)
        if widget.isVisible()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not widget.visibleRegion().isEmpty()
        and widget is not panel
        and covered.intersects(QRect(widget.mapTo(shell, QPoint(0, 0)), widget.size()))
    ]
    assert under == []
    assert (shell.width(), shell.height()) == size
    assert list(faults(shell)) == []


def test_python_holds_no_place_that_the_hours_may_leave(unseen_shell: Shell) -> None:
    # Qt frees the place that a widget leaves; PySide6 before 6.10 would take it for what next lies there.
    held = gc.get_referents(unseen_shell.answer_bar.layout())
    assert [each for each in held if isinstance(each, QLayoutItem) and not isinstance(each, QLayout)] == []
