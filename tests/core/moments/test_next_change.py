"""What happens next to the view of a planet, by hand from windows and blocked sky of one evening."""

from datetime import UTC, date, datetime, timedelta

import pytest
from attrs import evolve

from core.moments.next_change import NextChange, ViewChange, next_change
from core.sky.bodies import Body
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site, WarmAir

EVENING = date(2026, 12, 5)
PORTO = Site(name="Porto", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon")
HOUSE = BlockedSky(azimuth_from_deg=225, azimuth_to_deg=270, below_altitude_deg=60, what="own house")
CHIMNEY = WarmAir(azimuth_from_deg=215, azimuth_to_deg=225, below_altitude_deg=60, what="chimney")
NINE = datetime(2026, 12, 5, 21, tzinfo=UTC)


def night(**parts: object) -> Night:
    return compute_night(evolve(PORTO, **parts), EVENING)  # type: ignore[arg-type]  # passed on as they are


def after(sky: Night, now: datetime = NINE, body: Body = Body.SATURN) -> NextChange:
    found = next_change(sky, body, now)
    assert found is not None
    return found


def test_in_a_free_sky_the_planet_sinks_under_30_degrees_and_then_too_low() -> None:
    sky = night()
    low = after(sky)
    assert low.kind is ViewChange.LOW
    assert sky.position(Body.SATURN, low.at).altitude_deg == pytest.approx(30.0, abs=0.05)
    end = after(sky, low.at + timedelta(minutes=1))
    assert end.kind is ViewChange.TOO_LOW
    assert sky.position(Body.SATURN, end.at).altitude_deg == pytest.approx(10.0, abs=0.05)
    assert next_change(sky, Body.SATURN, end.at + timedelta(minutes=1)) is None


def test_the_house_is_named_and_comes_when_the_planet_reaches_its_edge() -> None:
    sky = night(blocked=(HOUSE,))
    behind = after(sky)
    assert (behind.kind, behind.what) == (ViewChange.BEHIND, "own house")
    assert sky.position(Body.SATURN, behind.at).azimuth_deg == pytest.approx(225.0, abs=0.05)


def test_warm_air_comes_and_goes() -> None:
    sky = night(warm_air=(CHIMNEY,))
    warm = after(sky)
    assert (warm.kind, warm.what) == (ViewChange.WARM_AIR, "chimney")
    clear = after(sky, warm.at + timedelta(minutes=1))
    assert clear.kind is ViewChange.CLEAR_AIR
    assert sky.position(Body.SATURN, clear.at).azimuth_deg == pytest.approx(225.0, abs=0.05)


def test_a_planet_that_is_not_up_yet_comes() -> None:
    sky = night()
    comes = after(sky, NINE, Body.JUPITER)
    assert comes.kind is ViewChange.COMES
    assert sky.position(Body.JUPITER, comes.at).altitude_deg == pytest.approx(10.0, abs=0.05)


def test_before_sunrise_it_is_time_to_stop_ten_minutes_ahead() -> None:
    sky = night()
    assert sky.sun.rise is not None
    stop = after(sky, sky.sun.rise - timedelta(hours=1), Body.JUPITER)
    assert (stop.kind, stop.at) == (ViewChange.STOP, sky.sun.rise - timedelta(minutes=10))


def test_a_fainter_planet_is_lost_in_the_twilight_first() -> None:
    sky = night()
    assert sky.sun.rise is not None
    last = after(sky, sky.sun.rise - timedelta(minutes=80), Body.MARS)
    assert last.kind is ViewChange.BRIGHT_SKY
    assert last.at < sky.sun.rise - timedelta(minutes=10)


def test_a_planet_that_is_low_and_rising_gets_above_30_degrees_first() -> None:
    """It was told to be under 30 degrees in nine hours, while it was under 30 degrees."""
    sky = night()
    rises = after(sky, NINE, Body.JUPITER).at
    higher = after(sky, rises + timedelta(minutes=5), Body.JUPITER)

    assert higher.kind is ViewChange.HIGH_ENOUGH
    assert sky.position(Body.JUPITER, higher.at).altitude_deg == pytest.approx(30.0, abs=0.05)
    assert after(sky, higher.at + timedelta(minutes=1), Body.JUPITER).kind is not ViewChange.HIGH_ENOUGH
