"""Following the situation while a part of the window can be seen."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QWidget

from core.lazy import Lazy
from gui.state import AppState, Change


class InSight(QObject):
    """Lets a part of the window show the situation anew whenever some values of it are others.

    What changes while nobody can see the part, since another page lies before it, is not worked out for it
    then, but shown as it comes into sight, before it is painted.
    """

    def __init__(
        self, part: QWidget, state: AppState, values: tuple[Lazy[Any, Any], ...], show: Callable[[], object]
    ) -> None:
        super().__init__(part)
        self._part = part
        self._state = state
        self._values = values
        self._show = show
        self._shown = state.situation
        part.installEventFilter(self)
        state.changed.connect(self._on_changed)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.Show:
            self._catch_up()
        return False

    def _on_changed(self, _change: Change) -> None:
        if self._part.isVisible():
            self._catch_up()

    def _catch_up(self) -> None:
        change = Change(self._shown, self._state.situation)
        self._shown = change.after
        if change.of(*self._values):
            self._show()
