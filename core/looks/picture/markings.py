"""How bright the ground or the cloud of a body is, place by place.

A likeness for judging size and softness: on Jupiter and Saturn the usual belts as plain bands, on Mars its
large regions and the caps of the season, on the Moon the measured ground. The bands' values are ours, by eye.
"""

from typing import Final

import numpy as np

from core.arrays import Values
from core.looks.picture.mars_ground import mars_brightness, with_cap
from core.looks.picture.moon_ground import ground_brightness
from core.looks.picture.subject import Subject
from core.sky.bodies import Body

# Latitude (planetographic, degrees) and brightness, joined by straight lines.
# The main belts are darker than the zones beside them by 15 to 20 % (ours, for what the eye sees), Saturn's
# by about 12 %.
_JUPITER: Final = (
    (-90, 0.78), (-62, 0.80), (-50, 0.84), (-45, 0.83), (-41, 0.86), (-36, 0.86), (-33, 0.82), (-29, 0.82),
    (-26, 0.89), (-21, 0.89), (-19, 0.75), (-14, 0.74), (-12, 0.78), (-9, 0.74), (-7, 0.77), (-5, 0.90),
    (-1, 0.92), (0, 0.90), (5, 0.92), (7, 0.87), (8.5, 0.74), (16, 0.74), (18.5, 0.88), (22, 0.89),
    (24, 0.82), (27, 0.81), (30, 0.87), (36, 0.87), (41, 0.83), (48, 0.84), (60, 0.80), (90, 0.77),
)  # fmt: skip
_SATURN: Final = (
    (-90, 0.76), (-75, 0.81), (-60, 0.85), (-45, 0.86), (-38, 0.90), (-28, 0.88), (-20, 0.82), (-14, 0.83),
    (-8, 0.92), (0, 0.94), (8, 0.92), (14, 0.83), (20, 0.82), (28, 0.88), (38, 0.90), (45, 0.86),
    (60, 0.85), (75, 0.81), (90, 0.76),
)  # fmt: skip

# The red spot: middle (planetographic latitude), half its length and breadth in degrees.
_SPOT_LATITUDE_DEG: Final = -22.5
_SPOT_HALF_DEG: Final = (7.0, 4.6)
_SPOT_BRIGHTNESS: Final = 0.72
_HOLLOW_BRIGHTNESS: Final = 0.90

# Bright clouds, and the Moon's usual highland.
_PLAIN: Final = 0.9


def brightness(subject: Subject, latitude_deg: Values, west_of_middle_deg: Values) -> Values:
    """Return the albedo of places on the body, same shape as both arguments.

    Latitudes are planetographic; the angle is how far the ground has turned past the middle, westward
    on the sky.
    """
    body = subject.disc.body
    if body is Body.JUPITER:
        return _jupiter(subject, latitude_deg, west_of_middle_deg)
    if body is Body.SATURN:
        return _banded(latitude_deg, _SATURN)
    if body is Body.MARS:
        return _mars(subject, latitude_deg, west_of_middle_deg)
    if body is Body.MOON and subject.phase is not None:
        # West on the sky is east on the Moon.
        east_deg = west_of_middle_deg + subject.phase.libration_longitude_deg
        return np.asarray(_PLAIN * ground_brightness(latitude_deg, east_deg), dtype=np.float32)
    return np.full_like(latitude_deg, _PLAIN)


def _banded(latitude_deg: Values, bands: tuple[tuple[float, float], ...]) -> Values:
    places, values = zip(*bands, strict=True)
    return np.asarray(np.interp(latitude_deg, places, values), dtype=np.float32)


def _jupiter(subject: Subject, latitude_deg: Values, west_of_middle_deg: Values) -> Values:
    found = _banded(latitude_deg, _JUPITER)
    middle = subject.disc.central_meridian_deg("II")
    if subject.red_spot_longitude_deg is None or middle is None:
        return found
    # Longitudes grow towards the side that is yet to come, which is the eastern one.
    spot_west_deg = middle - subject.red_spot_longitude_deg
    across = (west_of_middle_deg - spot_west_deg + 180.0) % 360.0 - 180.0
    reach = np.hypot(across / _SPOT_HALF_DEG[0], (latitude_deg - _SPOT_LATITUDE_DEG) / _SPOT_HALF_DEG[1])
    hollow = np.clip((1.5 - reach) / 0.15, 0.0, 1.0)
    spot = np.clip((1.0 - reach) / 0.15, 0.0, 1.0)
    found = found + hollow * (_HOLLOW_BRIGHTNESS - found)
    return np.asarray(found + spot * (_SPOT_BRIGHTNESS - found), dtype=np.float32)


def _mars(subject: Subject, latitude_deg: Values, west_of_middle_deg: Values) -> Values:
    middle = subject.disc.central_meridian_deg("")
    assert middle is not None  # Mars has one system of longitudes
    ground = mars_brightness(latitude_deg, middle - west_of_middle_deg)
    if subject.season is None:
        return ground
    return with_cap(
        ground,
        latitude_deg,
        north_edge_deg=subject.season.north_cap_edge_deg,
        south_edge_deg=subject.season.south_cap_edge_deg,
    )
