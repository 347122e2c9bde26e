"""The names of the three views, and beside them, or below where letters are large, what goes with them."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QButtonGroup, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from core.words.controls import VIEW
from gui.widgets.key_names import with_own_keys

_BETWEEN_PX = 10


class ViewsRow(QWidget):
    """A button for each view; the keyboard comes to the chosen one, and goes on from there with the arrows.

    ``beside`` them stands the telescope outside, and between them as much of what is ``told`` of it as there
    is room for; on a low page the ``line`` that tells of the folded head.

    Signals
    -------
    wanted
        The number of the view whose button was pressed.
    """

    wanted = Signal(int)

    def __init__(
        self,
        names: Sequence[str],
        beside: QWidget,
        line: QWidget,
        *,
        told: QWidget,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.buttons = QButtonGroup(self)
        # Hidden with what it holds, which comes and goes by itself.
        self._beside = QWidget()
        room = QHBoxLayout(self._beside)
        room.setContentsMargins(0, 0, 0, 0)
        room.addWidget(beside)
        self._told = QWidget()
        self._told.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        between = QHBoxLayout(self._told)
        between.setContentsMargins(_BETWEEN_PX, 0, _BETWEEN_PX, 0)
        between.addWidget(told)
        self._line = line
        self._has_line: bool | None = None
        self._views = QWidget()
        views = QHBoxLayout(self._views)
        views.setContentsMargins(0, 0, 0, 0)
        views.setSpacing(4)
        for number, name in enumerate(names):
            button = QPushButton(name)
            button.setCheckable(True)
            # One of several, to a reader of the screen.
            button.setAutoExclusive(True)
            button.setProperty("role", "view")
            button.setAccessibleName(VIEW.format(name=name))
            button.setToolTip(with_own_keys(f"Ctrl+{number + 1}"))
            button.toggled.connect(self._lead_keyboard)
            self.buttons.addButton(button, number)
            views.addWidget(button)
        self._views.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self._first = QWidget()
        first = QHBoxLayout(self._first)
        first.setContentsMargins(0, 0, 0, 0)
        first.addWidget(self._views)
        first.addWidget(self._told, 1)
        first.addWidget(line, 1)
        self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._row.setContentsMargins(12, 0, 12, 0)
        self._row.setSpacing(4)
        self._row.addWidget(self._first, 1)
        self._row.addWidget(self._beside, 0, Qt.AlignmentFlag.AlignRight)
        self.buttons.idClicked.connect(self.wanted)

    def fold(self, folded: bool, *, has_line: bool) -> None:
        """Show what stands beside the views or hide it, and show the line or hide that."""
        if has_line is not self._has_line:
            self._has_line = has_line
            self._line.setVisible(has_line)
        self._beside.setVisible(not folded)
        self._told.setVisible(not folded)
        self._arrange()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.LayoutRequest:
            # What stands beside the views has more or less to say.
            self._arrange()
        return super().event(event)

    def _arrange(self) -> None:
        needed = self._views.sizeHint().width() + self._beside.sizeHint().width()
        margins = self._row.contentsMargins()
        needed += self._row.spacing() + margins.left() + margins.right()
        fits = not self._has_line and needed <= self._room()
        directions = QBoxLayout.Direction
        direction = directions.LeftToRight if fits else directions.TopToBottom
        if self._row.direction() is direction:
            # To set it once more would ask for a new layout, and that for this, without end.
            return
        self._row.setDirection(direction)
        # Under the views it has all of the width, onto whose lines it folds.
        self._row.setAlignment(self._beside, Qt.AlignmentFlag.AlignRight if fits else Qt.AlignmentFlag(0))

    def _room(self) -> int:
        """Return how wide the row can be without the window being scrolled sideways."""
        window = self.window()
        return self.width() if window is self else min(self.width(), window.width())

    def _lead_keyboard(self) -> None:
        for button in self.buttons.buttons():
            policy = Qt.FocusPolicy.StrongFocus if button.isChecked() else Qt.FocusPolicy.ClickFocus
            button.setFocusPolicy(policy)
