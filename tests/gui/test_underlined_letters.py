"""No underlined letter stands twice on the screen: the second press would go somewhere else."""

from collections import Counter
from collections.abc import Callable

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QAbstractButton, QLabel
from pytestqt.qtbot import QtBot

from core.sky.bodies import Body
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import HEIGHT, LADDER


def underlined(shell: Shell) -> Counter[str]:
    """Count the letters that lead somewhere with Alt from what can be seen."""
    texts = [action.text() for action in shell.menuBar().actions()]
    texts += [each.text() for each in shell.findChildren(QAbstractButton) if each.isVisible()]
    texts += [each.text() for each in shell.findChildren(QLabel) if each.isVisible() and _has_buddy(each)]
    return Counter(key for text in texts if (key := QKeySequence.mnemonic(text).toString()))


def _has_buddy(label: QLabel) -> bool:
    # Qt may give none, whatever its types say.
    buddy: object = label.buddy()
    return buddy is not None


def twice(shell: Shell) -> list[str]:
    return [key for key, count in underlined(shell).items() if count > 1]


@pytest.mark.parametrize("view", [HEIGHT, LADDER])
def test_each_letter_leads_to_one_place(make_shell: Callable[..., Shell], state: AppState, view: int) -> None:
    state.set_planet(Body.SATURN)
    shell = make_shell(state, view=view)
    assert len(underlined(shell)) > 8
    assert twice(shell) == []


def test_each_letter_leads_to_one_place_in_the_log(
    qtbot: QtBot, make_shell: Callable[..., Shell], state: AppState
) -> None:
    shell = make_shell(state, view=LADDER)
    view = shell.current_view
    assert isinstance(view, LadderView)
    view.log_button.click()
    qtbot.waitUntil(view.log_page.isVisible)
    assert twice(shell) == []
