"""Saturn's ring as seen from the Earth: how far it is open, and how large it looks."""

from datetime import UTC, datetime
from typing import Final

import numpy as np
from attrs import frozen

from core.gear.optics import ARCSEC_PER_RADIAN
from core.sky.axes import pose
from core.sky.bodies import Body
from core.sky.disc import Disc
from core.sky.ephemeris import AU_KM, DAY_S

# Edges of the three bright rings, km from Saturn's centre (Colwell et al. 2009, in Saturn from
# Cassini-Huygens, p. 375, rounded; from memory).
C_RING_KM: Final = (74_500.0, 92_000.0)
B_RING_KM: Final = (92_000.0, 117_570.0)
A_RING_KM: Final = (122_050.0, 136_770.0)
OUTER_EDGE_KM: Final = A_RING_KM[1]
GAP_KM: Final = (B_RING_KM[1], A_RING_KM[0])  # the Cassini division

# Two crossings of the plane are at least a month and a half apart.
_EDGE_STEP_S: Final = 20.0 * DAY_S
_EDGE_KNOWN_S: Final = 300.0


@frozen(kw_only=True)
class Ring:
    """Saturn's ring from the centre of the Earth.

    ``opening_deg`` is the latitude of the Earth above the ring's plane, B, north positive;
    ``sun_latitude_deg`` that of the Sun. The axes are those of the outer edge on the sky;
    ``gap_width_arcsec`` is the widest that the Cassini division looks, at the two tips.
    """

    opening_deg: float
    sun_latitude_deg: float
    major_axis_arcsec: float
    minor_axis_arcsec: float
    gap_width_arcsec: float

    @property
    def lit_side_seen(self) -> bool:
        """Whether the Earth and the Sun stand on the same side of the ring."""
        return self.opening_deg * self.sun_latitude_deg > 0.0

    @property
    def northern_face_seen(self) -> bool:
        """Whether the ring's northern face is turned to the Earth."""
        return self.opening_deg > 0.0


def opening_deg(unix_s: float) -> float:
    """Return how far the ring is open to the Earth's centre at Unix seconds, north positive."""
    turned = pose(Body.SATURN, unix_s)
    return turned.latitude_deg(turned.to_earth)


def next_edge_on(after: datetime) -> datetime:
    """Return when the Earth next crosses the ring's plane after a time (aware), within some minutes.

    It does so once or three times around every half of Saturn's year of 29.4 years. Models of its axis differ
    by up to four hours in that.
    """
    before_s = after.timestamp()
    side = opening_deg(before_s) > 0.0
    after_s = before_s + _EDGE_STEP_S
    while (opening_deg(after_s) > 0.0) == side:
        before_s, after_s = after_s, after_s + _EDGE_STEP_S
    while after_s - before_s > _EDGE_KNOWN_S:
        middle_s = (before_s + after_s) / 2.0
        if (opening_deg(middle_s) > 0.0) == side:
            before_s = middle_s
        else:
            after_s = middle_s
    return datetime.fromtimestamp(after_s, UTC)


def ring_of(disc: Disc) -> Ring | None:
    """Return the ring that belongs to a disc: Saturn's, or None."""
    if disc.body is not Body.SATURN:
        return None
    opening = disc.sub_earth_latitude_planetocentric_deg
    arcsec_per_km = ARCSEC_PER_RADIAN / (disc.distance_au * AU_KM)
    major = 2.0 * OUTER_EDGE_KM * arcsec_per_km
    return Ring(
        opening_deg=opening,
        sun_latitude_deg=disc.sub_solar_latitude_planetocentric_deg,
        major_axis_arcsec=major,
        minor_axis_arcsec=major * abs(float(np.sin(np.radians(opening)))),
        gap_width_arcsec=(GAP_KM[1] - GAP_KM[0]) * arcsec_per_km,
    )
