"""Which weeks count as the best, on outlooks made by hand."""

from datetime import date

import ephem
import numpy as np
import pytest
from attrs import evolve
from numpy.typing import NDArray

from core.moments.details import Sharpness
from core.sky.bodies import Body
from core.sky.site import Site
from core.year.best_weeks import BestWeeks, find_best_weeks, find_light_nights
from core.year.detail import details_by_evening
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
        dark_hours_10=steady(5.0),
        dark_hours_30=steady(0.0) if hours_30 is None else hours_30,
        dark_hours_45=steady(0.0) if hours_45 is None else hours_45,
        diameter_arcsec=steady(18.0) if diameter_arcsec is None else diameter_arcsec,
    )


def test_the_best_weeks_are_those_with_four_fifths_of_the_most_detail() -> None:
    details = between(20, 60, 10.0, 7.9)
    details[60:70] = 8.1

    best = find_best_weeks(outlook(), details)

    assert best.stretches == ((20, 69),)
    assert best.sharpest == 20


@pytest.mark.parametrize(
    ("hours_30", "hours_45", "above_deg"),
    [
        (steady(3.0), between(20, 45, 2.0), 45.0),
        (steady(3.0), between(20, 35, 2.0), 30.0),
        (between(20, 45, 2.0), steady(0.0), 30.0),
        (steady(0.4), steady(0.0), None),
    ],
    ids=["most above 45", "few above 45", "most above 30", "a few minutes above 30"],
)
def test_the_height_told_is_what_most_of_them_get_above(
    hours_30: NDArray[np.float64], hours_45: NDArray[np.float64], above_deg: float | None
) -> None:
    up = outlook(altitude_deg=steady(50.0), hours_30=hours_30, hours_45=hours_45)

    best = find_best_weeks(up, between(20, 60, 10.0))

    assert best.above_deg == above_deg


@pytest.mark.parametrize("nothing", [steady(np.nan), steady(9.0)], ids=["never up", "under 10 degrees"])
def test_where_there_is_nothing_to_see_nothing_is_best(nothing: NDArray[np.float64]) -> None:
    best = find_best_weeks(outlook(altitude_deg=nothing), steady(0.0))

    assert best == BestWeeks(above_deg=None, stretches=(), sharpest=None, highest=None, largest=None)


def test_a_small_mars_is_not_at_its_best_however_high() -> None:
    mars = outlook(
        altitude_deg=between(0, 40, 22.0, 45.0),
        diameter_arcsec=between(0, 40, 24.0, 11.0),
        hours_30=between(40, DAYS, 3.0),
        body=Body.MARS,
    )

    best = find_best_weeks(mars, details_by_evening(mars))

    assert best.stretches == ((0, 39),), "24 arcsec at 22 degrees beat 11 arcsec at 45"
    assert best.highest is not None
    assert best.highest >= 40


def test_a_thin_crescent_does_not_count_as_a_full_disc() -> None:
    crescent = between(0, 50, 58.0, 40.0)
    venus = evolve(
        outlook(body=Body.VENUS, diameter_arcsec=crescent),
        illuminated_fraction=between(0, 50, 0.02, 0.27),
    )

    best = find_best_weeks(venus, details_by_evening(venus))

    assert best.stretches == ((50, 99),), "40 arcsec, a quarter lit, is Venus at its most brilliant"


def test_a_height_held_for_minutes_does_not_count() -> None:
    seen = outlook(altitude_deg=steady(60.0), hours_30=steady(2.0), hours_45=between(0, 50, 1.0, 0.1))

    details = details_by_evening(seen)

    assert details[0] > 1.1 * details[-1], "45 degrees count in place of 60"


def test_a_larger_aperture_shows_more_and_worse_air_less() -> None:
    usual, large, poor = (
        details_by_evening(PLAIN, Sharpness(aperture_mm=aperture_mm, overhead_blur_arcsec=blur_arcsec)).max()
        for aperture_mm, blur_arcsec in ((80.0, 1.6), (200.0, 1.6), (80.0, 3.0))
    )

    assert large > usual > poor > 0.0


def test_a_short_gap_is_bridged_and_a_long_one_is_not() -> None:
    details = between(10, 90, 5.0)
    details[30:37] = 0.0
    details[60:70] = 0.0

    best = find_best_weeks(outlook(altitude_deg=steady(50.0)), details)

    assert best.stretches == ((10, 59), (70, 89))


def test_of_evenings_about_as_high_the_longest_is_the_highest() -> None:
    altitude_deg = between(20, 80, 56.5, 40.0)
    altitude_deg[25] = 57.0
    hours = between(20, 80, 3.0)
    hours[60] = 4.0
    up = outlook(altitude_deg=altitude_deg, hours_30=hours, hours_45=hours)

    best = find_best_weeks(up, details_by_evening(up))

    assert best.highest == 60


def test_the_largest_is_looked_for_only_while_it_can_be_seen() -> None:
    seen = outlook(
        altitude_deg=between(0, 50, 30.0, np.nan),
        diameter_arcsec=np.linspace(10.0, 20.0, DAYS),
        body=Body.VENUS,
    )

    assert find_best_weeks(seen, details_by_evening(seen)).largest == 49


def test_the_moon_has_no_best_weeks_but_a_highest_evening() -> None:
    moon = outlook(
        altitude_deg=between(20, 21, 70.0, 50.0),
        hours_30=steady(5.0),
        hours_45=steady(3.0),
        body=Body.MOON,
    )

    best = find_best_weeks(moon, details_by_evening(moon))

    assert best.stretches == ()
    assert best.highest == 20


def test_light_nights_belong_to_the_sky() -> None:
    site = evolve(SITE, latitude_deg=55.0, longitude_deg=0.0, time_zone="UTC")
    summer = evenings_from(site, date(2027, 4, 20), 140)
    neptune, mars = compute_outlook(summer, [Body.NEPTUNE, Body.MARS])

    # PyEphem: the nights on which the Sun does not get 12 degrees below the horizon.
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.pressure = "55", "0", 0
    lowest_deg = []
    for day in summer.dates:
        observer.date = f"{day} 12:00"
        observer.date = observer.next_antitransit(ephem.Sun())
        lowest_deg.append(np.degrees(float(ephem.Sun(observer).alt)))
    light = np.flatnonzero(np.array(lowest_deg) > -12.0)
    assert find_light_nights(neptune) == ((light[0], light[-1]),)
    assert find_light_nights(mars) == (), "the Sun gets 4 degrees down on every night"
