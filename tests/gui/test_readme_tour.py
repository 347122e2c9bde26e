"""The README's five minutes, walked by one who has only the README: from nothing to a verdict in the log."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication
from pytestqt.qtbot import QtBot

from core.record.observer import Profile
from core.record.profile import save_profile
from core.situation.choices import Choices
from gui.app import main
from gui.first_run.guide import Guide
from gui.gear.view import GearView
from gui.jobs import AtOnce, Jobs
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import HandClock
from tests.readme_examples import README

_HEADING = "## Five minutes from nothing to a verdict in the log"


def test_the_tour_ends_with_a_verdict_in_the_log(
    qtbot: QtBot, make_shell: Callable[..., Shell], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    state = AppState(Choices(profile=Profile()), clock=HandClock(), jobs=Jobs(AtOnce()))
    shell = make_shell(state)

    def press(words: str) -> None:
        qtbot.mouseClick(button(shell, words), Qt.MouseButton.LeftButton)

    # 1. The set-up.
    shell.guide()
    guide = QApplication.activeModalWidget()
    assert isinstance(guide, Guide)
    qtbot.keyClicks(guide.place.search.line, "porto")
    qtbot.keyClick(guide.place.search.line, Qt.Key.Key_Return)
    qtbot.keyClick(guide.place.elevation.editor, Qt.Key.Key_Return)
    qtbot.waitUntil(guide.scope.isVisible)
    sizes = guide.scope.sizes
    qtbot.mouseClick(
        sizes.viewport(), Qt.MouseButton.LeftButton, pos=sizes.visualItemRect(sizes.item(3)).center()
    )
    for _ in range(3):
        qtbot.mouseClick(guide.onward, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not guide.isVisible())
    # 2. The answer.
    assert shell.view_buttons.checkedId() == HEIGHT
    assert button(shell, "Why").isVisible()
    # 3. What stands around; the profile is saved.
    press("Gear")
    assert isinstance(shell.current_view, GearView)
    path = tmp_path / "my.stillair.toml"
    # 4. Outside.
    press("Say the telescope is outside")
    press("Ladder")
    press("Steady")
    # 5. Up the ladder.
    view = shell.current_view
    assert isinstance(view, LadderView)
    # Keys are heard in the active window only, which a screen without a manager never makes one again.
    shell.activateWindow()
    qtbot.waitUntil(shell.isActiveWindow)
    view.canvas.setFocus()
    qtbot.keyClick(view.canvas, Qt.Key.Key_Up)
    qtbot.keyClick(view.canvas, Qt.Key.Key_M)
    save_profile(path, state.profile)

    assert main(["log", str(path)]) == 0
    assert "more detail than" in capsys.readouterr().out


def test_what_the_tour_names_stands_on_the_screen(shell_words: set[str]) -> None:
    tour = README.read_text("utf-8").split(_HEADING)[1].split("\n## ")[0]
    named = set(re.findall(r"\*\*(.+?)\*\*", tour)) - {"Where", "Telescope", "Eyepieces", "Filters", "Finish"}

    assert named
    assert named - shell_words == set()


@pytest.fixture
def shell_words(make_shell: Callable[..., Shell], state: AppState) -> set[str]:
    shell = make_shell(state)
    for number in (GEAR, HEIGHT, LADDER):
        shell.show_view(number)
    return {plain(each) for each in shell.findChildren(QAbstractButton)}


def button(shell: Shell, words: str) -> QAbstractButton:
    (found,) = (
        each for each in shell.findChildren(QAbstractButton) if plain(each) == words and each.isVisible()
    )
    return found


def plain(button: QAbstractButton) -> str:
    return button.text().replace("&", "")
