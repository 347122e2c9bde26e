"""Why the answer is as it is: the reasons that must stand there, and those that must not."""

from datetime import date

from core.sky.bodies import Body
from tests.core.evenings import FAIRBANKS, GOOD, KIT, LISBON, OVER_CHIMNEY, night
from tests.core.telling import answer


def test_who_would_look_by_day_is_warned_and_nobody_else() -> None:
    """Mercury, 27 degrees from the Sun at Fairbanks in August 2016, is up only while the Sun is."""
    by_day = answer(night(FAIRBANKS, date(2016, 8, 16)), planet=Body.MERCURY).reasons
    by_night = answer(night(LISBON, GOOD), planet=Body.SATURN, **KIT).reasons

    warnings = [reason for reason in by_day if "while the Sun is up" in reason and "Do not" in reason]
    assert len(warnings) == 1
    assert "blinds" in warnings[0]
    assert not any("blinds" in reason for reason in by_night)


def test_windows_through_warm_air_are_told_as_such() -> None:
    clear, warm = (
        [
            reason
            for reason in answer(night(site, GOOD), planet=Body.SATURN, **KIT).reasons
            if "chimney" in reason
        ]
        for site in (LISBON, OVER_CHIMNEY)
    )

    assert clear == []
    assert warm
    assert all("warm air (chimney)" in reason for reason in warm)
