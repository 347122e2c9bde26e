"""Works out years of evenings away from the window's thread, and keeps the newest few."""

from datetime import date
from functools import partial
from threading import Event

from PySide6.QtCore import QObject, Signal

from core.air.first_look import USUAL_BLUR_ARCSEC
from core.problems import ProblemsError
from core.sky.bodies import Body
from core.sky.site import Site
from core.year.detail import USUAL_APERTURE_MM
from core.year.year import Year, compute_year
from gui.jobs import Jobs

_KEPT_YEARS = 12
_JOB = "year"

_Key = tuple[Site, Body, date, float, float, float, float | None]


class _StoppedError(Exception):
    """The year is no longer wanted."""


class YearReader(QObject):
    """Gives the year that was wanted last.

    Signals
    -------
    read
        The ``Year``, at once when it is at hand.
    progressed
        How many steps of the work are done, and of how many.
    refused
        Why there is no such year, in one sentence.
    """

    read = Signal(object)
    progressed = Signal(int, int)
    refused = Signal(str)

    def __init__(self, jobs: Jobs, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._jobs = jobs
        self._kept: dict[_Key, Year] = {}
        self._stop = Event()

    def want(
        self,
        site: Site,
        planet: Body,
        first: date,
        dark_below_deg: float,
        aperture_mm: float = USUAL_APERTURE_MM,
        overhead_arcsec: float = USUAL_BLUR_ARCSEC,
        mars_longitude_deg: float | None = None,
    ) -> None:
        """Ask for a planet's year from its first date on; what was asked for before is given up.

        ``dark_below_deg`` is the altitude under which the Sun must stand for it; the best weeks are those of
        a telescope of ``aperture_mm`` in air with a blur overhead. ``mars_longitude_deg`` is a longitude on
        Mars whose evenings are sought.
        """
        self.give_up()
        key = (site, planet, first, dark_below_deg, aperture_mm, overhead_arcsec, mars_longitude_deg)
        if key in self._kept:
            self.read.emit(self._kept[key])
            return
        self._stop = Event()
        work = partial(
            compute_year,
            site,
            planet,
            first,
            aperture_mm=aperture_mm,
            overhead_arcsec=overhead_arcsec,
            dark_below_deg=dark_below_deg,
            mars_longitude_deg=mars_longitude_deg,
            progress=partial(self._report, self._stop),
        )
        self._jobs.submit(_JOB, work, partial(self._keep, key), self._on_failed)

    def give_up(self) -> None:
        """Stop the work that is under way."""
        self._stop.set()
        self._jobs.cancel(_JOB)

    def _report(self, stop: Event, done: int, steps: int) -> None:
        """Pass progress on; called from the thread that does the work."""
        if stop.is_set():
            raise _StoppedError
        self.progressed.emit(done, steps)

    def _keep(self, key: _Key, year: Year) -> None:
        while len(self._kept) >= _KEPT_YEARS:
            self._kept.pop(next(iter(self._kept)))
        self._kept[key] = year
        self.read.emit(year)

    def _on_failed(self, error: Exception) -> None:
        if not isinstance(error, ProblemsError):
            raise error
        self.refused.emit(str(error))
