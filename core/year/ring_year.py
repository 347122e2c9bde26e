"""How far Saturn's ring is open through a year, and when it is next seen edge-on."""

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Final

import numpy as np
from attrs import frozen

from core.sky.bodies import Body
from core.sky.ephemeris import DAY_S, usable_dates
from core.sky.geocentric import elongation_deg
from core.sky.ring import next_edge_on, opening_deg
from core.year.evenings import Evenings

# The opening changes by less than half a degree from one look to the next.
_STEP_S: Final = 10.0 * DAY_S


@frozen(kw_only=True)
class RingOpening:
    """How far the ring is open at a time (aware UTC), degrees, whichever face it shows."""

    time: datetime
    opening_deg: float


@frozen(kw_only=True)
class RingYear:
    """The ring in a year: when it is open the widest and the narrowest, and its next time edge-on.

    ``edge_on_elongation_deg`` is how far Saturn stands from the Sun then; beyond the planet tables it is 180.
    """

    widest: RingOpening
    narrowest: RingOpening
    edge_on: datetime
    edge_on_elongation_deg: float

    def is_edge_on_within(self, evenings: Evenings) -> bool:
        """Tell whether it is edge-on in these evenings."""
        return evenings.start_s <= self.edge_on.timestamp() < evenings.end_s


def find_ring_year(evenings: Evenings) -> RingYear:
    """Return what the ring does in a year of evenings, as seen from the Earth's centre."""
    openings = _openings(evenings)
    edge_on = next_edge_on(datetime.fromtimestamp(evenings.start_s, UTC))
    return RingYear(
        widest=max(openings, key=lambda each: each.opening_deg),
        narrowest=min(openings, key=lambda each: each.opening_deg),
        edge_on=edge_on,
        edge_on_elongation_deg=_elongation_deg(edge_on),
    )


def _elongation_deg(time: datetime) -> float:
    if time.date() > usable_dates()[1]:
        return 180.0
    return float(elongation_deg(Body.SATURN, np.array([time.timestamp()]))[0])


def _openings(evenings: Evenings) -> Sequence[RingOpening]:
    steps = int((evenings.end_s - evenings.start_s) // _STEP_S) + 1
    times_s = (evenings.start_s + number * _STEP_S for number in range(steps))
    return [
        RingOpening(time=datetime.fromtimestamp(time_s, UTC), opening_deg=abs(opening_deg(time_s)))
        for time_s in times_s
    ]
