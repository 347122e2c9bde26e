"""Works out years of evenings away from the window's thread, and keeps the newest few."""

from datetime import date
from functools import partial

from attrs import frozen
from PySide6.QtCore import QObject

from core.moments.details import USUAL_SHARPNESS, Sharpness
from core.sky.bodies import Body
from core.sky.site import Site
from core.year.year import Year, compute_year
from gui.jobs import Jobs
from gui.long_search import LongSearch

_KEPT_YEARS = 12


@frozen(kw_only=True)
class YearWanted:
    """A planet's year from its first date on.

    ``dark_below_deg`` is the altitude under which the Sun must stand for it; the best weeks are those
    that show most by ``sharpness``. ``mars_longitude_deg`` is a longitude on Mars
    whose evenings are sought.
    """

    site: Site
    planet: Body
    first: date
    dark_below_deg: float
    sharpness: Sharpness = USUAL_SHARPNESS
    mars_longitude_deg: float | None = None

    @classmethod
    def of(cls, year: Year) -> "YearWanted":
        """Return what a year was the answer to."""
        return cls(
            site=year.site,
            planet=year.planet,
            first=year.dates[0],
            dark_below_deg=year.dark_below_deg,
            sharpness=year.sharpness,
            mars_longitude_deg=None if year.facing is None else year.facing.longitude_deg,
        )


class YearReader(LongSearch):
    """Gives the ``Year`` that was wanted last, at once when it is at hand."""

    def __init__(self, jobs: Jobs, parent: QObject | None = None) -> None:
        super().__init__("year", jobs, parent)
        self._kept: dict[YearWanted, Year] = {}
        self.found.connect(self._keep)

    def want_year(self, wanted: YearWanted) -> None:
        """Ask for a year; what was asked for before is given up."""
        if wanted in self._kept:
            self.give_up()
            self.found.emit(self._kept[wanted])
            return
        self.want(
            partial(
                compute_year,
                wanted.site,
                wanted.planet,
                wanted.first,
                sharpness=wanted.sharpness,
                dark_below_deg=wanted.dark_below_deg,
                mars_longitude_deg=wanted.mars_longitude_deg,
            )
        )

    def _keep(self, year: Year) -> None:
        wanted = YearWanted.of(year)
        if wanted in self._kept:
            return
        while len(self._kept) >= _KEPT_YEARS:
            self._kept.pop(next(iter(self._kept)))
        self._kept[wanted] = year
