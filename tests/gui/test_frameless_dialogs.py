"""In full screen and at night no dialog has a frame of the desktop, and F11 is heard wherever one is."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QObject, QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QLineEdit, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from core.drawing.palette import PALETTES
from gui.ladder.at_eyepiece import AtEyepiece
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.dialogs import TextDialog, _file_dialog
from gui.window.frameless_dialogs import TitleBar
from gui.window.shell import Shell
from gui.window.views import LADDER
from tests.gui.conftest import pixels
from tests.gui.surfaces import dialogs as dialogs_of
from tests.gui.surfaces import pages

FRAMELESS = Qt.WindowType.FramelessWindowHint


@pytest.fixture
def full(shell: Shell, qtbot: QtBot) -> Iterator[Shell]:
    QTest.keyClick(shell, Qt.Key.Key_F11)
    qtbot.waitUntil(shell.isFullScreen)
    yield shell
    shell.showNormal()


def is_frameless(dialog: QDialog) -> bool:
    """Tell what the window and the system's own handle of it say alike."""
    handle = dialog.windowHandle()
    assert bool(dialog.windowFlags() & FRAMELESS) == bool(handle.flags() & FRAMELESS)
    return bool(handle.flags() & FRAMELESS)


def test_a_dialog_in_full_screen_has_an_edge_and_a_title_of_its_own(full: Shell) -> None:
    dialog = TextDialog("Keys", "What the keyboard does", "Some text", parent=full)
    dialog.show()

    assert is_frameless(dialog)
    assert full.geometry().contains(dialog.geometry())
    bar = dialog.findChild(TitleBar)
    assert bar is not None
    assert bar.isVisible()
    assert bar.title.text() == "Keys"
    seen = pixels(dialog)
    edges = (seen[0], seen[-1], seen[:, 0], seen[:, -1])
    # One colour all around that is not the ground.
    assert {tuple(pixel) for edge in edges for pixel in edge} == {tuple(seen[0, 0])}
    assert tuple(seen[0, 0]) != tuple(seen[3, 3])


def test_a_dialog_that_is_open_goes_along(shell: Shell, qtbot: QtBot) -> None:
    dialog = TextDialog("Keys", "What the keyboard does", "Some text", parent=shell)
    dialog.open()
    qtbot.waitUntil(dialog.isActiveWindow)
    assert not is_frameless(dialog)

    QTest.keyClick(dialog, Qt.Key.Key_F11)
    qtbot.waitUntil(shell.isFullScreen)
    assert dialog.isVisible()
    assert is_frameless(dialog)
    assert dialog.findChild(TitleBar) is not None

    # Back again, it keeps title and edge: systems give no frame to what is open.
    QTest.keyClick(dialog, Qt.Key.Key_F11)
    qtbot.waitUntil(lambda: not shell.isFullScreen())
    assert dialog.isVisible()
    dialog.close()
    later = TextDialog("Keys", "What the keyboard does", "Some text", parent=shell)
    later.show()
    assert not is_frameless(later)
    assert later.findChild(TitleBar) is None
    later.close()


def test_a_file_chooser_and_its_own_question_have_no_frame(full: Shell, qtbot: QtBot, tmp_path: Path) -> None:
    """The question before a file is written over is Qt's own."""
    seen: list[tuple[str, bool]] = []
    path = tmp_path / "kit.toml"
    path.write_text("", "utf-8")
    chooser = _file_dialog(full, "Save the profile", path.parent)
    chooser.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    chooser.open()
    assert is_frameless(chooser)
    assert full.geometry().contains(chooser.geometry())
    line = chooser.findChild(QLineEdit, "fileNameEdit")
    assert isinstance(line, QLineEdit)
    line.setText(path.name)

    def answer() -> None:
        question = QApplication.activeModalWidget()
        assert isinstance(question, QMessageBox)
        seen.append((question.text(), is_frameless(question)))
        question.reject()

    QTimer.singleShot(0, answer)
    chooser.accept()

    assert [frameless for _text, frameless in seen] == [True]
    assert "kit.toml" in seen[0][0]
    chooser.reject()


@pytest.fixture
def night(shell: Shell, state: AppState) -> Shell:
    """A window of its usual size in the dark."""
    state.set_palette("night")
    return shell


def test_at_night_dialogs_have_no_frame_in_any_window(night: Shell) -> None:
    strays = {}
    for name, dialog in dialogs_of(night):
        assert isinstance(dialog, QDialog)
        if not is_frameless(dialog) or not night.geometry().contains(dialog.geometry()):
            strays[name] = dialog.geometry()

    assert not night.isFullScreen()
    assert strays == {}


