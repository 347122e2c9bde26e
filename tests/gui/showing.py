"""Bringing a part of the window on the screen by itself."""

from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot


def show(qtbot: QtBot, widget: QWidget, *, size: tuple[int, int]) -> None:
    """Show a widget in a size of pixels, and wait until it is seen; it goes with the test."""
    qtbot.addWidget(widget)
    # The bot itself only knows of it: once a test function has ended it could be collected as it is painted.
    vars(qtbot).setdefault("kept", []).append(widget)
    widget.resize(*size)
    widget.show()
    qtbot.waitExposed(widget)
