"""The clock never stops: errors in a beat, jumps of the machine's clock, Ctrl+C, the ends of the tables."""

import json
import signal
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from attrs import evolve
from PySide6.QtCore import QObject
from pytestqt.qtbot import QtBot

from core.record.observer import Profile
from core.record.profile import save_profile
from gui.clock import Heartbeat
from gui.state import AppState
from gui.window.errors import ErrorDoor
from gui.window.shell import Shell
from gui.window.views import HEIGHT, LADDER
from tests.gui.conftest import HandClock, MakeShell, MakeState, make_profile


def test_a_beat_that_fails_is_followed_by_the_next(qtbot: QtBot) -> None:
    owner, beats = QObject(), list[int]()

    def beat() -> None:
        beats.append(1)
        if len(beats) == 1:
            raise RuntimeError("a fault")

    heart = Heartbeat(beat, owner)
    with qtbot.captureExceptions() as caught:
        heart.start()
        qtbot.waitUntil(lambda: len(beats) > 1, timeout=5_000)
    heart.stop()
    assert [kind for kind, *_ in caught] == [RuntimeError]


def test_an_error_of_every_beat_is_told_once_and_another_at_once(state_folder: Path, qtbot: QtBot) -> None:
    door, told = ErrorDoor(state_folder), list[str]()
    door.raised.connect(told.append)

    def fault(kind: type[Exception]) -> None:
        raise kind("a fault")

    def fail(kind: type[Exception]) -> None:
        with pytest.raises(kind) as caught:
            fault(kind)
        door.take(kind, caught.value, caught.value.__traceback__)

    for _ in range(20):
        fail(RuntimeError)
    fail(KeyError)
    qtbot.waitUntil(lambda: len(told) == 2)


@pytest.mark.parametrize(
    ("now", "clock_shown", "evening"),
    [
        # Set back by three hours, and then to the summer before.
        (datetime(2026, 12, 5, 18, 42, tzinfo=UTC), "18:42", "2026-12-05"),
        (datetime(2026, 7, 1, 21, 0, tzinfo=UTC), "22:00", "2026-07-01"),
        # Fourteen hours ahead, as after the lid was shut: the next evening.
        (datetime(2026, 12, 6, 11, 42, tzinfo=UTC), "11:42", "2026-12-06"),
    ],
)
@pytest.mark.parametrize("view", [HEIGHT, LADDER])
def test_a_clock_that_jumps_takes_everything_with_it(
    make_shell: MakeShell,
    state: AppState,
    clock: HandClock,
    view: int,
    now: datetime,
    clock_shown: str,
    evening: str,
) -> None:
    shell = make_shell(state, view=view)
    clock.now = now
    shell._beat()
    assert clock_shown in shell.strip.clock.text()
    assert str(state.situation.evening) == evening
    assert state.situation.now == now
    assert state.situation.following_now
    # And back again.
    clock.now = datetime(2026, 12, 5, 21, 43, tzinfo=UTC)
    shell._beat()
    assert "21:43" in shell.strip.clock.text()
    assert str(state.situation.evening) == "2026-12-05"


def test_daylight_saving_may_end_while_the_window_is_open(
    make_shell: MakeShell, make_state: MakeState, clock: HandClock
) -> None:
    # Lisbon's clocks go back from 02:00 to 01:00 at 01:00 UTC on 25 October 2026 (EU directive 2000/84/EC).
    clock.now = datetime(2026, 10, 25, 0, 59, tzinfo=UTC)
    state = make_state()
    shell = make_shell(state)
    assert "01:59" in shell.strip.clock.text()
    clock.move(timedelta(minutes=1))
    shell._beat()
    assert "01:00" in shell.strip.clock.text()
    assert str(state.situation.evening) == "2026-10-24"
    clock.move(timedelta(hours=1))
    shell._beat()
    assert "02:00" in shell.strip.clock.text()


