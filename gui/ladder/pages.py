"""What stands beside the rungs: their drawing, the eyepiece and what to look for, all or one at a time."""

from PySide6.QtCore import QEvent, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from gui.ladder.look_for import LookForPane

RUNGS, EYEPIECE, LOOK_FOR = range(3)
_NAMES = ("Rungs", "In the eyepiece", "What to look for")
# In letters of the window's own size: from here on all of them have room beside each other.
_WIDE_LETTERS = 125
# However narrow the letters are, drawings need this much.
_WIDE_PX = 860


class Pages(QWidget):
    """Three pages: in a wide window side by side, else one of them at a time, chosen by a row of buttons.

    Signals
    -------
    rearranged
        Pages have been put side by side, or one behind the other.
    """

    rearranged = Signal()

    def __init__(self, rungs: QWidget, eyepiece: QWidget, look_for: LookForPane) -> None:
        super().__init__()
        self.buttons = QButtonGroup(self)
        self._pages = (rungs, eyepiece, look_for)
        self._look_for = look_for
        self._row = QWidget()
        self._right = QWidget()
        self._is_wide: bool | None = None
        self._lay_out()
        self.buttons.button(RUNGS).setChecked(True)
        self.buttons.idToggled.connect(lambda _number, _on: self._show())
        self._arrange()

    @property
    def is_wide(self) -> bool:
        """Whether all pages are shown at once."""
        return bool(self._is_wide)

    def show_page(self, number: int) -> None:
        """Show one of the pages, where they are shown one at a time."""
        self.buttons.button(number).setChecked(True)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self._arrange()

    def _lay_out(self) -> None:
        row = QHBoxLayout(self._row)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        for number, name in enumerate(_NAMES):
            button = QPushButton(name)
            button.setCheckable(True)
            button.setProperty("role", "page")
            self.buttons.addButton(button, number)
            row.addWidget(button)
        row.addStretch(1)
        rungs, eyepiece, look_for = self._pages
        right = QVBoxLayout(self._right)
        right.setContentsMargins(0, 0, 0, 0)
        right.setSpacing(10)
        right.addWidget(eyepiece, 1)
        right.addWidget(look_for)
        body = QHBoxLayout()
        body.setSpacing(14)
        body.addWidget(rungs, 1)
        body.addWidget(self._right, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self._row)
        column.addLayout(body, 1)

    def _arrange(self) -> None:
        is_wide = self.width() >= max(_WIDE_LETTERS * self.fontMetrics().averageCharWidth(), _WIDE_PX)
        if is_wide != self._is_wide:
            self._is_wide = is_wide
            self._show()
            self.rearranged.emit()

    def _show(self) -> None:
        self._row.setVisible(not self._is_wide)
        self._look_for.set_snug(on=self.is_wide)
        chosen = self.buttons.checkedId()
        self._right.setVisible(self.is_wide or chosen != RUNGS)
        # Hidden first, so that two pages never ask for room at the same time.
        for number, page in sorted(enumerate(self._pages), key=lambda item: item[0] == chosen):
            page.setVisible(self.is_wide or number == chosen)
