"""New and full Moon by another library, and the edges of a search for phenomena."""

import math
from datetime import UTC, datetime, timedelta

import ephem
import pytest

from core.sky.bodies import Body
from core.sky.ephemeris import EphemerisRangeError
from core.year.phenomena import Aspect, find_phenomena

START, END = datetime(2027, 1, 1, tzinfo=UTC), datetime(2028, 1, 1, tzinfo=UTC)


def test_new_and_full_moon_are_those_of_pyephem() -> None:
    found = find_phenomena(Body.MOON, START, END)

    expected = []
    for aspect, search in (
        (Aspect.NEW_MOON, ephem.next_new_moon),
        (Aspect.FULL_MOON, ephem.next_full_moon),
    ):
        time = search(START.replace(tzinfo=None))
        while time < ephem.Date(END.replace(tzinfo=None)):
            expected.append((time.datetime().replace(tzinfo=UTC), aspect))
            time = search(time)
    expected.sort()
    assert [each.aspect for each in found] == [aspect for _, aspect in expected]
    for each, (time, _) in zip(found, expected, strict=True):
        assert abs(each.time - time) <= timedelta(minutes=1)


def test_a_search_takes_its_first_moment_and_not_its_last() -> None:
    (opposition,) = find_phenomena(Body.MARS, START, END)
    time = opposition.time

    assert find_phenomena(Body.MARS, time - timedelta(seconds=1), END) == (opposition,)
    assert find_phenomena(Body.MARS, START, time - timedelta(seconds=1)) == ()


def test_at_opposition_a_planet_stands_opposite_the_sun() -> None:
    (mars,) = find_phenomena(Body.MARS, START, END)

    at = mars.time.replace(tzinfo=None)
    planet, sun = ephem.Mars(at), ephem.Sun(at)
    longitudes = [
        ephem.Ecliptic(ephem.Equatorial(body.g_ra, body.g_dec, epoch=at), epoch=at).lon
        for body in (planet, sun)
    ]
    assert abs(math.degrees(longitudes[0] - longitudes[1])) == pytest.approx(180.0, abs=0.002)
    assert mars.elongation_deg == pytest.approx(abs(math.degrees(planet.elong)), abs=0.01)


def test_outside_the_planet_tables_is_refused() -> None:
    with pytest.raises(EphemerisRangeError):
        find_phenomena(Body.VENUS, datetime(2053, 1, 1, tzinfo=UTC), datetime(2054, 1, 1, tzinfo=UTC))
