"""Discs, axes, seasons and phases: what must hold at any time, and who is on which side of the Sun."""

from datetime import UTC, datetime, timedelta
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.arrays import Floats
from core.sky.bodies import TARGETS, Body
from core.sky.disc import disc_at
from core.sky.ephemeris import magnitude, size_and_light
from core.sky.geocentric import elongation_deg
from core.sky.mars_season import MarsSeason, mars_season
from core.sky.moon_phase import PhaseName, moon_phase, phase_name
from core.sky.ring import ring_of

UNIX_S = st.floats(-6e8, 2.5e9)  # 1951 to 2049
TIMES = UNIX_S.map(lambda unix_s: datetime.fromtimestamp(unix_s, UTC))


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


@settings(max_examples=40, deadline=None)
@given(body=st.sampled_from(TARGETS), time=TIMES)
def test_what_holds_for_every_disc(body: Body, time: datetime) -> None:
    disc = disc_at(body, time)

    assert 0.0 < disc.polar_diameter_arcsec <= disc.equatorial_diameter_arcsec * (1 + 1e-12)
    assert 0.0 <= disc.illuminated_fraction <= 1.0
    assert 0.0 <= disc.bright_limb_angle_deg < 360.0
    assert 0.0 <= disc.pole_angle_deg < 360.0
    assert 0.0 <= disc.elongation_deg <= 180.0
    for meridian in disc.central_meridians:
        assert 0.0 <= meridian.longitude_deg < 360.0
    for centric, graphic in (
        (disc.sub_earth_latitude_planetocentric_deg, disc.sub_earth_latitude_planetographic_deg),
        (disc.sub_solar_latitude_planetocentric_deg, disc.sub_solar_latitude_planetographic_deg),
    ):
        # A flattened globe's planetographic latitude is never nearer to its equator.
        assert abs(graphic) >= abs(centric) - 1e-9
        assert graphic * centric >= 0.0


@settings(max_examples=20, deadline=None)
@given(body=st.sampled_from(TARGETS), time=TIMES)
def test_size_phase_and_side_agree_with_the_planet_tables(body: Body, time: datetime) -> None:
    """Two theories: astronomy-engine's series here, JPL's DE421 through skyfield there."""
    disc = disc_at(body, time)
    other = size_and_light(body, _seconds(time))

    assert disc.equatorial_diameter_arcsec == pytest.approx(float(other.diameter_arcsec[0]), rel=0.0005)
    assert disc.illuminated_fraction == pytest.approx(float(other.illuminated_fraction[0]), abs=0.001)
    from_sun_deg = float(elongation_deg(body, _seconds(time))[0])
    assert disc.elongation_deg == pytest.approx(from_sun_deg, abs=0.05)
    assert disc.magnitude == float(other.magnitude[0]) == float(magnitude(body, _seconds(time))[0])


def _seconds(time: datetime) -> Floats:
    return np.array([time.timestamp()])


# Greatest elongations and conjunctions of 2026 as almanacs have them: which side, before and after.
SIDES = [
    (Body.VENUS, "2026-08-15", True),  # greatest elongation east
    (Body.VENUS, "2026-11-15", False),  # after inferior conjunction, October 24
    (Body.MARS, "2026-12-05", False),  # a morning planet before its opposition in February 2027
    (Body.SATURN, "2026-12-05", True),  # after its opposition in October
    (Body.MOON, "2026-11-17", True),  # first quarter
    (Body.MOON, "2026-12-01", False),  # last quarter
]


@pytest.mark.parametrize(("body", "day", "east"), SIDES)
def test_the_side_of_the_sun(body: Body, day: str, east: bool) -> None:
    disc = disc_at(body, utc(day))

    assert disc.east_of_sun is east
    # Away from conjunction the lit side tells the same: it faces the Sun.
    assert (disc.bright_limb_angle_deg > 180.0) is east


def test_a_ring_belongs_to_saturn_alone() -> None:
    time = utc("2026-12-05")

    assert [body for body in TARGETS if ring_of(disc_at(body, time)) is not None] == [Body.SATURN]


def test_a_system_that_a_body_does_not_have_is_none() -> None:
    time = utc("2026-12-05")

    assert disc_at(Body.MARS, time).central_meridian_deg("II") is None
    assert [meridian.system for meridian in disc_at(Body.JUPITER, time).central_meridians] == [
        "I",
        "II",
        "III",
    ]
    assert [meridian.system for meridian in disc_at(Body.SATURN, time).central_meridians] == ["I", "III"]


