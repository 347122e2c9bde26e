"""Where the telescope points when a planet, a height, or nothing is given."""

from datetime import UTC, date, datetime, timedelta

import pytest

from core.ladder.aim import aim_altitude, aim_at, aim_overhead
from core.sky.bodies import Body
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site, WarmAir


def lisbon(*blocked: BlockedSky) -> Night:
    site = Site(
        name="Terrace", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon", blocked=blocked
    )
    return compute_night(site, date(2026, 12, 30))


@pytest.fixture(scope="module")
def night() -> Night:
    return lisbon()


def test_a_planet_without_a_time_is_taken_at_its_highest_inside_its_windows(night: Night) -> None:
    mars = aim_at(night, Body.MARS)

    assert mars.at == night.of(Body.MARS).highest.time
    assert mars.altitude_deg == night.of(Body.MARS).highest.altitude_deg
    assert mars.path is not None
    assert 1.0 < mars.path < 1.3
    assert (mars.planet, mars.overhead, mars.reason) == (Body.MARS, False, None)


def test_a_planet_still_rising_at_dawn_is_taken_at_the_end_of_its_windows(night: Night) -> None:
    venus = aim_at(night, Body.VENUS)
    last = night.of(Body.VENUS).windows[-1]
    assert venus.at is not None

    assert last.start < venus.at < last.end
    assert last.end - venus.at < timedelta(seconds=2)
    assert venus.altitude_deg < night.of(Body.VENUS).highest.altitude_deg - 1.0


def test_a_planet_behind_something_at_its_highest_is_taken_beside_it() -> None:
    wall = BlockedSky(azimuth_from_deg=150.0, azimuth_to_deg=250.0, below_altitude_deg=80.0, what="wall")
    night = lisbon(wall)
    mars = aim_at(night, Body.MARS)
    assert mars.at is not None

    assert any(window.start <= mars.at < window.end for window in night.of(Body.MARS).windows)
    assert night.position(Body.MARS, mars.at).azimuth_deg == pytest.approx(150.0, abs=0.05)


def test_a_planet_with_no_window_is_taken_at_its_highest_and_that_is_said() -> None:
    # Mercury set before the Sun there, though 27 degrees away from it.
    fairbanks = Site(
        name="Fairbanks", latitude_deg=64.84, longitude_deg=-147.72, time_zone="America/Anchorage"
    )
    night = compute_night(fairbanks, date(2016, 8, 16))
    mercury = aim_at(night, Body.MERCURY)

    assert mercury.at == night.of(Body.MERCURY).highest.time
    assert mercury.path is not None
    assert mercury.reason == "Mercury has no good minutes this evening: taken at its highest all the same"
    assert mercury.caution is not None
    assert "27° east of the Sun, which is up" in mercury.caution
    assert not mercury.too_near_the_sun


def test_beside_the_sun_nothing_is_offered(night: Night) -> None:
    # Mercury was 2 degrees from the Sun on 30 December 2026, three days before its superior conjunction.
    mercury = aim_at(night, Body.MERCURY)

    assert mercury.too_near_the_sun
    assert mercury.reason == ("Mercury stands 2° west of the Sun, which is up: nothing is offered so near it")
    assert mercury.caution == (
        "Do not look for Mercury so near the Sun. Sunlight through any optics blinds at once."
    )
    assert mercury.notices == (mercury.caution,)


def test_what_is_in_the_way_is_told() -> None:
    wall = BlockedSky(azimuth_from_deg=150.0, azimuth_to_deg=250.0, below_altitude_deg=40.0, what="wall")
    warm = WarmAir(azimuth_from_deg=90.0, azimuth_to_deg=149.0, below_altitude_deg=90.0, what="vent")
    night = compute_night(
        Site(
            name="Terrace",
            latitude_deg=41.15,
            longitude_deg=-8.61,
            time_zone="Europe/Lisbon",
            blocked=(wall,),
            warm_air=(warm,),
        ),
        date(2026, 12, 30),
    )
    hidden, warmed = night.of(Body.SATURN).blocked[-1], night.of(Body.JUPITER)
    through = [window for window in warmed.windows if window.warm_air][-1]

    assert aim_at(night, Body.SATURN, hidden.start).line_of_sight == "behind blocked sky (wall)"
    assert aim_at(night, Body.JUPITER, through.start).line_of_sight == "seen through warm air (vent)"
    assert aim_at(night, Body.JUPITER, through.end).line_of_sight is None


def test_a_planet_at_a_time_is_taken_there(night: Night) -> None:
    at = datetime(2026, 12, 30, 20, 0, tzinfo=UTC)
    saturn = aim_at(night, Body.SATURN, at)

    assert saturn.at == at
    assert saturn.altitude_deg == night.position(Body.SATURN, at).altitude_deg
    assert saturn.declination_deg == pytest.approx(1.0, abs=0.1)
    assert saturn.reason is None


def test_below_five_degrees_there_is_no_path_and_the_reason_is_told(night: Night) -> None:
    low = aim_at(night, Body.SATURN, datetime(2026, 12, 31, 0, 15, tzinfo=UTC))
    down = aim_at(night, Body.SATURN, datetime(2026, 12, 31, 3, 0, tzinfo=UTC))

    assert low.path is down.path is None
    assert low.reason is not None
    assert low.reason.startswith("Saturn is ")
    assert low.reason.endswith("° high: no air path is given below 5°")
    assert down.reason == "Saturn is below the horizon: no air path is given below 5°"


def test_a_height_alone() -> None:
    # Kasten and Young give 1.99 at 30 degrees; the air lifts a body there by 1.7 arcminutes.
    aim = aim_altitude(30.0)

    assert (aim.planet, aim.at, aim.altitude_deg, aim.reason) == (None, None, 30.0, None)
    assert aim.apparent_altitude_deg == pytest.approx(30.0 + 1.7 / 60.0, abs=0.001)
    assert aim.path == pytest.approx(1.99, abs=0.01)
    assert aim_altitude(4.0).path is None
    assert (
        aim_altitude(4.0).reason == "A body at this height is seen 4.2° high: no air path is given below 5°"
    )


def test_straight_overhead_is_flagged() -> None:
    aim = aim_overhead()

    assert aim.overhead
    assert (aim.altitude_deg, aim.path) == (90.0, 1.0)
    assert aim.reason is not None
