"""The figures under the chart in words, what they rest on, and the words for what limits a power."""

from datetime import UTC, datetime, timedelta

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.air.finest_detail import LimitKind
from core.sky.site import Site
from core.words.body_readings import (
    BodyReading,
    CeilingBasis,
    all_below_words,
    is_sun_up,
    moment_words,
    read_bodies,
    readings_note,
    readings_text,
)
from core.words.limit_names import limit_name
from core.words.site_clock import SiteClock
from tests.core.evenings import BEHIND_ROOF, GOOD, LISBON, OVER_CHIMNEY, SIX, night
from tests.core.gear.examples import telescope

CLOCK = SiteClock(zone=LISBON.zone)  # on winter's UTC
NINE, MORNING = datetime(2026, 12, 5, 21, 0, tzinfo=UTC), datetime(2026, 12, 6, 9, 30, tzinfo=UTC)
BASIS = CeilingBasis(scope=SIX, blur=Blur.assumed(), usual_air=300.0)


def read(
    moment: datetime = NINE, site: Site = LISBON, basis: CeilingBasis = BASIS
) -> tuple[BodyReading, ...]:
    return read_bodies(night(site, GOOD), moment, basis, CLOCK)


def test_only_with_a_telescope_ceilings_are_spoken_of_and_by_its_name() -> None:
    altitudes = "Altitudes ignore refraction; the air path includes it."

    assert readings_note(None, Blur.assumed()) == altitudes
    assert readings_note(telescope("Six-inch"), Blur.assumed()) == (
        f"{altitudes} Ceiling: an estimate for Six-inch, blur 1.45″, assumed."
    )


def test_what_is_up_comes_first_and_what_is_down_has_but_its_rise() -> None:
    """Rises and sets as ``test_events.py`` and its like hold them against other libraries."""
    assert readings_text(read(), "21:00") == (
        "At 21:00. Saturn: altitude 50°, azimuth 199° south, path 1.3, ceiling 176x, sets 02:16. Uranus: "
        "altitude 51°, azimuth 105° east, path 1.3, ceiling 176x, sets 06:55. Neptune: altitude 47°, azimuth "
        "208° south-west, path 1.4, ceiling 171x, sets 01:46. Mercury: altitude −53°, rises 06:30. Venus: "
        "altitude −60°, rises 04:05. Mars: altitude −24°, rises 23:20. Jupiter: altitude −19°, rises 22:49. "
        "Moon: altitude −67°, rises 05:23."
    )
    assert all_below_words(read()) == "Below the horizon: Mercury, Venus, Mars, Jupiter, Moon"
    assert all_below_words([reading for reading in read() if reading.is_up]) == ""
    saturn = read()[4]
    assert (saturn.short_direction, read()[0].short_direction) == ("199° S", "")


def test_by_day_no_power_is_offered_and_no_time_at_which_to_look() -> None:
    """But of what can be found by day; Mercury stood 14 degrees from the Sun."""
    sentences = [reading.sentence for reading in read(MORNING)]

    assert sentences[0] == "Mercury: altitude 26°, azimuth 149° south-east, path 2.3, beside the Sun"
    assert sentences[1] == "Venus: altitude 41°, azimuth 178° south, path 1.5, ceiling 162x"
    assert sentences[2] == "Mars: altitude 37°, azimuth 255° west, path 1.7, not by day"
    assert sentences[4] == "Saturn: altitude −46°, below the horizon"


def test_what_stands_before_it_comes_before_when_it_sets() -> None:
    bare = evolve(BASIS, scope=None)
    behind, warm = (read(site=site, basis=bare)[4].sentence for site in (BEHIND_ROOF, OVER_CHIMNEY))

    assert behind == "Saturn: altitude 50°, azimuth 199° south, path 1.3, behind blocked sky (roof ridge)"
    assert warm == "Saturn: altitude 50°, azimuth 199° south, path 1.3, warm air (chimney)"


def test_the_heading_of_the_readings_and_whether_the_sun_is_up() -> None:
    """It set at 17:15."""
    assert [moment_words("21:30", is_now=is_now) for is_now in (True, False)] == ["Now, 21:30", "At 21:30"]
    sunset = datetime(2026, 12, 5, 17, 15, tzinfo=UTC)
    around = [sunset + timedelta(minutes=offset) for offset in (-2, 2)]
    assert [is_sun_up(night(LISBON, GOOD), moment) for moment in around] == [True, False]


@pytest.mark.parametrize("kind", list(LimitKind))
def test_air_is_called_seeing_too_only_where_that_is_asked_for(kind: LimitKind) -> None:
    plain, explained = limit_name(kind), limit_name(kind, explain_air=True)

    assert plain == limit_name(kind, explain_air=False)
    assert "seeing" not in plain
    assert ("seeing" in explained) is (plain != explained)
    if kind is LimitKind.TONIGHT_AIR:
        assert "air (seeing)" in explained
