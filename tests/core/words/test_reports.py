"""Where the telescope points, at the head of a report: planet, time and air path, as far as there are any."""

from datetime import UTC, datetime
from itertools import product

import pytest
from attrs import evolve

from core.ladder.aim import aim_altitude, aim_overhead
from core.sky.bodies import Body
from core.words.reports import aim_words
from core.words.site_clock import SiteClock
from tests.core.evenings import LISBON

NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
CLOCK = SiteClock(zone=LISBON.zone, hours=24)


@pytest.mark.parametrize(
    ("planet", "has_time", "has_path"), list(product((None, Body.SATURN), (True, False), (True, False)))
)
def test_only_what_there_is_is_told(planet: Body | None, has_time: bool, has_path: bool) -> None:
    """30 degrees up the path is twice that overhead (Kasten and Young 1989: 1.99)."""
    aim = evolve(
        aim_altitude(30 if has_path else 2), planet=planet, at=NINE if has_time else None, declination_deg=0.0
    )

    words = aim_words(aim, CLOCK)

    assert ("30.0° high" if has_path else "2.0° high") in words
    assert ("2.0 times the air overhead" in words) is has_path
    assert words.startswith("Saturn" if planet else "At ")
    assert ("21:00" in words) is ("5 Dec" in words) is (has_time and planet is not None)
    assert "21:00" not in aim_words(aim, None)
    assert words.endswith(".")


def test_overhead_says_why_it_is() -> None:
    assert "overhead" in aim_words(aim_overhead(), None)
