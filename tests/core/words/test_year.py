"""A year in sentences: which sentence each kind of year has, at a free and at an obstructed site."""

from datetime import UTC, date, datetime
from typing import Any

import numpy as np
import pytest
from attrs import evolve

from core.sky.bodies import Body
from core.sky.site import Site
from core.words.site_clock import SiteClock
from core.words.year import best_weeks_text, evening_text, light_nights_text, mark_texts, phenomena_lines
from core.words.year_notes import year_notes
from core.words.year_report import about_year_words, date_in_column, every_seventh_words
from core.year.best_weeks import BestWeeks
from core.year.mars_faces import FacingUs
from core.year.phenomena import Aspect, Phenomenon
from core.year.ring_year import RingYear
from core.year.year import Year
from tests.core.year.years import GOOD, LISBON, year

OPEN = evolve(LISBON, blocked=())
CLOCK = SiteClock(zone=LISBON.zone)
BOTH_SITES = pytest.mark.parametrize(
    ("site", "clear"), [(OPEN, ""), (LISBON, ", clear of what blocks the view")]
)
# The numbers of three evenings of the year from 5 December 2026 on.
JULY, OCTOBER, NOVEMBER = (
    (day - GOOD).days for day in (date(2027, 7, 18), date(2027, 10, 4), date(2027, 11, 3))
)
WEEKS = "from mid-July 2027 to early November"


def told(
    site: Site,
    *,
    highest: tuple[int, float] = (OCTOBER, 57.0),
    largest: tuple[int, float] = (NOVEMBER, 19.9),
    sharpest: int = OCTOBER,
    above_deg: float | None = 45.0,
    small_arcsec: float = 18.0,
) -> str:
    """Return the best weeks of a year of Saturn: 20 degrees high and 18 seconds of arc unless told else."""
    plain = year(Body.SATURN)
    altitude_deg, diameter_arcsec = np.full(len(plain.dates), 20.0), np.full(len(plain.dates), 18.0)
    diameter_arcsec[highest[0]] = small_arcsec
    altitude_deg[highest[0]], diameter_arcsec[largest[0]] = highest[1], largest[1]
    outlook = evolve(
        plain.outlook,
        evenings=evolve(plain.outlook.evenings, site=site),
        best_altitude_deg=altitude_deg,
        diameter_arcsec=diameter_arcsec,
    )
    best = BestWeeks(
        above_deg=above_deg,
        stretches=((JULY, NOVEMBER),),
        sharpest=sharpest,
        highest=highest[0],
        largest=largest[0],
    )
    return best_weeks_text(evolve(plain, outlook=outlook, best=best))


@BOTH_SITES
def test_the_best_weeks_are_told_with_the_height_that_they_bring(site: Site, clear: str) -> None:
    after = "Highest around 4 October, 57°; largest around 3 November, 19.9″."

    assert told(site) == f"Saturn is best {WEEKS}, above 45° in a dark sky{clear}. {after}"
    # 31 degrees for a few minutes only, and 29.8, which is never told as 30.
    assert told(site, above_deg=None, highest=(OCTOBER, 31.0)) == (
        f"Saturn is only briefly above 30° in a dark sky{clear}; it is best {WEEKS}. Highest around 4 "
        "October, 31°; largest around 3 November, 19.9″."
    )
    assert told(site, above_deg=None, highest=(OCTOBER, 29.8)) == (
        f"Saturn stays under 30° in a dark sky{clear}; it is best {WEEKS}. Highest around 4 October, 29°; "
        "largest around 3 November, 19.9″."
    )


@BOTH_SITES
def test_a_high_evening_with_a_small_disc_is_no_best_one(site: Site, clear: str) -> None:
    """A disc counts as much larger from a quarter more on."""
    known: dict[str, Any] = {"highest": (JULY, 57.0), "largest": (NOVEMBER, 19.9), "sharpest": NOVEMBER}
    low: dict[str, Any] = {"above_deg": None}

    assert told(site, small_arcsec=15.9, **known) == (
        f"Saturn is best {WEEKS}, above 45° in a dark sky{clear}. Highest around 18 July, 57°, but only "
        "15.9″ then; largest around 3 November, 19.9″."
    )
    assert "but only" not in told(site, small_arcsec=16.0, **known)
    assert told(site, small_arcsec=15.9, **known, **low) == (
        f"Saturn is best {WEEKS}: low, but largest, 19.9″ at 20° in a dark sky{clear}. Highest around 18 "
        "July, 57°, but only 15.9″ then."
    )
    # Where the higher one is low too, nothing is lost by it.
    both_low = told(site, small_arcsec=15.9, **(known | {"highest": (JULY, 29.9)}), **low)
    assert both_low.startswith("Saturn stays under 30°")


