"""Angles and directions from Moon, planets and stars, against astropy, which shares no code with the program.

Its stars here are those of the Hipparcos catalogue (ESA 1997, SP-1200) for 2000, from memory, rounded.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime

import astropy.units as u
import numpy as np
import pytest
from astropy.coordinates import AltAz, EarthLocation, SkyCoord, get_body, get_constellation
from astropy.time import Time
from astropy.utils import iers
from attrs import evolve

from core.sky.angles import angle_between_deg, bearing_deg
from core.sky.bodies import Body
from core.sky.ephemeris import constellation_of
from core.sky.landmarks import find_landmarks
from core.sky.night import compute_night
from core.sky.site import BlockedSky, Site
from core.sky.stars import Star, bright_stars_at
from core.sky.viewpoint import Viewpoint
from tests.core.evenings import LISBON, SCOTLAND, SOUTH_40

# Right ascension and declination of 2000 in degrees, proper motions in mas a year.
STARS = {
    "Aldebaran": (68.9802, 16.5093, 63.5, -189.4),
    "Regulus": (152.0930, 11.9672, -248.7, 5.6),
    "Spica": (201.2983, -11.1613, -42.4, -30.7),
    "Fomalhaut": (344.4127, -29.6222, 329.0, -164.7),
    "Hamal": (31.7934, 23.4624, 188.6, -148.1),
    "Algenib": (3.3090, 15.1836, 1.98, -9.28),
    "Arcturus": (213.9153, 19.1824, -1093.4, -1999.4),
}
CASES = [
    (LISBON, datetime(2026, 12, 5, 20, 30, tzinfo=UTC)),
    (SCOTLAND, datetime(2027, 2, 11, 2, 0, tzinfo=UTC)),
    (SOUTH_40, datetime(2031, 6, 3, 9, 0, tzinfo=UTC)),
    (LISBON, datetime(1985, 3, 1, 22, 0, tzinfo=UTC)),
]
WITHIN_DEG = 0.1
# That the Earth's turning is only foretold for years to come is known, and matters a second or two.
pytestmark = [
    pytest.mark.filterwarnings("ignore:.*dubious year:erfa.ErfaWarning"),
    pytest.mark.filterwarnings("ignore:Tried to get polar motions"),
    pytest.mark.filterwarnings("ignore:.*UT1-UTC"),
]


@pytest.fixture(scope="module", autouse=True)
def offline() -> Iterator[None]:
    """Keep astropy from the network."""
    with iers.conf.set_temp("auto_download", False), iers.conf.set_temp("auto_max_age", None):
        yield


def frame(site: Site, time: datetime) -> AltAz:
    place = EarthLocation.from_geodetic(site.longitude_deg, site.latitude_deg, site.elevation_m)
    return AltAz(obstime=Time(time.replace(tzinfo=None)), location=place)


def there(what: Body | Star, sky: AltAz) -> SkyCoord:
    if isinstance(what, Body):
        return get_body(what.value, sky.obstime, sky.location).transform_to(sky)
    ra, dec, pm_ra, pm_dec = STARS[what.label]
    moved = SkyCoord(
        ra * u.deg,
        dec * u.deg,
        distance=100 * u.pc,
        pm_ra_cosdec=pm_ra * u.mas / u.yr,
        pm_dec=pm_dec * u.mas / u.yr,
        obstime=Time("J2000"),
    )
    return moved.apply_space_motion(new_obstime=sky.obstime).transform_to(sky)


@pytest.mark.parametrize(("site", "time"), CASES)
def test_stars_stand_where_astropy_has_them(site: Site, time: datetime) -> None:
    sky = frame(site, time)
    found = {each.star.label: each for each in bright_stars_at(Viewpoint.of(site), time.timestamp())}
    for name in STARS:
        star, told = there(found[name].star, sky), found[name]
        off = SkyCoord(told.azimuth_deg * u.deg, told.altitude_deg * u.deg, frame=sky).separation(star)
        assert off.deg < 0.01, name


@pytest.mark.parametrize(("site", "time"), CASES)
def test_angles_and_directions_are_those_of_astropy(site: Site, time: datetime) -> None:
    night = compute_night(site, (time.astimezone(site.zone)).date())
    sky = frame(site, time)
    checked = 0
    for each in night.bodies:
        for landmark in find_landmarks(night, each.body, time):
            # Four fists and a half: farther than that nobody measures with an arm.
            assert landmark.angle_deg <= 45.0
            if isinstance(landmark.what, Star) and landmark.what.label not in STARS:
                continue
            start, end = there(landmark.what, sky), there(each.body, sky)
            assert landmark.angle_deg == pytest.approx(start.separation(end).deg, abs=WITHIN_DEG)
            # In this frame the position angle grows from the zenith towards growing azimuth, which is right.
            turn = (landmark.bearing_deg - start.position_angle(end).deg + 180.0) % 360.0 - 180.0
            assert abs(turn) < max(WITHIN_DEG, WITHIN_DEG * 57.3 / landmark.angle_deg)
            checked += 1
    assert checked


@pytest.mark.parametrize(("site", "time"), CASES)
def test_constellations_are_those_of_astropy(site: Site, time: datetime) -> None:
    for body in (Body.MOON, Body.MARS, Body.JUPITER, Body.SATURN, Body.URANUS, Body.NEPTUNE):
        told = constellation_of(Viewpoint.of(site).place(body, time.timestamp()), time.timestamp())
        theirs = str(get_constellation(there(body, frame(site, time)).gcrs))
        assert told == {"Ophiucus": "Ophiuchus"}.get(theirs, theirs)  # their spelling


def test_directions_as_one_faces_them() -> None:
    # Facing south, west is to the right; facing north, east is.
    assert bearing_deg(30.0, 180.0, 30.0, 190.0) == pytest.approx(90.0, abs=4.0)
    assert bearing_deg(30.0, 0.0, 30.0, 10.0) == pytest.approx(90.0, abs=4.0)
    assert bearing_deg(30.0, 200.0, 50.0, 200.0) == pytest.approx(0.0, abs=1e-6)
    assert bearing_deg(50.0, 200.0, 30.0, 200.0) == pytest.approx(180.0)
    assert angle_between_deg(30.0, 359.0, 30.0, 1.0) == pytest.approx(
        2.0 * np.cos(np.radians(30.0)), abs=1e-3
    )


def test_uranus_in_2026_is_found_from_two_stars_on_different_sides() -> None:
    night = compute_night(LISBON, date(2026, 12, 5))
    time = datetime(2026, 12, 5, 22, 0, tzinfo=UTC)

    stars = [each for each in find_landmarks(night, Body.URANUS, time) if isinstance(each.what, Star)]

    # Uranus is in Taurus, between Aldebaran and the Pleiades, whose brightest star is Alcyone.
    assert stars[0].what.label in ("Aldebaran", "Alcyone")
    assert len(stars) == 2
    turn = abs((stars[0].bearing_deg - stars[1].bearing_deg + 180.0) % 360.0 - 180.0)
    assert 45.0 < turn < 135.0


def test_nothing_fainter_points_to_a_planet_and_nothing_to_the_moon() -> None:
    # In the dusk of 7 May 2028 Mercury stands 11 degrees from a far brighter Venus, south of it.
    dusk = datetime(2028, 5, 7, 20, 0, tzinfo=UTC)
    night = compute_night(LISBON, date(2028, 5, 7))

    assert Body.VENUS in [each.what for each in find_landmarks(night, Body.MERCURY, dusk)]
    assert Body.MERCURY not in [each.what for each in find_landmarks(night, Body.VENUS, dusk)]
    assert find_landmarks(night, Body.MOON, dusk) == ()


def test_nothing_behind_the_wall_serves_and_no_star_by_day() -> None:
    time = datetime(2026, 12, 5, 22, 0, tzinfo=UTC)
    wall = BlockedSky(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=89)
    walled = compute_night(evolve(LISBON, blocked=(wall,)), date(2026, 12, 5))
    assert find_landmarks(walled, Body.URANUS, time) == ()

    open_sky = compute_night(LISBON, date(2026, 12, 5))
    # The Sun is up at ten in the morning, Venus and a waning Moon with it.
    by_day = find_landmarks(open_sky, Body.VENUS, datetime(2026, 12, 6, 10, 0, tzinfo=UTC))
    assert [each.what for each in by_day] == [Body.MOON]
