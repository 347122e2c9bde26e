"""The evening's plan: safe before sunset, ready before the first look, off the planet before sunrise."""

import re
from datetime import UTC, date, datetime, timedelta
from functools import cache

import astronomy
import pytest

from core.air.readiness import readiness_in_still_air
from core.gear.owned import Telescope, TelescopeKind
from core.record.observer import TemperatureUnit
from core.sky.bodies import Body
from core.sky.night import Night, compute_night
from core.sky.site import Site
from core.tonight.plan import plan_evening
from core.tonight.steps import EveningItem, ItemKind, TargetItem
from core.words.evening import item_title, item_words
from core.words.site_clock import SiteClock
from tests.core.air.falling import readiness_in_falling_air
from tests.core.telling import targets_of

LISBON = Site(name="Lisbon", latitude_deg=38.72, longitude_deg=-9.14, time_zone="Europe/Lisbon")
MENDOZA = Site(
    name="Mendoza", latitude_deg=-32.9, longitude_deg=-68.85, time_zone="America/Argentina/Mendoza"
)
TROMSO = Site(name="Tromso", latitude_deg=69.65, longitude_deg=18.96, time_zone="Europe/Oslo")
EQUATOR = Site(name="Equator", latitude_deg=0.0, longitude_deg=0.0, time_zone="UTC")
GOOD = date(2026, 12, 5)
TEN_INCH = Telescope(name="ten", kind=TelescopeKind.REFLECTOR, aperture_mm=254, focal_length_mm=1200)


@cache
def night(site: Site, evening: date = GOOD) -> Night:
    return compute_night(site, evening)


def of_kind(items: tuple[EveningItem, ...], kind: ItemKind) -> list[EveningItem]:
    return [item for item in items if item.kind is kind]


def words(item: EveningItem) -> str:
    return item_words(item, SiteClock(zone=LISBON.zone), unit=TemperatureUnit.CELSIUS)


def body_of(item: EveningItem) -> Body | None:
    return item.body if isinstance(item, TargetItem) else None


@pytest.mark.parametrize(
    ("site", "evening"),
    [(LISBON, GOOD), (MENDOZA, GOOD), (LISBON, date(2027, 6, 21)), (EQUATOR, date(2027, 6, 21))],
)
def test_the_finder_is_aligned_by_day_away_from_the_sun(site: Site, evening: date) -> None:
    found = night(site, evening)
    (finder,) = of_kind(plan_evening(found, TEN_INCH, targets=targets_of(found)), ItemKind.FINDER)

    assert found.sun.set is not None
    assert finder.start < finder.end < found.sun.set
    assert finder.caution
    assert "blinds" in words(finder)
    # The arc to keep out of reaches 30 degrees to either side of the Sun, as astronomy-engine places it.
    left_deg, right_deg = map(float, re.findall(r"(\d+)°", words(finder))[1:3])
    for moment in (finder.start, finder.end):
        time = astronomy.Time.Make(
            moment.year, moment.month, moment.day, moment.hour, moment.minute, moment.second
        )
        observer = astronomy.Observer(site.latitude_deg, site.longitude_deg, 0)
        sun = astronomy.Equator(astronomy.Body.Sun, time, observer, True, True)
        sun_deg = astronomy.Horizon(time, observer, sun.ra, sun.dec, astronomy.Refraction.Airless).azimuth
        assert (sun_deg - left_deg) % 360 >= 29.9
        assert (right_deg - sun_deg) % 360 >= 29.9
        assert (sun_deg - left_deg) % 360 < 50


def test_without_daylight_the_finder_is_aligned_on_a_lamp_or_a_star() -> None:
    # Polar night: the Sun does not rise at 69.65 north on 5 December.
    (finder,) = of_kind(
        plan_evening(night(TROMSO), TEN_INCH, targets=targets_of(night(TROMSO), Body.JUPITER)),
        ItemKind.FINDER,
    )

    assert "distant lamp or a bright star" in words(finder)
    assert "low power first" in words(finder)


def test_the_telescope_is_out_long_enough_before_the_first_look() -> None:
    targets = [target for target in targets_of(night(LISBON)) if target.body is Body.SATURN]
    items = plan_evening(night(LISBON), TEN_INCH, targets=targets)
    (out,), (ready,) = of_kind(items, ItemKind.CARRY_OUT), of_kind(items, ItemKind.READY)
    (saturn,) = (item for item in items if body_of(item) is Body.SATURN)

    # Common practice, no source: a 10-inch open reflector 17 °C too warm needs about 45 minutes,
    # and half as much again to be safe.
    assert timedelta(minutes=65) <= saturn.start - out.start <= timedelta(minutes=70)
    assert out.start < ready.start < saturn.start
    assert ready.end == saturn.start
    assert "an estimate" in words(out)


def test_a_telescope_out_before_sunset_stands_capped_in_the_shade() -> None:
    slow = Telescope(name="slow", kind=TelescopeKind.CATADIOPTRIC, aperture_mm=356, focal_length_mm=3900)
    (out,) = of_kind(
        plan_evening(night(LISBON), slow, targets=targets_of(night(LISBON), Body.SATURN)), ItemKind.CARRY_OUT
    )

    sunset = night(LISBON).sun.set
    assert sunset is not None
    assert out.start < sunset
    assert "in the shade with its caps on" in words(out)
    assert out.caution


