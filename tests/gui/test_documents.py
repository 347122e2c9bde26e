"""Profiles as documents: open, save, what is not saved yet, and nothing lost on the way."""

from collections.abc import Callable
from pathlib import Path

import attrs
import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.record.observer import SCHEMA
from core.record.profile import read_profile, save_profile
from gui.profile.session import SessionFile
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.dialogs import Unsaved
from gui.window.shell import Shell
from tests.gui.conftest import MakeShell, MakeState, action, make_profile


def test_open_by_menu(
    unseen_shell: Shell, state: AppState, profile_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    save_profile(profile_file, attrs.evolve(make_profile(), observer="Opened"))
    monkeypatch.setattr(dialogs, "ask_open", lambda _parent, _folder: profile_file)
    action(unseen_shell, "File", "Open …").trigger()
    assert state.profile.observer == "Opened"
    assert state.path == profile_file
    assert not state.is_modified
    assert not state.undo_stack.canUndo()


SITE = b'schema = 1\n[[sites]]\nname = "x"\nlongitude_deg = 0\n'
BAD_PROFILES = {
    "not TOML": b"observer = ",
    "wrong types": b'schema = 1\nobserver = 3\n[eye]\npupil_mm = "wide"\n',
    "latitude 95": SITE + b'latitude_deg = 95\ntime_zone = "UTC"\n',
    "unknown zone": SITE + b'latitude_deg = 5\ntime_zone = "Europe/Lisbn"\n',
    "zeros": bytes(1000),
    "cut in half": b'schema = 1\n[[telescopes]]\nname = "Six',
}


@pytest.mark.parametrize("content", BAD_PROFILES.values(), ids=list(BAD_PROFILES))
def test_a_bad_profile_is_told_and_the_present_one_stays(
    unseen_shell: Shell, state: AppState, tmp_path: Path, told: list[tuple[str, str]], content: bytes
) -> None:
    bad = tmp_path / "bad.toml"
    bad.write_bytes(content)
    before = state.profile
    unseen_shell.documents.open_path(bad)
    ((heading, text),) = told
    assert heading == "bad.toml could not be opened. Ines stays open as it was."
    assert text
    assert "Traceback" not in text
    assert state.profile == before
    assert state.path is None
    assert bad.read_bytes() == content


@pytest.mark.parametrize("kind", ["missing", "folder"])
def test_what_is_no_file_is_told_too(
    unseen_shell: Shell, state: AppState, tmp_path: Path, told: list[tuple[str, str]], kind: str
) -> None:
    path = tmp_path / "there.toml"
    if kind == "folder":
        path.mkdir()
    unseen_shell.documents.open_path(path)
    assert len(told) == 1
    assert state.profile.observer == "Ines"


def test_every_problem_of_a_bad_profile_stands_in_the_dialog_as_plain_text(
    qtbot: QtBot, theme: object
) -> None:
    text = "telescopes[1].aperture_mm: must be from 20 to 2000 mm, not -3\n<b>sites</b>: & more"
    dialog = dialogs.TextDialog("Could not open", "bad.toml could not be opened.", text)
    qtbot.addWidget(dialog)
    dialog.show()
    assert dialog.text.toPlainText() == text
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()


def test_save_and_save_as(
    shell: Shell, state: AppState, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "saved.toml"
    monkeypatch.setattr(dialogs, "ask_save", lambda _parent, _folder, _name: path)
    state.edit_profile("Rename", attrs.evolve(state.profile, observer="Rui"))
    action(shell, "File", "Save").trigger()  # asks where, since there is no file yet
    assert read_profile(path).observer == "Rui"
    assert not shell.isWindowModified()

    state.edit_profile("Rename", attrs.evolve(state.profile, observer="Anna"))
    QTest.keyClick(shell, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert read_profile(path).observer == "Anna"
    assert read_profile(tmp_path / "saved.toml~").observer == "Rui"
    assert "saved.toml~" in shell.message_line.text.text()


def test_a_copy_under_another_name_takes_the_comments_along(
    unseen_shell: Shell, state: AppState, profile_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    profile_file.write_text("# bought in spring\n" + profile_file.read_text("utf-8"), "utf-8")
    unseen_shell.documents.open_path(profile_file)
    copy = tmp_path / "copy.toml"
    monkeypatch.setattr(dialogs, "ask_save", lambda _parent, _folder, _name: copy)
    assert unseen_shell.documents.save_as()
    assert "# bought in spring" in copy.read_text("utf-8")


def test_what_cannot_be_saved_is_told_and_nothing_is_lost(
    unseen_shell: Shell,
    state: AppState,
    tmp_path: Path,
    told: list[tuple[str, str]],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    (tmp_path / "taken.toml").mkdir()
    monkeypatch.setattr(dialogs, "ask_save", lambda *_asked: tmp_path / "taken.toml")
    state.edit_profile("Rename", attrs.evolve(state.profile, observer="Rui"))
    assert not unseen_shell.documents.save()
    assert "Your changes are still here" in told[0][0]
    assert state.is_modified


@pytest.mark.parametrize(
    ("wanted", "closes", "saved"),
    [(Unsaved.SAVE, True, True), (Unsaved.DISCARD, True, False), (Unsaved.CANCEL, False, False)],
)
def test_closing_asks_about_unsaved_changes(
    make_shell: MakeShell,
    make_state: MakeState,
    profile_file: Path,
    monkeypatch: pytest.MonkeyPatch,
    wanted: Unsaved,
    closes: bool,
    saved: bool,
) -> None:
    state = make_state(read_profile(profile_file), path=profile_file)
    shell = make_shell(state)
    asked: list[str] = []

    def answer(_parent: object, name: str) -> Unsaved:
        asked.append(name)
        return wanted

    monkeypatch.setattr(dialogs, "ask_unsaved", answer)
    state.edit_profile("Rename", attrs.evolve(state.profile, observer="Rui"))
    assert shell.close() is closes
    assert asked == ["ines.toml"]
    assert (read_profile(profile_file).observer == "Rui") is saved


@pytest.mark.parametrize(
    ("key", "wanted"),
    [(Qt.Key.Key_S, Unsaved.SAVE), (Qt.Key.Key_D, Unsaved.DISCARD), (Qt.Key.Key_Escape, Unsaved.CANCEL)],
)
def test_the_question_about_changes_is_answered_by_keys(
    qtbot: QtBot, theme: object, key: Qt.Key, wanted: Unsaved
) -> None:
    def press() -> None:
        dialog = QApplication.activeModalWidget()
        assert dialog is not None
        modifier = (
            Qt.KeyboardModifier.NoModifier if key == Qt.Key.Key_Escape else Qt.KeyboardModifier.AltModifier
        )
        QTest.keyClick(dialog, key, modifier)

    QTimer.singleShot(50, press)
    assert dialogs.ask_unsaved(None, "ines.toml") is wanted


def test_recent_files_come_newest_first_and_with_their_ampersands(
    unseen_shell: Shell, tmp_path: Path, state_folder: Path
) -> None:
    for name in ("one.toml", "two & three.toml"):
        save_profile(tmp_path / name, make_profile())
        unseen_shell.documents.open_path(tmp_path / name)
    unseen_shell.menus.recent.aboutToShow.emit()
    first, second = unseen_shell.menus.recent.actions()
    assert first.text().startswith("two && three.toml")
    assert second.text().startswith("one.toml")
    second.trigger()
    assert unseen_shell.state.path == tmp_path / "one.toml"
    kept, _ = SessionFile(state_folder).read()
    assert kept.recent[0] == str(tmp_path / "one.toml")


def test_an_example_opens_as_a_profile_without_a_file(unseen_shell: Shell, state: AppState) -> None:
    entries = unseen_shell.menus.examples.actions()
    assert [entry.text() for entry in entries] == [
        "Two telescopes on a balcony, Greece",
        "Closed tube in inches and Fahrenheit, Minnesota",
        "First refractor, Japan",
        "Large reflector under the southern sky, Argentina",
    ]
    entries[0].trigger()
    assert state.path is None
    assert state.profile.telescopes
    assert not state.is_modified


# Comments, copies, and what was there before.

COMMENTED = f"""\
# bought at the spring market
schema = {SCHEMA}
id = "3f0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4"
observer = "Ines"

[[sites]]
id = "terrace"
name = "Back terrace"   # behind number 12
latitude_deg = 41.1496
longitude_deg = -8.6109
time_zone = "Europe/Lisbon"

[[telescopes]]
# the good one
id = "six"
name = "Six-inch"
kind = "reflector"
aperture_mm = 150
focal_length_mm = 1200

[[eyepieces]]
id = "e25"
name = "25 mm"  # came with it
focal_length_mm = 25
"""


def test_thirty_edits_taken_back_give_the_same_bytes_though_saved_half_way(
    unseen_shell: Shell, state: AppState, profile_file: Path
) -> None:
    profile_file.write_text(COMMENTED, "utf-8")
    unseen_shell.documents.open_path(profile_file)
    opened = state.profile
    state.edit_profile("Remove the eyepiece", attrs.evolve(opened, eyepieces=()))
    state.edit_profile("Remove the telescope", attrs.evolve(state.profile, telescopes=()))
    for number in range(14):
        state.edit_profile("Rename", attrs.evolve(state.profile, observer=f"Name {number}"))
    assert unseen_shell.documents.save()
    assert "the good one" not in profile_file.read_text("utf-8")
    for number in range(14):
        site = attrs.evolve(opened.sites[0], elevation_m=float(number + 1))
        state.edit_profile("Change the elevation", attrs.evolve(state.profile, sites=(site,)))

    undo = action(unseen_shell, "Edit", "Undo")
    for _ in range(30):
        undo.trigger()
    assert not undo.isEnabled()
    assert unseen_shell.documents.save()
    assert profile_file.read_bytes() == COMMENTED.encode()


def test_a_profile_saved_over_another_one_takes_nothing_from_it(
    unseen_shell: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "other.toml"
    other.write_text(COMMENTED, "utf-8")
    monkeypatch.setattr(dialogs, "ask_save", lambda *_asked: other)
    assert unseen_shell.documents.save_as()
    assert "#" not in other.read_text("utf-8")
    assert (tmp_path / "other.toml~").read_text("utf-8") == COMMENTED


def test_what_was_no_profile_is_kept_under_the_name_that_is_told(
    shell: Shell, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "kit.toml"
    path.write_text("shopping list", "utf-8")
    monkeypatch.setattr(dialogs, "ask_save", lambda *_asked: path)
    assert shell.documents.save_as()
    assert shell.message_line.text.text().endswith("What was there before is kept as kit.toml.unreadable.")
    assert (tmp_path / "kit.toml.unreadable").read_text("utf-8") == "shopping list"
    assert shell.documents.save()  # the same once more pushes nothing aside
    assert shell.message_line.text.text() == f"Saved as {path}."


def test_a_copy_without_the_exact_place_tells_a_town_and_no_comments(
    shell: Shell, state: AppState, profile_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    profile_file.write_text(COMMENTED, "utf-8")
    shell.documents.open_path(profile_file)
    suggested: list[str] = []
    copy = tmp_path / "for_mail.toml"

    def choose(_parent: object, _folder: object, name: str) -> Path:
        suggested.append(name)
        return copy

    monkeypatch.setattr(dialogs, "ask_save", choose)
    action(shell, "File", "Save a copy without the exact place").trigger()

    assert suggested == ["ines_without_place.stillair.toml"]
    (site,) = read_profile(copy).sites
    assert (site.latitude_deg, site.longitude_deg) == (41.1, -8.6)
    text = copy.read_text("utf-8")
    for telling in ("#", "number 12", "41.1496", "8.6109"):
        assert telling not in text
    assert state.path == profile_file
    assert state.profile.sites[0].latitude_deg == 41.1496
    assert profile_file.read_text("utf-8") == COMMENTED
    assert str(copy) not in shell.documents.session.recent
    assert "tenth of a degree" in shell.message_line.text.text()


def test_the_profile_in_hand_is_never_made_the_copy_without_its_place(
    shell: Shell, profile_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    profile_file.write_text(COMMENTED, "utf-8")
    shell.documents.open_path(profile_file)
    link = tmp_path / "link.toml"
    link.symlink_to(profile_file)
    for name in (profile_file, link):
        monkeypatch.setattr(dialogs, "ask_save", lambda *_asked, name=name: name)
        action(shell, "File", "Save a copy without the exact place").trigger()
        assert "give the copy another name" in shell.message_line.text.text()
    assert profile_file.read_text("utf-8") == COMMENTED


def test_a_file_is_suggested_that_bears_the_observer_s_name(
    make_state: Callable[..., AppState], make_shell: Callable[..., Shell], monkeypatch: pytest.MonkeyPatch
) -> None:
    shell = make_shell(make_state(), shown=False)
    asked: list[str] = []
    monkeypatch.setattr(dialogs, "ask_save", lambda _parent, _folder, name: asked.append(name))
    shell.documents.save()
    shell.documents.save_copy_without_place()
    assert asked == ["ines.stillair.toml", "ines_without_place.stillair.toml"]
