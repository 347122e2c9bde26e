"""When another evening will be better: the sentence of each case, at a free and at an obstructed site."""

from datetime import date, timedelta

import pytest
from attrs import evolve

from core.sky.bodies import Body
from core.sky.ephemeris import usable_dates
from core.sky.site import Site
from core.tonight.prospect import Prospect
from core.words.better import better_sentence
from core.year.better import Better, FineEvening
from tests.core.evenings import BEHIND_ROOF, GOOD, LISBON, night

# The planet tables end on 23 September 2053, so that two years are not to be looked through from there.
LATE = usable_dates()[1] - timedelta(days=100)
FIRST = FineEvening(day=date(2027, 6, 20), altitude_deg=29.8, diameter_arcsec=16.0)
BEST = FineEvening(day=date(2027, 10, 4), altitude_deg=57.0, diameter_arcsec=19.9)
FREE, CLEAR = "In a dark sky", "In a dark sky, clear of what blocks the view,"
IN_TIME, TO_THE_END = "within two years", "before the planet tables end (23 September 2053)"


def told(
    better: Better | None,
    site: Site = LISBON,
    *,
    planet: Body = Body.SATURN,
    evening: date = GOOD,
    offered_deg: float | None = None,
) -> str:
    known = night(site, evening)
    body = known.of(planet)
    position = None if offered_deg is None else evolve(body.highest, altitude_deg=offered_deg)
    return better_sentence(Prospect(night=known, body=body, position=position), better)


@pytest.mark.parametrize(
    ("site", "evening", "sky", "within"),
    [
        (LISBON, GOOD, FREE, IN_TIME),
        (BEHIND_ROOF, GOOD, CLEAR, IN_TIME),
        (LISBON, LATE, FREE, TO_THE_END),
        (BEHIND_ROOF, LATE, CLEAR, TO_THE_END),
    ],
)
def test_each_case_has_its_sentence_at_each_site(site: Site, evening: date, sky: str, within: str) -> None:
    def sentence(better: Better | None, offered_deg: float | None = None) -> str:
        return told(better, site, evening=evening, offered_deg=offered_deg)

    never = within.replace(" (23 September 2053)", ", on 23 September 2053")
    blocked = ", clear of what blocks the view," if site.blocked else ""
    best = f"{sky} it is best {within} on 4 October 2027: 19.9″ at 57°."

    assert sentence(None) == f"It does not get above 10° in a dark sky{blocked} {never}."
    # A height under 30° is never told as 30°.
    assert sentence(Better(first=FIRST, best=BEST)) == (
        f"{sky} it is clearly better from 20 June 2027, 16.0″ at 29°, and best {within} on 4 October 2027: "
        "19.9″ at 57°."
    )
    # What is offered is about as high as it gets this evening, to 3 degrees, or lower than that.
    no_better = Better(first=None, best=BEST, highest_deg=57.0)
    assert sentence(no_better, 54.0) == (
        f"{sky} it hardly gets better {within}: 19.9″ at 57° at most, on 4 October 2027."
    )
    assert sentence(no_better, 53.9) == best


def test_a_best_evening_that_comes_soon_after_a_better_one_is_told_alone() -> None:
    soon, later = (
        told(Better(first=FIRST, best=evolve(BEST, day=FIRST.day + timedelta(days=days))))
        for days in (10, 11)
    )

    assert soon == "In a dark sky it is best within two years on 30 June 2027: 19.9″ at 57°."
    assert "clearly better from 20 June 2027" in later
    assert "on 1 July 2027" in later


def test_without_a_place_in_the_sky_only_one_that_gets_up_is_as_high_as_it_gets() -> None:
    up, down = (told(Better(first=None, best=BEST, highest_deg=height)) for height in (50.0, None))

    assert "hardly gets better" in up
    assert "it is best within two years on" in down


@pytest.mark.parametrize(("site", "sky"), [(LISBON, FREE), (BEHIND_ROOF, CLEAR)])
def test_the_moon_is_better_within_a_month_or_shows_little_more(site: Site, sky: str) -> None:
    def moon(days: int | None) -> str:
        first = None if days is None else evolve(FIRST, day=GOOD + timedelta(days=days))
        return told(Better(first=first, best=BEST), site, planet=Body.MOON)

    assert moon(31) == f"{sky} it is better on 5 January 2027, 29° high."
    for days in (32, None):
        assert moon(days) == "Even at its best, 57° high on 4 October 2027, it shows little more."


def test_where_nights_are_light_the_first_dark_one_comes_first() -> None:
    """One that is the first dark one too needs no date of its own."""
    alone, apart = (
        told(Better(first=FIRST, best=BEST, dark_from=FIRST.day - timedelta(days=days))) for days in (0, 1)
    )

    assert alone == (
        "The sky here gets dark enough again from 20 June 2027. In a dark sky it is best within two years on "
        "4 October 2027: 19.9″ at 57°."
    )
    assert apart.startswith(
        "The sky here gets dark enough again from 19 June 2027. In a dark sky it is clearly better from "
        "20 June 2027, 16.0″ at 29°, and best"
    )


def test_the_year_of_the_evening_itself_is_left_out() -> None:
    this_year = evolve(BEST, day=date(2026, 12, 30))

    assert told(Better(first=None, best=this_year)).endswith(" on 30 December: 19.9″ at 57°.")
    soon = evolve(FIRST, day=date(2026, 12, 20))
    told_of = told(Better(first=soon, best=BEST, dark_from=date(2026, 12, 18)))
    assert told_of.startswith("The sky here gets dark enough again from 18 December. ")
    assert "it is clearly better from 20 December, 16.0″" in told_of