def test_a_dialog_that_is_open_loses_its_frame_as_night_comes(
    shell: Shell, state: AppState, qtbot: QtBot
) -> None:
    dialog = TextDialog("Keys", "What the keyboard does", "Some text", parent=shell)
    dialog.open()
    qtbot.waitUntil(dialog.isActiveWindow)
    assert not is_frameless(dialog)

    state.set_palette("night")
    assert dialog.isVisible()
    assert is_frameless(dialog)

    state.set_palette("day")
    dialog.close()
    later = TextDialog("Keys", "What the keyboard does", "Some text", parent=shell)
    later.show()
    assert not is_frameless(later)
    later.close()


def test_leaving_full_screen_at_night_brings_no_frame_back(night: Shell, qtbot: QtBot) -> None:
    QTest.keyClick(night, Qt.Key.Key_F11)
    qtbot.waitUntil(night.isFullScreen)
    QTest.keyClick(night, Qt.Key.Key_F11)
    qtbot.waitUntil(lambda: not night.isFullScreen())
    dialog = TextDialog("Keys", "What the keyboard does", "Some text", parent=night)
    dialog.show()

    assert is_frameless(dialog)


def test_without_a_frame_it_is_dragged_by_its_title_and_closed_with_escape(
    night: Shell, qtbot: QtBot
) -> None:
    dialog = TextDialog("Keys", "What the keyboard does", "Some text", parent=night)
    dialog.open()
    bar = dialog.findChild(TitleBar)
    assert bar is not None
    before, grip = dialog.pos(), QPoint(20, 10)

    # This platform moves no window for the asking.
    QTest.mousePress(bar, Qt.MouseButton.LeftButton, pos=grip)
    QTest.mouseMove(bar, grip + QPoint(30, 40))
    qtbot.waitUntil(lambda: dialog.pos() != before)
    QTest.mouseRelease(bar, Qt.MouseButton.LeftButton, pos=grip)
    assert dialog.pos() - before == QPoint(30, 40)

    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()


def test_keys_of_the_whole_window_are_heard_in_a_dialog(shell: Shell, state: AppState, qtbot: QtBot) -> None:
    dialog = TextDialog("Keys", "What the keyboard does", "Some text", parent=shell)
    dialog.open()
    qtbot.waitUntil(dialog.isActiveWindow)

    QTest.keyClick(dialog, Qt.Key.Key_F9)
    assert state.situation.palette_name == PALETTES[1]
    while state.situation.palette_name != "night":
        QTest.keyClick(dialog, Qt.Key.Key_F9)
    QTest.keyClick(dialog, Qt.Key.Key_F9, Qt.KeyboardModifier.ControlModifier)
    assert (state.situation.palette_name, state.situation.dimmer) == ("night", 1)
    assert pixels(dialog)[..., 1:].max() == 0
    QTest.keyClick(dialog, Qt.Key.Key_F11)
    qtbot.waitUntil(shell.isFullScreen)
    dialog.close()
    shell.showNormal()
    state.set_dimmer(0)


def test_f11_is_heard_at_the_eyepiece_and_leaves_it_there(
    make_shell: Callable[..., Shell], state: AppState, qtbot: QtBot
) -> None:
    shell = make_shell(state, view=LADDER)
    view = shell.current_view
    assert isinstance(view, LadderView)
    screen = view.go_to_eyepiece()
    QTest.keyClick(screen, Qt.Key.Key_F11)
    qtbot.waitUntil(shell.isFullScreen)
    assert shell.findChild(AtEyepiece) is not None
    assert screen.isVisible()
    shell.showNormal()
    screen.leave()


def test_questions_of_the_program_have_no_frame(full: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[bool] = []

    def look() -> None:
        question = QApplication.activeModalWidget()
        assert isinstance(question, QDialog)
        seen.append(is_frameless(question))
        question.reject()

    for ask in (dialogs.ask_unsaved, dialogs.ask_changed, dialogs.ask_write_over):
        QTimer.singleShot(0, look)
        ask(full, "Ines")
    assert seen == [True, True, True]


class Strays(QObject):
    """Notes every window that comes up beside the one of the program."""

    def __init__(self, shell: Shell) -> None:
        super().__init__()
        self._shell = shell
        self.seen: list[str] = []

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - named by Qt
        if (
            event.type() is QEvent.Type.Show
            and isinstance(watched, QWidget)
            and watched.isWindow()
            and watched is not self._shell
            and not isinstance(watched, QDialog)
        ):
            self.seen.append(type(watched).__name__)
        return False


def test_no_part_of_a_view_flashes_up_as_a_window_of_its_own(shell: Shell, qapp: QApplication) -> None:
    """Shown before it stands in its view, a part has a frame of the desktop, and takes the keyboard."""
    strays = Strays(shell)
    qapp.installEventFilter(strays)
    for _surface in (*pages(shell), *dialogs_of(shell)):
        pass
    qapp.removeEventFilter(strays)
    assert strays.seen == []
