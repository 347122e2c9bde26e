"""Finding a town from inside a form: a button, and under it the search while it is wanted."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from core.words.tips import TOWN_FILLS_IN
from gui.jobs import Jobs
from gui.widgets.place_search import PlaceSearch

_LINES = 13


class TownFinder(QWidget):
    """A button that opens the search for a town; Escape or the button closes it again.

    Signals
    -------
    picked
        The ``Place`` that was taken.
    """

    picked = Signal(object)

    def __init__(self, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._jobs = jobs
        self.search: PlaceSearch | None = None
        self.button = QPushButton("Find a town")
        self.button.setCheckable(True)
        self.button.setToolTip(TOWN_FILLS_IN)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addWidget(self.button, 0, Qt.AlignmentFlag.AlignLeft)
        self.button.toggled.connect(self._show_search)

    def close_search(self) -> None:
        """Put the search away."""
        # First, since the keyboard would go on to another field when its line is hidden.
        self.button.setFocus()
        self.button.setChecked(False)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.button.isChecked():
            self.close_search()
        else:
            super().keyPressEvent(event)

    def _show_search(self, shown: bool) -> None:
        if self.search is None:
            # Made when first wanted, since it unpacks all towns.
            self.search = PlaceSearch(self._jobs, self)
            self.search.setFixedHeight(_LINES * self.fontMetrics().lineSpacing())
            # Coordinates at the end of a long name are in its tool tip too.
            self.search.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            self.search.picked.connect(self._take)
            self._column.addWidget(self.search)
            self.setTabOrder(self.button, self.search.line)
            self.setTabOrder(self.search.line, self.search.list)
        self.search.setVisible(shown)
        if shown:
            self.search.line.selectAll()
            self.search.line.setFocus()

    def _take(self, place: object) -> None:
        self.close_search()
        self.picked.emit(place)
