"""Close pairs against PyEphem, which shares no code with the program, and against a conjunction all know."""

import math
from datetime import UTC, date, datetime, timedelta

import ephem
import pytest
from attrs import evolve

from core.export.heights import heights_json
from core.gear.combinations import combinations, highest_holding
from core.gear.owned import Eyepiece
from core.moments.best_minutes import offered_windows
from core.moments.hours import Twilight
from core.moments.pairs import ClosePair, close_pairs
from core.record.observer import Profile
from core.report.heights import heights_text
from core.situation.choices import Choices, EveningHours
from core.situation.situation import Situation
from core.sky.bodies import FACTS, Body
from core.sky.night import compute_night
from core.sky.site import Site
from core.words.answer import answer_words
from core.year.evenings import evenings_from
from core.year.outlook import compute_outlook
from core.year.pairs import close_pairs_of_year
from tests.core.evenings import LISBON, SIX, WALLED, place

OF = {Body.MOON: ephem.Moon, Body.MARS: ephem.Mars, Body.JUPITER: ephem.Jupiter, Body.SATURN: ephem.Saturn}
MARS_AND_JUPITER = date(2026, 11, 15)
MOON_AND_JUPITER = date(2027, 1, 23)
# 52 degrees of apparent field: 1.08, 0.43 and 0.26 degrees.
WIDE = tuple(Eyepiece(name=f"{mm} mm", focal_length_mm=mm, apparent_field_deg=52) for mm in (25, 10, 6))


def apart_deg(site: Site, one: Body, other: Body, time: datetime) -> float:
    """Return the angle between two bodies as PyEphem has it, from the place itself."""
    here = ephem.Observer()
    here.lat, here.lon = math.radians(site.latitude_deg), math.radians(site.longitude_deg)
    here.pressure, here.date = 0, time.replace(tzinfo=None)
    bodies = []
    for body in (one, other):
        there = OF[body]()
        there.compute(here)
        bodies.append(there)
    return math.degrees(ephem.separation((bodies[0].ra, bodies[0].dec), (bodies[1].ra, bodies[1].dec)))


def pairs(site: Site, evening: date) -> tuple[ClosePair, ...]:
    return close_pairs(compute_night(site, evening))


@pytest.mark.parametrize("evening", [MARS_AND_JUPITER, MOON_AND_JUPITER])
def test_separations_are_those_of_pyephem_and_the_least_of_the_hours(evening: date) -> None:
    (pair,) = pairs(LISBON, evening)

    assert pair.separation_deg == pytest.approx(apart_deg(LISBON, pair.a, pair.b, pair.at), abs=0.01)
    night = compute_night(LISBON, evening)
    start = max(night.of(each).windows[0].start for each in (pair.a, pair.b))
    end = min(night.of(each).windows[-1].end for each in (pair.a, pair.b)) - timedelta(minutes=12)
    for step in range(40):
        time = start + (end - start) * step / 39
        assert apart_deg(LISBON, pair.a, pair.b, time) > pair.separation_deg - 0.01


def test_the_great_conjunction_of_2020() -> None:
    # Jupiter and Saturn a tenth of a degree apart (6.1 minutes of arc), as was told everywhere.
    (pair,) = pairs(LISBON, date(2020, 12, 21))

    assert {pair.a, pair.b} == {Body.JUPITER, Body.SATURN}
    assert pair.separation_deg * 60 == pytest.approx(6.2, abs=0.3)
    # Discs of 33 and 15 arcsec, half of each.
    assert (pair.across_deg - pair.separation_deg) * 3600 == pytest.approx(24.0, abs=2.0)


def test_both_can_be_looked_at_when_a_pair_is_told() -> None:
    # Moon and Jupiter draw apart all night: they are closest as soon as the later of them is high enough.
    evening = date(2026, 11, 2)
    athens = place("Athens", 37.98, 23.73, "Europe/Athens")
    (pair,) = pairs(athens, evening)
    night = compute_night(athens, evening)

    starts = [offered_windows(night, each)[0].start for each in (pair.a, pair.b)]
    assert max(starts) - min(starts) > timedelta(minutes=2)
    assert max(starts) <= pair.at < max(starts) + timedelta(minutes=2)


