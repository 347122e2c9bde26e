"""A hand that goes through the set-up as a newcomer does, and counts what it takes."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from core.record.observer import Profile
from core.situation.choices import Choices
from gui.first_run.guide import Guide
from gui.jobs import AtOnce, Jobs
from gui.state import AppState
from tests.gui.conftest import HandClock


def newcomer() -> AppState:
    """Return the state of somebody who owns nothing yet."""
    return AppState(Choices(profile=Profile()), clock=HandClock(), jobs=Jobs(AtOnce()))


def open_guide(qtbot: QtBot, state: AppState) -> Guide:
    guide = Guide(state)
    qtbot.addWidget(guide)
    guide.show()
    qtbot.waitExposed(guide)
    return guide


class CountingHand:
    """Clicks and types like a person, and counts each click and each field typed into."""

    def __init__(self, qtbot: QtBot) -> None:
        self._qtbot = qtbot
        self.count = 0

    def click(self, widget: QWidget) -> None:
        self.count += 1
        self._qtbot.mouseClick(widget, Qt.MouseButton.LeftButton)

    def type(self, line: QWidget, text: str) -> None:
        self.count += 1
        line.setFocus()
        self._qtbot.keyClicks(line, text)


def click_size(hand: CountingHand, guide: Guide, qtbot: QtBot, begins: str) -> None:
    sizes = guide.scope.sizes
    row = next(row for row in range(sizes.count()) if sizes.item(row).text().startswith(begins))
    hand.count += 1
    place = sizes.visualItemRect(sizes.item(row)).center()
    qtbot.mouseClick(sizes.viewport(), Qt.MouseButton.LeftButton, pos=place)


def pick_town(qtbot: QtBot, hand: CountingHand, guide: Guide, text: str) -> None:
    hand.type(guide.place.search.line, text)
    qtbot.keyClick(guide.place.search.line, Qt.Key.Key_Return)
    # Return never jumps: the elevation, which the list of towns does not have, is asked first.
    assert guide.focusWidget() is guide.place.elevation.editor
    qtbot.keyClick(guide.place.elevation.editor, Qt.Key.Key_Return)
    qtbot.waitUntil(guide.scope.isVisible)
