"""Another program changes the profile's file while it is in hand."""

from pathlib import Path

import attrs
import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from core.record.profile import read_profile
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.dialogs import Unsaved, Version, ask_changed, ask_write_over
from gui.window.shell import Shell
from tests.gui.conftest import MakeState, action

Answers = dict[str, list[Version | None]]

_LOST_AFTER_MS = 500


@pytest.fixture
def state(make_state: MakeState, profile_file: Path) -> AppState:
    return make_state(read_profile(profile_file), path=profile_file)


def write_elsewhere(path: Path, observer: str, comment: str = "") -> None:
    """Change the observer of a file as an editor does."""
    lines = path.read_text("utf-8").splitlines(keepends=True)
    path.write_text(comment + "".join(_renamed(line, observer) for line in lines), "utf-8")


def _renamed(line: str, observer: str) -> str:
    return f'observer = "{observer}"\n' if line.startswith("observer") else line


def edit(state: AppState, observer: str = "Mine") -> None:
    state.edit_profile("Rename", attrs.evolve(state.profile, observer=observer))


@pytest.fixture(autouse=True)
def answers(monkeypatch: pytest.MonkeyPatch) -> Answers:
    """Answer each question with the next answer listed for it; one that was not expected is an error."""
    answers: Answers = {"ask_changed": [], "ask_write_over": []}
    for name, listed in answers.items():
        monkeypatch.setattr(dialogs, name, lambda _parent, _name, listed=listed: listed.pop(0))
    return answers


def test_with_nothing_unsaved_the_new_text_is_taken_up_at_once(
    qtbot: QtBot, shell: Shell, state: AppState, profile_file: Path
) -> None:
    write_elsewhere(profile_file, "Theirs", "# by hand\n")
    qtbot.waitUntil(lambda: shell.strip.observer.text() == "Theirs")
    assert not shell.isWindowModified()
    assert shell.message_line.text.text() == (
        "ines.toml was changed by another program, and its new version is shown. "
        "Undo brings back the one before."
    )
    edit(state)
    assert shell.documents.save()
    assert profile_file.read_text("utf-8").startswith("# by hand\n")

    action(shell, "Edit", "Undo").trigger()
    action(shell, "Edit", "Undo").trigger()
    assert shell.strip.observer.text() == "Ines"
    assert shell.isWindowModified()


@pytest.mark.parametrize(
    "content", [b"", b'schema = 1\nobserver = "half', b"\xff\xfe", b"schema = 1\neye = 3"]
)
def test_a_text_that_does_not_read_is_told_and_nothing_here_changes(
    qtbot: QtBot, shell: Shell, state: AppState, profile_file: Path, content: bytes
) -> None:
    before = state.profile
    profile_file.write_bytes(content)
    qtbot.waitUntil(shell.message_line.isVisible)
    told = shell.message_line.text.text()
    assert told.startswith("ines.toml was changed by another program and cannot be read now: ")
    assert told.endswith(" What is here stays.")
    assert state.profile == before

    # And what can be lost by saving now is kept beside.
    assert shell.documents.save()
    assert profile_file.with_name("ines.toml.unreadable").read_bytes() == content


@pytest.mark.parametrize(("wanted", "shown"), [(Version.THEIRS, "Theirs"), (Version.MINE, "Mine")])
def test_with_unsaved_edits_it_asks_which_to_keep(
    qtbot: QtBot,
    shell: Shell,
    state: AppState,
    profile_file: Path,
    answers: Answers,
    wanted: Version,
    shown: str,
) -> None:
    answers["ask_changed"].append(wanted)
    edit(state)
    write_elsewhere(profile_file, "Theirs")
    qtbot.waitUntil(lambda: not answers["ask_changed"])
    assert state.profile.observer == shown
    assert state.is_modified is (wanted is Version.MINE)
    if wanted is Version.THEIRS:
        action(shell, "Edit", "Undo").trigger()
        assert state.profile.observer == "Mine"
        assert state.is_modified
    # It has been asked: saving does not ask again.
    assert shell.documents.save()
    assert read_profile(profile_file).observer == "Mine"
    assert read_profile(profile_file.with_name("ines.toml~")).observer == "Theirs"


def test_new_comments_alone_are_no_step_and_are_kept(
    qtbot: QtBot, shell: Shell, state: AppState, profile_file: Path
) -> None:
    profile_file.write_text("# kept in the shed\n" + profile_file.read_text("utf-8"), "utf-8")
    qtbot.waitUntil(lambda: not shell.documents._watch.differs)
    assert not state.undo_stack.canUndo()
    assert not shell.message_line.isVisible()
    edit(state)
    assert shell.documents.save()
    assert profile_file.read_text("utf-8").startswith("# kept in the shed\n")


