"""The clock of the window: where it reads the time, and the beat that keeps the picture alive."""

from collections.abc import Callable
from datetime import UTC, datetime

from PySide6.QtCore import QObject, Qt, QTimer

Clock = Callable[[], datetime]

_BEAT_MS = 1000


def utc_now() -> datetime:
    """Return the present moment, aware, in UTC."""
    return datetime.now(UTC)


class Heartbeat(QObject):
    """Call ``beat`` just after each full second, for as long as the parent lives."""

    def __init__(self, beat: Callable[[], None], parent: QObject) -> None:
        super().__init__(parent)
        self._beat = beat
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._on_timeout)

    def start(self) -> None:
        """Begin to beat."""
        # Waiting for the rest of the running second keeps the shown seconds even.
        self._timer.start(_BEAT_MS - utc_now().microsecond // 1000)

    def stop(self) -> None:
        """Beat no more."""
        self._timer.stop()

    def _on_timeout(self) -> None:
        try:
            self._beat()
        finally:
            # A beat that failed is told like any error; the next one may succeed.
            self.start()
