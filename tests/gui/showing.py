"""Bringing a part of the window on the screen by itself."""

from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot


def show(qtbot: QtBot, widget: QWidget, *, size: tuple[int, int]) -> None:
    """Show a widget in a size of pixels, and wait until it is seen; it goes with the test."""
    qtbot.addWidget(widget)
    widget.resize(*size)
    widget.show()
    qtbot.waitExposed(widget)
