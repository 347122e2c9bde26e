"""Whole evenings against printed and independently computed events."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from functools import partial
from typing import Any

import astronomy
import numpy as np
import pytest

from core.problems import ProblemsError
from core.sky.bodies import Body
from core.sky.events import BodyState
from core.sky.night import Night, compute_night, read_tables
from core.sky.site import Site

EVENT = timedelta(seconds=2)


def evening_at(
    latitude_deg: float, longitude_deg: float, zone: str, evening: date, elevation_m: float = 0.0
) -> Night:
    site = Site(
        name="Here",
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        elevation_m=elevation_m,
        time_zone=zone,
    )
    return compute_night(site, evening)


def site_clock(night: Night, time: datetime) -> str:
    return (time + timedelta(seconds=0.5)).astimezone(night.site.zone).strftime("%Y-%m-%d %H:%M:%S %Z")


def test_bodies_below_the_horizon_all_day_never_rise() -> None:
    # Tromso, by skyfield: Venus at most -4.46 degrees at 12:32 UT, Mars -4.09 at 12:25.
    night = evening_at(69.65, 18.96, "Europe/Oslo", date(2027, 11, 28))

    for body, highest_deg, clock in ((Body.VENUS, -4.46, "12:31"), (Body.MARS, -4.09, "12:24")):
        found = night.of(body)
        assert found.state is BodyState.NEVER_UP
        assert found.rises == found.sets == ()
        assert found.highest.altitude_deg == pytest.approx(highest_deg, abs=0.005)
        assert found.highest.time.strftime("%H:%M") == clock
        assert found.highest.path is None


def test_the_winter_moon_of_the_far_north_is_always_up() -> None:
    # At 69.65 N a body is always up while it stands more than 20.4 degrees north: the full Moon of
    # 24 December 2026 does.
    moon = evening_at(69.65, 18.96, "Europe/Oslo", date(2026, 12, 23)).of(Body.MOON)

    assert moon.state is BodyState.ALWAYS_UP
    assert moon.rises == moon.sets == ()
    assert len(moon.transits) == 1
    assert moon.windows


def test_mercury_sets_before_the_sun_though_27_degrees_away() -> None:
    # Fairbanks, 16 August 2016, by skyfield: sunset 22:04:47 AKDT, Mercury at -2.0 degrees then, gone
    # 13.9 minutes before; elongation 27.4 degrees.
    night = evening_at(64.84, -147.72, "America/Anchorage", date(2016, 8, 16))
    mercury = night.of(Body.MERCURY)
    assert night.sun.set is not None

    assert site_clock(night, night.sun.set) == "2016-08-16 22:04:47 AKDT"
    assert (night.sun.set - mercury.sets[0]).total_seconds() == pytest.approx(13.9 * 60.0, abs=4.0)
    assert night.position(Body.MERCURY, night.sun.set).altitude_deg == pytest.approx(-2.0, abs=0.05)
    assert mercury.elongation_deg == pytest.approx(27.4, abs=0.05)
    assert mercury.windows == ()


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "zone", "altitude_deg", "minutes"),
    [
        (40.0, -75.0, "America/New_York", 16.47, 91.6),
        (-40.0, 175.0, "Pacific/Auckland", 6.90, 39.0),
    ],
)
def test_one_mercury_evening_from_both_sides_of_the_earth(
    latitude_deg: float, longitude_deg: float, zone: str, altitude_deg: float, minutes: float
) -> None:
    # 16 February 2013, printed as 16.5 and "about 7" degrees at sunset; figures by skyfield.
    night = evening_at(latitude_deg, longitude_deg, zone, date(2013, 2, 16))
    assert night.sun.set is not None
    sets = next(time for time in night.of(Body.MERCURY).sets if time > night.sun.set)

    assert night.position(Body.MERCURY, night.sun.set).altitude_deg == pytest.approx(altitude_deg, abs=0.01)
    assert (sets - night.sun.set).total_seconds() / 60.0 == pytest.approx(minutes, abs=0.1)


def test_low_planets_of_2018_and_2021_from_britain() -> None:
    # By skyfield: Mars 11.5 degrees at transit from 53 N 2 W; Jupiter 23.45 from 53 N; Mercury, 26.8
    # degrees from the Sun on 14 September 2021, 1.1 degrees high at sunset from 56.5 N 3 W.
    mars = evening_at(53.0, -2.0, "Europe/London", date(2018, 7, 27)).of(Body.MARS)
    autumn = evening_at(56.5, -3.0, "Europe/London", date(2021, 9, 14))
    assert autumn.sun.set is not None

    assert mars.transits[0].altitude_deg == pytest.approx(11.45, abs=0.05)
    assert autumn.of(Body.MERCURY).elongation_deg == pytest.approx(26.8, abs=0.1)
    assert autumn.position(Body.MERCURY, autumn.sun.set).altitude_deg == pytest.approx(1.1, abs=0.06)
    assert autumn.of(Body.MERCURY).windows == ()


def test_the_moon_covers_venus_over_rome() -> None:
    # 6 April 2016, in broad daylight, from 09:14 CEST: centres 0.264 degrees apart, by skyfield.
    night = evening_at(41.9, 12.5, "Europe/Rome", date(2016, 4, 5))
    time = datetime(2016, 4, 6, 7, 14, tzinfo=UTC)
    venus, moon = night.position(Body.VENUS, time), night.position(Body.MOON, time)
    up_deg = venus.altitude_deg - moon.altitude_deg
    across_deg = (venus.azimuth_deg - moon.azimuth_deg) * np.cos(np.radians(venus.altitude_deg))

    assert venus.altitude_deg == pytest.approx(30.7, abs=0.05)
    assert venus.azimuth_deg == pytest.approx(124.3, abs=0.05)
    assert np.hypot(up_deg, across_deg) == pytest.approx(0.264, abs=0.002)


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "zone", "body", "evening", "transit"),
    [
        (51.48, 0.0, "Europe/London", Body.JUPITER, date(2026, 1, 11), "2026-01-12 00:00:13 GMT"),
        (51.48, 0.0, "Europe/London", Body.JUPITER, date(2026, 1, 12), "2026-01-12 23:55:43 GMT"),
        (52.5, 13.4, "Europe/Berlin", Body.SATURN, date(2026, 10, 17), "2026-10-18 00:02:42 CEST"),
        (52.5, 13.4, "Europe/Berlin", Body.SATURN, date(2026, 10, 18), "2026-10-18 23:58:29 CEST"),
        (28.6, 77.2, "Asia/Kolkata", Body.SATURN, date(2026, 10, 7), "2026-10-08 00:00:23 IST"),
        (28.6, 77.2, "Asia/Kolkata", Body.SATURN, date(2026, 10, 8), "2026-10-08 23:56:10 IST"),
        (27.7, 85.3, "Asia/Kathmandu", Body.SATURN, date(2026, 10, 3), "2026-10-03 23:59:58 +0545"),
        (1.87, -157.4, "Pacific/Kiritimati", Body.SATURN, date(2026, 10, 4), "2026-10-05 00:22:55 +14"),
        (-13.83, -171.77, "Pacific/Apia", Body.JUPITER, date(2011, 12, 29), "2011-12-29 20:48:31 -10"),
        (-13.83, -171.77, "Pacific/Apia", Body.JUPITER, date(2011, 12, 31), "2011-12-31 20:44:38 +14"),
    ],
)
def test_each_evening_has_its_own_transit_though_a_civil_day_may_have_two(
    latitude_deg: float, longitude_deg: float, zone: str, body: Body, evening: date, transit: str
) -> None:
    # Times by skyfield's almanac search.
    night = evening_at(latitude_deg, longitude_deg, zone, evening)
    clock, _, name = transit.rpartition(" ")
    expected = datetime.fromisoformat(clock)
    (found,) = night.of(body).transits

    ours = found.time.astimezone(night.site.zone)
    assert abs(ours.replace(tzinfo=None) - expected) < timedelta(seconds=1.5)
    assert ours.tzname() == name


@pytest.mark.parametrize(
    ("evening", "body", "counts"),
    [
        (date(2026, 4, 15), Body.SATURN, (1, 2, 1)),
        (date(2026, 7, 14), Body.NEPTUNE, (1, 1, 2)),
        (date(2026, 1, 18), Body.URANUS, (2, 1, 1)),
        (date(2026, 3, 28), Body.NEPTUNE, (1, 0, 1)),
        (date(2026, 1, 28), Body.MOON, (0, 1, 1)),
        (date(2026, 2, 16), Body.MOON, (1, 0, 1)),
        (date(2026, 4, 10), Body.MOON, (1, 1, 0)),
    ],
)
def test_two_of_a_kind_or_none(evening: date, body: Body, counts: tuple[int, int, int]) -> None:
    # Berlin; each event looked up in astronomy-engine, which has its own planet theory.
    night = evening_at(52.5, 13.4, "Europe/Berlin", evening)
    found = night.of(body)
    transits = tuple(transit.time for transit in found.transits)

    assert (len(found.rises), len(transits), len(found.sets)) == counts
    observer = astronomy.Observer(52.5, 13.4, 0.0)
    planet = astronomy.Body[body.heading]
    horizon_deg = -34.0 / 60.0
    at_height = partial(astronomy.SearchAltitude, planet, observer)
    rise, fall = astronomy.Direction.Rise, astronomy.Direction.Set
    for ours, search in (
        (found.rises, lambda start: at_height(rise, start, 2.0, horizon_deg)),
        (found.sets, lambda start: at_height(fall, start, 2.0, horizon_deg)),
        (transits, lambda start: astronomy.SearchHourAngle(planet, observer, 0.0, start).time),
    ):
        assert all(
            abs(mine - theirs) < timedelta(seconds=5)
            for mine, theirs in zip(ours, events_of(night, search), strict=True)
        )


def events_of(night: Night, search: Callable[[Any], Any]) -> list[datetime]:
    """Repeat a search of astronomy-engine until it leaves the evening."""
    found = []
    moment = astronomy.Time.Parse(night.start.strftime("%Y-%m-%dT%H:%M:%SZ"))
    while (moment := search(moment).AddDays(0.01)).AddDays(-0.01).Utc().replace(tzinfo=UTC) < night.end:
        found.append(moment.AddDays(-0.01).Utc().replace(tzinfo=UTC))
    return found


def test_the_night_of_the_autumn_change_in_berlin() -> None:
    # By skyfield: Jupiter rises 01:14:50 CEST, Saturn sets 04:43:08 CET, and at the two 02:30s of that
    # night Jupiter stands 10.3 and 19.4 degrees high.
    night = evening_at(52.5, 13.4, "Europe/Berlin", date(2026, 10, 24))

    assert site_clock(night, night.of(Body.JUPITER).rises[0]).endswith("01:14:51 CEST")
    assert site_clock(night, night.of(Body.SATURN).sets[0]).endswith("04:43:08 CET")
    for hour, altitude_deg in ((0, 10.3), (1, 19.4)):
        time = datetime(2026, 10, 25, hour, 30, tzinfo=UTC)
        assert night.position(Body.JUPITER, time).altitude_deg == pytest.approx(altitude_deg, abs=0.06)


def test_a_planet_through_the_zenith() -> None:
    # Saturn from Kiritimati on 5 October 2026 passes 0.1 degrees from overhead.
    saturn = evening_at(1.87, -157.4, "Pacific/Kiritimati", date(2026, 10, 4)).of(Body.SATURN)

    assert saturn.transits[0].altitude_deg == pytest.approx(89.9, abs=0.05)
    assert abs(saturn.highest.time - saturn.transits[0].time) < EVENT
    assert len(saturn.above_45) == 1


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "zone", "evening", "sunrise"),
    [
        (26.85, 80.95, "Asia/Kolkata", date(2020, 4, 29), "2020-04-30 05:29:17 IST"),
        (27.18, 78.01, "Asia/Kolkata", date(2020, 4, 29), "2020-04-30 05:40:24 IST"),
        (40.42, -3.70, "Europe/Madrid", date(2020, 11, 28), "2020-11-29 08:16:53 CET"),
        (1.35, 103.82, "Asia/Singapore", date(2020, 9, 8), "2020-09-09 06:58:07 +08"),
    ],
)
def test_sunrises_belong_to_the_evening_before(
    latitude_deg: float, longitude_deg: float, zone: str, evening: date, sunrise: str
) -> None:
    # By skyfield. Where in each town is not said, and a town is half a minute wide.
    night = evening_at(latitude_deg, longitude_deg, zone, evening)
    assert night.sun.rise is not None
    expected = datetime.fromisoformat(sunrise.rpartition(" ")[0]).replace(tzinfo=night.site.zone)

    assert abs(night.sun.rise - expected) < timedelta(seconds=45)


def test_midnight_sun_and_polar_night_have_neither_sunset_nor_sunrise() -> None:
    summer = evening_at(78.22, 15.65, "Arctic/Longyearbyen", date(2026, 6, 21)).sun
    winter = evening_at(78.22, 15.65, "Arctic/Longyearbyen", date(2026, 12, 21)).sun

    assert summer.set is summer.rise is summer.civil_dusk is None
    assert summer.lowest_altitude_deg > 0.0
    assert winter.set is winter.rise is winter.civil_dusk is None
    assert winter.lowest_altitude_deg < -18.0
    # At noon the Sun is 11.7 degrees down there: it passes -12 and -18, but not -6.
    assert winter.nautical_dusk is not None
    assert winter.astronomical_dawn is not None


def test_a_track_runs_from_start_to_end_once_a_minute() -> None:
    night = evening_at(-35.3, 149.1, "Australia/Sydney", date(2026, 1, 10))
    track = night.of(Body.JUPITER).track

    assert track.unix_s[0] == night.start.timestamp()
    assert track.unix_s[-1] == night.end.timestamp()
    assert np.allclose(np.diff(track.unix_s), 60.0)
    for array in (track.altitude_deg, track.azimuth_deg, track.apparent_altitude_deg):
        assert array.shape == track.unix_s.shape
    middle = night.position(Body.JUPITER, datetime.fromtimestamp(track.unix_s[700], tz=UTC))
    assert middle.altitude_deg == pytest.approx(track.altitude_deg[700])
    assert middle.apparent_altitude_deg == pytest.approx(track.apparent_altitude_deg[700])
    # The sky turns a quarter of a degree a minute; refraction adds no step where the body rises or sets.
    assert np.abs(np.diff(track.apparent_altitude_deg)).max() < 0.26


def test_a_transit_in_the_north_is_a_transit() -> None:
    jupiter = evening_at(-33.87, 151.21, "Australia/Sydney", date(2026, 1, 10)).of(Body.JUPITER)
    (transit,) = jupiter.transits

    assert min(transit.azimuth_deg, 360.0 - transit.azimuth_deg) < 0.001
    assert transit.altitude_deg == pytest.approx(34.0, abs=0.5)


def test_a_skipped_date_has_no_evening() -> None:
    with pytest.raises(ProblemsError, match="2011-12-30"):
        evening_at(-13.83, -171.77, "Pacific/Apia", date(2011, 12, 30))


def test_a_body_that_was_not_asked_for() -> None:
    site = Site(name="Here", latitude_deg=0.0, longitude_deg=0.0, time_zone="UTC")
    night = compute_night(site, date(2026, 12, 5), targets=(Body.MARS,))

    assert [body.body for body in night.bodies] == [Body.MARS]
    with pytest.raises(KeyError):
        night.of(Body.SATURN)


@pytest.mark.parametrize("latitude_deg", [90.0, -90.0, 0.0])
@pytest.mark.parametrize("longitude_deg", [180.0, -180.0])
def test_the_ends_of_the_map(latitude_deg: float, longitude_deg: float) -> None:
    night = evening_at(latitude_deg, longitude_deg, "UTC", date(2026, 12, 5))

    for body in night.bodies:
        assert np.isfinite(body.track.altitude_deg).all()
        assert -90.0 <= body.highest.altitude_deg <= 90.0
        assert len(body.transits) == (0 if latitude_deg else 1)


@pytest.mark.parametrize("evening", [date(1987, 4, 16), date(1987, 4, 3)])  # in and at the edge of a block
def test_an_evening_whose_tables_are_read_asks_for_no_more(
    evening: date, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = Site(name="Terrace", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon")
    read_tables(site, evening)

    def ask(*_args: object) -> None:
        pytest.fail("the planet tables were asked again")

    monkeypatch.setattr("core.sky.ephemeris.node_vectors_au", ask)
    assert compute_night(site, evening).bodies


def test_no_tables_are_read_for_a_day_that_they_lack() -> None:
    site = Site(name="Terrace", latitude_deg=41.15, longitude_deg=-8.61, time_zone="Europe/Lisbon")
    with pytest.raises(ProblemsError, match="2060-01-01 is outside the planet tables"):
        read_tables(site, date(2060, 1, 1))
