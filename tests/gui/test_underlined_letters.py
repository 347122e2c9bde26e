"""No underlined letter stands twice on the screen: the second press would go somewhere else."""

from collections import Counter
from collections.abc import Callable
from datetime import timedelta

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QAbstractButton, QLabel
from pytestqt.qtbot import QtBot

from core.air.temperatures import Temperatures
from core.sky.bodies import Body
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import HEIGHT, LADDER
from tests.gui.conftest import EVENING_START, HandClock


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


@pytest.mark.parametrize("view", [HEIGHT, LADDER])
def test_each_letter_leads_to_one_place_where_it_is_asked_when_the_telescope_went_out(
    make_shell: Callable[..., Shell], state: AppState, clock: HandClock, view: int
) -> None:
    clock.now = EVENING_START - timedelta(hours=6)
    state.set_planet(Body.SATURN)
    shell = make_shell(state, view=view)
    state.set_temperatures(Temperatures(indoor_c=20, now_c=8, lowest_c=1))
    clock.now = EVENING_START
    state.beat()

    assert shell.outside.as_planned.isVisible()
    assert twice(shell) == []
