"""Towns are found offline by any of their names, and any point on Earth has its zone."""

import numpy as np
import pytest
from timezonefinder import TimezoneFinder

from core.sky.places import only_match, search_places, zone_at
from core.sky.zones import zone_names


@pytest.mark.parametrize(
    ("text", "label", "zone"),
    [
        ("Porto", "Porto, Portugal", "Europe/Lisbon"),
        ("münchen", "Munich, Germany", "Europe/Berlin"),
        ("munchen", "Munich, Germany", "Europe/Berlin"),
        ("TROMSO", "Tromsø, Norway", "Europe/Oslo"),
        ("Wien", "Vienna, Austria", "Europe/Vienna"),
        ("東京", "Tokyo, Japan", "Asia/Tokyo"),
        ("Москва", "Moscow, Russia", "Europe/Moscow"),
        ("القاهرة", "Cairo, Egypt", "Africa/Cairo"),
        ("दिल्ली", "Delhi, India", "Asia/Kolkata"),
        ("paris, texas", "Paris, Texas, United States", "America/Chicago"),
        ("san jose, costa", "San José, Costa Rica", "America/Costa_Rica"),
        ("l'aquila", "L'Aquila, Italy", "Europe/Rome"),
        ("kathm", "Kathmandu, Nepal", "Asia/Kathmandu"),
    ],
)
def test_a_town_is_found_by_any_of_its_names(text: str, label: str, zone: str) -> None:
    found = search_places(text)

    assert (found[0].label, found[0].time_zone) == (label, zone)


def test_of_two_towns_of_one_name_the_larger_comes_first() -> None:
    found = [place for place in search_places("Springfield", limit=50) if place.name == "Springfield"]

    assert len(found) > 3
    assert [place.population for place in found] == sorted((p.population for p in found), reverse=True)


@pytest.mark.parametrize("text", ["", "   ", "?!", "qqqqqq"])
def test_what_fits_no_town_gives_none(text: str) -> None:
    assert search_places(text) == ()


def test_at_least_25000_towns_are_there_and_each_has_a_known_zone() -> None:
    # Every town of GeoNames has a name that begins with one of these, in Latin letters or in its own.
    towns = {
        place for letter in "abcdefghijklmnopqrstuvwxyz" for place in search_places(letter, limit=50_000)
    }

    assert len(towns) > 25_000
    assert {town.time_zone for town in towns} <= set(zone_names())


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "zone"),
    [
        (41.15, -8.61, "Europe/Lisbon"),
        (41.15, 351.39, "Europe/Lisbon"),
        (27.7, 85.3, "Asia/Kathmandu"),
        (-13.83, -171.77, "Pacific/Apia"),
        (0.0, -150.0, "Etc/GMT+10"),
    ],
)
def test_any_coordinates_have_their_zone(latitude_deg: float, longitude_deg: float, zone: str) -> None:
    assert zone_at(latitude_deg, longitude_deg) == zone


# Where two clocks are kept side by side both answers are right (tz database, comments on Asia/Urumqi).
BOTH_ARE_KEPT = {"Asia/Urumqi": "Asia/Shanghai"}
# Its polygon in timezonefinder reaches far over open sea, so its points are no random points on land.
MOSTLY_SEA = "Pacific/Easter"


def test_zones_of_random_points_on_land_agree_with_another_source() -> None:
    # Independent source: timezonefinder, whose borders are not simplified. Points within 20 km of another
    # zone, told by eight points around, are left out; so is the sea.
    finder = TimezoneFinder(in_memory=False)
    random = np.random.default_rng(20261205)
    agreed = asked = 0
    while asked < 2000:
        latitude_deg = float(np.degrees(np.arcsin(random.uniform(-0.94, 0.97))))
        longitude_deg = float(random.uniform(-180, 180))
        expected = finder.timezone_at_land(lat=latitude_deg, lng=longitude_deg)
        if expected in (None, MOSTLY_SEA) or _is_near_a_border(finder, latitude_deg, longitude_deg, expected):
            continue
        asked += 1
        agreed += zone_at(latitude_deg, longitude_deg) in (expected, BOTH_ARE_KEPT.get(expected))

    assert agreed >= 0.995 * asked


def _is_near_a_border(finder: TimezoneFinder, latitude_deg: float, longitude_deg: float, zone: str) -> bool:
    reach_deg = 20 / 111.2
    for bearing in np.arange(0, 2 * np.pi, np.pi / 4):
        latitude = float(np.clip(latitude_deg + reach_deg * np.cos(bearing), -90, 90))
        longitude = longitude_deg + reach_deg * np.sin(bearing) / np.cos(np.radians(latitude_deg))
        longitude = float((longitude + 180) % 360 - 180)
        if finder.timezone_at(lat=latitude, lng=longitude) != zone:
            return True
    return False


def test_a_text_that_can_mean_one_town_only_is_taken_for_it() -> None:
    def meant(text: str) -> str | None:
        place = only_match(text)
        return None if place is None else place.name

    assert meant("matsum") == "Matsumoto"
    assert meant("Portland Oregon") == meant("Portland, Or") == "Portland"
    # Towns whose other names begin so do not stand in the way of the one that is called so.
    assert meant("thessaloniki") == "Thessaloníki"
    for several in ("london", "paris", "", "Nowhere at all"):
        assert meant(several) is None, several
