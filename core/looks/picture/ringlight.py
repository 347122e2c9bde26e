"""The light of Saturn's ring: three rings and the gap, the globe's shadow on it, and its own on the globe.

Lengths are in equatorial radii of Saturn; axes as in ``globe``.
"""

from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Values
from core.looks.picture.globe import Globe
from core.sky.bodies import FACTS, Body
from core.sky.ring import A_RING_KM, B_RING_KM, C_RING_KM, Ring

_RADIUS_KM: Final = FACTS[Body.SATURN].equatorial_radius_km
INNER_EDGE: Final = C_RING_KM[0] / _RADIUS_KM
OUTER_EDGE: Final = A_RING_KM[1] / _RADIUS_KM

# Radius (km), brightness against a matt white ball, and how much of what lies behind is hidden: after the
# usual look of the rings (ours). Steps are 100 km wide.
_PROFILE: Final = (
    (C_RING_KM[0], 0.00, 0.00), (C_RING_KM[0] + 100, 0.04, 0.08), (C_RING_KM[1] - 100, 0.12, 0.20),
    (B_RING_KM[0], 0.48, 0.80), (99_000, 0.60, 0.95), (108_000, 0.72, 1.00), (B_RING_KM[1] - 100, 0.70, 1.00),
    (B_RING_KM[1], 0.03, 0.10), (A_RING_KM[0], 0.03, 0.10), (A_RING_KM[0] + 100, 0.46, 0.65),
    (A_RING_KM[1] - 100, 0.40, 0.60), (A_RING_KM[1], 0.00, 0.00),
)  # fmt: skip
# What light comes through when the Sun lights the other face (ours).
_UNLIT: Final = 0.12
# Seen flatter than this the ring is a line, thinner than any telescope shows.
_LEAST_SINE: Final = 0.002


@frozen
class RingLight:
    """The ring at points of a picture: its light, what share it hides of what is behind, and its z."""

    light: Values
    hides: Values
    depth: Values


def _profile(radius: Values, column: int) -> Values:
    radii = [row[0] / _RADIUS_KM for row in _PROFILE]
    values = [row[column] for row in _PROFILE]
    return np.asarray(np.interp(radius, radii, values, left=0.0, right=0.0), dtype=np.float32)


def ring_light(globe: Globe, ring: Ring, x: Values, y: Values) -> RingLight:
    """Return the ring's light at points of the picture, any shape."""
    tilt = float(globe.pole[2])
    if abs(tilt) < _LEAST_SINE:
        return RingLight(np.zeros_like(x), np.zeros_like(x), np.zeros_like(x))
    depth = np.asarray(-y * globe.pole[1] / tilt, dtype=np.float32)
    radius = np.sqrt(x**2 + y**2 + depth**2)
    light = _profile(radius, 1)
    if not ring.lit_side_seen:
        light *= _UNLIT
    # The shadow lies behind the globe: only there need it be sought.
    behind = (radius > INNER_EDGE) & (radius < OUTER_EDGE) & (np.abs(x) < 1.5)
    light[behind] *= ~globe.hides_sun(x[behind], y[behind], depth[behind])
    return RingLight(light, _profile(radius, 2), depth)


def ring_shade(globe: Globe, x: Values, y: Values, z: Values) -> Values:
    """Return which share of the Sun's light reaches points of the globe past the ring."""
    rise = float(globe.to_sun @ globe.pole)
    if abs(rise) < _LEAST_SINE:
        return np.ones_like(x)
    way = -(y * globe.pole[1] + z * globe.pole[2]) / rise
    radius = np.sqrt(
        (x + way * globe.to_sun[0]) ** 2 + (y + way * globe.to_sun[1]) ** 2 + (z + way * globe.to_sun[2]) ** 2
    )
    return np.where(way > 0.0, 1.0 - _profile(radius, 2), 1.0).astype(np.float32)
