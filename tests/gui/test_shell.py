"""The window: strip, answer, views, menus, documents, and what it remembers."""

import json
import re
import threading
from collections.abc import Callable
from datetime import date
from pathlib import Path

import attrs
import pytest
from PySide6.QtCore import QDate, Qt, QTimer
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from core.air.steadiness import FirstLook
from core.record.observer import Profile
from core.record.profile import read_profile, save_profile
from core.sky.bodies import Body
from gui import dialogs
from gui.dialogs import Unsaved
from gui.errors import LOG_NAME, ErrorDoor
from gui.first_run.guide import Guide
from gui.gear.view import GearView
from gui.height.view import HeightView
from gui.ladder.view import LadderView
from gui.session import Session, SessionFile
from gui.shell import GEAR, HEIGHT, LADDER, Shell
from gui.state import AppState
from gui.theme import Theme
from gui.window import _first_profile
from tests.gui.conftest import HandClock, make_profile

MakeShell = Callable[..., Shell]
MakeState = Callable[..., AppState]


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, str]]:
    """Collect heading and text of every dialog that would stand in the way."""
    shown: list[tuple[str, str]] = []
    monkeypatch.setattr(
        dialogs, "show_text", lambda _parent, _title, heading, text: shown.append((heading, text))
    )
    return shown


@pytest.fixture
def profile_file(tmp_path: Path) -> Path:
    path = tmp_path / "ines.toml"
    save_profile(path, make_profile())
    return path


def action(shell: Shell, menu_title: str, words: str) -> QAction:
    """Return the entry of a menu that begins with some words, mnemonics aside."""
    for menu_action in shell.menuBar().actions():
        menu = menu_action.menu()
        if menu_action.text().replace("&", "") == menu_title and menu is not None:
            for entry in menu.actions():  # type: ignore[attr-defined]  # menu() is told as an object
                if entry.text().replace("&", "").startswith(words):
                    assert isinstance(entry, QAction)
                    return entry
    raise AssertionError(f"no {words} under {menu_title}")


# Views and strip.


def test_keys_switch_between_the_views(qtbot: QtBot, shell: Shell) -> None:
    kinds = {Qt.Key.Key_1: GearView, Qt.Key.Key_2: HeightView, Qt.Key.Key_3: LadderView}
    for key, kind in kinds.items():
        QTest.keyClick(shell, key, Qt.KeyboardModifier.ControlModifier)
        assert isinstance(shell.current_view, kind)
        assert shell.stack.currentWidget() is shell.current_view


def test_buttons_switch_between_the_views(qtbot: QtBot, shell: Shell) -> None:
    qtbot.mouseClick(shell.view_buttons.button(LADDER), Qt.MouseButton.LeftButton)
    assert isinstance(shell.stack.currentWidget(), LadderView)


def test_the_answer_follows_planet_and_air_and_gives_its_reasons(
    qtbot: QtBot, shell: Shell, state: AppState
) -> None:
    bar = shell.answer_bar
    assert bar.sentence.text().startswith("Jupiter is best")
    assert not bar.reasons.isVisible()

    qtbot.mouseClick(bar.why, Qt.MouseButton.LeftButton)
    assert bar.reasons.isVisible()
    assert "Jupiter" in bar.reasons.text()
    assert bar.panel.geometry().top() >= bar.geometry().bottom()
    assert (shell.width(), shell.height()) == (1280, 800)

    QTest.keyClick(bar.panel, Qt.Key.Key_Escape)
    assert not bar.reasons.isVisible()

    qtbot.keyClicks(shell.strip.planet, "Sat")
    shell.strip.planet.activated.emit(shell.strip.planet.currentIndex())
    assert state.planet is Body.SATURN
    assert bar.sentence.text().startswith("Saturn")

    before = bar.sentence.text()
    state.set_first_look(FirstLook.BOILING)
    assert bar.sentence.text() != before
    assert "assumed" not in bar.sentence.text()


def test_a_poor_answer_names_the_next_better_evening(shell: Shell, state: AppState) -> None:
    state.set_planet(Body.MERCURY)
    sentence = shell.answer_bar.sentence.text()
    assert "Mercury is never above" in sentence
    assert re.search(r"next .* on \d+ \w+ 2027", sentence)


