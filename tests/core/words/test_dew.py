"""When dew settles, and on what: which fact chooses the kind of sentence, and the times in it."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve

from core.air.dew import DewRisk, Shelter
from core.air.dew_outlook import DewOutlook
from core.record.observer import TemperatureUnit
from core.words.dew import dew_text, temperature_text
from core.words.site_clock import SiteClock

CLOCK = SiteClock(zone=ZoneInfo("Europe/Lisbon"))  # on winter's UTC
NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)
MILD, COLD = (
    DewRisk(dew_point_c=point_c, glass_c=point_c - 1.0, everywhere=False) for point_c in (6.0, -4.0)
)
WET = DewOutlook(shelter=Shelter.BARE, wet_at=NINE, risk=MILD, shielded_wet_at=None, damp_at=None)


@pytest.mark.parametrize(("risk", "word", "off"), [(MILD, "Dew", "dry"), (COLD, "Frost", "off")])
def test_what_settles_from_when_on_and_behind_a_shield(risk: DewRisk, word: str, off: str) -> None:
    bare = f"{word} settles on the bare front glass from about 21:00"
    wet = evolve(WET, risk=risk)

    assert dew_text(wet, CLOCK) == (
        f"{bare}; a shield 1.5 times as long as the aperture is wide keeps it {off} (an estimate)."
    )
    assert dew_text(evolve(wet, shielded_wet_at=NINE + HOUR), CLOCK) == (
        f"{bare}, behind a shield from about 22:00 (an estimate). Let it cool first, then put the shield on; "
        "gentle heat only after that. On wet grass follow the heater's instructions and the local electrical "
        "rules."
    )


def test_bare_glass_that_stays_dry_is_told_and_a_mirror_down_its_tube_is_not() -> None:
    dry = evolve(WET, wet_at=None, risk=None)

    assert dew_text(dry, CLOCK) == "Bare front glass stays dry (an estimate)."
    assert dew_text(evolve(dry, shelter=Shelter.DOWN_A_TUBE), CLOCK) == ""
    assert dew_text(evolve(WET, shelter=Shelter.DOWN_A_TUBE), CLOCK) == ""


def test_air_so_damp_that_eyepieces_fog_is_told_of_every_telescope() -> None:
    damp = evolve(WET, damp_at=NINE + 2 * HOUR)
    fogs = (
        "From about 23:00 the air is so damp that even shaded glass and eyepieces fog over (an estimate): "
        "keep the eyepieces in a warm pocket, and do not breathe on them."
    )

    assert dew_text(damp, CLOCK) == f"{dew_text(WET, CLOCK)} {fogs}"
    assert dew_text(evolve(damp, shelter=Shelter.DOWN_A_TUBE), CLOCK) == fogs


@pytest.mark.parametrize(
    ("temperature_c", "celsius", "fahrenheit"),
    [(20.0, "20 °C", "68 °F"), (-40.0, "−40 °C", "−40 °F"), (-0.3, "0 °C", "31 °F")],
)
def test_a_temperature_in_the_observer_s_own_unit(
    temperature_c: float, celsius: str, fahrenheit: str
) -> None:
    """20 degrees are 68 Fahrenheit, and at -40 both scales meet (by definition)."""
    assert temperature_text(temperature_c) == celsius
    assert temperature_text(temperature_c, TemperatureUnit.FAHRENHEIT) == fahrenheit
