"""A run of evenings at one site, each from noon to noon by the site's own clock."""

from datetime import date, timedelta

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from core.arrays import Floats
from core.problems import ProblemsError
from core.sky.civil import evening_span
from core.sky.ephemeris import check_date, usable_dates
from core.sky.site import Site

_DAY = timedelta(days=1)


@frozen(kw_only=True, eq=False)
class Evenings:
    """Evenings in order, without a gap between them.

    ``edges_s`` (N + 1,) are Unix seconds: evening ``number`` runs from ``edges_s[number]`` up to, not
    including, ``edges_s[number + 1]``. A date that the site's zone skipped is not among the ``dates`` (N,).
    """

    site: Site
    dates: tuple[date, ...]
    edges_s: Floats

    @property
    def start_s(self) -> float:
        """The first noon."""
        return float(self.edges_s[0])

    @property
    def end_s(self) -> float:
        """The last noon."""
        return float(self.edges_s[-1])

    @property
    def spans_s(self) -> Floats:
        """Every evening as a span, (N, 2)."""
        return np.column_stack([self.edges_s[:-1], self.edges_s[1:]])

    def numbers(self, times_s: Floats) -> NDArray[np.intp]:
        """Return the number of the evening that each time (M,) falls in; the ends are not looked at."""
        return np.asarray(np.searchsorted(self.edges_s, times_s, side="right") - 1)

    def __len__(self) -> int:
        return len(self.dates)


def evenings_from(site: Site, first: date, days: int) -> Evenings:
    """Return the evenings of ``days`` dates from the first on, fewer where the planet tables end.

    Raises EphemerisRangeError for a first date outside them, ProblemsError for one that the zone skipped.
    """
    check_date(first)
    last = min(first + (days - 1) * _DAY, usable_dates()[1])
    dates, edges = [first], list(evening_span(site, first))
    for number in range(1, (last - first).days + 1):
        day = first + number * _DAY
        try:
            edges.append(evening_span(site, day)[1])
        except ProblemsError:  # skipped by the zone: the evening before it runs to the noon after
            continue
        dates.append(day)
    return Evenings(site=site, dates=tuple(dates), edges_s=np.array([edge.timestamp() for edge in edges]))


def evenings_from_any(site: Site, first: date, days: int) -> Evenings:
    """Return the same, from the day after where the zone skipped the first date and others follow it."""
    try:
        return evenings_from(site, first, days)
    except ProblemsError:
        if days == 1:
            raise
        # No zone ever skipped two dates in a row.
        return evenings_from(site, first + _DAY, days - 1)


def year_from(site: Site, first: date) -> Evenings:
    """Return the evenings of a year: up to the day before the same date of the next year."""
    check_date(first)
    # From 29 February a year lasts up to the next year's last day of February.
    next_year = first.replace(year=first.year + 1, day=min(first.day, 28 if first.month == 2 else 31))
    return evenings_from(site, first, (next_year - first).days)
