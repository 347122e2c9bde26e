"""One evening lived through with a clock in hand, from the afternoon to sunrise."""

from collections.abc import Callable
from datetime import UTC, datetime

import pytest
from PySide6.QtWidgets import QApplication

from core.sky.bodies import Body
from gui.height.view import HeightView
from gui.state import AppState
from gui.window.shell import Shell
from tests.gui.conftest import HandClock


@pytest.fixture
def seen(
    make_shell: Callable[..., Shell], state: AppState, clock: HandClock
) -> Callable[[str], tuple[str, str, str]]:
    """Return what is seen at a time of the evening: the answer, what is due, and the step in bold."""
    clock.now = datetime(2026, 12, 5, 15, 0, tzinfo=UTC)
    state.beat()
    shell = make_shell(state, size=(1000, 640))
    view = shell.current_view
    assert isinstance(view, HeightView)

    def at(time: str) -> tuple[str, str, str]:
        hour, minute = map(int, time.split(":"))
        clock.now = datetime(2026, 12, 5 if hour >= 12 else 6, hour, minute, tzinfo=UTC)
        state.beat()
        QApplication.processEvents()
        due = shell.notices.text.text() if shell.notices.isVisible() else ""
        bold = next((row.title for row in view.steps.model.rows if row.is_next), "")
        return shell.answer_bar.sentence.text(), due, bold

    return at


def test_the_evening_hour_by_hour(seen: Callable[[str], tuple[str, str, str]], state: AppState) -> None:
    answer, due, bold = seen("15:00")
    assert "Saturn" in answer or "Jupiter" in answer
    assert due == ""
    assert bold == "Check collimation"

    assert "Finder" in seen("16:24")[1]
    # In the last light the telescope is out, and the covers come off when the Sun is down.
    state.tick_step("carry_out", done=True)
    _answer, due, bold = seen("17:08")
    assert "Covers off" in due
    assert bold == "Covers off"
    state.tick_step("covers", done=True)
    assert "Covers off" not in seen("17:09")[1]

    answer, _due, bold = seen("19:30")
    assert bold in {"Saturn", "Neptune", "Uranus"}

    # The roof hides it later on: told ten minutes ahead, and gone when it has happened.
    state.set_planet(Body.SATURN)
    told = [seen(f"{(23 + minute // 60) % 24}:{minute % 60:02}")[1] for minute in range(120)]
    assert any("Saturn goes behind blocked sky (roof ridge) in 10 min" in each for each in told)

    state.set_planet(None)
    answer, due, _bold = seen("03:00")
    assert "Off the planet" not in answer

    # From 15 minutes before the stop line nothing else is said, until the Sun is up.
    for time in ("07:22", "07:30", "07:34"):
        answer, due, _bold = seen(time)
        assert answer.startswith("Off the planet and cap the telescope by")
        assert "min left" in answer
        assert due == ""
    answer, due, _bold = seen("07:40")
    assert answer.startswith("Off the planet, and cap the telescope and its finder now")
    assert due == ""
    # Then the coming evening begins.
    assert not seen("07:50")[0].startswith("Off the planet")


def test_the_line_of_what_is_due_goes_by_itself(
    seen: Callable[[str], tuple[str, str, str]], state: AppState
) -> None:
    assert seen("17:08")[1]
    assert seen("19:30")[1] == ""
