"""What is due: told in time, at its hour, and no longer than it is of use."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta
from functools import cache

import ephem
import pytest

from core.gear.owned import Eyepiece, Telescope, TelescopeKind
from core.moments.hours import Twilight
from core.record.observer import Profile, RedSpot
from core.situation.choices import Choices, EveningHours, EveningSteps
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import BlockedSky, Site, WarmAir
from core.words.notices_due import notice_words
from core.words.site_clock import clock_of

EVENING = date(2026, 12, 5)
PORTO = Site(
    id="porto",
    name="Porto",
    latitude_deg=41.15,
    longitude_deg=-8.61,
    time_zone="Europe/Lisbon",
    blocked=(BlockedSky(azimuth_from_deg=190, azimuth_to_deg=260, below_altitude_deg=28, what="roof ridge"),),
    warm_air=(WarmAir(azimuth_from_deg=215, azimuth_to_deg=222, below_altitude_deg=50, what="chimney"),),
)
SIX_INCH = Telescope(
    id="six", name="Six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200
)


def choices_for(planet: Body, done: frozenset[str]) -> Choices:
    hours = EveningHours(evening=EVENING, start=Twilight.DUSK, end=Twilight.DAWN)
    return Choices(
        profile=Profile(
            sites=(PORTO,),
            telescopes=(SIX_INCH,),
            eyepieces=(Eyepiece(name="25 mm", focal_length_mm=25),),
            red_spot=RedSpot(longitude_deg=70, on=date(2026, 11, 1)),
        ),
        planet=planet,
        hours=(hours,),
        steps=(EveningSteps(evening=EVENING, site_id="porto", done=done),),
    )


@cache
def told_minute_by_minute(planet: Body, done: frozenset[str] = frozenset()) -> dict[datetime, list[str]]:
    """Return what is told at each minute from 15:00 to 08:00, as the clock of a window runs."""
    start, told = datetime(2026, 12, 5, 15, 0, tzinfo=UTC), {}
    situation = None
    for number in range(17 * 60):
        now = start + timedelta(minutes=number)
        situation = Situation(choices_for(planet, done), now, before=situation)
        clock = clock_of(situation)
        assert clock is not None
        told[now] = [notice_words(notice, clock) for notice in situation.notices]
    return told


def minutes_of(words: str, planet: Body = Body.SATURN, *, done: Sequence[str] = ()) -> list[datetime]:
    """Return each minute of the evening at which a notice begins so."""
    told = told_minute_by_minute(planet, frozenset(done))
    return [minute for minute, sentences in told.items() if any(each.startswith(words) for each in sentences)]


def told_at(now: datetime, planet: Body = Body.SATURN, *, done: Sequence[str] = ()) -> list[str]:
    return told_minute_by_minute(planet, frozenset(done))[now]


def saturn_at(altitude_deg: float, *, setting: bool) -> datetime:
    """Return when Saturn crosses a geometric altitude at Porto, by XEphem's library."""
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.pressure = "41.15", "-8.61", 0
    before = None
    moment = datetime(2026, 12, 5, 17, 0, tzinfo=UTC)
    while True:
        observer.date = ephem.Date(moment.replace(tzinfo=None))
        saturn = ephem.Saturn(observer)
        height = float(saturn.alt) * 180.0 / 3.141592653589793
        if before is not None and (
            before > altitude_deg >= height if setting else before < altitude_deg <= height
        ):
            return moment
        before = height
        moment += timedelta(seconds=30)


@pytest.mark.parametrize(
    ("level_deg", "setting", "words"),
    [
        (45, False, "Saturn has risen above 45°"),
        (45, True, "Saturn has sunk below 45°"),
        (30, True, "Saturn has sunk below 30°"),
    ],
)
def test_a_crossing_is_told_for_five_minutes_from_when_it_comes(
    level_deg: float, setting: bool, words: str
) -> None:
    found = minutes_of(words)

    assert 5 <= len(found) <= 6
    assert abs(found[0] - saturn_at(level_deg, setting=setting)) <= timedelta(seconds=90)


def test_ten_minutes_before_it_goes_behind_something_or_into_warm_air() -> None:
    behind = minutes_of("Saturn goes behind blocked sky (roof ridge)")
    warm = minutes_of("Saturn is seen through warm air (chimney)")

    assert len(behind) == 10
    assert len(warm) == 10
    last = told_at(behind[-1])
    assert any("in 1 min" in words for words in last)
    # What comes between is told before all else.
    assert told_at(behind[0])[0].startswith("Saturn goes behind")


def test_the_transit_is_told_when_it_is() -> None:
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.pressure = "41.15", "-8.61", 0
    observer.date = ephem.Date("2026/12/5 15:00")
    transit = observer.next_transit(ephem.Saturn()).datetime().replace(tzinfo=UTC)
    found = minutes_of("Saturn is at its highest now")

    assert abs(found[0] - transit) <= timedelta(seconds=90)
    assert any("in the south" in words for words in told_at(found[0]))


def test_a_step_is_told_five_minutes_before_and_no_longer_once_it_is_done() -> None:
    # The Sun sets at 17:05 (a published table, from memory, within two minutes).
    told = told_minute_by_minute(Body.SATURN)
    covers = [
        minute
        for minute, sentences in told.items()
        if any(each.startswith("Due now") and "Covers off" in each for each in sentences)
    ]
    soon = [
        minute for minute in told if any("min, at" in each and "Covers off" in each for each in told[minute])
    ]
    assert len(covers) == 10
    assert len(soon) == 5
    assert covers[0] >= datetime(2026, 12, 5, 17, 5, tzinfo=UTC)
    assert not any("Covers off" in words for words in told_at(covers[0], done=["covers"]))
    assert not any("Ready" in words for minute in covers for words in told_at(minute))


def test_moons_and_the_red_spot_are_told_while_jupiter_is_in_hand() -> None:
    told = told_minute_by_minute(Body.JUPITER)
    sentences = {sentence for each in told.values() for sentence in each}
    moons = ("Io", "Europa", "Ganymede", "Callisto", "The red spot")
    begun = {sentence for sentence in sentences if sentence.startswith(moons)}

    for sentence in begun:
        assert len(minutes_of(sentence, Body.JUPITER)) in (5, 6)
    assert begun
    assert all(minutes_of(moon) == [] for moon in moons)


def test_near_sunrise_only_the_answer_speaks() -> None:
    # Sunrise at Porto on 6 December 2026: 07:44 UT (a published table, from memory, within two minutes).
    assert told_at(datetime(2026, 12, 6, 7, 25, tzinfo=UTC)) == []
    assert told_at(datetime(2026, 12, 6, 7, 40, tzinfo=UTC)) == []


def test_on_an_evening_that_is_looked_at_ahead_nothing_is_due() -> None:
    choices = Choices(profile=Profile(sites=(PORTO,), telescopes=(SIX_INCH,)), evening=date(2026, 12, 8))
    assert Situation(choices, datetime(2026, 12, 5, 19, 0, tzinfo=UTC)).notices == ()
