"""How an instrument turns what it shows: the right way up, upside down, or reversed left to right."""

from enum import StrEnum
from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Floats
from core.gear.owned import Diagonal, Telescope, TelescopeKind

# Drifting with the sky, a planet leaves an undriven field towards the west.
DRIFT_ANGLE_DEG: Final = 270.0


class Turning(StrEnum):
    """What an instrument does to the view, against that of the naked eye."""

    ERECT = "erect"
    UPSIDE_DOWN = "upside_down"
    MIRRORED = "mirrored"


def turning_of(scope: Telescope) -> Turning:
    """Return how a telescope turns the view, by its kind and its diagonal.

    Two mirrors or a lens turn it by half a circle; the one mirror of a star diagonal sets it upright and
    reverses it; an erecting diagonal, and the prisms inside a fixed-power instrument, set it right.
    """
    if scope.diagonal is Diagonal.STAR:
        return Turning.MIRRORED
    if scope.diagonal is Diagonal.ERECT or scope.kind is TelescopeKind.FIXED:
        return Turning.ERECT
    return Turning.UPSIDE_DOWN


@frozen(kw_only=True)
class Turn:
    """How the sky lies in the eyepiece.

    ``up_angle_deg`` is the position angle (celestial north through east) of what is uppermost to the
    naked eye: 0 for north, or the parallactic angle for the zenith.
    """

    turning: Turning = Turning.ERECT
    up_angle_deg: float = 0.0

    def matrix(self) -> Floats:
        """Return the (2, 2) matrix that makes east and north out of rightward and upward in the eyepiece."""
        angle = np.radians(self.up_angle_deg)
        sine, cosine = np.sin(angle), np.cos(angle)
        erect = np.array([[-cosine, sine], [sine, cosine]])
        turned = {
            Turning.ERECT: (1.0, 1.0),
            Turning.UPSIDE_DOWN: (-1.0, -1.0),
            Turning.MIRRORED: (-1.0, 1.0),
        }[self.turning]
        return np.asarray(erect * turned)

    def direction(self, position_angle_deg: float) -> tuple[float, float]:
        """Return rightward and upward of a direction on the sky, as it lies in the eyepiece, length 1."""
        angle = np.radians(position_angle_deg)
        right, up = self.matrix().T @ np.array([np.sin(angle), np.cos(angle)])
        return float(right), float(up)

    def clock_hour(self, position_angle_deg: float) -> int:
        """Return where a direction points as on a clock's face, 1 to 12."""
        return clock_hour(*self.direction(position_angle_deg))


UNTURNED: Final = Turn()


def clock_hour(right: float, up: float) -> int:
    """Return where something lies from the middle of the view as on a clock's face, 1 to 12."""
    return int(np.round(np.degrees(np.arctan2(right, up)) / 30.0)) % 12 or 12


def zenith_angle_deg(latitude_deg: float, altitude_deg: float, azimuth_deg: float) -> float:
    """Return the position angle of the zenith at a body that stands at an altitude and a true azimuth.

    The angle at the body in the triangle of zenith, pole and body; 0 at the zenith itself.
    """
    latitude, altitude, azimuth = np.radians([latitude_deg, altitude_deg, azimuth_deg])
    across = -np.sin(azimuth) * np.cos(latitude)
    along = np.sin(latitude) * np.cos(altitude) - np.cos(latitude) * np.sin(altitude) * np.cos(azimuth)
    return float(np.degrees(np.arctan2(across, along)))
