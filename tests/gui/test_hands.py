"""What hands find: a set-up by keys alone, no bare key while typing, and a Return that never jumps."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QFileDialog,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)
from pytestqt.qtbot import QtBot

from core.record.observer import Profile
from core.record.profile import read_profile
from gui.first_run.guide import Guide
from gui.gear.view import GearView
from gui.ladder.at_eyepiece import AtEyepiece
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import MakeShell
from tests.gui.surfaces import pages, settle

# All bare keys of the program, and what opens menus elsewhere.
BARE = "mnlcwef1234567+-<>MNLCWEF"
RETURNS = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


def at_keyboard() -> QWidget:
    """Return what has the keyboard, of whatever window is in front."""
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def press(key: Qt.Key, *, control: bool = False) -> None:
    modifiers = Qt.KeyboardModifier.ControlModifier if control else Qt.KeyboardModifier.NoModifier
    QTest.keyClick(at_keyboard(), key, modifiers)
    QApplication.processEvents()


def write(text: str) -> None:
    QTest.keyClicks(at_keyboard(), text)


def tab_to(wanted: Callable[[QWidget], bool]) -> QWidget:
    """Press Tab until something is reached."""
    passed = []
    for _ in range(80):
        if wanted(at_keyboard()):
            return at_keyboard()
        passed.append(at_keyboard().accessibleName())
        press(Qt.Key.Key_Tab)
    raise AssertionError(f"Tab never comes there, but to {passed}")


def test_from_the_first_start_to_a_saved_profile_by_keys_alone(
    make_shell: MakeShell, make_state: Callable[..., AppState], qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "marta.toml"
    shell = make_shell(make_state(Profile()), shown=False)
    shell.first_run = True
    shell.show()
    qtbot.waitUntil(lambda: isinstance(QApplication.activeModalWidget(), Guide))
    guide = QApplication.activeModalWidget()
    assert isinstance(guide, Guide)
    qtbot.waitUntil(guide.isActiveWindow)

    write("Marta")
    press(Qt.Key.Key_Return)
    write("Tromso")
    press(Qt.Key.Key_Return)
    write("10")
    press(Qt.Key.Key_Return)
    qtbot.waitUntil(guide.scope.isVisible)
    # A mistake first: half a figure, which Next names; then a usual size.
    tab_to(lambda widget: widget.accessibleName().startswith("Aperture"))
    write("4")
    press(Qt.Key.Key_Return)
    assert guide.scope.isVisible()
    tab_to(lambda widget: widget.accessibleName().startswith("Aperture"))
    press(Qt.Key.Key_A, control=True)
    write("150")
    press(Qt.Key.Key_Return)
    write("1200")
    press(Qt.Key.Key_Return)
    qtbot.waitUntil(guide.eyepieces.isVisible)
    box = tab_to(lambda widget: isinstance(widget, QCheckBox) and widget.text() == "6 mm")
    press(Qt.Key.Key_Space)
    assert isinstance(box, QCheckBox)
    assert box.isChecked()
    press(Qt.Key.Key_Return)
    qtbot.waitUntil(guide.filters.isVisible)
    press(Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: QApplication.activeModalWidget() is None)

    # A display without a manager gives the keyboard back to no window by itself.
    shell.activateWindow()
    qtbot.waitUntil(shell.isActiveWindow)
    # The tour stands there, with the keyboard on it; it is left by a key, and the answer is read.
    assert shell.view_buttons.checkedId() == HEIGHT
    assert shell.tour.isVisible()
    tab_to(lambda widget: widget is shell.tour.leave)
    press(Qt.Key.Key_Space)
    assert not shell.tour.isVisible()

    def name_file() -> None:
        chooser = QApplication.activeModalWidget()
        assert isinstance(chooser, QFileDialog)
        press(Qt.Key.Key_A, control=True)
        write(str(path))
        press(Qt.Key.Key_Return)

    shell.go_to_view(HEIGHT)
    QTimer.singleShot(200, name_file)
    press(Qt.Key.Key_S, control=True)
    profile = read_profile(path)
    assert profile.observer == "Marta"
    assert [site.name for site in profile.sites] == ["Tromsø"]
    assert [scope.aperture_mm for scope in profile.telescopes] == [150]
    assert 6 in {eyepiece.focal_length_mm for eyepiece in profile.eyepieces}


def fields(shell: Shell) -> Iterator[QLineEdit | QPlainTextEdit]:
    """Yield each field to type in that is seen and open."""
    found: list[QLineEdit | QPlainTextEdit] = [
        *shell.findChildren(QLineEdit),
        *shell.findChildren(QPlainTextEdit),
    ]
    yield from (each for each in found if each.isVisible() and each.isEnabled() and not each.isReadOnly())


def standing(shell: Shell) -> tuple[object, ...]:
    """Return all that a stray key could change."""
    situation = shell.state.situation
    gear = shell._views.get(GEAR)
    return (
        *(shell.view_buttons.checkedId(), situation.palette_name, situation.planet, situation.evening),
        *(situation.rung.power if situation.rung else None, situation.first_look, situation.filter_in),
        *(len(shell.log_book.entries()), situation.dimmer, situation.time),
        gear.place if isinstance(gear, GearView) else None,
        *(QApplication.activeModalWidget(), shell.findChild(AtEyepiece)),
    )


def test_no_bare_key_acts_while_something_is_typed(shell: Shell) -> None:
    count = 0
    for name, _surface in pages(shell):
        if name == "at the eyepiece":
            continue
        for field in list(fields(shell)):
            before = standing(shell)
            field.setFocus()
            if not field.hasFocus():
                continue
            count += 1
            # A figure typed into the list of times or dates is one of theirs.
            is_part = field.objectName() == "qt_spinbox_lineedit"
            QTest.keyClicks(field, "mnlcwefMNLCWEF" if is_part else BARE)
            settle()
            assert standing(shell)[:-3] == before[:-3], (name, field.accessibleName())
            assert standing(shell)[-3:] == before[-3:], (name, field.accessibleName())
            if isinstance(field, QLineEdit) and not is_part and field.validator() is None:
                assert BARE in field.text(), (name, field.accessibleName())
            while shell.state.undo_stack.canUndo():
                shell.state.undo_stack.undo()
            field.clear()
            shell.setFocus()
    assert count > 40


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_letters_in_a_list_choose_there_and_nowhere_else(
    make_shell: MakeShell, state: AppState, view: int
) -> None:
    """A letter in a drop-down list goes to the entry that begins with it."""
    shell = make_shell(state, view=view)
    for box in shell.findChildren(QComboBox):
        if box.isVisible() and box.isEnabled():
            box.setFocus()
            before = standing(shell)
            QTest.keyClicks(box, "w")
            assert (standing(shell)[0], *standing(shell)[-2:]) == (before[0], *before[-2:])


def test_return_in_a_field_stays_where_it_is(shell: Shell) -> None:
    """Return ends the typing; it opens no other page, thing or dialog, and moves no choice."""
    count = 0
    for name, _surface in pages(shell):
        if name == "at the eyepiece":
            continue
        for field in list(fields(shell)):
            field.setFocus()
            if not field.hasFocus() or "note for the log" in field.accessibleName():
                continue
            before = standing(shell)
            for key in RETURNS:
                count += 1
                QTest.keyClick(field, key)
                settle()
                assert standing(shell) == before, (name, field.accessibleName())
    assert count > 80


def test_return_in_a_field_of_a_form_closes_no_dialog(shell: Shell) -> None:
    from gui.window.temperatures_dialog import TemperaturesDialog

    dialog: QDialog = TemperaturesDialog(shell.state, shell)
    dialog.show()
    for line in dialog.findChildren(QLineEdit):
        line.setFocus()
        QTest.keyClicks(line, "5")
        QTest.keyClick(line, Qt.Key.Key_Return)
        assert dialog.isVisible()
    dialog.done(0)


def test_the_tab_key_leaves_no_view_by_itself(make_shell: MakeShell, state: AppState) -> None:
    shell = make_shell(state, view=LADDER)
    shell.go_to_view(LADDER)
    for _ in range(60):
        press(Qt.Key.Key_Tab)
    assert shell.view_buttons.checkedId() == LADDER
