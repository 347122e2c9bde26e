"""A bar of progress that shows itself only where the work takes long enough to be waited for."""

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QProgressBar, QWidget

# Quicker work than this is over before a bar would be seen.
_AFTER_MS = 250
_WIDTH_PX = 160


class LateBar(QProgressBar):
    """Hidden until some work has gone on for a while; ``name`` says what is waited for."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setTextVisible(False)
        self.setFixedWidth(_WIDTH_PX)
        self.hide()
        self._timer = QTimer(self, interval=_AFTER_MS, singleShot=True)
        self._timer.timeout.connect(self.show)

    def begin(self) -> None:
        """Wait with the work that has just begun, and show up if it goes on."""
        self._timer.start()

    def show_progress(self, done: int, steps: int) -> None:
        """Show how many steps are done, and of how many."""
        self.setRange(0, steps)
        self.setValue(done)

    def end(self) -> None:
        """Go, for the work is over or no longer wanted."""
        self._timer.stop()
        self.hide()
