"""The window on a real X screen; run with QT_QPA_PLATFORM=xcb, as in ``.ci/run``."""

import os

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.conftest import pixels
from tests.gui.surfaces import dialogs

pytestmark = pytest.mark.skipif(
    not os.environ.get("QT_QPA_PLATFORM", "").startswith("xcb"), reason="asks for a real screen"
)


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_each_view_comes_up_on_a_real_screen(
    qtbot: QtBot, qapp: QApplication, shell: Shell, view: int
) -> None:
    assert QGuiApplication.platformName() == "xcb"

    qtbot.mouseClick(shell.view_buttons.button(view), Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: shell.current_view is not None and shell.current_view.isVisible())
    qapp.processEvents()

    seen = pixels(shell.screen().grabWindow(shell.winId()).toImage())
    assert seen.shape[0] >= shell.height()
    # Text, lines and tints: a window that stayed empty would have a handful of colours.
    assert len(np.unique(seen.reshape(-1, 3), axis=0)) > 50


def test_a_dialog_in_full_screen_has_no_frame_and_stays_inside(qtbot: QtBot, shell: Shell) -> None:
    """Only a screen with a window manager gives frames; without one this holds all the same."""
    shell.toggle_full_screen()
    qtbot.waitUntil(shell.isFullScreen)
    for _name, dialog in dialogs(shell):

        def has_no_frame(dialog: QWidget = dialog) -> bool:
            return dialog.frameGeometry() == dialog.geometry()

        qtbot.waitUntil(has_no_frame)
        assert dialog.windowFlags() & Qt.WindowType.FramelessWindowHint
        assert shell.geometry().contains(dialog.geometry())
