"""Finding a town by its name, without a network."""

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QSizePolicy, QVBoxLayout, QWidget

from core.sky.places import prepare, search_places
from core.words.places import NO_TOWN, place_lines, place_with_clock
from gui.jobs import Jobs
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit
from gui.widgets.plain_tip import plain_tip

_PLACE = Qt.ItemDataRole.UserRole
_LEAST_LINES = 6


class PlaceSearch(QWidget):
    """A line for a town's name with the towns it may mean under it, the likeliest first.

    Down goes from the line into the list, Return takes the first or the chosen town.

    Signals
    -------
    picked
        The ``Place`` that was taken.
    """

    picked = Signal(object)

    def __init__(self, jobs: Jobs, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line = PlainLineEdit(self)
        self.line.setPlaceholderText("Porto, Αθήνα, or Paris, Texas")
        self.line.setAccessibleName("Town")
        self.list = QListWidget(self)
        self.list.setAccessibleName("Towns found")
        self.list.setUniformItemSizes(True)
        # It takes what there is, and where there is little a few towns are seen.
        self.list.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)
        self.list.setMinimumHeight(_LEAST_LINES * self.fontMetrics().lineSpacing())
        self._told = PlainLabel(role="faint", wraps=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.line)
        column.addWidget(self.list, 1)
        column.addWidget(self._told)
        self.setFocusProxy(self.line)
        self.line.textEdited.connect(self._search)
        self.line.returnPressed.connect(self._take_first)
        self.line.installEventFilter(self)
        self.list.itemActivated.connect(self._take)
        self.list.itemClicked.connect(self._take)
        # The towns are unpacked while the person reads, so that the first letter is answered at once.
        jobs.submit("places", prepare, lambda _nothing: self._search(self.line.text()))

    def clear(self) -> None:
        """Empty the line and the list."""
        self.line.clear()
        self._search("")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        is_down = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Down
        if is_down and event.type() is QEvent.Type.KeyPress and self.list.count():
            self.list.setFocus()
            self.list.setCurrentRow(0)
            return True
        return super().eventFilter(watched, event)

    def _search(self, text: str) -> None:
        self.list.clear()
        places = search_places(text)
        for place, line in zip(places, place_lines(places), strict=True):
            item = QListWidgetItem(line)
            item.setData(_PLACE, place)
            item.setToolTip(plain_tip(place_with_clock(place)))
            self.list.addItem(item)
        nothing = bool(text.strip()) and not self.list.count()
        self._told.setText(NO_TOWN.format(name=text.strip()) if nothing else "")

    def _take_first(self) -> None:
        if self.list.count():
            self._take(self.list.item(max(self.list.currentRow(), 0)))

    def _take(self, item: QListWidgetItem) -> None:
        self.list.setCurrentItem(item)
        self.picked.emit(item.data(_PLACE))
