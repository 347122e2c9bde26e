"""Dates that can be computed, and how bodies look from the Earth's centre."""

import subprocess
import sys
from datetime import UTC, date, datetime, timedelta

import ephem
import numpy as np
import pytest

from core.sky.bodies import TARGETS, Body
from core.sky.ephemeris import DAY_S, EphemerisRangeError, size_and_light, usable_dates
from core.sky.geocentric import elongation_deg
from core.sky.night import compute_night
from core.sky.site import Site


def at(text: str) -> np.ndarray:
    return np.array([datetime.fromisoformat(text).replace(tzinfo=UTC).timestamp()])


def test_usable_dates_stay_inside_de421_and_leave_out_little() -> None:
    # The file covers 1899-07-29 to 2053-10-09.
    first, last = usable_dates()

    assert timedelta(0) < first - date(1899, 7, 29) < timedelta(days=31)
    assert timedelta(0) < date(2053, 10, 9) - last < timedelta(days=31)


@pytest.mark.parametrize("time_zone", ["Pacific/Kiritimati", "Etc/GMT+12", "Europe/Lisbon"])
@pytest.mark.parametrize("which", [0, 1])
def test_the_first_and_the_last_usable_evening_can_be_computed(time_zone: str, which: int) -> None:
    site = Site(name="Anywhere", latitude_deg=10.0, longitude_deg=0.0, time_zone=time_zone)

    night = compute_night(site, usable_dates()[which])

    assert len(night.bodies) == len(TARGETS)
    assert all(np.isfinite(body.track.altitude_deg).all() for body in night.bodies)


@pytest.mark.parametrize("asked", [date(1889, 1, 1), date(2060, 1, 1), date.min, date.max])
def test_other_dates_are_refused_with_the_range(asked: date) -> None:
    site = Site(name="Anywhere", latitude_deg=10.0, longitude_deg=0.0, time_zone="America/Adak")
    first, last = usable_dates()

    with pytest.raises(EphemerisRangeError) as refused:
        compute_night(site, asked)

    assert str(refused.value) == f"{asked} is outside the planet tables: choose a date from {first} to {last}"


def test_the_days_next_to_the_usable_ones_are_refused() -> None:
    site = Site(name="Anywhere", latitude_deg=10.0, longitude_deg=0.0, time_zone="UTC")
    first, last = usable_dates()

    for asked in (first - timedelta(days=1), last + timedelta(days=1)):
        with pytest.raises(EphemerisRangeError):
            compute_night(site, asked)


def test_an_evening_needs_no_network_and_warns_of_nothing() -> None:
    code = """
import socket
def refuse(*args, **kwargs): raise AssertionError("network asked")
socket.socket.connect = socket.create_connection = socket.getaddrinfo = refuse
from datetime import date
from core.sky.night import compute_night
from core.sky.site import Site
compute_night(Site(name="A", latitude_deg=1, longitude_deg=2, time_zone="UTC"), date(2052, 1, 1))
"""
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", code], capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stderr, done.stdout) == (0, "", "")


@pytest.mark.parametrize("body", TARGETS)
def test_every_figure_is_a_number_on_every_date(body: Body) -> None:
    # skyfield's formula has no answer for Neptune before 2000 at its largest phase angles.
    times_s = np.arange(-2.2e9, 2.64e9, 30.3 * DAY_S)
    seen = size_and_light(body, times_s)
    # Each by itself: asked for together, places would be laid through all days between.
    from_sun_deg = np.concatenate(
        [elongation_deg(body, times_s[place : place + 1]) for place in range(0, times_s.size, 40)]
    )

    for figures in (seen.magnitude, seen.diameter_arcsec, seen.illuminated_fraction, from_sun_deg):
        assert np.isfinite(figures).all()


def test_neptune_before_2000_stays_within_its_known_brightness() -> None:
    # Mallama and Hilton 2018: 7.67 to 8.00 in all the time that it has been measured.
    magnitude = size_and_light(Body.NEPTUNE, np.arange(-2.2e9, 0.94e9, 7.0 * DAY_S)).magnitude

    assert 7.6 < magnitude.min() < magnitude.max() < 8.05


def test_the_moon_at_two_eclipses() -> None:
    # Total eclipses of 2026, greatest at 12 August 17:46 and 3 March 11:34 UT (published lists, from memory).
    at_new, at_full = at("2026-08-12T17:46:00"), at("2026-03-03T11:34:00")
    new, full = size_and_light(Body.MOON, at_new), size_and_light(Body.MOON, at_full)

    assert new.illuminated_fraction[0] < 0.0005
    assert elongation_deg(Body.MOON, at_new)[0] < 1.5
    assert full.illuminated_fraction[0] > 0.9999
    assert elongation_deg(Body.MOON, at_full)[0] > 178.5
    assert full.magnitude[0] == pytest.approx(-12.7, abs=0.2)


def test_mars_at_its_closest() -> None:
    # Mars, 27 August 2003 09:51 UT: 0.37272 au, 25.13 arcsec, magnitude -2.9 (widely published).
    mars = size_and_light(Body.MARS, at("2003-08-27T09:51:00"))

    assert mars.distance_au[0] == pytest.approx(0.37272, abs=0.00001)
    assert mars.diameter_arcsec[0] == pytest.approx(25.13, abs=0.02)
    assert mars.magnitude[0] == pytest.approx(-2.9, abs=0.06)


@pytest.mark.parametrize("body", [Body.MERCURY, Body.VENUS, Body.MARS, Body.JUPITER])
def test_brightness_follows_the_formula_with_the_sun_where_it_is(body: Body) -> None:
    # Distances and phase of PyEphem; Mallama and Hilton 2018, equations 2 (Mercury), 3 (Venus), 6 (Mars), 8.
    terms = {
        Body.MERCURY: (-0.613, 6.3280e-02, -1.6336e-03, 3.3644e-05, -3.4265e-07, 1.6893e-09, -3.0334e-12),
        Body.VENUS: (-4.384, -1.044e-03, 3.687e-04, -2.814e-06, 8.938e-09),
        Body.MARS: (-1.601, 0.02267, -0.0001302),
        Body.JUPITER: (-9.395, -3.7e-04, 6.16e-04),
    }[body]
    for days in range(0, 720, 12):
        time = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(days=days)
        planet = getattr(ephem, body.label)(time)
        between = ephem.Sun(time).earth_distance
        sun, earth = planet.sun_distance, planet.earth_distance
        phase_deg = np.degrees(np.arccos((sun**2 + earth**2 - between**2) / (2.0 * sun * earth)))
        if body is Body.VENUS and phase_deg > 160.0:
            continue  # beyond this its formula is another
        expected = 5.0 * np.log10(sun * earth) + sum(k * phase_deg**n for n, k in enumerate(terms))
        (found,) = size_and_light(body, np.array([time.timestamp()])).magnitude
        assert found == pytest.approx(expected, abs=0.012), (body, time)
