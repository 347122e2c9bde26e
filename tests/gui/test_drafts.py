"""Unsaved edits survive a kill, and go away once they are saved or dropped."""

import subprocess
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest
from attrs import evolve
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.record.files import read_text
from core.record.observer import Profile
from core.situation.choices import Choices
from gui.jobs import AtOnce, Jobs
from gui.profile.drafts import Drafts, used_places
from gui.profile.session import Session
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.dialogs import Unsaved
from gui.window.shell import Shell
from gui.window.start import _first_profile
from tests.gui.conftest import HandClock, make_profile
from tests.gui.left_drafts import die, kept, leave_edit, make_state, rename


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "state"


@pytest.fixture
def leave(folder: Path) -> Callable[[Path | None], None]:
    """Return what leaves an edit of a file, or of no file, behind."""
    return partial(leave_edit, folder)


# A window of its own program, which is killed with an edit that nobody saved.
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

def look():
    (shell,) = [widget for widget in app.topLevelWidgets() if isinstance(widget, Shell)]
    before = shell.state.profile.observer
    shell.state.undo_stack.undo()
    print(before, shell.state.profile.observer, shell.message_line.text.text(), sep="|", flush=True)
    app.exit()

QTimer.singleShot(0, edit if sys.argv[1] == "edit" else look)
run_window(Path(sys.argv[2]) if len(sys.argv) > 2 else None)
"""


def test_an_edit_survives_a_real_kill(
    qtbot: QtBot, profile_file: Path, folder: Path, state_folder: Path
) -> None:
    command = [sys.executable, "-c", _WINDOW]
    with subprocess.Popen([*command, "edit", str(profile_file)]) as window:
        qtbot.waitUntil(lambda: bool(kept(state_folder)), timeout=20_000)
        window.kill()

    # The next start is told no file: it opens the last one by itself.
    told = subprocess.run([*command, "look"], capture_output=True, encoding="utf-8", timeout=20, check=True)

    brought_back, undone, message = told.stdout.strip().split("|")
    assert (brought_back, undone) == ("Inês", "Ines")
    assert message == (
        "Edits to ines.toml from the last time, which were not saved, are back. Undo takes them away."
    )


@pytest.mark.parametrize("has_file", [True, False])
def test_an_edit_is_kept_soon_and_comes_back_as_one_step(
    qtbot: QtBot, folder: Path, profile_file: Path, has_file: bool
) -> None:
    path = profile_file if has_file else None
    state = make_state(path)
    drafts = Drafts(state, folder)
    rename(state, "In")
    rename(state, "Inês")
    qtbot.waitUntil(lambda: bool(kept(folder)))
    die(drafts)

    after = make_state(path)
    told = Drafts(after, folder).bring_back()

    assert after.profile.observer == "Inês"
    assert after.is_modified
    assert told.endswith("are back. Undo takes them away.")
    after.undo_stack.undo()
    assert after.profile.observer == "Ines"
    assert not after.undo_stack.canUndo()


def test_typing_on_does_not_put_it_off(qtbot: QtBot, folder: Path, profile_file: Path) -> None:
    state = make_state(profile_file)
    drafts = Drafts(state, folder)
    rename(state, "I")
    before = drafts._timer.remainingTime()
    qtbot.waitUntil(lambda: drafts._timer.remainingTime() <= before - 50)
    rename(state, "In")
    assert 0 < drafts._timer.remainingTime() <= before - 50


def test_a_file_changed_since_then_is_told(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None]
) -> None:
    leave(profile_file)
    profile_file.write_text(profile_file.read_text("utf-8") + "# mended elsewhere\n", "utf-8")

    told = Drafts(make_state(profile_file), folder).bring_back()

    assert told.endswith("The file itself has changed since; Undo shows what it holds now.")


def test_nothing_is_left_once_it_is_saved(folder: Path, profile_file: Path) -> None:
    state = make_state(profile_file)
    drafts = Drafts(state, folder)
    rename(state)
    drafts.keep()
    assert kept(folder)

    state.mark_saved(profile_file)

    assert not kept(folder)


def test_nothing_is_left_once_it_is_taken_back(folder: Path, profile_file: Path) -> None:
    state = make_state(profile_file)
    drafts = Drafts(state, folder)
    rename(state)
    drafts.keep()

    state.undo_stack.undo()

    assert not kept(folder)


def test_nothing_is_left_of_a_new_profile_that_got_a_file(folder: Path, tmp_path: Path) -> None:
    state = make_state(None)
    drafts = Drafts(state, folder)
    rename(state)
    drafts.keep()

    state.mark_saved(tmp_path / "new.toml")

    assert not kept(folder)


def test_edits_that_were_dropped_do_not_come_back(folder: Path, profile_file: Path) -> None:
    state = make_state(profile_file)
    drafts = Drafts(state, folder)
    rename(state)
    drafts.keep()

    drafts.drop()

    assert Drafts(make_state(profile_file), folder).bring_back() == ""


def test_a_profile_gets_only_its_own_edits_back(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None]
) -> None:
    leave(profile_file)
    state = make_state(None)
    assert Drafts(state, folder).bring_back() == ""
    assert state.profile.observer == "Ines"
    assert kept(folder)


def test_edits_that_were_saved_after_all_are_nothing_to_tell(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None]
) -> None:
    leave(profile_file)
    state = AppState(
        Choices(profile=evolve(make_profile(), observer="Inês")),
        path=profile_file,
        clock=HandClock(),
        jobs=Jobs(AtOnce()),
    )
    assert Drafts(state, folder).bring_back() == ""
    assert not state.is_modified
    assert not kept(folder)


# In the window.


def test_edits_without_a_file_come_before_the_last_file(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None]
) -> None:
    session = Session().with_opened(profile_file)
    assert _first_profile(None, session, used_places(folder))[1] == profile_file
    leave(None)
    assert _first_profile(None, session, used_places(folder))[:2] == (Profile(), None)
    assert _first_profile(profile_file, session, used_places(folder))[1] == profile_file


def test_a_start_reads_each_copy_once_and_again_only_when_it_was_written_anew(
    folder: Path, profile_file: Path, leave: Callable[[Path | None], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    leave(profile_file)
    read: list[Path] = []

    def read_and_count(path: Path, *, largest_bytes: int) -> str:
        read.append(path)
        return read_text(path, largest_bytes=largest_bytes)

    monkeypatch.setattr("gui.profile.drafts.read_text", read_and_count)
    places = used_places(folder)
    _first_profile(None, Session().with_opened(profile_file), places)
    told = Drafts(make_state(profile_file), folder).bring_back(places)
    assert "are back" in told
    assert len(read) == 1

    (place,) = places
    place.write(make_profile(), profile_file)
    draft = place.read()
    assert draft is not None
    assert draft.profile.observer == make_profile().observer
    assert len(read) == 2


def test_a_file_opened_later_brings_its_edits_too(
    shell: Shell, profile_file: Path, state_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = make_state(profile_file)
    drafts = Drafts(other, state_folder)
    rename(other)
    drafts.keep()
    die(drafts)

    monkeypatch.setattr(dialogs, "ask_open", lambda *_asked: profile_file)
    QTest.keyClick(shell, Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)

    assert shell.strip.observer.text() == "Inês"
    assert "which were not saved, are back" in shell.message_line.text.text()
    QTest.keyClick(shell, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert shell.strip.observer.text() == "Ines"


@pytest.mark.parametrize(("wanted", "left"), [(Unsaved.DISCARD, 0), (Unsaved.CANCEL, 1)])
def test_edits_are_dropped_by_closing_without_them_and_not_before(
    shell: Shell, state_folder: Path, monkeypatch: pytest.MonkeyPatch, wanted: Unsaved, left: int
) -> None:
    rename(shell.state)
    drafts = shell.documents._drafts
    assert drafts is not None
    drafts.keep()
    monkeypatch.setattr(dialogs, "ask_unsaved", lambda *_asked: wanted)
    shell.close()
    assert len(kept(state_folder)) == left


def test_discarding_and_then_opening_nothing_keeps_them(
    shell: Shell, state_folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    rename(shell.state)
    drafts = shell.documents._drafts
    assert drafts is not None
    drafts.keep()
    monkeypatch.setattr(dialogs, "ask_unsaved", lambda *_asked: Unsaved.DISCARD)
    monkeypatch.setattr(dialogs, "ask_open", lambda *_asked: None)
    QTest.keyClick(shell, Qt.Key.Key_O, Qt.KeyboardModifier.ControlModifier)
    assert shell.strip.observer.text() == "Inês"
    assert kept(state_folder)
