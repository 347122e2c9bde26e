"""One whole night lived through by the keyboard alone, in the night palette, with a start in its middle."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from importlib import resources
from pathlib import Path

import attrs
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from core.record.folders import DATA_VARIABLE
from core.record.profile import read_profile
from core.sky.bodies import Body
from gui.height.view import HeightView
from gui.ladder.at_eyepiece import AtEyepiece
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.window.shell import Shell
from tests.gui.conftest import HandClock, pixels

KEY = Qt.Key
ALT, CONTROL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier
_ID = "5f0dbd4a-7c0e-4c57-9a53-0e4f3a1f2b11"


class Night:
    """The window of the moment, the hands on the keyboard, and the clock on the wall."""

    def __init__(self, qtbot: QtBot, begin: Callable[[], Shell], clock: HandClock) -> None:
        self._qtbot, self._begin, self._clock = qtbot, begin, clock
        self.shell = begin()

    def start_again(self) -> None:
        """Close the program, and start it anew."""
        assert self.shell.close()
        self.shell = self._begin()

    def at(self, time: str) -> None:
        """Let the clock of the site stand at a time of the night, two hours ahead of UTC."""
        hour, minute = map(int, time.split(":"))
        day = 5 if hour >= 12 else 6
        self._clock.now = datetime(2026, 12, day, hour, minute, tzinfo=UTC) - timedelta(hours=2)
        self.shell.state.beat()
        QApplication.processEvents()

    def press(self, *keys: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        for key in keys:
            QTest.keyClick(self._in_hand(), key, modifier)
            QApplication.processEvents()

    def write(self, text: str) -> None:
        QTest.keyClicks(self._in_hand(), text)

    def tab_to(self, name: str) -> None:
        """Go on with Tab until the control of that name has the keyboard."""
        for _ in range(60):
            if self._in_hand().accessibleName().startswith(name):
                return
            self.press(KEY.Key_Tab)
        raise AssertionError(f"Tab does not lead to {name}")

    def _in_hand(self) -> QWidget:
        if not self.shell.isActiveWindow():
            # A screen without a manager leaves no window active once another one has gone.
            self.shell.activateWindow()
            self._qtbot.waitUntil(self.shell.isActiveWindow)
        return self.shell.focusWidget()

    @property
    def answer(self) -> str:
        return self.shell.answer_bar.sentence.text()

    @property
    def steps(self) -> HeightView:
        view = self.shell.current_view
        assert isinstance(view, HeightView)
        return view

    @property
    def ladder(self) -> LadderView:
        view = self.shell.current_view
        assert isinstance(view, LadderView)
        return view

    @property
    def asked(self) -> str:
        return self.ladder.pane.verdicts.asked.text()

    @property
    def in_hand(self) -> str:
        return self.ladder.canvas.accessibleName().removeprefix("Power ladder, in hand: ").partition(",")[0]


@pytest.fixture
def night(
    qtbot: QtBot,
    make_state: Callable[..., AppState],
    make_shell: Callable[..., Shell],
    clock: HandClock,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> Night:
    monkeypatch.setenv(DATA_VARIABLE, str(tmp_path / "data"))
    clock.now = datetime(2026, 12, 5, 14, 0, tzinfo=UTC)
    with resources.as_file(resources.files("sample_profiles") / "balcony_greece.toml") as path:
        profile = attrs.evolve(read_profile(path), id=_ID)
    return Night(qtbot, lambda: make_shell(make_state(profile), size=(1000, 640)), clock)


def test_a_whole_night_by_keys(qtbot: QtBot, night: Night) -> None:
    night.press(KEY.Key_F9, KEY.Key_F9)
    assert pixels(night.shell)[..., 1:].max() == 0
    assert "Saturn" in night.answer

    # Prepared: a step is ticked off, and the telescope stands outside.
    night.tab_to("The evening in steps")
    night.press(KEY.Key_Home, KEY.Key_Down, KEY.Key_Space)
    assert [row.title for row in night.steps.steps.model.rows if row.is_done] == ["Lay out the kit"]
    night.at("17:10")
    night.press(KEY.Key_U, modifier=ALT)
    qtbot.waitUntil(night.shell.outside.note.isVisible)
    assert "likely usable" in night.shell.outside.note.text()

    # Up the ladder, until a step costs detail.
    night.at("18:33")
    night.press(KEY.Key_3, modifier=CONTROL)
    night.press(KEY.Key_2)
    assert night.in_hand == "48x"
    powers = []
    for time, key in (("18:36", KEY.Key_M), ("18:39", KEY.Key_M), ("18:43", KEY.Key_L)):
        night.press(KEY.Key_Up)
        powers.append(night.in_hand)
        assert "refocus" in night.asked
        night.at(time)
        night.press(key)
    assert powers == ["120x", "150x", "240x"]
    assert night.asked == "Less detail at 240x than at 150x, written down."
    assert night.ladder.pane.next.text() == "Back to 150x, 8 mm: you saw less at 240x than at 150x."
    night.press(KEY.Key_Down)
    assert night.in_hand == "150x"
    assert night.ladder.pane.next.text().startswith("Stay here")
    # Two hours later the air may have changed.
    night.at("20:50")
    assert night.ladder.pane.next.text().startswith("240x, 10 mm + 2x, is worth a try")

    # At the eyepiece with a filter, and a note in the log.
    night.press(KEY.Key_E)
    (screen,) = night.shell.findChildren(AtEyepiece)
    night.press(KEY.Key_F)
    assert screen.words.power == "150x"
    assert screen.words.part.endswith("Light blue")
    night.press(KEY.Key_Escape)
    qtbot.waitUntil(night.ladder.canvas.hasFocus)
    night.press(KEY.Key_O, modifier=ALT)
    qtbot.waitUntil(night.ladder.log_page.isVisible)
    night.tab_to("A note for the log")
    night.write("Ring seen as a thin line")
    night.press(KEY.Key_Return)
    lines = night.ladder.log_page.list
    assert lines.count() == 4
    assert "Ring seen as a thin line" in lines.item(0).text()

    # Saturn's air counts for Uranus too, and all of it after a new start.
    night.at("21:00")
    night.press(KEY.Key_2, modifier=CONTROL)
    night.tab_to("Height chart")
    while night.shell.state.situation.planet is not Body.URANUS:
        night.press(KEY.Key_Down)
    learned = night.shell.state.situation.ladder
    night.start_again()
    assert night.answer.startswith("Uranus")
    assert "Lay out the kit" in [row.title for row in night.steps.steps.model.rows if row.is_done]
    assert night.shell.outside.since.isVisible()
    night.press(KEY.Key_3, modifier=CONTROL)
    assert night.in_hand == "150x"
    assert night.ladder.air.filter.currentText() == "Light blue"
    after = night.shell.state.situation.ladder
    assert learned is not None
    assert after is not None
    assert after.blur.source == learned.blur.source == "verdicts"
    assert after.ceiling.power == pytest.approx(learned.ceiling.power)

    # Before sunrise it says nothing but to stop.
    night.at("07:20")
    assert night.answer.startswith("Off the planet and cap the telescope by 07:27")
    assert not night.ladder.pane.verdicts.isVisible()
    night.at("07:30")
    assert night.answer.startswith("Off the planet, and cap the telescope and its finder now")
    # Nothing is left to look for, nor to see at the eyepiece.
    assert not night.ladder.pane.dark.isVisible()
    assert not night.ladder.pane.look_for.isVisible()
    heading = night.ladder.pane.heading.text()
    night.at("07:18")
    assert night.ladder.pane.heading.text().partition(" ")[0] == heading.partition(" ")[0]

    # With sunrise the next evening begins, afresh: no rung, no question, no filter and no planet of the last.
    night.at("07:50")
    assert not night.answer.startswith("Off the planet")
    assert night.answer.startswith("Saturn is best")
    assert night.in_hand == "48x"
    assert night.asked == "What a step does to Saturn can be judged once it is in sight."
    assert night.ladder.air.filter.currentText() != "Light blue"
    assert night.shell.state.situation.blur_now.source == "assumed"
    night.start_again()
    night.press(KEY.Key_3, modifier=CONTROL)
    assert night.in_hand == "48x"
