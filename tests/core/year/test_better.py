"""The next good evening: what the one-evening engine says of it and of the evenings before."""

from datetime import date, timedelta

import ephem
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sky.bodies import TARGETS, Body
from core.sky.ephemeris import usable_dates
from core.sky.night import BodyNight, Grade, compute_night
from core.sky.site import BlockedSky, Site
from core.year.better import better_evening

HALF_AN_HOUR = timedelta(minutes=30)


def place(latitude_deg: float, longitude_deg: float, zone: str = "UTC", *blocked: BlockedSky) -> Site:
    return Site(
        name="Place",
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        time_zone=zone,
        blocked=blocked,
    )


MID_UK = place(53.0, -2.0, "Europe/London")
LISBON = place(38.7, -9.1, "Europe/Lisbon")
TROMSO = place(69.65, 18.96, "Europe/Oslo")


def body_on(site: Site, body: Body, day: date) -> BodyNight:
    return compute_night(site, day, targets=[body]).of(body)


def above_30_in_the_dark(site: Site, body: Body, day: date) -> timedelta:
    windows = body_on(site, body, day).windows
    return sum((w.end - w.start for w in windows if w.grade is not Grade.LOW), timedelta())


def test_mars_of_2018_comes_back_in_december() -> None:
    better = better_evening(MID_UK, Body.MARS, date(2018, 7, 27))

    assert better is not None
    assert better.is_good
    assert above_30_in_the_dark(MID_UK, Body.MARS, better.day) >= HALF_AN_HOUR
    for days in (1, 3, 10, 60, 120):
        before = better.day - timedelta(days=days)
        assert above_30_in_the_dark(MID_UK, Body.MARS, before) < HALF_AN_HOUR, before
    # PyEphem: that evening Mars passes the meridian above 30 degrees, a fortnight earlier under it.
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.pressure = "53", "-2", 0
    heights = []
    for day in (better.day, better.day - timedelta(days=14)):
        observer.date = f"{day} 12:00"
        observer.date = observer.next_transit(ephem.Mars())
        heights.append(np.degrees(float(ephem.Mars(observer).alt)))
    assert heights[0] > 30.0 > heights[1]


@settings(max_examples=20, deadline=None)
@given(
    latitude_deg=st.floats(-70.0, 70.0),
    longitude_deg=st.floats(-180.0, 180.0),
    evening=st.dates(date(2000, 1, 1), date(2040, 1, 1)),
    body=st.sampled_from(TARGETS),
)
def test_the_evening_is_good_and_the_one_before_is_not(
    latitude_deg: float, longitude_deg: float, evening: date, body: Body
) -> None:
    site = place(latitude_deg, longitude_deg)
    better = better_evening(site, body, evening)

    if better is None:
        return
    assert evening < better.day <= evening + timedelta(days=730)
    seen = above_30_in_the_dark(site, body, better.day)
    assert (seen >= HALF_AN_HOUR - timedelta(seconds=5)) == better.is_good
    before = better.day - timedelta(days=1)
    if better.is_good and before > evening:
        assert above_30_in_the_dark(site, body, before) < HALF_AN_HOUR + timedelta(seconds=5)


def test_blocked_sky_puts_it_off() -> None:
    roofed = place(
        38.7,
        -9.1,
        "Europe/Lisbon",
        BlockedSky(azimuth_from_deg=60, azimuth_to_deg=200, below_altitude_deg=70),
    )
    open_sky, behind_roof = (better_evening(site, Body.SATURN, date(2027, 5, 1)) for site in (LISBON, roofed))

    assert open_sky is not None
    assert behind_roof is not None
    assert behind_roof.is_good
    assert behind_roof.day > open_sky.day + timedelta(days=20)
    assert above_30_in_the_dark(roofed, Body.SATURN, open_sky.day) < HALF_AN_HOUR
    assert above_30_in_the_dark(roofed, Body.SATURN, behind_roof.day) >= HALF_AN_HOUR


def test_mercury_never_gets_high_but_its_next_good_evening_is_told() -> None:
    better = better_evening(LISBON, Body.MERCURY, date(2026, 12, 5))

    assert better is not None
    assert not better.is_good
    assert 10.0 < better.altitude_deg < 20.0
    # Near its greatest elongation east of 28 May (two libraries agree: tests/published/data/phenomena.csv).
    assert abs(better.day - date(2027, 5, 28)) < timedelta(days=14)


def test_where_a_planet_stays_down_there_is_none() -> None:
    # Neptune near +2 degrees of declination, from 80 degrees south: never above 8 degrees.
    assert better_evening(place(-80.0, 0.0), Body.NEPTUNE, date(2026, 12, 5)) is None


def test_neighbouring_evenings_agree() -> None:
    first = better_evening(MID_UK, Body.MARS, date(2018, 7, 27))

    assert first is not None
    assert better_evening(MID_UK, Body.MARS, first.day - timedelta(days=1)) == first
    after = better_evening(MID_UK, Body.MARS, first.day)
    assert after is not None
    assert after.day == first.day + timedelta(days=1)


@pytest.mark.parametrize("site", [TROMSO, place(-13.8, -171.8, "Pacific/Apia")], ids=["Tromso", "Apia"])
def test_a_search_goes_through_polar_days_and_skipped_dates(site: Site) -> None:
    better = better_evening(site, Body.JUPITER, date(2011, 5, 1))

    assert better is not None
    assert above_30_in_the_dark(site, Body.JUPITER, better.day) >= HALF_AN_HOUR


def test_the_search_ends_with_the_planet_tables() -> None:
    _, last = usable_dates()

    assert better_evening(LISBON, Body.SATURN, last) is None
    found = better_evening(LISBON, Body.MERCURY, last - timedelta(days=40))
    assert found is None or found.day <= last
