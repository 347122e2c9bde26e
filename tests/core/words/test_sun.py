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
        (
            SCOTLAND,
            JUNE,
            "The Sun sets 22:06 and rises 04:21, at most 10° down: the sky never gets fully dark.",
            "The Sun sets 22:06 and rises 04:21; it gets 10° below the horizon at most.",
        ),
        (
            TROMSO,
            JUNE,
            "The Sun stays up: at its lowest it is 3° above the horizon.",
            "The Sun does not set on this evening.",
        ),
        (
            TROMSO,
            DECEMBER,
            "The Sun stays down: at its lowest it is 44° below the horizon.",
            "The Sun does not rise on this evening; it gets 44° below the horizon at most.",
        ),
    ],
)
def test_bright_and_polar_evenings(site: Site, evening: date, times: str, course: str) -> None:
    assert told(site, evening) == (times, course)


@pytest.mark.parametrize("lowest_deg", [-0.8, 0.0, 0.8])
def test_a_sun_that_grazes_the_horizon_is_on_it(lowest_deg: float) -> None:
    """All of it counts as down from 50 minutes of arc on (the almanacs' altitude of rise and set)."""
    grazing = evolve(night(TROMSO, JUNE).sun, lowest_altitude_deg=lowest_deg)

    assert sun_times_sentence(grazing, SiteClock(zone=TROMSO.zone)) == (
        "The Sun stays up: at its lowest it is on the horizon."
    )


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

    both = " and ".join(filter(None, ("sets 12:00" if sets else "", "rises 11:00" if rises else "")))
    depth = f"{abs(sun.lowest_altitude_deg):.0f}°"
    assert course == f"The Sun {both}; it gets {depth} below the horizon at most."
    if is_dark:
        assert times == f"The Sun {both}; the sky is fully dark 16:00–07:00."
    else:
        assert times == f"The Sun {both}, at most {depth} down: the sky never gets fully dark."
