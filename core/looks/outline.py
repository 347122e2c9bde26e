"""The outline of a body to draw in at the eyepiece: its limb, where day meets night, and its ring.

Lines are arrays (N, 2) in arcsec, rightward and upward from the middle of the disc as seen in the eyepiece.
"""

from collections.abc import Iterator
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats, Truths
from core.looks.picture.subject import Subject
from core.looks.picture.turn import DRIFT_ANGLE_DEG, Turn
from core.sky.disc import Disc
from core.sky.ring import A_RING_KM, B_RING_KM, OUTER_EDGE_KM, Ring

Line = Floats

_STEPS: Final = 361
# More than this of a disc lit is drawn as full: the rest is narrower than a pencil's line (ours).
_FULL_FROM: Final = 0.985
# A ring less open than this has no room for the line of its gap (ours).
_GAP_FROM: Final = 0.15


@frozen(kw_only=True, eq=False)
class Outline:
    """What to draw in: ``solid`` lines are seen, ``faint`` ones are the limb's dark side.

    ``pole`` and ``drift`` are directions (right, up) of the body's north pole and of where it drifts in an
    undriven telescope.
    """

    solid: tuple[Line, ...]
    faint: tuple[Line, ...]
    pole: tuple[float, float]
    drift: tuple[float, float]

    @property
    def reach_arcsec(self) -> tuple[float, float]:
        """How far the lines reach from the middle, sideways and up or down."""
        points = np.abs(np.concatenate((*self.solid, *self.faint)))
        return float(points[:, 0].max()), float(points[:, 1].max())


def outline_of(subject: Subject, turn: Turn) -> Outline:
    """Return the outline of a body as it is turned in the eyepiece."""
    disc = subject.disc
    axes = np.array([turn.direction(disc.pole_angle_deg - 90.0), turn.direction(disc.pole_angle_deg)])
    faint: list[Line] = []
    if subject.ring is not None:
        solid = [*_ringed(disc, subject.ring)]
    elif disc.illuminated_fraction > _FULL_FROM:
        solid = [_limb(disc)]
    else:
        bright, terminator, dark = _phase(disc)
        solid, faint = [bright, terminator], [dark]
    return Outline(
        solid=tuple(line @ axes for line in solid),
        faint=tuple(line @ axes for line in faint),
        pole=turn.direction(disc.pole_angle_deg),
        drift=turn.direction(DRIFT_ANGLE_DEG),
    )


# Below, lines lie in the body's own frame: along its equator to celestial west, and to its north pole.


def _limb(disc: Disc) -> Line:
    angles = np.linspace(0.0, 2.0 * np.pi, _STEPS)
    return np.column_stack(
        (
            disc.equatorial_diameter_arcsec / 2.0 * np.cos(angles),
            disc.polar_diameter_arcsec / 2.0 * np.sin(angles),
        )
    )


def _phase(disc: Disc) -> tuple[Line, Line, Line]:
    """Return the bright limb, the terminator and the dark limb.

    On a ball the terminator is half an ellipse; both are then flattened as the disc is.
    """
    angles = np.linspace(-np.pi / 2.0, np.pi / 2.0, _STEPS)
    towards_deg = disc.bright_limb_angle_deg - disc.pole_angle_deg
    # The bright limb's middle: from the pole through east, which lies at the negative end of the equator.
    sun = np.array([-np.sin(np.radians(towards_deg)), np.cos(np.radians(towards_deg))])
    across = np.array([-sun[1], sun[0]])
    stretch = np.array([disc.equatorial_diameter_arcsec, disc.polar_diameter_arcsec]) / 2.0
    along, side = np.cos(angles)[:, np.newaxis], np.sin(angles)[:, np.newaxis]
    cosine = np.cos(np.radians(disc.phase_angle_deg))
    bright, terminator, dark = (
        (share * along * sun + side * across) * stretch for share in (1.0, -cosine, -1.0)
    )
    return bright, terminator, dark


def _ringed(disc: Disc, ring: Ring) -> Iterator[Line]:
    """Yield the limb and the edges of the ring, without what the one hides of the other.

    The near half of the ring lies on the side of the pole that is turned away from us.
    """
    near = -1.0 if ring.northern_face_seen else 1.0
    flatness = ring.minor_axis_arcsec / ring.major_axis_arcsec
    outer = ring.major_axis_arcsec / 2.0
    inner = outer * B_RING_KM[0] / OUTER_EDGE_KM
    limb = _limb(disc)
    from_middle = np.hypot(limb[:, 0], limb[:, 1] / max(flatness, 1e-9))
    hidden = (limb[:, 1] * near > 0.0) & (from_middle > inner) & (from_middle < outer)
    yield from _pieces(limb, ~hidden)
    edges_km = [OUTER_EDGE_KM, B_RING_KM[0]]
    if flatness > _GAP_FROM:
        edges_km += [A_RING_KM[0], B_RING_KM[1]]
    angles = np.linspace(0.0, 2.0 * np.pi, 2 * _STEPS)
    for edge_km in edges_km:
        radius = outer * edge_km / OUTER_EDGE_KM
        edge = np.column_stack((radius * np.cos(angles), radius * flatness * np.sin(angles)))
        within = np.hypot(
            edge[:, 0] / (disc.equatorial_diameter_arcsec / 2.0),
            edge[:, 1] / (disc.polar_diameter_arcsec / 2.0),
        )
        yield from _pieces(edge, (edge[:, 1] * near >= 0.0) | (within > 1.0))


def _pieces(line: Line, is_seen: Truths) -> Iterator[Line]:
    """Yield the runs of points that are seen, at least two in each."""
    cuts = np.flatnonzero(is_seen[1:] != is_seen[:-1]) + 1
    for points, seen in zip(np.split(line, cuts), np.split(is_seen, cuts), strict=True):
        if seen[0] and len(points) > 1:
            yield points
