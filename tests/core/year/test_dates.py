"""The next evenings that fit, against one evening after the other looked at by itself."""

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta

import ephem
import pytest
from attrs import evolve

from core.moments.best_minutes import offered_windows, within
from core.moments.hours import USUAL_FROM, USUAL_UNTIL, Dusks, Hour, Twilight, hours_out, typed_hours
from core.problems import ProblemsError
from core.sky.bodies import Body
from core.sky.ephemeris import EphemerisRangeError, usable_dates
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site
from core.year.dates import DateWishes, FoundDates, HeightWish, find_dates, usual_height_deg
from tests.core.evenings import LISBON, SCOTLAND, SOUTH_40, TROMSO

USUAL: tuple[Hour, Hour] = (USUAL_FROM, USUAL_UNTIL)
FIRST = date(2026, 12, 5)
ROOFED = evolve(
    LISBON, blocked=(BlockedSky(azimuth_from_deg=90, azimuth_to_deg=200, below_altitude_deg=45, what="roof"),)
)
SATURN_30 = HeightWish(body=Body.SATURN, above_deg=30)
JUPITER_40 = HeightWish(body=Body.JUPITER, above_deg=40)
MARS_30 = HeightWish(body=Body.MARS, above_deg=30)
VENUS_20 = HeightWish(body=Body.VENUS, above_deg=20)


def wanted(*heights: HeightWish, **more: object) -> DateWishes:
    return DateWishes(heights=heights, **more)  # type: ignore[arg-type]


def longest_minutes(night: Night, wish: HeightWish, start: datetime, end: datetime) -> float:
    """Return the longest run in which a body is as wished, minute by minute along its track."""
    windows = within(offered_windows(night, wish.body), start, end)
    track = night.of(wish.body).track
    longest = run = 0
    for unix_s, altitude_deg in zip(track.unix_s, track.altitude_deg, strict=True):
        fits = altitude_deg >= wish.above_deg and any(
            window.start.timestamp() <= unix_s < window.end.timestamp() for window in windows
        )
        run = run + 1 if fits else 0
        longest = max(longest, run)
    return float(longest)


def looked_through(
    site: Site, wishes: DateWishes, first: date, days: int
) -> Iterator[tuple[date, bool | None]]:
    """Yield evenings with whether they fit; None where that hangs on a minute."""
    for number in range(days):
        evening = first + timedelta(days=number)
        night = compute_night(site, evening)
        dusks = Dusks.of(night)
        if wishes.start is None and wishes.end is None:
            hours = hours_out(dusks)
        else:
            try:
                hours = typed_hours(dusks, start=wishes.start or Twilight.DUSK, end=wishes.end or USUAL_UNTIL)
            except ProblemsError:
                yield evening, False
                continue
        longest = [longest_minutes(night, wish, hours.start, hours.end) for wish in wishes.heights]
        yield evening, None if any(abs(each - 20) <= 1.5 for each in longest) else min(longest) > 20


@pytest.mark.parametrize(
    ("site", "wishes", "first"),
    [
        (LISBON, wanted(SATURN_30), FIRST),
        (LISBON, wanted(SATURN_30, JUPITER_40), FIRST),
        (ROOFED, wanted(JUPITER_40), FIRST),
        (SOUTH_40, wanted(MARS_30, start=time(21), end=time(2, 30)), date(2027, 1, 10)),
        (SCOTLAND, wanted(JUPITER_40, end=time(21)), date(2027, 2, 20)),
        (LISBON, wanted(VENUS_20, end=Twilight.DAWN), date(2026, 9, 1)),
    ],
)
def test_what_is_found_is_what_each_evening_says(site: Site, wishes: DateWishes, first: date) -> None:
    found = find_dates(site, wishes, first, usual=USUAL)

    evenings = [each.evening for each in found.evenings]
    assert len(evenings) == 10
    days = (evenings[-1] - first).days + 1
    for evening, fits in looked_through(site, wishes, first, min(days, 130)):
        assert fits is None or (evening in evenings) is fits, evening


def test_spans_and_heights_of_an_evening() -> None:
    (first, *_) = find_dates(LISBON, wanted(SATURN_30, JUPITER_40, end=time(3)), FIRST, usual=USUAL).evenings

    saturn, jupiter = first.seen
    night = compute_night(LISBON, first.evening)
    for seen, above_deg in ((saturn, 30.0), (jupiter, 40.0)):
        for span in seen.spans:
            assert first.hours.start <= span.start < span.end <= first.hours.end
            assert span.end - span.start >= timedelta(minutes=20)
            for edge in (span.start, span.end):
                assert night.position(seen.body, edge).altitude_deg > above_deg - 0.01
        assert any(span.start <= seen.highest.time <= span.end for span in seen.spans)
    # Saturn crosses the meridian soon after dusk, Jupiter climbs until the end.
    assert saturn.highest.altitude_deg == pytest.approx(night.of(Body.SATURN).highest.altitude_deg, abs=0.01)
    assert jupiter.highest.time == jupiter.spans[-1].end