def test_one_evening_that_is_both_is_told_once() -> None:
    assert told(OPEN, largest=(OCTOBER, 19.9)).endswith(
        "in a dark sky. Highest and largest around 4 October: 57°, 19.9″."
    )


@BOTH_SITES
def test_a_planet_that_is_never_up_has_no_best_weeks(site: Site, clear: str) -> None:
    plain = year(Body.SATURN)
    nothing = BestWeeks(above_deg=None, stretches=(), sharpest=None, highest=None, largest=None)
    outlook = evolve(plain.outlook, evenings=evolve(plain.outlook.evenings, site=site))
    never = evolve(plain, outlook=outlook, best=nothing)

    assert best_weeks_text(never) == (
        f"Saturn is never above 10° in a dark sky{clear}{',' if clear else ''} in these twelve months."
    )
    assert list(year_notes(never, CLOCK)) == []


@pytest.mark.parametrize(
    ("dark_below_deg", "words"),
    [
        (
            -12.0,
            f"The night sky here stays too light {WEEKS}: the Sun gets less than 12° below the horizon.",
        ),
        (-0.833, f"The Sun does not set here {WEEKS}."),
    ],
)
def test_light_nights_are_said_of_the_sky(dark_below_deg: float, words: str) -> None:
    light = evolve(year(Body.SATURN), light_nights=((JULY, NOVEMBER),), dark_below_deg=dark_below_deg)

    assert light_nights_text(light) == words
    assert light_nights_text(evolve(light, light_nights=())) is None


@BOTH_SITES
def test_an_evening_in_a_sentence_tells_only_what_there_is(site: Site, clear: str) -> None:
    plain = year(Body.SATURN)

    def evening(*, best_deg: float = 52.0, hours: tuple[float, float] = (6.0, 3.5), dark: float = 9.0) -> str:
        first = np.arange(len(plain.dates)) == 0
        outlook = evolve(
            plain.outlook,
            evenings=evolve(plain.outlook.evenings, site=site),
            best_altitude_deg=np.where(first, best_deg, np.nan),
            best_s=np.full(len(plain.dates), datetime(2026, 12, 5, 20, 11, tzinfo=UTC).timestamp()),
            dark_hours_30=np.where(first, hours[0], 0.0),
            dark_hours_45=np.where(first, hours[1], 0.0),
            sky_dark_hours=np.where(first, dark, 0.0),
            diameter_arcsec=np.full(len(plain.dates), 18.5),
        )
        return evening_text(evolve(plain, outlook=outlook), 0, CLOCK)

    saturday = "Sat 5 December 2026:"
    up = f"{saturday} Saturn up to 52° in the dark, at 20:11;"
    assert evening() == f"{up} 6.0 h above 30°, 3.5 h above 45°; 18.5″."
    # Less than three minutes are no part of an hour.
    assert evening(hours=(0.05, 0.049)) == f"{up} 0.1 h above 30°; 18.5″."
    assert evening(hours=(0.0, 0.0)) == f"{up} 18.5″."
    assert "Saturn up to 0° in the dark" in evening(best_deg=-0.2)
    nan = float("nan")
    assert evening(best_deg=nan, hours=(0.0, 0.0)) == f"{saturday} Saturn not up in a dark sky{clear}; 18.5″."
    assert evening(best_deg=nan, hours=(0.0, 0.0), dark=0.0) == (
        f"{saturday} the sky does not get dark enough; 18.5″."
    )