def test_a_telescope_that_never_follows_the_air_gets_no_finishing_time() -> None:
    never = readiness_in_falling_air(
        Telescope(name="closed", kind=TelescopeKind.CATADIOPTRIC, aperture_mm=254, focal_length_mm=2500),
        warmer_by_c=11,
        falling_c_per_h=1.9,
    )
    items = plan_evening(night(LISBON), TEN_INCH, readiness=never, targets=targets_of(night(LISBON)))

    assert never.never
    assert of_kind(items, ItemKind.READY) == []
    assert "never comes within 1 °C" in words(of_kind(items, ItemKind.CARRY_OUT)[0])


def test_a_telescope_that_stands_outside_is_not_told_to_be_carried_out() -> None:
    since = datetime(2026, 12, 5, 18, 10, tzinfo=UTC)
    items = plan_evening(
        night(LISBON), TEN_INCH, targets=targets_of(night(LISBON), Body.SATURN), outside_since=since
    )
    (outside,), (ready,) = of_kind(items, ItemKind.CARRY_OUT), of_kind(items, ItemKind.READY)

    assert (item_title(outside), outside.start, outside.end) == ("Outside", since, since)
    assert "Carry the telescope out" not in words(outside)
    # Common practice, no source: a 10-inch open reflector 17 °C too warm needs about 45 minutes; a third
    # less or half as much again is well possible.
    assert "between 18:40 and 19:20, likely 18:55 (an estimate)" in words(outside)
    # 31.5 and 67.5 minutes, as an estimate is told: the step says what its words say.
    assert (ready.start, ready.end) == (since + timedelta(minutes=30), since + timedelta(minutes=70))


def test_one_carried_out_by_day_stands_capped_in_the_shade_too() -> None:
    since = datetime(2026, 12, 5, 15, 0, tzinfo=UTC)
    items = plan_evening(
        night(LISBON), TEN_INCH, targets=targets_of(night(LISBON), Body.SATURN), outside_since=since
    )
    (outside,) = of_kind(items, ItemKind.CARRY_OUT)

    assert "in the shade with its caps on" in words(outside)
    assert outside.caution


def test_one_as_cold_as_the_air_is_ready_when_it_comes_out() -> None:
    since = datetime(2026, 12, 5, 18, 10, tzinfo=UTC)
    cold = readiness_in_still_air(TEN_INCH, warmer_by_c=0.5)
    items = plan_evening(
        night(LISBON), TEN_INCH, readiness=cold, outside_since=since, targets=targets_of(night(LISBON))
    )

    assert of_kind(items, ItemKind.READY) == []
    assert "within 1 °C of the air then" in words(of_kind(items, ItemKind.CARRY_OUT)[0])


def test_preparation_is_for_the_first_of_the_targets() -> None:
    items = plan_evening(night(LISBON), TEN_INCH, targets=targets_of(night(LISBON), Body.JUPITER))
    targets = of_kind(items, ItemKind.TARGET)

    assert {Body.SATURN, Body.JUPITER} <= {body_of(item) for item in targets}
    assert Body.MOON not in {body_of(item) for item in targets}
    first = body_of(targets[0])
    assert first is not None
    assert f"for {first.label} at" in words(of_kind(items, ItemKind.CARRY_OUT)[0])
    assert targets == sorted(targets, key=lambda item: item.start)


def test_a_stop_line_stands_before_sunrise_and_no_target_reaches_past_it() -> None:
    items = plan_evening(night(LISBON), TEN_INCH, targets=targets_of(night(LISBON), Body.VENUS))
    (stop,) = of_kind(items, ItemKind.STOP)
    sunrise = night(LISBON).sun.rise

    assert sunrise is not None
    assert stop.start <= sunrise - timedelta(minutes=10)
    assert stop.caution
    assert "Cap the telescope" in words(stop)
    assert all(item.end <= stop.start for item in of_kind(items, ItemKind.TARGET))


def test_without_a_telescope_there_are_targets_only() -> None:
    kinds = {item.kind for item in plan_evening(night(LISBON), targets=targets_of(night(LISBON)))}

    assert kinds == {ItemKind.TARGET, ItemKind.STOP}


def test_an_instrument_without_a_finder_is_not_told_to_align_one() -> None:
    binocular = Telescope(name="binocular", kind=TelescopeKind.FIXED, aperture_mm=50, power=10)

    assert (
        of_kind(plan_evening(night(LISBON), binocular, targets=targets_of(night(LISBON))), ItemKind.FINDER)
        == []
    )


def test_nothing_to_see_is_nothing_to_prepare() -> None:
    assert (
        plan_evening(
            night(TROMSO, date(2026, 6, 21)), TEN_INCH, targets=targets_of(night(TROMSO, date(2026, 6, 21)))
        )
        == ()
    )


def test_every_item_lies_in_the_evening_and_says_something() -> None:
    for site in (LISBON, MENDOZA, TROMSO):
        found = night(site)
        for item in plan_evening(found, TEN_INCH, targets=targets_of(found, Body.SATURN)):
            assert found.start <= item.start <= item.end <= found.end
            assert item_title(item)
            assert words(item).endswith(".")
