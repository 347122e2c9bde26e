"""Where the telescope points when a planet, a height, or nothing is given."""

from datetime import UTC, date, datetime, timedelta

import pytest

from core.air.blur import Blur
from core.ladder.aim import Refusal, aim_altitude, aim_overhead, aim_spread_arcsec
from core.sky.bodies import TARGETS, Body
from core.sky.night import Night, compute_night
from core.sky.site import BlockedSky, Site, WarmAir
from core.words.aim import aim_notices, no_ceiling_words
from tests.core.gear.examples import telescope
from tests.core.telling import best_aim


def lisbon(*blocked: BlockedSky) -> Night:
    site = Site(
        name="Terrace", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon", blocked=blocked
    )
    return compute_night(site, date(2026, 12, 30))


@pytest.fixture(scope="module")
def night() -> Night:
    return lisbon()


def test_a_planet_without_a_time_is_taken_at_its_highest_inside_its_windows(night: Night) -> None:
    mars = best_aim(night, Body.MARS)

    assert mars.at == night.of(Body.MARS).highest.time
    assert mars.altitude_deg == pytest.approx(night.of(Body.MARS).highest.altitude_deg)
    assert mars.path is not None
    assert 1.0 < mars.path < 1.3
    assert (mars.planet, mars.overhead, mars.refusal) == (Body.MARS, False, None)


def test_a_planet_still_rising_at_dawn_is_taken_well_before_it_is_time_to_stop(night: Night) -> None:
    venus = best_aim(night, Body.VENUS)
    assert venus.at is not None
    assert night.sun.rise is not None

    # From a quarter of an hour before the stop line, ten minutes before sunrise, nothing counts but to stop.
    assert timedelta(minutes=25) <= night.sun.rise - venus.at < timedelta(minutes=25, seconds=2)
    assert venus.altitude_deg is not None
    assert venus.altitude_deg < night.of(Body.VENUS).highest.altitude_deg - 1.0


def test_a_planet_behind_something_at_its_highest_is_taken_beside_it() -> None:
    wall = BlockedSky(azimuth_from_deg=150.0, azimuth_to_deg=250.0, below_altitude_deg=80.0, what="wall")
    night = lisbon(wall)
    mars = best_aim(night, Body.MARS)
    assert mars.at is not None

    assert any(window.start <= mars.at < window.end for window in night.of(Body.MARS).windows)
    assert night.position(Body.MARS, mars.at).azimuth_deg == pytest.approx(150.0, abs=0.05)


def test_a_planet_with_no_window_is_offered_at_no_moment_and_has_the_reason() -> None:
    # Mercury set before the Sun there, though 27 degrees away from it.
    fairbanks = Site(
        name="Fairbanks", latitude_deg=64.84, longitude_deg=-147.72, time_zone="America/Anchorage"
    )
    night = compute_night(fairbanks, date(2016, 8, 16))
    mercury = best_aim(night, Body.MERCURY)

    assert (mercury.at, mercury.altitude_deg, mercury.refusal) == (None, None, Refusal.NO_WINDOW)
    assert no_ceiling_words(mercury) == (
        "Mercury is up only while the Sun is up too or the sky is still too bright"
    )

    by_day = best_aim(night, Body.MERCURY, night.of(Body.MERCURY).highest.time)
    assert by_day.is_offered
    (caution,) = aim_notices(by_day)
    assert "27° east of the Sun, which is up" in caution
    assert "Mercury by day is very hard to find" in caution


def test_beside_the_sun_nothing_is_offered(night: Night) -> None:
    # Mercury was 2 degrees from the Sun on 30 December 2026, three days before its superior conjunction.
    mercury = best_aim(night, Body.MERCURY, night.of(Body.MERCURY).highest.time)

    assert mercury.refusal is Refusal.TOO_NEAR_THE_SUN
    assert no_ceiling_words(mercury) == (
        "Mercury stands 2° west of the Sun, which is up: nothing is offered so near it"
    )
    assert aim_notices(mercury) == (
        "Do not look for Mercury so near the Sun. Sunlight through any optics blinds at once.",
    )


