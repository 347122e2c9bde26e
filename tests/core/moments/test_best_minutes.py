"""Which minutes are the best: clean air above 30 degrees first, long enough to climb, and safe at dawn."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from functools import cache

import pytest
from attrs import evolve

from core.moments.best_minutes import find_best_minutes, highest_within
from core.sky.bodies import Body
from core.sky.night import Night, compute_night
from core.sky.site import Site
from core.sky.windows import BlockedSpan, Grade, Window
from core.words.obstacles import then_words
from tests.core.telling import planet_of

LISBON = Site(name="Lisbon", latitude_deg=38.72, longitude_deg=-9.14, time_zone="Europe/Lisbon")


@cache
def lisbon() -> Night:
    return compute_night(LISBON, date(2026, 12, 5))


def at(hour: float) -> datetime:
    """Return a moment so many hours after the evening's noon."""
    return lisbon().start + timedelta(hours=hour)


def window(start: float, end: float, grade: Grade, warm_air: str | None = None) -> Window:
    return Window(start=at(start), end=at(end), grade=grade, warm_air=warm_air)


def with_windows(*windows: Window, blocked: Sequence[BlockedSpan] = ()) -> Night:
    """Return the evening with nothing but these windows, for Saturn."""
    saturn = evolve(lisbon().of(Body.SATURN), windows=windows, blocked=tuple(blocked))
    others = [evolve(body, windows=()) for body in lisbon().bodies if body.body is not Body.SATURN]
    return evolve(lisbon(), bodies=(*others, saturn))


@pytest.mark.parametrize(
    ("windows", "start", "end"),
    [
        # The higher grade goes first, even when it is shorter.
        ([window(6, 8, Grade.FAIR), window(8, 9, Grade.BEST), window(9, 11, Grade.FAIR)], 8, 9),
        # Clean air at 35 degrees goes before warm air at 50.
        ([window(6, 7, Grade.BEST, "roof"), window(7, 7.5, Grade.FAIR)], 7, 7.5),
        # Warm air above 30 degrees goes before clean air below it.
        ([window(6, 7, Grade.FAIR, "roof"), window(7, 9, Grade.LOW)], 6, 7),
        # Two minutes above 45 degrees are not worth a start of their own.
        ([window(6, 8, Grade.FAIR), window(8, 8.03, Grade.BEST), window(8.03, 10, Grade.FAIR)], 6, 10),
        # Of two runs alike the longer.
        ([window(6, 7, Grade.BEST), window(8, 10, Grade.BEST)], 8, 10),
        # Whatever there is, when there is no more.
        ([window(6, 6.1, Grade.LOW)], 6, 6.1),
    ],
)
def test_the_best_run_of_windows(windows: list[Window], start: float, end: float) -> None:
    best = find_best_minutes(with_windows(*windows), Body.SATURN)

    assert best is not None
    assert (best.start, best.end) == (at(start), at(end))


def test_only_what_is_still_to_come_counts() -> None:
    evening = with_windows(window(6, 8, Grade.BEST), window(8, 9, Grade.FAIR))

    later = find_best_minutes(evening, Body.SATURN, since=at(7.9))
    assert later is not None
    # Six minutes above 45 degrees are too few alone.
    assert (later.start, later.end) == (at(7.9), at(9))
    assert find_best_minutes(evening, Body.SATURN, since=at(9)) is None


def test_what_begins_at_the_end_is_named() -> None:
    warm = with_windows(window(6, 7, Grade.BEST), window(7, 8, Grade.BEST, "chimney"))
    hidden = with_windows(
        window(6, 7, Grade.BEST), blocked=[BlockedSpan(start=at(7), end=at(8), what="blocked sky")]
    )
    sinking = with_windows(window(6, 7, Grade.BEST), window(7, 8, Grade.FAIR))

    ends = [find_best_minutes(evening, Body.SATURN) for evening in (warm, hidden, sinking)]

    assert [then_words(best) for best in ends if best is not None] == [
        "warm air (chimney)",
        "behind blocked sky",
        None,
    ]


def test_the_last_minutes_before_sunrise_are_left_out() -> None:
    sunrise = lisbon().sun.rise
    assert sunrise is not None
    dawn = Window(
        start=sunrise - timedelta(hours=1),
        end=sunrise - timedelta(minutes=1),
        grade=Grade.BEST,
        warm_air=None,
    )
    too_late = evolve(dawn, start=sunrise - timedelta(minutes=9))

    best = find_best_minutes(with_windows(dawn), Body.SATURN)

    assert best is not None
    assert best.end == sunrise - timedelta(minutes=10)
    assert find_best_minutes(with_windows(too_late), Body.SATURN) is None
    assert planet_of(with_windows(too_late)) is None


def test_the_highest_moment_is_the_transit_or_an_edge() -> None:
    saturn = lisbon().of(Body.SATURN)
    (transit,) = saturn.transits
    around = Window(
        start=transit.time - timedelta(hours=1),
        end=transit.time + timedelta(hours=2),
        grade=Grade.BEST,
        warm_air=None,
    )
    after = evolve(around, start=transit.time + timedelta(hours=1))

    for one, highest in ((around, transit.time), (after, after.start)):
        evening = with_windows(one)
        best = find_best_minutes(evening, Body.SATURN)
        assert best is not None
        found = highest_within(lisbon(), Body.SATURN, best)
        assert abs(found.time - highest) < timedelta(seconds=30)


def test_the_moon_is_chosen_only_when_no_planet_is_there() -> None:
    moon = evolve(lisbon().of(Body.MOON), windows=(window(6, 12, Grade.BEST),))
    without_saturn = [body for body in with_windows().bodies if body.body is not Body.MOON]

    assert planet_of(evolve(lisbon(), bodies=(*without_saturn, moon))) is Body.MOON
    planets = [body for body in with_windows(window(6, 6.5, Grade.LOW)).bodies if body.body is not Body.MOON]
    assert planet_of(evolve(lisbon(), bodies=(*planets, moon))) is Body.SATURN


def test_a_disc_goes_before_a_dot() -> None:
    # Neptune's disc was 2.3 arcsec, Jupiter's over 40 (astronomical almanacs).
    neptune = evolve(lisbon().of(Body.NEPTUNE), windows=(window(6, 14, Grade.BEST),))
    jupiter = evolve(lisbon().of(Body.JUPITER), windows=(window(14, 15, Grade.FAIR),))

    assert planet_of(evolve(lisbon(), bodies=(neptune, jupiter))) is Body.JUPITER
