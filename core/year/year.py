"""A year of evenings for one planet: its outlook, what it does in the sky, and its best weeks."""

from datetime import UTC, date, datetime

from attrs import frozen

from core.sky.bodies import FACTS, Body
from core.sky.site import Site
from core.year.best_weeks import BestWeeks, find_best_weeks
from core.year.evenings import year_from
from core.year.outlook import BodyOutlook, Progress, compute_outlook
from core.year.phenomena import Phenomenon, find_phenomena


@frozen(kw_only=True, eq=False)
class Year:
    """A year of one planet's evenings at a site, from its first date on; shorter where the tables end.

    ``dark_below_deg`` is the altitude under which the Sun stands in a sky dark enough for it.
    """

    outlook: BodyOutlook
    dark_below_deg: float
    phenomena: tuple[Phenomenon, ...]
    best: BestWeeks

    @property
    def planet(self) -> Body:
        """The planet, or the Moon."""
        return self.outlook.body

    @property
    def site(self) -> Site:
        """The place."""
        return self.outlook.evenings.site

    @property
    def dates(self) -> tuple[date, ...]:
        """The evenings' dates, (N,)."""
        return self.outlook.evenings.dates


def compute_year(
    site: Site,
    planet: Body,
    first: date,
    *,
    dark_below_deg: float | None = None,
    progress: Progress | None = None,
) -> Year:
    """Return a planet's year.

    ``dark_below_deg`` is the altitude under which the Sun must stand, where it is not the usual one.
    ``progress`` is told how many of its steps are done, and of how many; whatever it raises stops the work.
    Raises EphemerisRangeError for a first date outside the planet tables, and ProblemsError for one that the
    site's zone skipped.
    """
    evenings = year_from(site, first)
    below_deg = FACTS[planet].dark_enough_sun_altitude_deg if dark_below_deg is None else dark_below_deg
    (outlook,) = compute_outlook(evenings, [planet], dark_enough={planet: below_deg}, progress=progress)
    start, end = (datetime.fromtimestamp(edge_s, UTC) for edge_s in (evenings.start_s, evenings.end_s))
    return Year(
        outlook=outlook,
        dark_below_deg=below_deg,
        phenomena=find_phenomena(planet, start, end),
        best=find_best_weeks(outlook),
    )
