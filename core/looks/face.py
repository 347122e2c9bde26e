"""What a body shows at a time: the figures that what to expect of it hangs on."""

from collections.abc import Sequence
from typing import Final

import numpy as np
from attrs import frozen

from core.looks.picture.subject import Subject
from core.sky.bodies import Body
from core.sky.disc import Disc
from core.sky.moons import MOON_RADIUS_KM, RADIUS_KM, Moon, MoonEvent, MoonEventKind
from core.sky.ring import Ring

# Less of a disc lit than this is a crescent (ours).
_CRESCENT_BELOW: Final = 0.4


@frozen(kw_only=True)
class Face:
    """What a body shows: the figures that its features hang on.

    ``widest_moon_arcsec`` is how far the farthest of Jupiter's ``moons_beside`` stands from its middle;
    ``shadows`` are the moons whose shadows cross it, each with its diameter in arcsec. Caps are how far each
    reaches in from Mars' edge, None where turned away.
    """

    body: Body
    diameter_arcsec: float
    illuminated_fraction: float = 1.0
    phase_angle_deg: float = 0.0
    ring: Ring | None = None
    moons_beside: int = 0
    widest_moon_arcsec: float | None = None
    shadows: tuple[tuple[Moon, float], ...] = ()
    north_cap_arcsec: float | None = None
    south_cap_arcsec: float | None = None
    dust: bool = False
    spot_stays_away: bool = False

    @property
    def is_crescent(self) -> bool:
        """Whether so little of the disc is lit that it looks like a sickle."""
        return self.illuminated_fraction < _CRESCENT_BELOW


def face_of(subject: Subject, events: Sequence[MoonEvent] = (), *, spot_stays_away: bool = False) -> Face:
    """Return what a body shows; ``events`` are what Jupiter's moons do in the hours of looking.

    ``spot_stays_away`` tells that the red spot is known not to come round in them.
    """
    disc = subject.disc
    north_cap = south_cap = None
    if subject.season is not None:
        tilt = disc.sub_earth_latitude_planetographic_deg
        north_cap = _cap_arcsec(disc, subject.season.north_cap_edge_deg - tilt)
        south_cap = _cap_arcsec(disc, subject.season.south_cap_edge_deg + tilt)
    diameter = disc.equatorial_diameter_arcsec
    beside = [moon for moon in subject.moons if moon.is_visible and not moon.in_transit]
    widest = max((float(np.hypot(moon.x_radii, moon.y_radii)) for moon in beside), default=None)
    casting = (event.moon for event in events if event.kind is MoonEventKind.SHADOW_TRANSIT)
    return Face(
        body=disc.body,
        diameter_arcsec=diameter,
        illuminated_fraction=disc.illuminated_fraction,
        phase_angle_deg=disc.phase_angle_deg,
        ring=subject.ring,
        moons_beside=len(beside),
        widest_moon_arcsec=None if widest is None else widest * diameter / 2.0,
        shadows=tuple((moon, diameter * MOON_RADIUS_KM[moon] / RADIUS_KM) for moon in dict.fromkeys(casting)),
        north_cap_arcsec=north_cap,
        south_cap_arcsec=south_cap,
        spot_stays_away=spot_stays_away,
        dust=subject.season is not None and subject.season.dust_likely,
    )


def _cap_arcsec(disc: Disc, edge_from_centre_deg: float) -> float | None:
    """Return how far a cap reaches in from the edge of the disc, None where it is turned away."""
    if edge_from_centre_deg >= 90.0:
        return None
    reach = (1.0 - float(np.sin(np.radians(edge_from_centre_deg)))) / 2.0
    return reach * disc.polar_diameter_arcsec
