"""From when on glass takes dew through an evening."""

from datetime import UTC, datetime, timedelta

from core.air.dew import DampAir, Shelter
from core.air.dew_outlook import DewOutlook, dew_outlook
from core.air.mirror import AirCourse

DUSK = datetime(2026, 12, 5, 18, 0, tzinfo=UTC)


def outlook(humidity_pct: float, shelter: Shelter = Shelter.BARE, *, falls_to_c: float = 10.0) -> DewOutlook:
    """Return an evening of six hours that begins at 10 °C."""
    return dew_outlook(
        DampAir(temperature_c=10, humidity_pct=humidity_pct),
        AirCourse(minutes=(0, 360), celsius=(10, falls_to_c)),
        shelter=shelter,
        epoch=DUSK,
        start=DUSK,
        end=DUSK + timedelta(hours=6),
    )


def test_in_dry_air_nothing_settles_all_evening() -> None:
    dry = outlook(30)

    assert (dry.wet_at, dry.risk, dry.shielded_wet_at, dry.damp_at) == (None, None, None, None)


def test_at_80_percent_bare_glass_takes_dew_at_once_and_behind_a_shield_it_stays_dry() -> None:
    # The check value of a calm evening at 10 °C.
    damp = outlook(80)

    assert (damp.wet_at, damp.shielded_wet_at, damp.damp_at) == (DUSK, None, None)
    assert damp.risk is not None
    assert not damp.risk.frost
    assert outlook(80, Shelter.SHIELDED).wet_at is None


def test_as_the_air_cools_to_its_dew_point_it_comes_later_behind_a_shield_and_last_on_everything() -> None:
    """Air of 80 % at 10 °C has its dew point 3.3 °C below, which it reaches after about five of six hours."""
    cooling = outlook(80, falls_to_c=6.0)

    assert cooling.wet_at == DUSK
    assert cooling.shielded_wet_at is not None
    assert cooling.damp_at is not None
    assert DUSK < cooling.shielded_wet_at < cooling.damp_at
    assert DUSK + timedelta(hours=4) < cooling.damp_at < DUSK + timedelta(hours=5, minutes=10)
