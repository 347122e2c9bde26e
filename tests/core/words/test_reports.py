"""What a report says of a ladder: where the telescope points, as far as that is known, and its ceiling."""

from datetime import UTC, datetime

import pytest
from attrs import evolve

from core.ladder.aim import Aim, Refusal, aim_altitude, aim_overhead
from core.sky.bodies import Body
from core.words.reports import aim_words, ceiling_words
from core.words.site_clock import SiteClock
from tests.core.drawing.examples import ladder
from tests.core.evenings import LISBON

NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
CLOCK = SiteClock(zone=LISBON.zone, hours=24)
# 30 degrees up the path is twice that overhead (Kasten and Young 1989: 1.99); under 5 none is given.
HIGH, LOW = aim_altitude(30.0), aim_altitude(2.0)
NOTHING = Aim(
    planet=Body.MOON,
    at=None,
    altitude_deg=None,
    apparent_altitude_deg=None,
    path=None,
    declination_deg=None,
    refusal=Refusal.NO_WINDOW,
)


@pytest.mark.parametrize(
    ("aim", "words"),
    [
        (HIGH, "30.0° high, 2.0 times the air overhead."),
        (LOW, "2.0° high."),
        (evolve(HIGH, at=NINE), "30.0° high, 2.0 times the air overhead."),
        (evolve(HIGH, planet=Body.SATURN), "Saturn: 30.0° high, 2.0 times the air overhead."),
        (evolve(LOW, planet=Body.SATURN), "Saturn: 2.0° high."),
        (
            evolve(HIGH, planet=Body.SATURN, at=NINE),
            "Saturn on Sat 5 December 2026 at 21:00: 30.0° high, 2.0 times the air overhead.",
        ),
        (
            evolve(LOW, planet=Body.MOON, at=NINE),
            "The Moon on Sat 5 December 2026 at 21:00: 2.0° high.",
        ),
        (aim_overhead(), "Straight overhead, since neither a planet nor a height is given."),
        (NOTHING, "The Moon: nothing is offered this evening."),
    ],
)
def test_only_what_there_is_is_told(aim: Aim, words: str) -> None:
    assert aim_words(aim, CLOCK) == words


def test_without_a_clock_there_is_no_time_to_tell() -> None:
    timed = evolve(HIGH, planet=Body.SATURN, at=NINE)

    assert aim_words(timed, None) == "Saturn: 30.0° high, 2.0 times the air overhead."


def test_a_ceiling_is_told_with_what_sets_it_or_why_there_is_none() -> None:
    usual = ladder()
    by_day = evolve(usual, aim=evolve(usual.aim, refusal=Refusal.NOT_BY_DAY))

    assert ceiling_words(usual) == (
        "Ceiling about 185x, set by aperture and tonight's air (seeing); a rule of thumb."
    )
    assert ceiling_words(ladder(altitude_deg=3.0)) == (
        "No ceiling: Saturn is seen 3.2° high: no air path is given below 5°."
    )
    assert ceiling_words(by_day) == "No ceiling: Saturn is not to be seen by day: the Sun is up."
