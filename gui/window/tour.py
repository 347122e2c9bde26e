"""A tour of the first evening at the foot of the window; it can be left and taken up again."""

from typing import Final

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QBoxLayout, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.words.tour import PROGRESS, TOUR, TourStep
from gui.widgets.all_lines import AllLines
from gui.widgets.in_room import InRoom
from gui.widgets.plain_label import PlainLabel

FIRST: Final = 0
# From so many letters across on the buttons stand beside the words.
_ROW_LETTERS: Final = 90


class TourBar(AllLines):
    """Shows one step of the tour at a time, over views that stay as they are; hidden while there is none.

    Signals
    -------
    stepped
        The step that is shown now.
    left
        The tour was left before its end.
    ended
        The last step was read.
    """

    stepped = Signal(object)
    left = Signal()
    ended = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("message")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.number = FIRST
        self.heading = PlainLabel(role="heading", wraps=True)
        self.text = PlainLabel(wraps=True)
        self.text.setAccessibleName("Tour")
        self.back = QPushButton("&Back")
        self.onward = QPushButton("&Next")
        self.leave = QPushButton("&Leave the tour")
        words = QVBoxLayout()
        words.setSpacing(2)
        words.addWidget(self.heading)
        words.addWidget(self.text)
        buttons = QHBoxLayout()
        for button in (self.back, self.onward, self.leave):
            buttons.addWidget(button, 0, Qt.AlignmentFlag.AlignBottom)
        self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._row.setContentsMargins(18, 6, 18, 6)
        self._row.addLayout(words, 1)
        self._row.addLayout(buttons)
        InRoom(self, self._arrange)
        self.back.clicked.connect(lambda: self.begin(self.number - 1))
        self.onward.clicked.connect(self._go_on)
        self.leave.clicked.connect(self._on_leave)
        self.hide()

    def _arrange(self) -> None:
        parent = self.parentWidget()
        # Before it is shown its width is not its own.
        width = self.width() if self.isVisible() or parent is None else parent.width()
        is_row = width >= _ROW_LETTERS * self.fontMetrics().averageCharWidth()
        directions = QBoxLayout.Direction
        self._row.setDirection(directions.LeftToRight if is_row else directions.TopToBottom)

    @property
    def step(self) -> TourStep:
        """The step that is shown."""
        return TOUR[self.number]

    def begin(self, number: int = FIRST) -> None:
        """Show a step, counted from 0."""
        self.number = min(max(number, FIRST), len(TOUR) - 1)
        is_last = self.number == len(TOUR) - 1
        self.heading.setText(
            PROGRESS.format(number=self.number + 1, count=len(TOUR), heading=self.step.heading)
        )
        self.text.setText(self.step.text)
        self.back.setEnabled(self.number > FIRST)
        self.onward.setText("&Done" if is_last else "&Next")
        # Else it would ask the window for the height of words squeezed beside the buttons.
        self._arrange()
        self.show()
        QAccessible.updateAccessibility(QAccessibleEvent(self.text, QAccessible.Event.Alert))
        self.stepped.emit(self.step)
        self.onward.setFocus()

    def _go_on(self) -> None:
        if self.number + 1 < len(TOUR):
            self.begin(self.number + 1)
            return
        self.number = FIRST
        self.hide()
        self.ended.emit()

    def _on_leave(self) -> None:
        self.hide()
        self.left.emit()
