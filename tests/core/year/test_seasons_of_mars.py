"""When Mars is best: large and low against small and high, by brute force with another library."""

from datetime import date, timedelta
from functools import cache

import ephem
import numpy as np
import pytest
from numpy.typing import NDArray

from core.moments.details import Sharpness
from core.sky.bodies import Body
from core.sky.site import Site
from core.words.year import best_weeks_text
from core.year.year import Year, compute_year

# Air, telescope and darkness of the design: 1.6 arcsec overhead, 150 mm, the Sun 4 degrees down.
BLUR_ARCSEC, APERTURE_MM, SUN_BELOW_DEG = 1.6, 150.0, -4.0
PLACES = {
    "40 N": (40.0, -8.6, "Europe/Lisbon"),
    "51 N": (51.0, 0.0, "Europe/London"),
    "33 S": (-33.0, 151.2, "Australia/Sydney"),
}
# Closest approaches: 2003-08-27, 2018-07-31, 2020-10-06 (widely published), 2033-07-05 (two libraries).
YEARS = (2003, 2018, 2020, 2033)
EVERY = timedelta(days=4)


@cache
def year_at(place: str, of: int) -> Year:
    latitude_deg, longitude_deg, zone = PLACES[place]
    site = Site(name=place, latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone=zone)
    sharpness = Sharpness(aperture_mm=APERTURE_MM, overhead_blur_arcsec=BLUR_ARCSEC)
    return compute_year(site, Body.MARS, date(of, 1, 1), sharpness=sharpness)


def detail_across(altitude_deg: float, diameter_arcsec: float) -> float:
    """Return N by hand: the path of Pickering 2002, colours of ERFA (0.867 arcsec at 45 degrees) as cot h."""
    path = 1.0 / np.sin(np.radians(altitude_deg + 244.0 / (165.0 + 47.0 * altitude_deg**1.1)))
    air = 0.60 * BLUR_ARCSEC * path**0.6
    colours = 0.45 * 0.867 / np.tan(np.radians(altitude_deg))
    return float(diameter_arcsec / np.sqrt((116.0 / APERTURE_MM) ** 2 + air**2 + colours**2))


@cache
def by_brute_force(place: str, of: int) -> tuple[tuple[date, ...], NDArray[np.float64]]:
    """Return dates and the most detail on each, sampled through the night with PyEphem."""
    latitude_deg, longitude_deg, _ = PLACES[place]
    observer, mars, sun = ephem.Observer(), ephem.Mars(), ephem.Sun()
    observer.lat, observer.lon, observer.pressure = str(latitude_deg), str(longitude_deg), 0
    days = tuple(date(of, 1, 1) + number * EVERY for number in range(91))
    found = []
    for day in days:
        noon = ephem.Date(f"{day} 12:00") - longitude_deg / 360.0
        most = 0.0
        for step in range(96):
            observer.date = noon + step / 96.0
            sun.compute(observer)
            mars.compute(observer)
            altitude_deg = np.degrees(float(mars.alt))
            if np.degrees(float(sun.alt)) < SUN_BELOW_DEG and altitude_deg >= 10.0:
                most = max(most, detail_across(altitude_deg, mars.size))
        found.append(most)
    return days, np.array(found)


@pytest.mark.parametrize("of", YEARS)
@pytest.mark.parametrize("place", PLACES)
def test_the_best_weeks_are_those_of_brute_force(place: str, of: int) -> None:
    told = year_at(place, of)
    days, most = by_brute_force(place, of)

    each = np.array([told.details[told.dates.index(day)] for day in days])
    counts = most >= 0.5 * most.max()  # a Mars that climbs at dawn falls between two samples
    assert each[counts] == pytest.approx(most[counts], rel=0.04)
    assert told.best.sharpest is not None
    best_day = days[int(most.argmax())]
    assert abs(told.dates[told.best.sharpest] - best_day) <= timedelta(days=8)
    good = most >= 0.8 * most.max()
    in_best = [
        any(first <= told.dates.index(day) <= last for first, last in told.best.stretches) for day in days
    ]
    differing = np.flatnonzero(good != np.array(in_best))
    assert len(differing) <= 3, [days[number] for number in differing]


@pytest.mark.parametrize("place", PLACES)
def test_mars_of_2018_is_best_in_july_and_not_in_october(place: str) -> None:
    told = year_at(place, 2018)

    assert told.best.sharpest is not None
    assert told.dates[told.best.sharpest].month == 7
    ((first, last),) = told.best.stretches
    assert told.dates[first] < date(2018, 7, 27) < told.dates[last] < date(2018, 10, 1)


def test_a_low_but_large_mars_is_told_with_size_and_height() -> None:
    text = best_weeks_text(year_at("40 N", 2018))

    # 24.3 arcsec at the closest approach; 25 degrees = 90 - 40 - 25 of declination (widely published).
    assert text.startswith("Mars is best from mid-June 2018 to early September: low, but largest, 24″ at 25°")
    assert "Highest around " in text
    assert text.endswith(" then.")


def test_a_small_disc_on_the_highest_evening_is_told_with_it() -> None:
    site = Site(name="33 S", latitude_deg=-33.0, longitude_deg=151.2, time_zone="Australia/Sydney")
    text = best_weeks_text(compute_year(site, Body.MARS, date(2026, 12, 1)))

    # PyEphem: 13.8 arcsec at opposition in February, 5.9 when it passes 53 degrees high in July, on its way
    # to nearly 54. No evening of the year is told as higher.
    assert "Highest around 7 July, 54°, but only " in text
    size = float(text.partition("but only ")[2].partition("″")[0])
    assert size == pytest.approx(ephem.Mars("2027/7/7").size, abs=0.1)
    assert text.endswith(" then; largest around 19 February, 13.8″.")


def test_no_evening_of_the_year_is_told_as_higher_than_the_highest() -> None:
    site = Site(
        name="balcony", latitude_deg=40.62, longitude_deg=22.97, elevation_m=60, time_zone="Europe/Athens"
    )
    year = compute_year(site, Body.SATURN, date(2026, 12, 5))
    number = year.best.highest

    assert number is not None
    told = [round(float(height)) for height in year.outlook.best_altitude_deg if height == height]
    assert round(float(year.outlook.best_altitude_deg[number])) == max(told)
