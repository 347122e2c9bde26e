"""How bright the ground or the cloud of a body is, place by place: plain bands, caps and patches.

A likeness for judging size and softness, not a map: on Jupiter and Saturn the usual belts, on Mars a dark
girdle and the caps of the season, on the Moon its largest plains. Values are ours, by eye; the plains'
places are those of the IAU gazetteer, rounded, from memory.
"""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from core.looks.picture.subject import Subject
from core.sky.bodies import Body

Values = NDArray[np.float32]

# Latitude (planetographic, degrees) and brightness, joined by straight lines.
_JUPITER: Final = (
    (-90, 0.58), (-62, 0.64), (-50, 0.72), (-45, 0.70), (-41, 0.78), (-36, 0.78), (-33, 0.68), (-29, 0.69),
    (-26, 0.84), (-21, 0.85), (-19, 0.52), (-14, 0.50), (-12, 0.58), (-9, 0.50), (-7, 0.56), (-5, 0.88),
    (-1, 0.92), (0, 0.88), (5, 0.92), (7, 0.80), (8.5, 0.48), (16, 0.50), (18.5, 0.82), (22, 0.86),
    (24, 0.68), (27, 0.66), (30, 0.80), (36, 0.80), (41, 0.70), (48, 0.72), (60, 0.64), (90, 0.56),
)  # fmt: skip
_SATURN: Final = (
    (-90, 0.50), (-75, 0.62), (-60, 0.72), (-45, 0.76), (-38, 0.84), (-28, 0.80), (-20, 0.66), (-14, 0.68),
    (-8, 0.90), (0, 0.94), (8, 0.90), (14, 0.68), (20, 0.66), (28, 0.80), (38, 0.84), (45, 0.76),
    (60, 0.72), (75, 0.62), (90, 0.50),
)  # fmt: skip
_MARS: Final = (
    (-90, 0.80), (-55, 0.80), (-45, 0.72), (-36, 0.50), (-16, 0.48), (-6, 0.78), (4, 0.95), (32, 0.95),
    (45, 0.70), (58, 0.66), (68, 0.78), (90, 0.80),
)  # fmt: skip
_CAP_BRIGHTNESS: Final = 1.6

# The red spot: middle (planetographic latitude), half its length and breadth in degrees.
_SPOT_LATITUDE_DEG: Final = -22.5
_SPOT_HALF_DEG: Final = (7.0, 4.6)
_SPOT_BRIGHTNESS: Final = 0.55
_HOLLOW_BRIGHTNESS: Final = 0.86

# The Moon's plains: east longitude, latitude, and half their breadth, degrees.
_PLAINS: Final = (
    (-16, 33, 18.5), (18, 28, 11.5), (31, 8, 13.5), (59, 17, 7.5), (52, -6, 12.5), (34, -15, 6.0),
    (-17, -21, 12.0), (-39, -24, 6.5), (-56, 20, 20.0), (-49, -2, 15.0), (-31, 7, 11.0), (-23, -10, 7.0),
    (3, 13, 4.5), (-4, 3, 6.0), (-30, 56, 6.5), (0, 57, 6.5), (26, 56, 6.0),
)  # fmt: skip
_HIGHLAND: Final = 0.92
_PLAIN: Final = 0.55


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
        return _mars(subject, latitude_deg)
    if body is Body.MOON:
        return _moon(subject, latitude_deg, west_of_middle_deg)
    return np.full_like(latitude_deg, 0.9)


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


def _mars(subject: Subject, latitude_deg: Values) -> Values:
    found = _banded(latitude_deg, _MARS)
    if subject.season is None:
        return found
    north = np.clip(latitude_deg - subject.season.north_cap_edge_deg, 0.0, 1.0)
    south = np.clip(-latitude_deg - subject.season.south_cap_edge_deg, 0.0, 1.0)
    return np.asarray(found + (north + south) * (_CAP_BRIGHTNESS - found), dtype=np.float32)


def _moon(subject: Subject, latitude_deg: Values, west_of_middle_deg: Values) -> Values:
    if subject.phase is None:
        return np.full_like(latitude_deg, _HIGHLAND)
    # West on the sky is east on the Moon.
    longitude = np.radians(west_of_middle_deg + subject.phase.libration_longitude_deg)
    latitude = np.radians(latitude_deg)
    level = np.cos(latitude)
    ground = np.stack([level * np.cos(longitude), level * np.sin(longitude), np.sin(latitude)], axis=-1)
    dark = np.zeros_like(latitude_deg)
    for east_deg, north_deg, half_deg in _PLAINS:
        east, north = np.radians(east_deg), np.radians(north_deg)
        middle = np.array([np.cos(north) * np.cos(east), np.cos(north) * np.sin(east), np.sin(north)])
        inside = ground @ middle.astype(np.float32) - np.cos(np.radians(half_deg))
        dark = np.maximum(dark, np.clip(0.5 + inside / 0.02, 0.0, 1.0))
    return np.asarray(_HIGHLAND + dark * (_PLAIN - _HIGHLAND), dtype=np.float32)
