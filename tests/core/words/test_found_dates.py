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


ABOVE = "Saturn above 35° for 20 minutes or more in your usual hours (20:00 to 22:15)"


@pytest.mark.parametrize(
    ("count", "words"),
    [
        (10, f"The next ten evenings at Yard with {ABOVE}."),
        (9, f"Only 9 evenings at Yard until 3 December 2034 with {ABOVE}."),
        (2, f"Only 2 evenings at Yard until 3 December 2034 with {ABOVE}."),
        (1, f"Only one evening at Yard until 3 December 2034 with {ABOVE}."),
    ],
)
def test_how_many_were_found_and_how_far_was_looked_where_that_is_fewer_than_ten(
    count: int, words: str
) -> None:
    assert told(count) == words


@pytest.mark.parametrize(
    ("above_deg", "moon_percent", "moon", "ask"),
    [
        (
            35.0,
            (0.0, 25.0),
            ", with 0 to 25% of the Moon lit",
            "for less height, for other hours or for another Moon",
        ),
        (35.0, None, "", "for less height or for other hours"),
        (11.0, None, "", "for less height or for other hours"),
        (10.0, (0.0, 25.0), ", with 0 to 25% of the Moon lit", "for other hours or for another Moon"),
        (10.0, None, "", "for other hours"),
    ],
)
def test_of_none_only_what_can_be_less_is_to_be_asked_less_of(
    above_deg: float, moon_percent: tuple[float, float] | None, moon: str, ask: str
) -> None:
    """Nothing under 10 degrees can be asked for."""
    wish = evolve(HIGH, above_deg=above_deg)

    assert told(0, DateWishes(heights=(wish,), moon_percent=moon_percent)) == (
        f"No evening at Yard until 3 December 2034 has {ABOVE.replace('35', f'{above_deg:.0f}')}{moon}. Ask "
        f"{ask}."
    )


def test_of_two_bodies_one_that_could_be_lower_is_enough() -> None:
    lowest = HeightWish(body=Body.MERCURY, above_deg=10.0)
    words = told(0, DateWishes(heights=(lowest, HIGH)))

    assert "less height" in words
    assert all(part in words for part in ("Mercury above 10°", "Saturn above 35°", " and "))


@pytest.mark.parametrize(
    ("start", "end", "usual", "hours"),
    [
        (None, None, USUAL, "in your usual hours (20:00 to 22:15)"),
        (None, None, ASSUMED, "in assumed hours (dusk to 23:30)"),
        (time(21, 0), None, USUAL, "between 21:00 and 22:15"),
        (None, time(23, 0), USUAL, "between 20:00 and 23:00"),
        (time(21, 0), time(1, 30), ASSUMED, "between 21:00 and 01:30"),
    ],
)
def test_the_hours_are_those_asked_for_else_the_usual_ones(
    start: Hour | None, end: Hour | None, usual: tuple[Hour, Hour], hours: str
) -> None:
    words = told(3, evolve(WISHES, start=start, end=end), usual)

    assert words.endswith(f" with Saturn above 35° for 20 minutes or more {hours}.")


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
    assert day_words(EVENING) == "Wed 6 January 2027, Moon 1% lit"


def test_when_a_body_is_as_wished_how_high_and_what_is_borne_there() -> None:
    bare, borne = seen_words(SEEN, CLOCK), seen_words(evolve(SEEN, ceiling_power=143.0), CLOCK)

    assert bare == "Saturn 19:00–19:40, up to 42°"
    # A rule of thumb knows 143x as 140x.
    assert borne == "Saturn 19:00–19:40, up to 42°: about 140x in usual air"
    twice = evolve(SEEN, spans=(*SEEN.spans, Span(start=at(6, 21), end=at(6, 22, 5))))
    assert "19:00–19:40 and 21:00–22:05" in seen_words(twice, CLOCK)


def test_an_hour_is_one_of_the_clock_or_the_word_for_the_twilight() -> None:
    assert hour_text(time(23, 5), CLOCK) == "23:05"
    assert hour_text(time(23, 5), evolve(CLOCK, hours=12)) == "11:05 pm"
    assert [hour_text(hour, CLOCK) for hour in Twilight] == ["dusk", "dawn"]
