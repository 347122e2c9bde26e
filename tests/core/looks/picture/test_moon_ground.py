"""The Moon's ground against what is known of named places, and how shadows fall on it."""

import numpy as np
import pytest

from core.arrays import Values
from core.looks.picture.moon_ground import ground_brightness, sunlight


def values(*numbers: float) -> Values:
    return np.array(numbers, dtype=np.float32)


# Middles of named features in the IAU Gazetteer of Planetary Nomenclature, latitude and east longitude.
@pytest.mark.parametrize(
    ("name", "latitude_deg", "longitude_deg"),
    [
        ("Mare Crisium", 16.2, 59.1),
        ("Mare Serenitatis", 27.3, 18.4),
        ("Mare Tranquillitatis", 8.3, 30.8),
        ("Mare Humorum", -24.5, -38.6),
        ("Mare Nectaris", -15.2, 34.6),
        ("Plato", 51.6, -9.4),
        ("Grimaldi", -5.4, -68.4),
    ],
)
def test_dark_plains_are_dark_where_the_gazetteer_has_them(
    name: str, latitude_deg: float, longitude_deg: float
) -> None:
    southern_highland = ground_brightness(values(-35.0, -40.0, -30.0), values(10.0, 20.0, 15.0)).mean()

    assert ground_brightness(values(latitude_deg), values(longitude_deg))[0] < 0.75 * southern_highland, name


def test_the_rays_about_tycho_are_bright() -> None:
    """Tycho, 43.3 S 11.2 W, the brightest place of the full Moon's south (common knowledge)."""
    around = ground_brightness(values(-43.3, -42.0), values(-11.2, -12.0))

    assert around.min() > 1.1


def test_in_the_morning_the_eastern_wall_of_a_crater_is_dark_and_the_western_bright() -> None:
    """Copernicus, 9.6 N 20.1 W, 96 km across (IAU Gazetteer): its rim stands 1.6 degrees from the middle.

    The Sun rises in the east and stands 8 degrees high there when it is overhead 82 degrees further east.
    """
    east, west = values(-19.0, -18.9, -18.8), values(-21.2, -21.3, -21.4)
    latitude = values(9.6, 9.6, 9.6)

    inner_east, inner_west = (
        sunlight(latitude, side, sun_latitude_deg=0.0, sun_longitude_deg=62.0).mean() for side in (east, west)
    )

    assert inner_east < 0.02
    assert inner_west > 1.5 * np.sin(np.radians(8.0))
    # In the evening it is the other way round.
    inner_east, inner_west = (
        sunlight(latitude, side, sun_latitude_deg=0.0, sun_longitude_deg=-102.0).mean()
        for side in (east, west)
    )
    assert inner_west < 0.02 < inner_east


def test_mountains_catch_the_light_before_the_plains_about_them() -> None:
    """The Apennines (Mons Huygens, 20 N 3 W, 5.4 km over the plain) stand in light beyond the terminator.

    From a top that high the Sun is seen down to acos(1737.4 / 1742.8), 4.5 degrees, below a level horizon.
    """
    latitude, west_of_terminator = np.meshgrid(np.linspace(18.0, 22.0, 41), np.linspace(0.7, 3.5, 29))

    def lit_share(north_deg: float, terminator_deg: float) -> float:
        falling = sunlight(
            (latitude + north_deg).astype(np.float32),
            (terminator_deg - west_of_terminator).astype(np.float32),
            sun_latitude_deg=0.0,
            sun_longitude_deg=terminator_deg + 90.0,
        )
        return float((falling > 0.005).mean())

    on_mountains, on_plain = lit_share(0.0, 0.0), lit_share(15.0, -15.0)

    assert on_mountains > 0.05
    assert on_plain < 0.1 * on_mountains


def test_by_night_it_is_dark_and_at_noon_bright() -> None:
    latitude, longitude = np.meshgrid(np.linspace(-60.0, 60.0, 61), np.linspace(-80.0, -20.0, 61))
    places = latitude.astype(np.float32), longitude.astype(np.float32)

    night = sunlight(*places, sun_latitude_deg=0.0, sun_longitude_deg=80.0)
    assert night.max() == 0.0

    noon = sunlight(*places, sun_latitude_deg=0.0, sun_longitude_deg=-50.0)
    level = np.cos(np.radians(latitude)) * np.cos(np.radians(longitude + 50.0))
    assert float(np.median(np.abs(noon - level))) < 0.05
