"""The hours outside beside the answer: told as assumed, changed by hand and by keys, for one evening."""

from collections.abc import Callable
from datetime import UTC, datetime, time

import attrs
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.moments.hours import Twilight
from core.record.observer import Preferences
from core.sky.bodies import Body
from gui.state import AppState
from gui.window.shell import Shell
from tests.gui.conftest import HandClock, MakeShell, make_profile


@pytest.fixture
def state(make_state: Callable[..., AppState], clock: HandClock) -> AppState:
    # Porto keeps UTC then; Saturn is up from dusk to midnight, Jupiter rises at half past ten.
    clock.now = datetime(2026, 12, 5, 16, 0, tzinfo=UTC)
    return make_state(attrs.evolve(make_profile(), preferences=Preferences()))


@pytest.fixture
def shell(make_shell: MakeShell, state: AppState) -> Shell:
    return make_shell(state, size=(1000, 640))


def pick(shell: Shell, which: str, text: str) -> None:
    picker = shell.hours.start if which == "start" else shell.hours.end
    picker.setFocus()
    number = picker.findText(text)
    assert number >= 0, [picker.itemText(index) for index in range(picker.count())]
    picker.setCurrentIndex(number)
    picker.activated.emit(number)


def test_hours_of_which_nothing_was_said_are_shown_as_assumed(shell: Shell, state: AppState) -> None:
    assert shell.hours.assumed.isVisible()
    assert (shell.hours.start.currentText(), shell.hours.end.currentText()) == ("dusk", "23:30")
    assert shell.answer_bar.sentence.text().startswith("Saturn is best ")
    assert "If you stay up, Jupiter from 0" in shell.answer_bar.detail.text()

    state.edit_profile("Hours", attrs.evolve(state.profile, preferences=Preferences(out_until="22:00")))

    assert not shell.hours.assumed.isVisible()
    assert shell.hours.end.currentText() == "22:00"


def test_other_hours_count_for_this_evening_alone(qtbot: QtBot, shell: Shell, state: AppState) -> None:
    pick(shell, "start", "03:00")
    assert state.situation.said_hours is None, "from three to half past eleven is nothing"
    assert "must end after they start" in shell.message_line.text.text()
    assert shell.hours.start.currentText() == "dusk"

    pick(shell, "end", "dawn")
    pick(shell, "start", "03:00")

    assert state.situation.wanted_hours == (time(3), Twilight.DAWN)
    assert state.situation.planet is Body.JUPITER
    assert shell.answer_bar.sentence.text().startswith("Jupiter is best ")
    assert not shell.hours.assumed.isVisible()

    qtbot.mouseClick(shell.strip.forward, Qt.MouseButton.LeftButton)
    assert shell.hours.start.currentText() == "dusk"
    qtbot.mouseClick(shell.strip.back, Qt.MouseButton.LeftButton)
    assert shell.hours.start.currentText() == "03:00"

    pick(shell, "start", "as usual")
    assert state.situation.said_hours is None
    assert shell.hours.assumed.isVisible()


def test_two_keys_move_the_end(shell: Shell, state: AppState) -> None:
    QTest.keyClick(shell, Qt.Key.Key_Period, Qt.KeyboardModifier.ControlModifier)
    assert shell.hours.end.currentText() == "00:00"
    for _ in range(2):
        QTest.keyClick(shell, Qt.Key.Key_Comma, Qt.KeyboardModifier.ControlModifier)
    assert shell.hours.end.currentText() == "23:00"
    for _ in range(20):
        QTest.keyClick(shell, Qt.Key.Key_Period, Qt.KeyboardModifier.ControlModifier)
    assert shell.hours.end.currentText() == "dawn"
    for _ in range(40):
        QTest.keyClick(shell, Qt.Key.Key_Comma, Qt.KeyboardModifier.ControlModifier)
    hours = state.situation.hours
    assert hours is not None
    assert hours.end > hours.start


def test_it_has_room_in_the_smallest_window(shell: Shell, state: AppState) -> None:
    state.set_outside(state.clock())
    assert (shell.width(), shell.height()) == (1000, 640)
    for picker in (shell.hours.start, shell.hours.end):
        assert picker.accessibleName()
        assert "Assumed" in picker.accessibleDescription()


def test_before_sunrise_it_says_only_to_stop(shell: Shell, state: AppState, clock: HandClock) -> None:
    # Sunrise at Porto on 6 December: 07:45 (almanac), the stop line ten minutes before.
    clock.now = datetime(2026, 12, 6, 7, 25, tzinfo=UTC)
    state.beat()
    assert shell.answer_bar.sentence.text().startswith("Off the planet and cap the telescope by 07:3")
    assert "min left" in shell.answer_bar.sentence.text()
    assert shell.answer_bar.detail.text() == ""

    clock.now = datetime(2026, 12, 6, 7, 40, tzinfo=UTC)
    state.beat()
    assert "cap the telescope and its finder now" in shell.answer_bar.sentence.text()
