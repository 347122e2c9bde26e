"""A year of evenings for one planet: its outlook, what it does in the sky, and its best weeks."""

from datetime import UTC, date, datetime
from functools import partial
from typing import TYPE_CHECKING

from attrs import frozen

from core.arrays import Floats
from core.moments.details import USUAL_SHARPNESS, Sharpness
from core.moments.pairs import ClosePair
from core.sky.bodies import FACTS, Body
from core.sky.site import Site
from core.year.best_weeks import BestWeeks, Stretches, find_best_weeks, find_light_nights
from core.year.detail import details_by_evening
from core.year.evenings import year_from
from core.year.outlook import BodyOutlook, Progress, compute_outlook, say_nothing
from core.year.pairs import close_pairs_of_year
from core.year.phenomena import Phenomenon, find_phenomena

if TYPE_CHECKING:
    from core.year.double_shadows import DoubleShadow
    from core.year.mars_faces import FacingUs
    from core.year.ring_year import RingYear


@frozen(kw_only=True, eq=False)
class Year:
    """A year of one planet's evenings at a site, from its first date on; shorter where the tables end.

    ``dark_below_deg`` is the altitude under which the Sun stands in a sky dark enough for it. ``details``
    (N,) are how many finest details fit across the disc on each evening, as far as ``sharpness`` lets them.
    ``light_nights`` are the first and last evenings of each time in which the sky never gets dark enough.
    ``ring`` is Saturn's alone, ``double_shadows`` the next few on Jupiter, ``facing`` when a chosen longitude
    on Mars faces us. ``pairs`` are other bodies' closest meetings with it.
    """

    outlook: BodyOutlook
    details: Floats
    sharpness: Sharpness
    dark_below_deg: float
    phenomena: tuple[Phenomenon, ...]
    best: BestWeeks
    light_nights: Stretches
    ring: "RingYear | None" = None
    double_shadows: "tuple[DoubleShadow, ...] | None" = None
    facing: "FacingUs | None" = None
    pairs: tuple[ClosePair, ...] = ()

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
    sharpness: Sharpness = USUAL_SHARPNESS,
    dark_below_deg: float | None = None,
    mars_longitude_deg: float | None = None,
    progress: Progress | None = None,
) -> Year:
    """Return a planet's year, its best weeks by how much detail ``sharpness`` shows.

    ``dark_below_deg`` is the altitude under which the Sun must stand, where it is not the usual one;
    ``mars_longitude_deg`` a west longitude on Mars whose nights are sought.
    ``progress`` is told how many of its steps are done, and of how many; whatever it raises stops the work.
    Raises EphemerisRangeError for a first date outside the planet tables, and ProblemsError for one that the
    site's zone skipped.
    """
    evenings = year_from(site, first)
    below_deg = FACTS[planet].dark_enough_sun_altitude_deg if dark_below_deg is None else dark_below_deg
    (outlook,) = compute_outlook(evenings, [planet], dark_enough={planet: below_deg}, progress=progress)
    start, end = (datetime.fromtimestamp(edge_s, UTC) for edge_s in (evenings.start_s, evenings.end_s))
    between = partial(progress or say_nothing, 2, 2)
    details = details_by_evening(outlook, sharpness)
    # What these are found with takes a while to load.
    ring: RingYear | None = None
    double_shadows: tuple[DoubleShadow, ...] | None = None
    facing: FacingUs | None = None
    if planet is Body.SATURN:
        from core.year.ring_year import find_ring_year

        ring = find_ring_year(evenings)
    elif planet is Body.JUPITER:
        from core.year.double_shadows import next_double_shadows

        double_shadows = next_double_shadows(outlook, below_deg, between=between)
    elif planet is Body.MARS and mars_longitude_deg is not None:
        from core.year.mars_faces import evenings_facing

        facing = evenings_facing(outlook, mars_longitude_deg)
    return Year(
        outlook=outlook,
        details=details,
        sharpness=sharpness,
        dark_below_deg=below_deg,
        phenomena=find_phenomena(planet, start, end),
        best=find_best_weeks(outlook, details),
        light_nights=find_light_nights(outlook),
        ring=ring,
        double_shadows=double_shadows,
        facing=facing,
        pairs=close_pairs_of_year(outlook, below_deg, between=between),
    )
