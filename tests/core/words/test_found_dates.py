"""The evenings that fit a wish: their count, the hours and the Moon asked for, and what to ask less of."""

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve

from core.moments.hours import Hour, HoursOut, Twilight
from core.sky.bodies import Body
from core.sky.site import Site
from core.sky.spans import Span
from core.sky.track import Position
from core.words.found_dates import day_words, found_cautions, found_sentence, hour_text, seen_words
from core.words.site_clock import SiteClock
from core.year.dates import DateWishes, FoundDate, FoundDates, HeightWish, WishSeen

SITE = Site(name="Yard", latitude_deg=38.72, longitude_deg=-9.14, time_zone="Europe/Lisbon")
CLOCK = SiteClock(zone=ZoneInfo("Europe/Lisbon"))  # on winter's UTC
# Nobody has said any hours: dusk to 23:30.
ASSUMED: tuple[Hour, Hour] = (Twilight.DUSK, time(23, 30))
USUAL: tuple[Hour, Hour] = (time(20, 0), time(22, 15))
HIGH = HeightWish(body=Body.SATURN, above_deg=35.0)
WISHES = DateWishes(heights=(HIGH,))


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2027, 1, day, hour, minute, tzinfo=UTC)


SEEN = WishSeen(
    body=Body.SATURN,
    spans=(Span(start=at(6, 19), end=at(6, 19, 40)),),
    highest=Position(
        time=at(6, 19),
        altitude_deg=41.6,
        azimuth_deg=200.0,
        apparent_altitude_deg=41.6,
        path=1.5,
        declination_deg=4.0,
    ),
)
EVENING = FoundDate(
    evening=date(2027, 1, 6),
    hours=HoursOut(start=at(6, 18), end=at(6, 22), assumed=False),
    moon_lit=0.013,
    seen=(SEEN,),
)


def told(count: int, wishes: DateWishes = WISHES, usual: tuple[Hour, Hour] = USUAL) -> str:
    found = FoundDates(wishes=wishes, evenings=(EVENING,) * count, searched_to=date(2034, 12, 3))
    return found_sentence(found, SITE, usual=usual, clock=CLOCK)


@pytest.mark.parametrize(
    ("count", "figure", "until"),
    [
        (10, "ten evenings", False),
        (9, "9 evenings", True),
        (2, "2 evenings", True),
        (1, "one evening ", True),
    ],
)
def test_how_many_were_found_and_how_far_was_looked_where_that_is_fewer_than_ten(
    count: int, figure: str, until: bool
) -> None:
    words = told(count)

    assert figure in words
    assert ("3 December 2034" in words) is until
    assert ("Only" in words) is until
    assert all(part in words for part in ("Yard", "Saturn", "35°"))


@pytest.mark.parametrize(
    ("above_deg", "moon_percent", "height", "moon"),
    [
        (35.0, (0.0, 25.0), True, True),
        (35.0, None, True, False),
        (11.0, None, True, False),
        (10.0, (0.0, 25.0), False, True),
        (10.0, None, False, False),
    ],
)
def test_of_none_only_what_can_be_less_is_to_be_asked_less_of(
    above_deg: float, moon_percent: tuple[float, float] | None, height: bool, moon: bool
) -> None:
    """Nothing under 10 degrees can be asked for."""
    wish = evolve(HIGH, above_deg=above_deg)
    words = told(0, DateWishes(heights=(wish,), moon_percent=moon_percent))

    assert "other hours" in words
    assert ("less height" in words, "another Moon" in words) == (height, moon)
    assert ("Moon lit" in words) is moon
    assert "3 December 2034" in words
    assert "0 evenings" not in words


def test_of_two_bodies_one_that_could_be_lower_is_enough() -> None:
    lowest = HeightWish(body=Body.MERCURY, above_deg=10.0)
    words = told(0, DateWishes(heights=(lowest, HIGH)))

    assert "less height" in words
    assert all(part in words for part in ("Mercury above 10°", "Saturn above 35°", " and "))