@pytest.mark.parametrize(
    ("aspect", "name", "marks"),
    [
        (Aspect.OPPOSITION, "opposition", ("opposition 3 Feb", "opposition")),
        (Aspect.CONJUNCTION, "conjunction", ("conjunction 3 Feb", "conjunction")),
        (
            Aspect.INFERIOR_CONJUNCTION,
            "inferior conjunction",
            ("inferior conjunction 3 Feb", "inferior conjunction"),
        ),
        (
            Aspect.SUPERIOR_CONJUNCTION,
            "superior conjunction",
            ("superior conjunction 3 Feb", "superior conjunction"),
        ),
        (
            Aspect.GREATEST_ELONGATION_EAST,
            "greatest elongation east",
            ("greatest elongation east 3 Feb", "elongation east 3 Feb", "18° east"),
        ),
        (
            Aspect.GREATEST_ELONGATION_WEST,
            "greatest elongation west",
            ("greatest elongation west 3 Feb", "elongation west 3 Feb", "18° west"),
        ),
        (Aspect.HALF_LIT, "half lit", ("half lit 3 Feb", "half lit")),
        (Aspect.FULL_MOON, "full Moon", ("full Moon 3 Feb", "full Moon")),
        (Aspect.NEW_MOON, "new Moon", ("new Moon 3 Feb", "new Moon")),
    ],
)
def test_what_a_planet_does_from_the_longest_words_to_the_shortest(
    aspect: Aspect, name: str, marks: tuple[str, ...]
) -> None:
    third = datetime(2027, 2, 3, 12, tzinfo=UTC)
    what = Phenomenon(body=Body.MERCURY, aspect=aspect, time=third, elongation_deg=18.2)
    from_sun = " (18° from the Sun)" if "elongation" in name else ""
    # That Venus is half lit is told among the notes.
    lines = [] if aspect is Aspect.HALF_LIT else [f"{name} on 3 February 2027{from_sun}"]

    assert mark_texts(what, date(2027, 2, 3)) == marks
    assert list(phenomena_lines(evolve(year(Body.SATURN), phenomena=(what,)))) == lines


def notes(of: Year) -> list[str]:
    return list(year_notes(of, CLOCK))


def test_the_ring_opens_closes_or_is_seen_edge_on() -> None:
    """From 6 degrees in December 2026 it opens to 14 in August 2027 (``test_year_notes.py``)."""
    saturn = year(Body.SATURN)
    ring = saturn.ring
    assert ring is not None
    narrow, wide = ring.narrowest, ring.widest
    swapped = evolve(ring, narrowest=evolve(narrow, time=wide.time), widest=evolve(wide, time=narrow.time))
    in_may = evolve(ring, edge_on=datetime(2027, 5, 1, tzinfo=UTC), edge_on_elongation_deg=15.0)
    then = "Seen from the Earth it is next edge-on on 15 October 2038."

    def told_of(each: RingYear) -> list[str]:
        return notes(evolve(saturn, ring=each))

    assert told_of(ring) == [
        f"The ring opens from 6° around 5 December 2026 to 14° around 2 August 2027. {then}"
    ]
    assert told_of(swapped) == [
        f"The ring closes from 14° around 5 December 2026 to 6° around 2 August 2027. {then}"
    ]
    assert told_of(in_may) == [
        (
            "Seen from the Earth the ring is edge-on on 1 May 2027; it opens to 14° at most, around 2 August "
            "2027."
        )
    ]
    # Nearer to the Sun than 15 degrees nobody looks for it.
    assert told_of(evolve(in_may, edge_on_elongation_deg=14.9)) == [
        (
            "The ring is edge-on to the Earth on 1 May 2027, when Saturn is too near the Sun to be seen; it "
            "opens to 14° at most, around 2 August 2027."
        )
    ]


def test_runs_of_evenings_are_told_as_short_as_they_can_be() -> None:
    facing = FacingUs(longitude_deg=290.0, evenings=((0, 0), (5, 9), (25, 40)))
    faces = "Longitude 290° on Mars"

    assert notes(evolve(year(Body.MARS), facing=facing)) == [
        f"{faces} faces us while it is highest on these evenings: 5 Dec, 10–14 Dec, 30 Dec to 14 Jan."
    ]
    assert notes(evolve(year(Body.MARS), facing=evolve(facing, evenings=()))) == [
        f"{faces} does not face us while it is highest in these twelve months."
    ]


def test_a_table_of_a_year_has_its_heading_its_dates_and_what_it_rests_on() -> None:
    saturn = year(Body.SATURN)
    free = evolve(saturn, outlook=evolve(saturn.outlook, evenings=evolve(saturn.outlook.evenings, site=OPEN)))
    rests = (
        "Times are those of Europe/Lisbon; altitudes are geometric. The sky counts as dark for Saturn when "
        "the Sun is 4° below the horizon"
    )
    columns = "Best in dark: the greatest altitude then; h>30° and h>45°: the hours above those heights then."

    assert every_seventh_words("Yard", GOOD, date(2027, 12, 4)) == (
        "Yard, every seventh evening from 5 December 2026 to 4 December 2027"
    )
    assert date_in_column(date(2027, 1, 2), date(2026, 12, 26)) == "2 Jan 2027"
    assert date_in_column(date(2027, 1, 9), date(2027, 1, 2)) == "9 Jan"
    assert date_in_column(date(2027, 1, 9), None) == "9 Jan 2027"
    assert about_year_words(free) == f"{rests}. {columns}"
    assert about_year_words(saturn) == f"{rests}, and it is clear of what blocks the sky. {columns}"
