"""The door for what goes wrong: a log for later, and one plain sentence for the person at the window."""

import logging
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from logging.handlers import RotatingFileHandler
from pathlib import Path
from time import monotonic
from traceback import walk_tb
from types import CodeType, TracebackType

from PySide6.QtCore import QMessageLogContext, QObject, Qt, QtMsgType, Signal, qInstallMessageHandler

from core.problems import ProblemsError
from core.words.errors import went_wrong_words
from gui.window.error_report import write_report

LOG_NAME = "stillair.log"
_LOG_BYTES = 500_000
_REPEATED_WITHIN_S = 5.0

log = logging.getLogger("stillair")
log.addHandler(logging.NullHandler())  # without a window nothing is kept, and nothing reaches a terminal

_QT_LEVELS = {
    QtMsgType.QtDebugMsg: logging.DEBUG,
    QtMsgType.QtInfoMsg: logging.INFO,
    QtMsgType.QtWarningMsg: logging.WARNING,
}


def log_qt_message(kind: QtMsgType, _context: QMessageLogContext, message: str) -> None:
    """Put a message of Qt's own into the log; none of them is meant for the person at the window."""
    log.log(_QT_LEVELS.get(kind, logging.ERROR), "Qt: %s", message)


class ErrorDoor(QObject):
    """Takes every error that nobody caught, on any thread, and tells it on the window's thread.

    Signals
    -------
    raised
        One plain sentence; the log has the rest.
    """

    raised = Signal(str)
    _arrived = Signal(str)

    def __init__(self, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.log_path = folder / LOG_NAME
        self._last: tuple[tuple[type[BaseException], CodeType | None, int] | None, float] = (None, 0.0)
        self._arrived.connect(self.raised, Qt.ConnectionType.QueuedConnection)

    @contextmanager
    def open(self) -> Iterator[None]:
        """Take errors for the length of a ``with`` block, and keep the log."""
        handler = self._log_handler()
        log.addHandler(handler)
        log.setLevel(logging.INFO)
        hooks = sys.excepthook, threading.excepthook
        qt_handler = qInstallMessageHandler(log_qt_message)
        sys.excepthook = self.take
        threading.excepthook = self._take_from_thread
        try:
            yield
        finally:
            sys.excepthook, threading.excepthook = hooks
            qInstallMessageHandler(qt_handler)
            log.removeHandler(handler)
            handler.close()

    def take(
        self, kind: type[BaseException], error: BaseException, traceback: TracebackType | None = None
    ) -> None:
        """Log an error and tell it; may be called on any thread, so it touches no widget."""
        if not issubclass(kind, Exception):
            sys.__excepthook__(kind, error, traceback)
            return
        if isinstance(error, ProblemsError):
            log.warning("%s", error)
            self._arrived.emit(str(error))
            return
        if self._is_repeated(kind, error):
            return
        log.error("not caught", exc_info=(kind, error, traceback))
        report = write_report(self.log_path.parent, error)
        self._arrived.emit(went_wrong_words(report))

    def _is_repeated(self, kind: type[BaseException], error: BaseException) -> bool:
        """Tell whether an error is that of a moment ago: one of each beat is told once, not each second."""
        frames = list(walk_tb(error.__traceback__))
        place = (kind, frames[-1][0].f_code, frames[-1][1]) if frames else (kind, None, 0)
        now_s, (last, last_s) = monotonic(), self._last
        self._last = (place, now_s)
        return place == last and now_s - last_s < _REPEATED_WITHIN_S

    def _take_from_thread(self, args: threading.ExceptHookArgs) -> None:
        if args.exc_value is not None:
            self.take(args.exc_type, args.exc_value, args.exc_traceback)

    def _log_handler(self) -> logging.Handler:
        try:
            self.log_path.parent.mkdir(parents=True, exist_ok=True)
            handler: logging.Handler = RotatingFileHandler(
                self.log_path, maxBytes=_LOG_BYTES, backupCount=1, encoding="utf-8", delay=True
            )
        except OSError:
            # A folder that cannot be made must not keep the window from opening.
            handler = logging.NullHandler()
        handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
        return handler
