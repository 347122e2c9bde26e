"""Ctrl+C in the terminal, a closing terminal, the end of a session: the window ends, and nothing is lost."""

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final

from PySide6.QtCore import QObject, QTimer

# As shells tell of a program that Ctrl+C ended.
INTERRUPTED: Final = 130
_SIGNALS: Final = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")


@contextmanager
def heeding_signals(owner: QObject, leave: Callable[[], None]) -> Iterator[None]:
    """Call ``leave``, once, when the system asks the program to end, in the event loop of ``owner``.

    Python hears a signal between two of its own steps: at the next beat of the window's clock at the latest.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    heard: list[int] = []

    def hear(number: int, _frame: object) -> None:
        if not heard:
            # Not here: what was interrupted must come to its end first.
            QTimer.singleShot(0, owner, leave)
        heard.append(number)

    numbers = [getattr(signal, name) for name in _SIGNALS if hasattr(signal, name)]
    before = [(number, signal.signal(number, hear)) for number in numbers]
    try:
        yield
    finally:
        for number, handler in before:
            signal.signal(number, handler)
