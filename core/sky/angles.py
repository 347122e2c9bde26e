"""How far apart two places in one sky are, and in which direction the one lies from the other."""

import numpy as np
from numpy.typing import ArrayLike

from core.arrays import Floats


def sky_vectors(altitude_deg: ArrayLike, azimuth_deg: ArrayLike) -> Floats:
    """Return places as vectors of length 1 towards north, east and up: the shape of the angles, then 3."""
    altitude, azimuth = np.radians(altitude_deg), np.radians(azimuth_deg)
    return np.stack(
        [np.cos(altitude) * np.cos(azimuth), np.cos(altitude) * np.sin(azimuth), np.sin(altitude)], axis=-1
    )


def angle_between_deg(
    altitude_deg: ArrayLike,
    azimuth_deg: ArrayLike,
    other_altitude_deg: ArrayLike,
    other_azimuth_deg: ArrayLike,
) -> Floats:
    """Return the angle in degrees between places and others, of any one shape.

    >>> float(angle_between_deg(0.0, 350.0, 0.0, 20.0).round(6))
    30.0
    """
    # Half the chord keeps its digits for places close together, where the cosine loses them.
    across = sky_vectors(altitude_deg, azimuth_deg) - sky_vectors(other_altitude_deg, other_azimuth_deg)
    half_chord = np.linalg.norm(across, axis=-1) / 2.0
    return np.asarray(np.degrees(2.0 * np.arcsin(np.minimum(half_chord, 1.0))))


def bearing_deg(
    from_altitude_deg: ArrayLike,
    from_azimuth_deg: ArrayLike,
    to_altitude_deg: ArrayLike,
    to_azimuth_deg: ArrayLike,
) -> Floats:
    """Return in which direction one place lies from another, in degrees clockwise from straight up, 0 to 360.

    It is that of the straight way across the sky where it leaves the first place, as somebody sees it who
    faces that place: 90 is to the right.

    >>> float(bearing_deg(30.0, 180.0, 30.0, 181.0).round())
    90.0
    """
    start, end = np.radians(from_altitude_deg), np.radians(to_altitude_deg)
    turn = np.radians(to_azimuth_deg) - np.radians(from_azimuth_deg)
    right = np.sin(turn) * np.cos(end)
    up = np.cos(start) * np.sin(end) - np.sin(start) * np.cos(end) * np.cos(turn)
    return np.asarray(np.degrees(np.arctan2(right, up)) % 360.0)