def test_nothing_after_the_stop_line() -> None:
    # Venus is up at sunrise in December 2026, and these hours go on until it is day.
    morning = wanted(VENUS_20, start=time(4), end=time(9))
    (first, *_) = find_dates(LISBON, morning, FIRST, usual=USUAL).evenings
    sunrise = compute_night(LISBON, first.evening).sun.rise

    assert sunrise is not None
    (venus,) = first.seen
    assert first.hours.end > sunrise
    assert abs(sunrise - timedelta(minutes=10) - venus.spans[-1].end) < timedelta(seconds=1)


def test_the_moon_is_as_wished_by_pyephem() -> None:
    found = find_dates(LISBON, wanted(SATURN_30, moon_percent=(0.0, 25.0)), FIRST, usual=USUAL)

    for evening in found.evenings:
        middle = evening.hours.start + (evening.hours.end - evening.hours.start) / 2
        moon = ephem.Moon(middle.replace(tzinfo=None))
        assert 100 * evening.moon_lit == pytest.approx(moon.phase, abs=0.7)
        assert moon.phase < 26
    # From new Moon on 9 December 2026 back and on (Espenak's tables, from memory), some five days each way.
    assert [each.evening for each in found.evenings[:3]] == [date(2026, 12, day) for day in (5, 6, 7)]
    every = find_dates(LISBON, wanted(SATURN_30), FIRST, usual=USUAL)
    assert len(every.evenings) == 10
    assert every.searched_to == FIRST + timedelta(days=9)


def test_none_fits_and_every_block_is_told() -> None:
    told: list[tuple[int, int]] = []
    # From 69.6 degrees north Neptune at +2 or so is never above 60 degrees.
    high = HeightWish(body=Body.NEPTUNE, above_deg=60)

    found = find_dates(TROMSO, wanted(high), FIRST, usual=USUAL, progress=lambda *step: told.append(step))

    assert found == FoundDates(wishes=wanted(high), evenings=(), searched_to=date(2034, 12, 5))
    assert told[0][0] == 0
    assert told[-1][0] == told[-1][1]
    assert [done for done, _ in told] == sorted(done for done, _ in told)


def test_the_work_stops_when_it_is_told_to() -> None:
    class StopError(Exception):
        pass

    def stop(done: int, _steps: int) -> None:
        if done == 2:
            raise StopError

    high = HeightWish(body=Body.NEPTUNE, above_deg=60)
    with pytest.raises(StopError):
        find_dates(TROMSO, wanted(high), FIRST, usual=USUAL, progress=stop)


def test_a_midnight_sun_is_waited_for() -> None:
    found = find_dates(TROMSO, wanted(SATURN_30), date(2028, 6, 1), usual=(Twilight.DUSK, Twilight.DAWN))

    # At 69.6 north the Sun gets 4 degrees down again some weeks before the equinox.
    assert found.evenings[0].evening > date(2028, 8, 1)


def test_the_ends_of_the_tables_and_a_date_that_was_skipped() -> None:
    last = usable_dates()[1]
    assert find_dates(LISBON, wanted(SATURN_30), last, usual=USUAL).searched_to == last
    with pytest.raises(EphemerisRangeError):
        find_dates(LISBON, wanted(SATURN_30), last + timedelta(days=1), usual=USUAL)
    # Samoa had no 30 December 2011.
    samoa = Site(name="Apia", latitude_deg=-13.83, longitude_deg=-171.75, time_zone="Pacific/Apia")
    jupiter = wanted(HeightWish(body=Body.JUPITER, above_deg=30))
    evenings = [each.evening for each in find_dates(samoa, jupiter, date(2011, 12, 26), usual=USUAL).evenings]
    assert date(2011, 12, 29) in evenings
    assert date(2011, 12, 30) not in evenings
    assert date(2011, 12, 31) in evenings
    with pytest.raises(ProblemsError):
        find_dates(samoa, jupiter, date(2011, 12, 30), usual=USUAL)


def test_usual_heights() -> None:
    assert usual_height_deg(Body.SATURN) == 30
    assert usual_height_deg(Body.MERCURY) == 10
    # By theory at most 28 degrees from the Sun, which is 4 down: Mercury is never at 30.
    found = find_dates(SOUTH_40, wanted(HeightWish(body=Body.MERCURY, above_deg=30)), FIRST, usual=USUAL)
    assert found.evenings == ()
    low = wanted(HeightWish(body=Body.MERCURY, above_deg=10))
    assert len(find_dates(SOUTH_40, low, FIRST, usual=USUAL).evenings) == 10