def test_past_the_end_of_the_tables_the_clock_goes_on_and_the_answer_says_why_not(
    make_shell: MakeShell, make_state: MakeState, clock: HandClock
) -> None:
    clock.now = datetime(2053, 9, 23, 20, 0, tzinfo=UTC)
    state = make_state()
    shell = make_shell(state)
    clock.now = datetime(2053, 9, 24, 20, 0, tzinfo=UTC)
    shell._beat()
    assert "21:00" in shell.strip.clock.text()
    assert "2053-09-24 is outside the planet tables" in state.situation.night_problem
    assert any("outside the planet tables" in text for text in _texts(shell))


def _texts(shell: Shell) -> list[str]:
    from PySide6.QtWidgets import QLabel

    return [label.text() for label in shell.findChildren(QLabel) if label.isVisible()]


_WINDOW = """
import sys
from pathlib import Path
from attrs import evolve
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from gui.window.shell import Shell
from gui.window.start import run_window

app = QApplication([])

def edit():
    (shell,) = [widget for widget in app.topLevelWidgets() if isinstance(widget, Shell)]
    shell.state.edit_profile("Rename", evolve(shell.state.profile, observer="Inês"))
    if sys.argv[2] == "asked":
        QTimer.singleShot(300, lambda: print("ready", flush=True))
        shell.close()  # asks whether to save, and waits
    else:
        print("ready", flush=True)

QTimer.singleShot(0, edit)
sys.exit(run_window(Path(sys.argv[1])))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="this system sends no such signals to a program")
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
@pytest.mark.parametrize("doing", ["nothing", "asked"])
def test_a_signal_ends_the_window_cleanly_and_keeps_the_edits(
    tmp_path: Path, state_folder: Path, number: signal.Signals, doing: str
) -> None:
    path = tmp_path / "ines.toml"
    save_profile(path, make_profile())
    command = [sys.executable, "-c", _WINDOW, str(path), doing]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as window:
        assert window.stdout is not None
        assert window.stdout.readline() == "ready\n"
        window.send_signal(number)
        _, complaints = window.communicate(timeout=20)
    assert complaints == ""
    assert window.returncode == 130
    (draft,) = state_folder.glob("unsaved/*.json")
    assert "Inês" in json.loads(draft.read_text("utf-8"))["profile"]
    assert draft.stat().st_mode & 0o777 == 0o600
    assert list(state_folder.glob("unsaved/*.lock")) == []


def test_edits_that_cannot_be_kept_are_told_once(
    make_shell: MakeShell, make_state: MakeState, state_folder: Path
) -> None:
    state_folder.write_text("a file where the folder should be", "utf-8")
    state = make_state()
    told: list[str] = []
    state.told.connect(told.append)
    shell = make_shell(state)
    for name in ("In", "Inê", "Inês"):
        state.edit_profile("Rename", evolve(state.profile, observer=name))
        shell.documents.keep_unsaved()
    assert len(told) == 1
    assert told[0].startswith(f"Neither settings nor unsaved edits can be kept in {state_folder} (")
    assert shell.message_line.text.text() == told[0]


def test_a_disk_that_fills_up_is_told_once_until_there_is_room(
    make_shell: MakeShell, make_state: MakeState, state_folder: Path
) -> None:
    state = make_state(Profile(observer="Ines"))
    shell = make_shell(state)
    told: list[str] = []
    state.told.connect(told.append)
    (state_folder / "unsaved").write_text("in the way", "utf-8")
    for name in ("In", "Inê"):
        state.edit_profile("Rename", evolve(state.profile, observer=name))
        shell.documents.keep_unsaved()
    assert len(told) == 1
    assert told[0].startswith("Your unsaved edits cannot be kept in case the program ends unexpectedly (")
    (state_folder / "unsaved").unlink()
    shell.documents.keep_unsaved()
    assert list(state_folder.glob("unsaved/*.json"))
