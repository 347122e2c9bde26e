"""A piece of work with progress, away from the window's thread: only what was wanted last counts."""

from collections.abc import Callable
from functools import partial
from threading import Event
from typing import Protocol

from PySide6.QtCore import QObject, Signal

from core.problems import ProblemsError
from gui.jobs import Jobs


class LongWork(Protocol):
    """Work that tells of its progress; whatever the progress raises stops it."""

    def __call__(self, *, progress: Callable[[int, int], None]) -> object:
        """Do the work; ``progress`` is told how many steps are done, and of how many."""


class _StoppedError(Exception):
    """The result is no longer wanted."""


class LongSearch(QObject):
    """Gives the result of the work that was wanted last.

    Signals
    -------
    found
        The result.
    progressed
        How many steps of the work are done, and of how many.
    refused
        Why there is no result, in one sentence.
    """

    found = Signal(object)
    progressed = Signal(int, int)
    refused = Signal(str)

    def __init__(self, name: str, jobs: Jobs, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._name = name
        self._jobs = jobs
        self._stop = Event()

    def want(self, work: LongWork) -> None:
        """Begin with some work; what was wanted before is given up."""
        self.give_up()
        self._stop = Event()
        told = partial(work, progress=partial(self._report, self._stop))
        self._jobs.submit(self._name, told, self.found.emit, self._on_failed)

    def give_up(self) -> None:
        """Stop the work that is under way."""
        self._stop.set()
        self._jobs.cancel(self._name)

    def _report(self, stop: Event, done: int, steps: int) -> None:
        """Pass progress on; called from the thread that does the work."""
        if stop.is_set():
            raise _StoppedError
        self.progressed.emit(done, steps)

    def _on_failed(self, error: Exception) -> None:
        if not isinstance(error, ProblemsError):
            raise error
        self.refused.emit(str(error))