@pytest.mark.parametrize(
    ("start", "end", "usual", "hours", "kind"),
    [
        (None, None, USUAL, ("20:00", "22:15"), "usual"),
        (None, None, ASSUMED, ("23:30",), "assumed"),
        (time(21, 0), None, USUAL, ("21:00", "22:15"), ""),
        (None, time(23, 0), USUAL, ("20:00", "23:00"), ""),
        (time(21, 0), time(1, 30), ASSUMED, ("21:00", "01:30"), ""),
    ],
)
def test_the_hours_are_those_asked_for_else_the_usual_ones(
    start: Hour | None, end: Hour | None, usual: tuple[Hour, Hour], hours: tuple[str, ...], kind: str
) -> None:
    words = told(3, evolve(WISHES, start=start, end=end), usual)

    assert [hour for hour in hours if hour not in words] == []
    assert [each for each in ("usual", "assumed") if each in words] == ([kind] if kind else [])


def test_the_moon_is_told_as_it_was_asked_for() -> None:
    words = told(3, evolve(WISHES, moon_percent=(5.0, 25.0)))

    assert words.index("5 to 25%") > words.index("Saturn")
    assert "Moon" not in told(3)


@pytest.mark.parametrize(
    ("bodies", "end", "usual", "mercury", "dawn"),
    [
        ((Body.SATURN,), None, USUAL, False, False),
        ((Body.SATURN, Body.MERCURY), None, USUAL, True, False),
        ((Body.SATURN,), Twilight.DAWN, USUAL, False, True),
        ((Body.MERCURY,), None, (Twilight.DUSK, Twilight.DAWN), True, True),
        ((Body.SATURN,), time(1, 0), (Twilight.DUSK, Twilight.DAWN), False, False),
    ],
)
def test_words_of_safety_for_mercury_and_for_the_dawn(
    bodies: tuple[Body, ...],
    end: Hour | None,
    usual: tuple[Hour, Hour],
    mercury: bool,
    dawn: bool,
) -> None:
    heights = tuple(HeightWish(body=body, above_deg=20.0) for body in bodies)
    found = FoundDates(
        wishes=DateWishes(heights=heights, end=end), evenings=(), searched_to=date(2034, 12, 3)
    )
    cautions = found_cautions(found, usual=usual)

    assert len(cautions) == mercury + dawn
    assert any("Mercury" in caution for caution in cautions) is mercury
    assert any("sunrise" in caution.lower() and "Mercury" not in caution for caution in cautions) is dawn


def test_an_evening_has_its_date_and_its_moon() -> None:
    # 6 January 2027 was a Wednesday (any calendar).
    assert [part in day_words(EVENING) for part in ("Wed", "6 January 2027", "1%")] == [True, True, True]


def test_when_a_body_is_as_wished_how_high_and_what_is_borne_there() -> None:
    bare, borne = seen_words(SEEN, CLOCK), seen_words(evolve(SEEN, ceiling_power=143.0), CLOCK)

    assert bare.startswith("Saturn 19:00–19:40")
    assert bare.endswith("42°")
    # A rule of thumb knows 143x as 140x.
    assert borne.startswith(bare)
    assert "140x" in borne
    twice = evolve(SEEN, spans=(*SEEN.spans, Span(start=at(6, 21), end=at(6, 22, 5))))
    assert "19:00–19:40 and 21:00–22:05" in seen_words(twice, CLOCK)


def test_an_hour_is_one_of_the_clock_or_the_word_for_the_twilight() -> None:
    assert hour_text(time(23, 5), CLOCK) == "23:05"
    assert hour_text(time(23, 5), evolve(CLOCK, hours=12)) == "11:05 pm"
    assert [hour_text(hour, CLOCK) for hour in Twilight] == ["dusk", "dawn"]
