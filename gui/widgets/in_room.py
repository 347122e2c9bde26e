"""Arranging a part of the window anew when its room or its letters have changed."""

from collections.abc import Callable
from typing import Final

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QWidget

# What Qt takes for no limit of a widget's size.
NO_LIMIT_PX: Final = (1 << 24) - 1
# Before it is shown a widget has no size of its own.
_CHANGES = (QEvent.Type.Show, QEvent.Type.Resize, QEvent.Type.FontChange)


class InRoom(QObject):
    """Calls ``arrange`` when a widget comes into sight, or gets another size or other letters."""

    def __init__(self, widget: QWidget, arrange: Callable[[], None]) -> None:
        super().__init__(widget)
        self._arrange = arrange
        widget.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if event.type() in _CHANGES:
            self._arrange()
        return False
