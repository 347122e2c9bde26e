"""Mars: its large regions where maps have them, and the haze that hides them at the limb."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest

from core.arrays import Values
from core.looks.picture.mars_ground import mars_brightness, through_haze
from core.looks.picture.paint import Grid, painted
from core.looks.picture.subject import Subject, subject_at
from core.looks.picture.turn import Turn
from core.sky.bodies import Body


def facing(longitude_deg: float) -> Subject:
    """Return Mars near its opposition of 2027 with a west longitude in the middle of its disc."""
    start = datetime(2027, 2, 19, tzinfo=UTC)
    times = (start + timedelta(minutes=20 * step) for step in range(75))
    return min(
        (subject_at(Body.MARS, time) for time in times),
        key=lambda mars: abs(((mars.disc.central_meridian_deg("") or 0.0) - longitude_deg + 180) % 360 - 180),
    )


def upright(mars: Subject) -> Values:
    return painted(mars, Grid(pixel_arcsec=0.05, turn=Turn(up_angle_deg=mars.disc.pole_angle_deg)))


def light_at(picture: Values, mars: Subject, latitude_deg: float, east_deg: float) -> float:
    """Return the light about a place so far east of the middle, the left of an erect view."""
    tilt = np.radians(mars.disc.sub_earth_latitude_planetocentric_deg)
    latitude, east = np.radians(latitude_deg), np.radians(east_deg)
    right = -np.cos(latitude) * np.sin(east)
    up = np.sin(latitude) * np.cos(tilt) - np.cos(latitude) * np.cos(east) * np.sin(tilt)
    radius = mars.disc.equatorial_diameter_arcsec / 2.0 / 0.05
    row, column = round(199.5 - up * radius), round(199.5 + right * radius)
    return float(picture[row - 4 : row + 5, column - 4 : column + 5].mean())


# Middles by the IAU Gazetteer of Planetary Nomenclature: Syrtis Major Planum 8.4 N 290.5 W, Meridiani Planum
# 0.2 N 2 W, Acidalia Planitia 49.8 N 20.7 W, Terra Cimmeria 32.7 S 212 W; bright: Arabia Terra
# 21.3 N 354.3 W, Hellas Planitia 42.4 S 289.5 W, Amazonis Planitia 25.7 N 164 W.
@pytest.mark.parametrize("place", [(8.4, 290.5), (-4.0, 2.0), (48.0, 26.0), (-24.0, 212.0)])
@pytest.mark.parametrize("bright", [(21.3, 330.0), (-42.4, 289.5), (25.7, 164.0)])
def test_dark_regions_are_darker_than_deserts(
    place: tuple[float, float], bright: tuple[float, float]
) -> None:
    dark, light = (
        mars_brightness(np.array([latitude], dtype=np.float32), np.array([west], dtype=np.float32))[0]
        for latitude, west in (place, bright)
    )

    assert dark < 0.75 * light


def test_syrtis_major_comes_from_the_east_and_goes_to_the_west() -> None:
    """What is to come has the greater west longitude and stands in the east, the left of an erect view."""
    mars = facing(290.0)
    before, after = facing(260.0), facing(320.0)

    assert light_at(upright(mars), mars, 10.0, 0.0) < 0.8 * light_at(upright(mars), mars, 25.0, 40.0)
    coming, gone = upright(before), upright(after)
    assert light_at(coming, before, 10.0, 30.0) < 0.85 * light_at(coming, before, 25.0, -30.0)
    assert light_at(gone, after, 10.0, -30.0) < 0.85 * light_at(gone, after, 25.0, 0.0)


def test_haze_takes_the_contrast_of_the_ground_towards_the_limb() -> None:
    ground = np.array([0.6, 0.95], dtype=np.float32)
    contrasts = [
        float(np.ptp(through_haze(ground, np.full(2, slant, dtype=np.float32)))) for slant in (1.0, 0.5, 0.1)
    ]

    assert contrasts[0] == pytest.approx(0.35)
    assert contrasts[0] > contrasts[1] > 1.8 * contrasts[2]


def test_the_whole_turn_closes_without_a_seam() -> None:
    latitude = np.linspace(-80.0, 80.0, 41, dtype=np.float32)
    before, after = (
        mars_brightness(latitude, np.full_like(latitude, west_deg)) for west_deg in (-0.001, 359.999)
    )

    np.testing.assert_allclose(before, after, atol=1e-3)