def test_the_evening_goes_back_forward_and_home_by_buttons(
    qtbot: QtBot, shell: Shell, state: AppState
) -> None:
    strip = shell.strip
    assert not strip.tonight.isEnabled()
    qtbot.mouseClick(strip.forward, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(strip.forward, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(strip.back, Qt.MouseButton.LeftButton)
    assert state.evening == date(2026, 12, 6)
    assert strip.date.date() == QDate(2026, 12, 6)
    assert strip.tonight.isEnabled()
    qtbot.mouseClick(strip.tonight, Qt.MouseButton.LeftButton)
    assert state.evening == date(2026, 12, 5)
    assert state.following_now


def test_a_typed_date_is_taken_when_it_is_finished(qtbot: QtBot, shell: Shell, state: AppState) -> None:
    strip = shell.strip
    strip.date.setFocus()
    strip.date.setSelectedSection(strip.date.Section.DaySection)
    qtbot.keyClicks(strip.date, "24")
    assert state.evening == date(2026, 12, 5)
    qtbot.keyClick(strip.date, Qt.Key.Key_Return)
    assert state.evening == date(2026, 12, 24)


def test_the_date_stops_at_the_ends_of_the_planet_tables(shell: Shell, state: AppState) -> None:
    # DE421 spans 1899-07-29 to 2053-10-09 (Folkner, Williams and Boggs 2009).
    strip = shell.strip
    assert QDate(1899, 7, 29) < strip.date.minimumDate() < QDate(1899, 9, 1)
    assert QDate(2053, 9, 1) < strip.date.maximumDate() < QDate(2053, 10, 9)
    last = strip.date.maximumDate()
    state.set_evening(date(last.year(), last.month(), last.day()))
    assert not strip.forward.isEnabled()


def test_site_and_scope_are_picked_in_the_strip(shell: Shell, state: AppState) -> None:
    QTest.keyClick(shell.strip.site, Qt.Key.Key_Down)
    assert state.site is not None
    assert state.site.name == "Southern hill"
    QTest.keyClick(shell.strip.scope, Qt.Key.Key_Down)
    assert state.scope is not None
    assert state.scope.name == "Small refractor"


def test_the_clock_shows_site_time_and_universal_time(shell: Shell, state: AppState) -> None:
    assert shell.strip.clock.text() == "21:42"
    state.set_site(state.profile.sites[1].id)
    # New Zealand is 13 hours ahead in December.
    assert shell.strip.clock.text() == "10:42"
    assert "21:42 UT" in shell.strip.universal.text()


def test_an_empty_profile_begins_at_gear_and_says_what_comes_first(
    make_shell: MakeShell, make_state: MakeState
) -> None:
    shell = make_shell(make_state(Profile()))
    assert isinstance(shell.current_view, GearView)
    assert "site" in shell.answer_bar.sentence.text()
    assert not shell.answer_bar.why.isEnabled()
    for view in (HEIGHT, LADDER):
        shell.show_view(view)


def test_a_new_observer_is_guided_on_the_first_run(
    qtbot: QtBot, theme: Theme, make_state: MakeState, state_folder: Path
) -> None:
    state = make_state(Profile())
    shell = Shell(state, theme, session_file=SessionFile(state_folder), first_run=True)
    qtbot.addWidget(shell)
    shell.show()
    qtbot.waitUntil(lambda: shell.findChild(Guide) is not None)
    guide = shell.findChild(Guide)
    assert guide is not None
    assert guide.isVisible()
    QTest.keyClick(guide, Qt.Key.Key_Escape)
    assert shell.isVisible()
    assert shell.isEnabled()


def test_until_the_sky_is_read_the_window_says_so(make_shell: MakeShell, make_state: MakeState) -> None:
    state = make_state(sky=False)
    state.prepare_sky = lambda: None  # type: ignore[method-assign]  # the reading takes its time
    shell = make_shell(state)
    assert shell.answer_bar.sentence.text() == "Reading the sky tables …"
    del state.prepare_sky
    state.prepare_sky()
    assert shell.answer_bar.sentence.text().startswith("Jupiter")


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_it_fits_a_small_screen(make_shell: MakeShell, state: AppState, view: int) -> None:
    shell = make_shell(state, view=view, size=(1000, 640))
    assert (shell.width(), shell.height()) == (1000, 640)
    assert shell.minimumSizeHint().width() <= 1000
    assert shell.minimumSizeHint().height() <= 640


def test_long_names_do_not_widen_the_window(make_shell: MakeShell, make_state: MakeState) -> None:
    profile = make_profile()
    long = "An observer, a site or a telescope with a name that fills the whole line"
    scope = attrs.evolve(profile.telescopes[0], name=long)
    site = attrs.evolve(profile.sites[0], name=long)
    clock = attrs.evolve(profile.preferences, clock=12)
    state = make_state(
        attrs.evolve(profile, observer=long, sites=(site,), telescopes=(scope,), preferences=clock)
    )
    shell = make_shell(state, size=(1000, 640))
    assert shell.width() == 1000
    assert shell.strip.observer.text() == long


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_every_control_has_a_name_and_every_label_shows_text_as_typed(
    make_shell: MakeShell, make_state: MakeState, view: int
) -> None:
    odd = 'tube & <br> <b>dob</b> "8" <f/5'
    profile = make_profile()
    scope = attrs.evolve(profile.telescopes[0], name=odd)
    state = make_state(attrs.evolve(profile, observer=odd, telescopes=(scope, profile.telescopes[1])))
    shell = make_shell(state, view=view)
    for widget in shell.findChildren(QWidget):
        if isinstance(widget, QLabel) and widget.text():
            assert widget.textFormat() is Qt.TextFormat.PlainText or "<" not in widget.text()
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible():
            proxy = widget.focusProxy() or widget
            named = proxy.accessibleName() or getattr(proxy, "text", str)()
            assert named, f"{type(widget).__name__} in {type(widget.parent()).__name__} has no name"
    assert shell.strip.scope.itemText(0) == odd


# Palettes and text.


def test_palettes_are_changed_by_key_menu_and_strip_and_remembered(
    qtbot: QtBot, shell: Shell, state: AppState, state_folder: Path
) -> None:
    QTest.keyClick(shell, Qt.Key.Key_F9)
    assert state.palette_name == "dusk"
    action(shell, "View", "Night").trigger()
    assert state.palette_name == "night"
    assert shell.strip.palette_picker.currentText() == "Night"
    assert SessionFile(state_folder).read()[0].palette == "night"


def test_full_screen_and_back(shell: Shell) -> None:
    states = []
    for _ in range(2):
        QTest.keyClick(shell, Qt.Key.Key_F11)
        states.append(shell.isFullScreen())
    assert states == [True, False]


def test_the_keyboard_begins_in_the_view(shell: Shell) -> None:
    view = shell.current_view
    assert isinstance(view, HeightView)
    assert view.canvas.hasFocus()


def test_text_grows_and_the_window_still_fits(shell: Shell) -> None:
    usual = QApplication.font().pointSizeF()
    action(shell, "View", "Text larger").trigger()
    assert QApplication.font().pointSizeF() > usual
    action(shell, "View", "Usual size").trigger()
    assert QApplication.font().pointSizeF() == pytest.approx(usual)


# Menus and documents.


def test_undo_and_redo_name_the_edit(shell: Shell, state: AppState) -> None:
    undo, redo = action(shell, "Edit", "Undo"), action(shell, "Edit", "Redo")
    assert not undo.isEnabled()
    state.edit_profile("Rename the observer", attrs.evolve(state.profile, observer="Rui"))
    assert undo.text() == "Undo Rename the observer"
    QTest.keyClick(shell, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert state.profile.observer == "Ines"
    assert redo.text() == "Redo Rename the observer"
    assert shell.strip.observer.text() == "Ines"


def test_the_title_marks_what_is_not_saved(unseen_shell: Shell, state: AppState, tmp_path: Path) -> None:
    assert not unseen_shell.isWindowModified()
    state.edit_profile("Rename", attrs.evolve(state.profile, observer="Rui"))
    assert unseen_shell.isWindowModified()
    assert unseen_shell.windowTitle() == "Rui[*] – Stillair"
    state.mark_saved(tmp_path / "rui.toml")
    assert not unseen_shell.isWindowModified()
    assert unseen_shell.windowTitle() == "rui.toml[*] – Stillair"


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
    assert len(entries) >= 3
    entries[0].trigger()
    assert state.path is None
    assert state.profile.telescopes
    assert not state.is_modified


def test_help_names_the_keys(shell: Shell, told: list[tuple[str, str]]) -> None:
    QTest.keyClick(shell, Qt.Key.Key_F1)
    assert "Ctrl+2" in told[0][1]
    action(shell, "Help", "About").trigger()
    assert "licence" in told[1][1]
    assert "Never look at or near the Sun" in told[1][1]


def test_a_message_stays_until_it_is_dismissed(qtbot: QtBot, shell: Shell, state: AppState) -> None:
    state.tell("Saved as <b>x</b>.")
    assert shell.message_line.text.text() == "Saved as <b>x</b>."
    assert shell.message_line.isVisible()
    qtbot.mouseClick(shell.message_line.dismiss, Qt.MouseButton.LeftButton)
    assert not shell.message_line.isVisible()


# What goes wrong.


def test_an_error_on_any_thread_is_told_on_the_window_s_and_logged(
    qtbot: QtBot, shell: Shell, state_folder: Path
) -> None:
    door = ErrorDoor(state_folder)
    door.raised.connect(shell.state.tell)
    heard_on: list[threading.Thread] = []
    door.raised.connect(lambda _text: heard_on.append(threading.current_thread()))

    def fail() -> None:
        raise RuntimeError("a fault")

    with door.open():
        thread = threading.Thread(target=fail)
        thread.start()
        thread.join()
        qtbot.waitUntil(lambda: heard_on != [])
    assert heard_on == [threading.main_thread()]
    assert "Something went wrong inside Stillair" in shell.message_line.text.text()
    assert "RuntimeError: a fault" in (state_folder / LOG_NAME).read_text("utf-8")
    assert shell.isVisible()


# What is remembered.


def test_a_session_is_read_back(state_folder: Path) -> None:
    session = Session(palette="night", text_scale=1.3, recent=("/a.toml",), site="x", scope="y", view=2)
    SessionFile(state_folder).write(session)
    assert SessionFile(state_folder).read() == (session, "")


@pytest.mark.parametrize(
    "content", [b"", bytes(300), b'{"palette": "ni', b"[1, 2]", b"\xff\xfe{", b"[" * 5000], ids=str
)
def test_a_damaged_session_is_set_aside_and_told_once(state_folder: Path, content: bytes) -> None:
    state_folder.mkdir(parents=True)
    path = state_folder / "session.json"
    path.write_bytes(content)
    session, sentence = SessionFile(state_folder).read()
    assert session == Session()
    assert "could not be read" in sentence
    (aside,) = (entry for entry in state_folder.iterdir() if entry != path)
    assert aside.read_bytes() == content


def test_single_values_that_make_no_sense_fall_back_alone(state_folder: Path) -> None:
    state_folder.mkdir(parents=True)
    strange = {"palette": "pink", "text_scale": True, "recent": ["a", 3, ""], "view": 9, "site": 4, "new": 1}
    (state_folder / "session.json").write_text(json.dumps(strange), "utf-8")
    assert SessionFile(state_folder).read() == (Session(recent=("a",)), "")


def test_the_window_starts_with_the_last_profile_or_says_why_not(profile_file: Path, tmp_path: Path) -> None:
    session = Session().with_opened(profile_file)
    profile, path, trouble = _first_profile(None, session)
    assert (profile.observer, path, trouble) == ("Ines", profile_file, "")
    gone = Session().with_opened(tmp_path / "gone.toml")
    profile, path, trouble = _first_profile(None, gone)
    assert (profile, path) == (Profile(), None)
    assert "gone.toml" in trouble


def test_the_clock_beats_while_the_window_stands_open(
    qtbot: QtBot, shell: Shell, state: AppState, clock: HandClock
) -> None:
    with qtbot.waitSignal(state.changed, timeout=3000):
        pass  # within a second, without anybody's doing
