"""Searches for evenings that fit away from the window's thread."""

from collections.abc import Mapping
from datetime import date
from functools import partial
from threading import Event

from PySide6.QtCore import QObject, Signal

from core.moments.hours import Hour
from core.problems import ProblemsError
from core.sky.bodies import Body
from core.sky.site import Site
from core.year.dates import DateWishes, Glass, find_dates
from gui.jobs import Jobs

_JOB = "dates"


class _StoppedError(Exception):
    """The evenings are no longer wanted."""


class DatesSearch(QObject):
    """Gives the evenings that were wanted last.

    Signals
    -------
    found
        The ``FoundDates``.
    progressed
        How many steps of the work are done, and of how many.
    refused
        Why there are none, in one sentence.
    """

    found = Signal(object)
    progressed = Signal(int, int)
    refused = Signal(str)

    def __init__(self, jobs: Jobs, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._jobs = jobs
        self._stop = Event()

    def want(
        self,
        site: Site,
        wishes: DateWishes,
        first: date,
        *,
        usual: tuple[Hour, Hour],
        dark_enough: Mapping[Body, float],
        glass: Glass | None,
    ) -> None:
        """Ask for the next evenings, as ``find_dates`` does; what was asked for before is given up."""
        self.give_up()
        self._stop = Event()
        work = partial(
            find_dates,
            site,
            wishes,
            first,
            usual=usual,
            dark_enough=dark_enough,
            glass=glass,
            progress=partial(self._report, self._stop),
        )
        self._jobs.submit(_JOB, work, self.found.emit, self._on_failed)

    def give_up(self) -> None:
        """Stop the work that is under way."""
        self._stop.set()
        self._jobs.cancel(_JOB)

    def _report(self, stop: Event, done: int, steps: int) -> None:
        """Pass progress on; called from the thread that does the work."""
        if stop.is_set():
            raise _StoppedError
        self.progressed.emit(done, steps)

    def _on_failed(self, error: Exception) -> None:
        if not isinstance(error, ProblemsError):
            raise error
        self.refused.emit(str(error))