def test_by_day_only_some_bodies_are_offered_and_before_it_is_dark_enough_too(night: Night) -> None:
    noon = datetime(2026, 12, 30, 15, 0, tzinfo=UTC)
    morning = datetime(2026, 12, 31, 8, 30, tzinfo=UTC)
    by_day = {body: best_aim(night, body, morning).refusal for body in TARGETS}
    assert by_day[Body.MARS] is Refusal.NOT_BY_DAY
    assert by_day[Body.SATURN] is Refusal.BELOW_HORIZON
    assert {body for body, refusal in by_day.items() if refusal is None} == {
        *(Body.MOON, Body.VENUS, Body.JUPITER),
    }
    # In the afternoon these three have set.
    assert {best_aim(night, body, noon).refusal for body in (Body.MOON, Body.VENUS, Body.JUPITER)} == {
        Refusal.BELOW_HORIZON
    }
    assert no_ceiling_words(best_aim(night, Body.SATURN, noon)) == (
        "Saturn is not to be seen by day: the Sun is up"
    )
    # The Sun is 2 degrees below the horizon then, and Saturn wants 4 (common practice, no source).
    dusk = night.sun.set
    assert dusk is not None
    assert best_aim(night, Body.SATURN, dusk + timedelta(minutes=7)).refusal is Refusal.SKY_TOO_BRIGHT
    # Jupiter, up in the morning, is offered in the last twilight before the Sun as well as by day.
    dawn = night.sun.rise
    assert dawn is not None
    assert best_aim(night, Body.JUPITER, dawn - timedelta(minutes=7)).is_offered


def test_in_the_last_minutes_before_sunrise_it_is_time_to_cap_the_telescope(night: Night) -> None:
    assert night.sun.rise is not None
    late, early = (night.sun.rise - timedelta(minutes=minutes) for minutes in (5, 15))
    assert aim_notices(best_aim(night, Body.VENUS, early)) == ()
    (caution,) = aim_notices(best_aim(night, Body.VENUS, late))
    assert "cap the telescope" in caution


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

    def told(body: Body, at: datetime) -> tuple[str, ...]:
        return aim_notices(best_aim(night, body, at))

    assert told(Body.SATURN, hidden.start) == ("Saturn is then behind blocked sky (wall).",)
    assert told(Body.JUPITER, through.start) == ("Jupiter is then seen through warm air (vent).",)
    assert told(Body.JUPITER, through.end) == ()


def test_a_planet_at_a_time_is_taken_there(night: Night) -> None:
    at = datetime(2026, 12, 30, 20, 0, tzinfo=UTC)
    saturn = best_aim(night, Body.SATURN, at)

    assert saturn.at == at
    assert saturn.altitude_deg == night.position(Body.SATURN, at).altitude_deg
    assert saturn.declination_deg == pytest.approx(1.0, abs=0.1)
    assert no_ceiling_words(saturn) is None


def test_below_five_degrees_there_is_no_path_and_the_reason_is_told(night: Night) -> None:
    low = best_aim(night, Body.SATURN, datetime(2026, 12, 31, 0, 15, tzinfo=UTC))
    down = best_aim(night, Body.SATURN, datetime(2026, 12, 31, 3, 0, tzinfo=UTC))

    assert low.path is down.path is None
    reason = no_ceiling_words(low)
    assert reason is not None
    assert reason.startswith("Saturn is ")
    assert reason.endswith("° high: no air path is given below 5°")
    assert no_ceiling_words(down) == "Saturn is below the horizon: no air path is given below 5°"


def test_a_height_alone() -> None:
    # Kasten and Young give 1.99 at 30 degrees; the air lifts a body there by 1.7 arcminutes.
    aim = aim_altitude(30.0)

    assert (aim.planet, aim.at, aim.altitude_deg, no_ceiling_words(aim)) == (None, None, 30.0, None)
    assert aim.apparent_altitude_deg == pytest.approx(30.0 + 1.7 / 60.0, abs=0.001)
    assert aim.path == pytest.approx(1.99, abs=0.01)
    assert aim_altitude(4.0).path is None
    # No colours are spread overhead, nor told where no air path is.
    assert aim_spread_arcsec(None) == 0.0
    assert no_ceiling_words(aim_altitude(4.0)) == (
        "A body at this height is seen 4.2° high: no air path is given below 5°"
    )


def test_straight_overhead_is_flagged() -> None:
    aim = aim_overhead()

    assert aim.overhead
    assert (aim.altitude_deg, aim.apparent_altitude_deg, aim.path) == (90.0, 90.0, 1.0)
    assert not aim_altitude(90.0).overhead


def test_limits_where_nothing_is_said_of_a_warm_mirror_are_those_of_a_cool_one() -> None:
    """150 and 254 mm bear 199 and 236x overhead in fair air, by the plan's check values."""
    fair = Blur(overhead_arcsec=1.45)

    found = [aim_overhead().limits_of(telescope(aperture_mm=mm), blur=fair) for mm in (150, 254)]

    assert [limits.together for limits in found] == [pytest.approx(199, abs=1), pytest.approx(236, abs=1)]
    assert [limits.usual_air for limits in found] == [300, 300]
