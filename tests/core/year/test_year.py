"""A planet's year as words."""

from collections.abc import Sequence
from datetime import UTC, date, datetime

import pytest
from attrs import evolve

from core.sky.bodies import Body
from core.sky.night import compute_night
from core.words.site_clock import SiteClock
from core.words.sizes import disc_size_text
from core.words.year import best_weeks_text, cautions, evening_text, phenomena_lines
from core.year.best_weeks import BestWeeks
from core.year.phenomena import Aspect, Phenomenon
from core.year.year import Year
from tests.core.year.years import GOOD, LISBON, TROMSO, year


def number_of(day: date) -> int:
    return (day - GOOD).days


def with_best(*stretches: tuple[date, date], above_deg: float | None = 45.0) -> Year:
    """Return Saturn's year with other best weeks; highest and largest on one evening."""
    best = BestWeeks(
        above_deg=above_deg,
        stretches=tuple((number_of(first), number_of(last)) for first, last in stretches),
        sharpest=number_of(date(2027, 10, 4)),
        highest=number_of(date(2027, 10, 4)),
        largest=number_of(date(2027, 10, 4)),
    )
    return evolve(year(Body.SATURN), best=best)


# --- Words -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("stretches", "words"),
    [
        ([(date(2027, 7, 18), date(2027, 11, 3))], "from mid-July 2027 to early November"),
        ([(date(2026, 12, 21), date(2027, 1, 31))], "from late December 2026 to late January 2027"),
        ([(GOOD, date(2027, 1, 10))], "until early January 2027"),
        ([(date(2027, 8, 11), date(2027, 12, 4))], "from mid-August 2027 on"),
        ([(GOOD, date(2027, 12, 4))], "all year"),
        ([(date(2027, 3, 21), date(2027, 3, 31))], "in late March 2027"),
        (
            [
                (GOOD, date(2027, 1, 10)),
                (date(2027, 3, 1), date(2027, 3, 9)),
                (date(2027, 8, 1), date(2027, 9, 1)),
            ],
            "until early January 2027, in early March and from early August to early September",
        ),
    ],
)
def test_weeks_are_told_by_parts_of_months(stretches: Sequence[tuple[date, date]], words: str) -> None:
    text = best_weeks_text(with_best(*stretches))

    assert text.startswith(f"Saturn is best {words}, above 45° in a dark sky, clear of what blocks the view.")


def test_highest_and_largest_are_told_with_their_dates() -> None:
    text = best_weeks_text(year(Body.MARS))

    # Opposition 19 February 2027; 13.8 arcsec then (both of two libraries, tests/published).
    assert "above 45° in a dark sky" in text
    assert "largest around 19 February, 13.8″." in text or "largest around 20 February, 13.8″." in text


def test_one_evening_that_is_both_is_told_once() -> None:
    text = best_weeks_text(with_best((date(2027, 9, 1), date(2027, 11, 1))))

    assert "Highest and largest around 4 October: " in text


def test_a_planet_that_stays_low_is_not_praised() -> None:
    text = best_weeks_text(year(Body.MERCURY))

    assert text.startswith(
        "Mercury stays under 30° in a dark sky, clear of what blocks the view; it is best "
    )


def test_a_planet_that_cannot_be_seen_is_said_to_be_so() -> None:
    # From 69.65 north Mercury never leaves the twilight in that year.
    assert best_weeks_text(year(Body.MERCURY, TROMSO)) == (
        "Mercury is never above 10° in a dark sky in these twelve months."
    )


def test_the_moon_comes_round_every_month() -> None:
    assert best_weeks_text(year(Body.MOON)).startswith("The Moon comes round every month. Highest around ")


def test_what_a_planet_does_is_told_kind_by_kind() -> None:
    lines = list(phenomena_lines(year(Body.VENUS)))

    # Of two libraries: tests/published/data/phenomena.csv.
    assert lines == [
        "greatest elongation west on 3 January 2027 (47° from the Sun)",
        "superior conjunction on 12 August 2027",
    ]


def test_an_evening_is_told_in_one_sentence() -> None:
    told = year(Body.MARS)
    clock = SiteClock(zone=LISBON.zone)
    night = compute_night(LISBON, GOOD).of(Body.MARS)
    day = number_of(date(2027, 2, 19))

    words = evening_text(told, 0, clock)
    assert words.startswith(
        f"Sat 5 December 2026: Mars up to {night.highest.altitude_deg:.0f}° in the dark, at "
    )
    assert f"at {clock.time(night.highest.time)}; " in words
    assert words.endswith(f"h above 45°; {night.diameter_arcsec:.1f}″.")
    assert evening_text(told, day, clock).endswith("; 13.8″; opposition.")


def test_an_evening_without_a_view_says_so() -> None:
    told = year(Body.MERCURY, TROMSO)

    assert evening_text(told, number_of(date(2027, 6, 21)), SiteClock(zone=TROMSO.zone)).startswith(
        "Mon 21 June 2027: the sky does not get dark enough; "
    )


def test_the_date_of_an_event_is_the_site_clocks() -> None:
    late = Phenomenon(
        body=Body.SATURN,
        aspect=Aspect.OPPOSITION,
        time=datetime(2027, 10, 17, 23, 30, tzinfo=UTC),
        elongation_deg=178.0,
    )

    # Summer time in Lisbon: half past midnight of the 18th.
    assert list(phenomena_lines(evolve(year(Body.SATURN), phenomena=(late,)))) == [
        "opposition on 18 October 2027"
    ]


@pytest.mark.parametrize(
    ("arcsec", "text"), [(3.74, "3.7″"), (19.96, "20.0″"), (44.6, "45″"), (2009.0, "33.5′")]
)
def test_sizes_are_rounded_as_far_as_they_matter(arcsec: float, text: str) -> None:
    assert disc_size_text(arcsec) == text


def test_mercury_s_year_carries_a_caution_about_the_sun() -> None:
    first, second = cautions(year(Body.MERCURY))

    assert "only while all of the Sun is below the horizon" in first
    # tests/published/data/phenomena.csv
    assert second == (
        "Mercury stands beside the Sun around its inferior conjunction, on 18 February 2027, 23 June "
        "and 19 October: do not look for it then. "
        "Sunlight through any optics blinds at once."
    )


def test_venus_carries_a_caution_only_in_a_year_with_an_inferior_conjunction() -> None:
    # On 24 October 2026 (tests/published/data/phenomena.csv), and not again before June 2028.
    (words,) = cautions(year(Body.VENUS, LISBON, date(2026, 10, 1)))

    assert words == (
        "Venus stands beside the Sun around its inferior conjunction, on 24 October 2026: do not look for it "
        "then. Sunlight through any optics blinds at once."
    )
    assert cautions(year(Body.VENUS)) == ()


@pytest.mark.parametrize("body", [Body.MARS, Body.SATURN, Body.MOON])
def test_no_other_year_is_cautioned(body: Body) -> None:
    assert cautions(year(body)) == ()
