"""The words on the charts: beside the curves, over the hours and along the axes."""

from datetime import UTC, date, datetime, timedelta

import pytest
from attrs import evolve

from core.sky.bodies import Body
from core.sky.site import Site
from core.words.charts import (
    absent_words,
    more_words,
    now_words,
    size_panel_words,
    step_title,
    step_words,
    sun_words,
    transit_words,
    unusual_sun_words,
)
from core.words.site_clock import SiteClock
from tests.core.evenings import GOOD, LISBON, SCOTLAND, TROMSO, night

NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
CLOCK = SiteClock(zone=LISBON.zone)  # on winter's UTC


@pytest.mark.parametrize(
    ("site", "evening", "words", "unusual"),
    [
        (LISBON, GOOD, ["sunset 17:15", "sunrise 07:40", "dark from 18:50", "dark until 06:05"], ""),
        # The Sun gets 10 degrees down at most: no full darkness, and yet it sets.
        (SCOTLAND, date(2026, 6, 21), ["sunset 22:06", "sunrise 04:21"], "twilight all night"),
        (TROMSO, date(2026, 6, 21), [], "the Sun stays up"),
        (TROMSO, date(2026, 12, 21), ["dark from 16:56", "dark until 06:29"], "the Sun stays down"),
    ],
)
def test_what_the_sun_does_stands_over_its_moments(
    site: Site, evening: date, words: list[str], unusual: str
) -> None:
    sun = night(site, evening).sun
    told = list(sun_words(sun, SiteClock(zone=site.zone)))

    assert [text for _, text in told] == words
    assert unusual_sun_words(sun) == unusual
    moments = (sun.set, sun.rise, sun.astronomical_dusk, sun.astronomical_dawn)
    assert [moment for moment, _ in told] == [moment for moment in moments if moment is not None]


def test_a_night_that_begins_or_ends_outside_the_chart_is_not_twilight_all_night() -> None:
    sun = night(SCOTLAND, date(2026, 6, 21)).sun

    assert unusual_sun_words(evolve(sun, astronomical_dusk=NINE)) == ""
    assert unusual_sun_words(evolve(sun, astronomical_dawn=NINE)) == ""
    assert unusual_sun_words(evolve(sun, set=None)) == "twilight all night"
    # One that only dips to the horizon has hardly a twilight.
    assert unusual_sun_words(evolve(sun, lowest_altitude_deg=-0.9)) == ""


def test_what_stands_beside_a_curve_and_on_a_bar() -> None:
    assert transit_words(NINE, 50.4, CLOCK) == "transit 21:00, 50°"
    assert absent_words([Body.MOON, Body.MARS]) == "Not up in these hours: Moon, Mars"
    assert more_words(3) == "+3 more"
    assert [step_title("Finder", is_done=done) for done in (False, True)] == ["Finder", "✓ Finder"]
    assert step_words("Finder", NINE, NINE, CLOCK) == "Finder 21:00"
    assert step_words("Finder", NINE, NINE + timedelta(hours=1), CLOCK) == "Finder 21:00–22:00"
    assert now_words(NINE, CLOCK) == "now 21:00"


def test_the_panel_of_sizes_names_the_largest_where_there_is_one() -> None:
    assert size_panel_words(19.86, GOOD) == "Apparent size: largest 19.9″, 5 Dec"
    assert size_panel_words(None, GOOD) == size_panel_words(19.86, None) == "Apparent size"