def test_saturn_s_belts_near_the_equator_turn_in_the_shorter_day() -> None:
    """System I turns in 10 h 14 min (844.3 degrees a day), System III in 10 h 39 min."""
    start = utc("2026-12-05")

    def turned(system: str, hours: float) -> float:
        first, last = (
            disc_at(Body.SATURN, start + timedelta(hours=shift)).central_meridian_deg(system)
            for shift in (0, hours)
        )
        assert first is not None
        assert last is not None
        return (last - first + 180.0) % 360.0 - 180.0

    assert abs(turned("I", 10 + 14 / 60)) < 1.0
    assert abs(turned("III", 10 + 39.4 / 60)) < 1.0


@pytest.mark.parametrize(
    ("longitude", "north", "south", "dust"),
    [
        (0.0, "early spring", "early autumn", False),
        (45.0, "mid spring", "mid autumn", False),
        (89.9, "late spring", "late autumn", False),
        (100.0, "early summer", "early winter", False),
        (251.0, "late autumn", "late spring", True),
        (329.9, "mid winter", "mid summer", True),
        (359.9, "late winter", "late summer", False),
    ],
)
def test_seasons_on_mars_have_names(longitude: float, north: str, south: str, dust: bool) -> None:
    season = MarsSeason(solar_longitude_deg=longitude)

    assert (season.northern, season.southern, season.dust_likely) == (north, south, dust)


def test_a_year_on_mars_is_687_days_and_its_seasons_follow_one_another() -> None:
    start = utc("2026-12-05")
    longitudes = [mars_season(start + timedelta(days=days)).solar_longitude_deg for days in range(0, 687, 30)]
    steps = [(b - a) % 360.0 for a, b in pairwise(longitudes)]

    # Between 0.4 and 0.7 degrees a day, as its orbit is far from a circle.
    assert all(12.0 < step < 21.0 for step in steps)
    assert (
        abs((mars_season(start + timedelta(days=686.97)).solar_longitude_deg - longitudes[0]) % 360.0) < 0.2
    )


def test_caps_shrink_from_their_spring_to_their_summer() -> None:
    edges = [MarsSeason(solar_longitude_deg=longitude).north_cap_edge_deg for longitude in (0, 60, 120)]

    assert edges == sorted(edges)
    assert MarsSeason(solar_longitude_deg=180).south_cap_edge_deg == edges[0]


@pytest.mark.parametrize(
    ("ahead", "name"),
    [
        (0.0, PhaseName.NEW),
        (355.0, PhaseName.NEW),
        (45.0, PhaseName.WAXING_CRESCENT),
        (90.0, PhaseName.FIRST_QUARTER),
        (84.5, PhaseName.FIRST_QUARTER),
        (130.0, PhaseName.WAXING_GIBBOUS),
        (180.0, PhaseName.FULL),
        (200.0, PhaseName.WANING_GIBBOUS),
        (270.0, PhaseName.LAST_QUARTER),
        (300.0, PhaseName.WANING_CRESCENT),
    ],
)
def test_phases_of_the_moon_have_names(ahead: float, name: PhaseName) -> None:
    assert phase_name(ahead) is name


def test_at_the_quarters_day_meets_night_in_the_middle_of_the_moon() -> None:
    """First quarter 2026 November 17 at 11:48, last quarter December 1 at 06:09 (US Naval Observatory)."""
    first, last = moon_phase(utc("2026-11-17T11:48:00")), moon_phase(utc("2026-12-01T06:09:00"))

    assert first.name is PhaseName.FIRST_QUARTER
    assert last.name is PhaseName.LAST_QUARTER
    assert abs(first.ahead_of_sun_deg - 90.0) < 0.1
    assert abs(last.ahead_of_sun_deg - 270.0) < 0.1
    # Within what the Moon librates.
    assert abs(first.terminator_longitude_deg) < 9.0
    assert abs(last.terminator_longitude_deg) < 9.0
    assert abs(first.terminator_longitude_deg - first.libration_longitude_deg) < 1.0


@settings(max_examples=30, deadline=None)
@given(time=TIMES)
def test_the_moon_librates_no_further_than_it_can(time: datetime) -> None:
    """At most about 8 degrees in longitude and 6.9 in latitude, seen from the Earth's centre."""
    phase = moon_phase(time)

    assert abs(phase.libration_longitude_deg) < 8.3
    assert abs(phase.libration_latitude_deg) < 7.0
    assert -180.0 <= phase.terminator_longitude_deg < 180.0
