"""A whole evening in words: its heading, each step with its times, and Jupiter's part in it."""

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import cast
from zoneinfo import ZoneInfo

from attrs import evolve

from core.record.observer import Preferences, TemperatureUnit
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.night import Night
from core.tonight.steps import CoversItem, OwnItem, OwnStep
from core.words.evening_cautions import evening_cautions
from core.words.evening_told import evening_heading, evening_told
from core.words.site_clock import SiteClock
from tests.core.evenings import GOOD, LISBON, WALLED, night
from tests.core.warm_evenings import LENS, situation

CLOCK = SiteClock(zone=ZoneInfo("Europe/Lisbon"))  # on winter's UTC
NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
TEA = OwnItem(start=NINE, end=NINE + timedelta(minutes=15), step=OwnStep(id="t", text="Tea for two", at=NINE))


def told(of: Night, *steps: CoversItem | OwnItem) -> str:
    situation = SimpleNamespace(
        evening_steps=steps,
        site=of.site,
        preferences=Preferences(),
        pairs=(),
        kit_powers=(),
        red_spot_passes=None,
    )
    return evening_told(cast("Situation", situation), of, CLOCK)


def test_the_heading_has_the_day_and_the_site() -> None:
    # 5 December 2026 was a Saturday (any calendar).
    assert evening_heading(night(LISBON, GOOD)) == "Sat 5 December 2026, Lisbon"


def test_each_step_has_its_times_and_its_title() -> None:
    words = told(night(WALLED, GOOD), CoversItem(start=NINE, end=NINE), TEA)

    assert words == (
        "21:00  Covers off\nOnce the Sun is down, take the cover off the finder and the whole front cover "
        "off the telescope, not only the small lid in it.\n\n21:00–21:15  Tea for two\nTea for two\n"
    )


def test_jupiter_is_told_of_where_it_can_be_looked_at() -> None:
    """It stood above 45 degrees from Lisbon in the small hours, and behind walls all round nowhere."""
    open_sky, walled = night(LISBON, GOOD), night(WALLED, GOOD)

    assert open_sky.of(Body.JUPITER).windows
    assert "Jupiter" in told(open_sky, TEA)
    assert "Jupiter" not in told(walled, TEA)
    assert "Jupiter" in told(open_sky)


def test_an_evening_of_nothing_says_so() -> None:
    empty = told(night(WALLED, GOOD))

    assert empty == "Nothing to prepare: no planet has good minutes this evening."
    assert "Nothing" not in told(night(WALLED, GOOD), TEA)


def test_temperatures_are_told_in_the_owner_s_unit_wherever_the_evening_is_read() -> None:
    """What the humidity of 80 % at 9 to 11 °C makes of a lens: a dew point of 6 to 8 °C, 43 to 46 °F."""
    celsius = situation(scope=LENS)
    profile = celsius.profile
    fahrenheit = Situation(
        evolve(
            celsius.choices,
            profile=evolve(
                profile, preferences=evolve(profile.preferences, temperature=TemperatureUnit.FAHRENHEIT)
            ),
        ),
        celsius.now,
    )

    for found, told, other in ((celsius, "°C", "°F"), (fahrenheit, "°F", "°C")):
        assert found.night is not None
        whole = evening_told(found, found.night, CLOCK)
        for words in (whole, " ".join(evening_cautions(found))):
            assert f"{told}." in words
            assert other not in words
