"""The window comes back where it stood, and never on a screen that is gone; another scale redraws it."""

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QMainWindow
from pytestqt.qtbot import QtBot

from gui.profile.session import SessionFile
from gui.state import AppState
from gui.widgets.canvas import Canvas
from gui.window.place import place_of, take_place
from gui.window.shell import Shell
from tests.gui.surfaces import pages

ROOM = QSize(800, 800)


def screen() -> QRect:
    return QGuiApplication.primaryScreen().availableGeometry()


def window(qtbot: QtBot, place: QRect) -> QMainWindow:
    made = QMainWindow()
    qtbot.addWidget(made)
    made.setGeometry(place)
    made.show()
    QApplication.processEvents()
    return made


def put(qtbot: QtBot, place: str) -> QMainWindow:
    """Return the window of the next start."""
    made = QMainWindow()
    qtbot.addWidget(made)
    take_place(made, place, ROOM)
    made.show()
    QApplication.processEvents()
    return made


def test_a_window_comes_back_where_it_stood(qtbot: QtBot) -> None:
    where = QRect(120, 90, 500, 400)
    assert put(qtbot, place_of(window(qtbot, where))).geometry() == where


def test_what_stood_on_a_screen_that_is_gone_is_within_reach(qtbot: QtBot) -> None:
    far = QRect(3000, 2000, 500, 400)
    back = put(qtbot, place_of(window(qtbot, far)))

    assert screen().contains(back.geometry())
    assert back.size() == far.size()


def test_a_window_larger_than_the_screen_of_today_is_made_to_fit(qtbot: QtBot) -> None:
    back = put(qtbot, place_of(window(qtbot, QRect(10, 40, 3000, 2400))))

    assert back.width() <= screen().width()
    assert back.height() <= screen().height()
    assert screen().contains(back.geometry().topLeft())


def test_full_screen_is_not_kept_but_where_it_was_before(qtbot: QtBot) -> None:
    where = QRect(120, 90, 500, 400)
    full = window(qtbot, where)
    full.showFullScreen()
    QApplication.processEvents()
    back = put(qtbot, place_of(full))

    assert not back.isFullScreen()
    assert back.geometry() == where


@pytest.mark.parametrize("place", ["", "x", "no place \N{CLOUD}", "AdnQywAD" * 40])
def test_a_damaged_place_is_as_none(qtbot: QtBot, place: str) -> None:
    assert put(qtbot, place).size() == QSize(788, 760)


def test_the_place_is_in_the_session_as_the_window_closes(
    make_shell: Callable[..., Shell], state: AppState, state_folder: Path
) -> None:
    shell = make_shell(state)
    shell.setGeometry(QRect(40, 60, 1010, 650))
    QApplication.processEvents()
    stood = place_of(shell)
    shell.close()

    assert SessionFile(state_folder).read()[0].place == stood


def test_another_scale_of_the_screen_draws_every_picture_anew_and_moves_nothing_else(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    size = shell.size()
    for _ in pages(shell):
        shell.grab()
    monkeypatch.setattr(Canvas, "devicePixelRatioF", lambda _canvas: 2.0)
    seen = 0
    for name, _ in pages(shell):
        shell.grab()
        for canvas in shell.findChildren(Canvas):
            if canvas.isVisible():
                seen += 1
                assert canvas._picture.devicePixelRatio() == 2.0, (name, canvas.accessibleName())
                assert canvas._picture.deviceIndependentSize().toSize() == canvas.size()
    assert seen > 5
    assert shell.size() == size
