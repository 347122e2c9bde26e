"""What the year and the search for dates have in common: evenings are worked out while the page is seen."""

from datetime import date
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QWidget

from core.lazy import Lazy
from core.problems import ProblemsError
from gui.long_search import LongSearch
from gui.state import AppState, Change
from gui.widgets.all_lines import AllLines
from gui.widgets.late_bar import LateBar


class SearchPage(AllLines):
    """Wants its evenings when it comes into sight, and again when what they ``depends_on`` has changed.

    Signals
    -------
    left
        The page before it is to be shown again.
    """

    left = Signal()

    def __init__(
        self,
        state: AppState,
        search: LongSearch,
        waits_for: str,
        *,
        depends_on: tuple[Lazy[Any, Any], ...],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        search.setParent(self)
        self._state = state
        self._search = search
        self._depends_on = depends_on
        self.progress = LateBar(waits_for)
        search.progressed.connect(self.progress.show_progress)
        state.changed.connect(self._on_changed)

    def want(self) -> None:
        """Begin to work the evenings out, or say why that cannot be."""
        raise NotImplementedError

    def go_to(self, evening: date) -> bool:
        """Take an evening in hand; tell whether it could be."""
        try:
            self._state.set_evening(evening)
        except ProblemsError as error:
            self._state.tell(str(error))
            return False
        return True

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.want()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._search.give_up()
        self.progress.end()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _on_changed(self, change: Change) -> None:
        if self.isVisible() and change.of(*self._depends_on):
            self.want()
