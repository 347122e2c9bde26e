"""The Sun's course of an evening in words, by evenings whose kind is known: usual, bright, and far north.

Within the polar circle the Sun stays up in June and down in December; in Scotland it is never 18 degrees down
in June (latitude 56.5 and declination 23.4 leave 10.1).
"""

from datetime import UTC, date, datetime

import pytest
from attrs import evolve

from core.sky.site import Site
from core.words.site_clock import SiteClock
from core.words.sun import sun_course_sentence, sun_times_sentence
from tests.core.evenings import GOOD, LISBON, SCOTLAND, TROMSO, night

JUNE, DECEMBER = date(2026, 6, 21), date(2026, 12, 21)


def told(site: Site, evening: date) -> tuple[str, str]:
    sun, clock = night(site, evening).sun, SiteClock(zone=site.zone, hours=24)
    return sun_times_sentence(sun, clock), sun_course_sentence(sun, clock)


def test_a_usual_evening_has_its_sunset_sunrise_and_full_darkness() -> None:
    times, course = told(LISBON, GOOD)

    assert times.startswith("The Sun sets 17:15 and rises 07:40; the sky is fully dark 18:50–")
    # 90 - 38.7 + 22.4 degrees of southern declination.
    assert course == "The Sun sets 17:15 and rises 07:40; it gets 74° below the horizon at most."


@pytest.mark.parametrize(
    ("site", "evening", "times", "course"),
    [
        (SCOTLAND, JUNE, "at most 10° down: the sky never gets fully dark", "10° below the horizon at most"),
        (TROMSO, JUNE, "The Sun stays up: at its lowest it is 3° above", "does not set"),
        (TROMSO, DECEMBER, "The Sun stays down: at its lowest it is 44° below", "does not rise"),
    ],
)
def test_bright_and_polar_evenings(site: Site, evening: date, times: str, course: str) -> None:
    assert times in told(site, evening)[0]
    assert course in told(site, evening)[1]


SUNSET, SUNRISE = datetime(2026, 11, 27, 11, 0, tzinfo=UTC), datetime(2026, 11, 28, 10, 0, tzinfo=UTC)
DUSK, DAWN = datetime(2026, 11, 27, 15, 0, tzinfo=UTC), datetime(2026, 11, 28, 6, 0, tzinfo=UTC)


@pytest.mark.parametrize(("sets", "rises"), [(True, True), (True, False), (False, True)])
@pytest.mark.parametrize("is_dark", [True, False])
def test_at_the_edge_of_the_polar_night_only_what_there_is_is_told(
    sets: bool, rises: bool, is_dark: bool
) -> None:
    """Around the days on which it sets for the last time, or rises again for the first."""
    sun = evolve(
        night(TROMSO, date(2026, 11, 27)).sun,
        set=SUNSET if sets else None,
        rise=SUNRISE if rises else None,
        astronomical_dusk=DUSK if is_dark else None,
        astronomical_dawn=DAWN if is_dark else None,
    )
    clock = SiteClock(zone=TROMSO.zone, hours=24)  # an hour ahead of UTC

    times, course = sun_times_sentence(sun, clock), sun_course_sentence(sun, clock)

    for words in (times, course):
        assert ("sets 12:00" in words) is sets
        assert ("11:00" in words) is rises
    assert ("16:00–07:00" in times) is is_dark
    assert ("never gets fully dark" in times) is not is_dark
