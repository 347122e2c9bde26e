"""Which weeks count as the best, on outlooks made by hand."""

from datetime import date

import numpy as np
import pytest
from attrs import evolve
from numpy.typing import NDArray

from core.sky.bodies import Body
from core.sky.site import Site
from core.year.best_weeks import BestWeeks, find_best_weeks
from core.year.evenings import evenings_from
from core.year.outlook import BodyOutlook, compute_outlook

DAYS = 100
SITE = Site(name="Place", latitude_deg=41.0, longitude_deg=-8.6, time_zone="Europe/Lisbon")
(PLAIN,) = compute_outlook(evenings_from(SITE, date(2026, 12, 5), DAYS), [Body.SATURN])


def steady(value: float) -> NDArray[np.float64]:
    return np.full(DAYS, value)


def between(start: int, end: int, value: float, otherwise: float = 0.0) -> NDArray[np.float64]:
    found = steady(otherwise)
    found[start:end] = value
    return found


def outlook(
    *,
    altitude_deg: NDArray[np.float64] | None = None,
    hours_30: NDArray[np.float64] | None = None,
    hours_45: NDArray[np.float64] | None = None,
    diameter_arcsec: NDArray[np.float64] | None = None,
    body: Body = Body.SATURN,
) -> BodyOutlook:
    return evolve(
        PLAIN,
        body=body,
        best_altitude_deg=steady(20.0) if altitude_deg is None else altitude_deg,
        dark_hours_30=steady(0.0) if hours_30 is None else hours_30,
        dark_hours_45=steady(0.0) if hours_45 is None else hours_45,
        diameter_arcsec=steady(18.0) if diameter_arcsec is None else diameter_arcsec,
    )


def test_45_degrees_count_where_they_are_reached_for_long_enough() -> None:
    best = find_best_weeks(
        outlook(
            altitude_deg=between(20, 60, 50.0, 35.0),
            hours_30=between(10, 80, 3.0),
            hours_45=between(20, 60, 2.0),
        )
    )

    assert best.above_deg == 45
    assert best.stretches == ((20, 59),)


def test_30_degrees_count_where_45_are_rare() -> None:
    best = find_best_weeks(
        outlook(
            altitude_deg=between(20, 40, 46.0, 35.0),
            hours_30=between(10, 80, 3.0),
            hours_45=between(20, 40, 2.0),
        )
    )

    assert best.above_deg == 30
    assert best.stretches == ((10, 79),)


def test_a_few_minutes_up_there_do_not_count() -> None:
    best = find_best_weeks(outlook(altitude_deg=steady(31.0), hours_30=steady(0.4)))

    assert best.above_deg is None


def test_a_low_planet_is_best_near_its_greatest_height() -> None:
    best = find_best_weeks(outlook(altitude_deg=between(30, 50, 20.0, 12.0)))

    assert (best.above_deg, best.stretches) == (None, ((30, 49),))


@pytest.mark.parametrize("nothing", [steady(np.nan), steady(9.0)], ids=["never up", "under 10 degrees"])
def test_where_there_is_nothing_to_see_nothing_is_best(nothing: NDArray[np.float64]) -> None:
    best = find_best_weeks(outlook(altitude_deg=nothing))

    assert best == BestWeeks(above_deg=None, stretches=(), highest=None, largest=None)


def test_a_small_mars_is_not_at_its_best_however_high() -> None:
    high = {"altitude_deg": steady(60.0), "hours_30": steady(5.0), "hours_45": steady(4.0)}
    growing = np.linspace(5.0, 15.0, DAYS)

    mars = find_best_weeks(outlook(**high, diameter_arcsec=growing, body=Body.MARS))
    venus = find_best_weeks(outlook(**high, diameter_arcsec=growing, body=Body.VENUS))

    assert mars.stretches == ((50, 99),), "from 10 arcsec on, two thirds of the largest"
    assert venus.stretches == ((0, 99),), "a large Venus is a thin crescent near the Sun"


def test_a_short_gap_is_bridged_and_a_long_one_is_not() -> None:
    hours = between(10, 90, 2.0)
    hours[30:37] = 0.0
    hours[60:70] = 0.0

    best = find_best_weeks(outlook(altitude_deg=steady(50.0), hours_30=hours, hours_45=hours))

    assert best.stretches == ((10, 59), (70, 89))


def test_of_evenings_about_as_high_the_longest_is_the_highest() -> None:
    altitude_deg = between(20, 80, 56.5, 40.0)
    altitude_deg[25] = 57.0
    hours = between(20, 80, 3.0)
    hours[60] = 4.0

    best = find_best_weeks(outlook(altitude_deg=altitude_deg, hours_30=hours, hours_45=hours))

    assert best.highest == 60


def test_the_largest_is_looked_for_only_while_it_can_be_seen() -> None:
    best = find_best_weeks(
        outlook(
            altitude_deg=between(0, 50, 30.0, np.nan),
            diameter_arcsec=np.linspace(10.0, 20.0, DAYS),
            body=Body.VENUS,
        )
    )

    assert best.largest == 49


def test_the_moon_has_no_best_weeks_but_a_highest_evening() -> None:
    best = find_best_weeks(
        outlook(
            altitude_deg=between(20, 21, 70.0, 50.0),
            hours_30=steady(5.0),
            hours_45=steady(3.0),
            body=Body.MOON,
        )
    )

    assert best.stretches == ()
    assert best.highest == 20
