"""The next good evening: what the one-evening engine says of it and of the evenings before."""

from datetime import date, timedelta

import ephem
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sky.bodies import TARGETS, Body
from core.sky.ephemeris import usable_dates
from core.sky.night import BodyNight, compute_night
from core.sky.site import BlockedSky, Site
from core.sky.windows import Grade
from core.year.better import FineEvening, better_evening


def place(latitude_deg: float, longitude_deg: float, zone: str = "UTC", *blocked: BlockedSky) -> Site:
    return Site(
        name="Place",
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        time_zone=zone,
        blocked=blocked,
    )


LISBON = place(38.7, -9.1, "Europe/Lisbon")
TROMSO = place(69.65, 18.96, "Europe/Oslo")


def body_on(site: Site, body: Body, day: date) -> BodyNight:
    return compute_night(site, day, targets=[body]).of(body)


def stands_so(site: Site, body: Body, fine: FineEvening) -> bool:
    """Tell whether the one-evening engine grades an evening as its height says."""
    grades = {window.grade for window in body_on(site, body, fine.day).windows}
    best = Grade.BEST if fine.altitude_deg > 45.2 else Grade.FAIR if fine.altitude_deg > 30.2 else Grade.LOW
    return best in grades or fine.altitude_deg < 10.2


def test_the_best_of_mars_is_its_next_opposition() -> None:
    better = better_evening(LISBON, Body.MARS, date(2028, 1, 10))

    assert better is not None
    # Opposition 25 March 2029 (two libraries: tests/published/data/phenomena.csv), nearest days later;
    # the size is that of PyEphem.
    assert abs(better.best.day - date(2029, 3, 29)) <= timedelta(days=6)
    mars = ephem.Mars(str(better.best.day))
    assert better.best.diameter_arcsec == pytest.approx(mars.size, abs=0.1)
    assert better.first is not None
    assert timedelta(days=30) < better.best.day - better.first.day < timedelta(days=100)
    assert stands_so(LISBON, Body.MARS, better.first)


def test_a_low_but_large_mars_is_not_bettered_by_a_small_high_one() -> None:
    # 24 arcsec at 25 degrees in July 2018 against 9 arcsec at 40 in November (PyEphem).
    better = better_evening(LISBON, Body.MARS, date(2018, 7, 25))

    assert better is not None
    assert better.first is None
    assert better.highest_deg == pytest.approx(90.0 - 38.7 - 25.5, abs=1.0)


@settings(max_examples=20, deadline=None)
@given(
    latitude_deg=st.floats(-70.0, 70.0),
    longitude_deg=st.floats(-180.0, 180.0),
    evening=st.dates(date(2000, 1, 1), date(2040, 1, 1)),
    body=st.sampled_from(TARGETS),
)
def test_the_evenings_named_are_to_come_and_stand_as_told(
    latitude_deg: float, longitude_deg: float, evening: date, body: Body
) -> None:
    site = place(latitude_deg, longitude_deg)
    better = better_evening(site, body, evening)

    if better is None:
        return
    assert evening < better.best.day <= evening + timedelta(days=730)
    assert stands_so(site, body, better.best)
    if better.first is not None:
        assert evening < better.first.day <= better.best.day
        assert stands_so(site, body, better.first)


def test_blocked_sky_puts_it_off() -> None:
    roofed = place(
        38.7,
        -9.1,
        "Europe/Lisbon",
        BlockedSky(azimuth_from_deg=60, azimuth_to_deg=200, below_altitude_deg=70),
    )
    open_sky, behind_roof = (better_evening(site, Body.SATURN, date(2027, 5, 1)) for site in (LISBON, roofed))

    assert open_sky is not None
    assert open_sky.first is not None
    assert behind_roof is not None
    assert behind_roof.first is not None
    assert behind_roof.first.day > open_sky.first.day + timedelta(days=20)
    assert stands_so(roofed, Body.SATURN, behind_roof.first)


def test_mercury_is_best_near_a_greatest_elongation() -> None:
    better = better_evening(LISBON, Body.MERCURY, date(2026, 12, 5))

    assert better is not None
    assert 10.0 < better.best.altitude_deg < 20.0
    # Greatest elongations east of 28 May 2027 and 9 May 2028 (tests/published/data/phenomena.csv).
    elongations = (date(2027, 5, 28), date(2028, 5, 9))
    assert min(abs(better.best.day - each) for each in elongations) < timedelta(days=14)


def test_where_a_planet_stays_down_there_is_none() -> None:
    # Neptune near +2 degrees of declination, from 80 degrees south: never above 8 degrees.
    assert better_evening(place(-80.0, 0.0), Body.NEPTUNE, date(2026, 12, 5)) is None


def test_neighbouring_evenings_agree() -> None:
    first, second = (better_evening(LISBON, Body.MARS, date(2028, 1, day)) for day in (10, 11))

    assert first == second or (first is not None and second is not None and first.best == second.best)


def test_after_a_light_summer_the_first_dark_night_is_named() -> None:
    site = place(60.0, 11.0, "Europe/Oslo")
    better = better_evening(site, Body.NEPTUNE, date(2027, 6, 21))

    assert better is not None
    # PyEphem: the first night on which the Sun gets 12 degrees below the horizon again.
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.pressure = "60", "11", 0
    day = date(2027, 6, 21)
    depth_deg = 0.0
    while depth_deg > -12.0:
        day += timedelta(days=1)
        observer.date = f"{day} 12:00"
        observer.date = observer.next_antitransit(ephem.Sun())
        depth_deg = np.degrees(float(ephem.Sun(observer).alt))
    assert better.dark_from == day
    by_day = better_evening(site, Body.NEPTUNE, date(2027, 12, 1))
    assert by_day is not None
    assert by_day.dark_from is None


@pytest.mark.parametrize("site", [TROMSO, place(-13.8, -171.8, "Pacific/Apia")], ids=["Tromso", "Apia"])
def test_a_search_goes_through_polar_days_and_skipped_dates(site: Site) -> None:
    better = better_evening(site, Body.JUPITER, date(2011, 5, 1))

    assert better is not None
    assert better.first is not None
    assert stands_so(site, Body.JUPITER, better.first)


def test_the_search_ends_with_the_planet_tables() -> None:
    _, last = usable_dates()

    assert better_evening(LISBON, Body.SATURN, last) is None
    found = better_evening(LISBON, Body.MERCURY, last - timedelta(days=40))
    assert found is None or found.best.day <= last