@pytest.mark.parametrize(
    ("wanted", "saved", "in_file", "in_hand"),
    [
        (Version.MINE, True, "Mine", "Mine"),
        (Version.THEIRS, False, "Theirs", "Theirs"),
        (None, False, "Theirs", "Mine"),
    ],
)
def test_saving_over_a_file_that_changed_meanwhile_asks(
    unseen_shell: Shell,
    state: AppState,
    profile_file: Path,
    answers: Answers,
    wanted: Version | None,
    saved: bool,
    in_file: str,
    in_hand: str,
) -> None:
    answers["ask_write_over"].append(wanted)
    edit(state)
    write_elsewhere(profile_file, "Theirs")
    # At once, before the change could be noticed by itself.
    assert unseen_shell.documents.save() is saved
    assert read_profile(profile_file).observer == in_file
    assert state.profile.observer == in_hand
    assert not answers["ask_write_over"]


@pytest.mark.parametrize("wanted", [Version.THEIRS, None])
def test_closing_with_a_save_asks_too_and_stays_open_unless_it_is_saved(
    shell: Shell,
    state: AppState,
    profile_file: Path,
    answers: Answers,
    monkeypatch: pytest.MonkeyPatch,
    wanted: Version | None,
) -> None:
    monkeypatch.setattr(dialogs, "ask_unsaved", lambda *_asked: Unsaved.SAVE)
    answers["ask_write_over"].append(wanted)
    edit(state)
    write_elsewhere(profile_file, "Theirs")
    assert not shell.close()
    assert read_profile(profile_file).observer == "Theirs"


def test_one_s_own_saves_are_not_told(
    qtbot: QtBot,
    shell: Shell,
    state: AppState,
    profile_file: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    other = profile_file.with_name("other.toml")
    monkeypatch.setattr(dialogs, "ask_save", lambda *_asked: other)
    for name in ("One", "Two"):
        edit(state, name)
        assert shell.documents.save()
    edit(state, "Three")
    assert shell.documents.save_as()
    edit(state, "Four")
    assert shell.documents.save()
    qtbot.waitUntil(lambda: not shell.documents._watch._settle.isActive())
    assert shell.message_line.text.text().startswith("Saved as ")
    # The file of before is nobody's business any more; news of the present one tells that all news is in.
    seen: list[str] = []
    state.changed.connect(lambda _aspects: seen.append(state.profile.observer))
    write_elsewhere(profile_file, "Theirs")
    write_elsewhere(other, "Five")
    qtbot.waitUntil(lambda: state.profile.observer == "Five")
    assert "Theirs" not in seen


@pytest.mark.parametrize(
    ("key", "wanted"),
    [(Qt.Key.Key_M, Version.MINE), (Qt.Key.Key_F, Version.THEIRS), (Qt.Key.Key_Escape, Version.MINE)],
)
def test_the_question_is_answered_by_keys(theme: object, key: Qt.Key, wanted: Version) -> None:
    press_when_asked(key)
    assert ask_changed(None, "ines.toml") is wanted


@pytest.mark.parametrize(
    ("key", "wanted"),
    [(Qt.Key.Key_M, Version.MINE), (Qt.Key.Key_F, Version.THEIRS), (Qt.Key.Key_Escape, None)],
)
def test_the_question_before_saving_is_answered_by_keys(
    theme: object, key: Qt.Key, wanted: Version | None
) -> None:
    press_when_asked(key)
    assert ask_write_over(None, "ines.toml") is wanted


def press_when_asked(key: Qt.Key, pressed: QWidget | None = None) -> None:
    """Press a key in the dialog as soon as one has the keyboard, with Alt where it is the letter of a button.

    A window hears the letters of its buttons only while it is the active one, which comes after it is seen
    and may go again: where the dialog ``pressed`` is still there a while later, the key was lost.
    """
    dialog = QApplication.activeModalWidget()
    if pressed is not None and dialog is not pressed:
        return
    if dialog is None or not dialog.isActiveWindow():
        QTimer.singleShot(10, lambda: press_when_asked(key, pressed))
        return
    is_letter = key != Qt.Key.Key_Escape
    QTest.keyClick(
        dialog, key, Qt.KeyboardModifier.AltModifier if is_letter else Qt.KeyboardModifier.NoModifier
    )
    QTimer.singleShot(_LOST_AFTER_MS, lambda: press_when_asked(key, dialog))
