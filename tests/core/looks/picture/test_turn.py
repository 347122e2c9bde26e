"""How instruments turn the view: a table of kinds and diagonals, and hand-made cases of direction."""

import math

import numpy as np
import pytest
from astropy.coordinates import AltAz, EarthLocation, SkyCoord
from astropy.time import Time
from astropy.utils import iers

from core.gear.owned import Diagonal, Telescope, TelescopeKind
from core.looks.picture.turn import Turn, Turning, turning_of, zenith_angle_deg


def scope(kind: TelescopeKind, diagonal: Diagonal) -> Telescope:
    if kind is TelescopeKind.FIXED:
        return Telescope(name="x", kind=kind, aperture_mm=80, power=20, diagonal=diagonal)
    return Telescope(name="x", kind=kind, aperture_mm=80, focal_length_mm=900, diagonal=diagonal)


# Geometric optics: an even number of mirrors turns by half a circle, an odd number reverses.
TABLE = [
    (TelescopeKind.REFRACTOR, Diagonal.NONE, Turning.UPSIDE_DOWN),
    (TelescopeKind.REFRACTOR, Diagonal.STAR, Turning.MIRRORED),
    (TelescopeKind.REFRACTOR, Diagonal.ERECT, Turning.ERECT),
    (TelescopeKind.REFLECTOR, Diagonal.NONE, Turning.UPSIDE_DOWN),
    (TelescopeKind.REFLECTOR, Diagonal.STAR, Turning.MIRRORED),
    (TelescopeKind.REFLECTOR, Diagonal.ERECT, Turning.ERECT),
    (TelescopeKind.CATADIOPTRIC, Diagonal.NONE, Turning.UPSIDE_DOWN),
    (TelescopeKind.CATADIOPTRIC, Diagonal.STAR, Turning.MIRRORED),
    (TelescopeKind.CATADIOPTRIC, Diagonal.ERECT, Turning.ERECT),
    (TelescopeKind.FIXED, Diagonal.NONE, Turning.ERECT),
    (TelescopeKind.FIXED, Diagonal.ERECT, Turning.ERECT),
    (TelescopeKind.FIXED, Diagonal.STAR, Turning.MIRRORED),
]


@pytest.mark.parametrize(("kind", "diagonal", "expected"), TABLE)
def test_each_kind_turns_the_view_its_own_way(
    kind: TelescopeKind, diagonal: Diagonal, expected: Turning
) -> None:
    assert turning_of(scope(kind, diagonal)) is expected


# Where north, east and west lie as hours on a clock, with north uppermost to the naked eye: facing south
# from the northern half of the Earth, east is to the left.
CLOCK = [
    (Turning.ERECT, 12, 9, 3),
    (Turning.UPSIDE_DOWN, 6, 3, 9),
    (Turning.MIRRORED, 12, 3, 9),
]


@pytest.mark.parametrize(("turning", "north", "east", "west"), CLOCK)
def test_directions_lie_where_observers_find_them(turning: Turning, north: int, east: int, west: int) -> None:
    turn = Turn(turning=turning)

    assert [turn.clock_hour(angle) for angle in (0.0, 90.0, 270.0)] == [north, east, west]


def test_the_zenith_is_on_top_to_the_naked_eye_and_below_in_an_upside_down_view() -> None:
    erect = Turn(turning=Turning.ERECT, up_angle_deg=37.0)
    turned = Turn(turning=Turning.UPSIDE_DOWN, up_angle_deg=37.0)
    mirrored = Turn(turning=Turning.MIRRORED, up_angle_deg=37.0)

    assert erect.direction(37.0) == pytest.approx((0.0, 1.0), abs=1e-12)
    assert turned.direction(37.0) == pytest.approx((0.0, -1.0), abs=1e-12)
    assert mirrored.direction(37.0) == pytest.approx((0.0, 1.0), abs=1e-12)


@pytest.mark.parametrize("turning", list(Turning))
def test_a_view_is_turned_but_never_stretched(turning: Turning) -> None:
    matrix = Turn(turning=turning, up_angle_deg=123.0).matrix()

    np.testing.assert_allclose(matrix @ matrix.T, np.eye(2), atol=1e-12)


@pytest.mark.parametrize(
    ("latitude_deg", "altitude_deg", "azimuth_deg"),
    [(41.0, 30.0, 120.0), (41.0, 30.0, 240.0), (-33.0, 55.0, 20.0), (65.0, 12.0, 300.0), (0.0, 45.0, 90.0)],
)
def test_the_angle_of_the_zenith_is_astropy_s(
    latitude_deg: float, altitude_deg: float, azimuth_deg: float
) -> None:
    """The position angle from the place looked at to the zenith, both taken to the sky's own axes."""
    with iers.conf.set_temp("auto_download", False), iers.conf.set_temp("auto_max_age", None):
        place = EarthLocation.from_geodetic(lon=0.0, lat=latitude_deg)
        frame = AltAz(obstime=Time("2026-11-24T00:00:00"), location=place)
        seen = SkyCoord(az=azimuth_deg, alt=altitude_deg, unit="deg", frame=frame)
        zenith = SkyCoord(az=0.0, alt=90.0, unit="deg", frame=frame)
        expected = seen.transform_to("cirs").position_angle(zenith.transform_to("cirs")).deg

    found = zenith_angle_deg(latitude_deg, altitude_deg, azimuth_deg)

    # Astropy's geodetic latitude and its moving axes make a few tenths of a degree.
    assert math.cos(math.radians(found - expected)) > math.cos(math.radians(0.5))