def test_nothing_behind_a_wall_and_nothing_two_degrees_apart() -> None:
    assert pairs(WALLED, MARS_AND_JUPITER) == ()
    assert pairs(LISBON, date(2026, 12, 5)) == ()


def test_the_highest_power_that_holds_both_discs() -> None:
    kit = combinations(SIX, WIDE, ())
    # 25 mm on 1200 mm is 48x, 52/48 = 1.08 degrees; 10 mm 120x, 0.43 degrees.
    assert [round(each.power) for each in kit] == [48, 120, 200]

    def power(across_deg: float) -> float | None:
        found = highest_holding(kit, across_deg)
        return None if found is None else found.power

    assert power(0.40) == 120
    assert power(0.45) == 48
    assert power(1.00) == 48
    assert power(1.20) is None


def situation(evening: date, *eyepieces: Eyepiece, planet: Body | None = None) -> Situation:
    profile = Profile(sites=(evolve(LISBON, id="s"),), telescopes=(evolve(SIX, id="t"),), eyepieces=eyepieces)
    all_night = EveningHours(evening=evening, start=Twilight.DUSK, end=Twilight.DAWN)
    choices = Choices(profile=profile, evening=evening, hours=(all_night,), planet=planet)
    return Situation(choices, datetime(2020, 1, 1, tzinfo=UTC))


def test_json_report_and_answer_tell_of_a_pair_with_its_power() -> None:
    at = situation(date(2020, 12, 21), *WIDE, planet=Body.JUPITER)

    (told,) = heights_json(at)["pairs"]
    assert list(told) == ["a", "b", "separation_deg", "at", "power"]
    assert (told["a"], told["b"], told["power"]) == ("jupiter", "saturn", 200)
    assert told["at"].endswith("Z")
    held = "one field holds both up to 200x (6 mm)."
    assert held in " ".join(heights_text(at).split())
    assert answer_words(at).endswith(held)
    assert "one field" not in answer_words(situation(date(2020, 12, 21), *WIDE, planet=Body.MARS))


def test_without_a_field_known_there_is_no_power() -> None:
    at = situation(MARS_AND_JUPITER, Eyepiece(name="25 mm", focal_length_mm=25))

    assert heights_json(at)["pairs"][0]["power"] is None
    assert "Mars and Jupiter stand 1.2° apart at " in heights_text(at)
    assert "binoculars" not in heights_text(at).partition("How to find")[0]
    assert "too far for one field" in " ".join(heights_text(situation(MARS_AND_JUPITER, *WIDE)).split())


def test_a_year_tells_each_meeting_once_at_its_closest() -> None:
    (outlook,) = compute_outlook(evenings_from(LISBON, date(2026, 11, 1), 90), [Body.JUPITER])
    found = close_pairs_of_year(
        outlook, FACTS[Body.JUPITER].dark_enough_sun_altitude_deg, between=lambda: None
    )

    with_mars = [pair for pair in found if pair.a is Body.MARS]
    assert len(with_mars) == 1
    evenings = [date(2026, 11, 10) + timedelta(days=each) for each in range(12)]
    every = [pair for each in evenings for pair in pairs(LISBON, each) if pair.a is Body.MARS]
    assert with_mars[0] == min(every, key=lambda pair: pair.separation_deg)
    assert [pair.at for pair in found] == sorted(pair.at for pair in found)
    # The Moon passes some degrees from Jupiter every month, close enough in few of them.
    with_moon = [pair for pair in found if pair.b is Body.MOON]
    by_night = [
        pair
        for each in range(90)
        for pair in pairs(LISBON, date(2026, 11, 1) + timedelta(days=each))
        if {pair.a, pair.b} == {Body.JUPITER, Body.MOON}
    ]
    assert with_moon == by_night
