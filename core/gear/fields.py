"""How much sky an eyepiece can show: the barrel caps its field stop, and so impossible figures are cut.

Geometric optics; the caps are common practice, no source.
"""

import math
from typing import Final

from attrs import frozen

from core.gear.optics import power, true_field_deg, true_field_from_apparent_deg
from core.gear.owned import Eyepiece

# The widest field stop that each barrel leaves room for, mm.
WIDEST_STOP_MM: Final = {24.5: 21.0, 31.75: 27.0, 50.8: 46.0}

# Stated apparent fields include distortion: the usual 40 mm of 44 degrees has a stop of 27 mm, 12 % less
# than its figures ask for. What asks for more than this is impossible (ours).
DISTORTION: Final = 1.15


@frozen(kw_only=True)
class ShownField:
    """The true and apparent field in degrees; ``cut`` where the figures ask for more than fits."""

    true_field_deg: float
    apparent_field_deg: float | None
    cut: bool


def usable_stop_mm(
    eyepiece: Eyepiece, focal_length_mm: float, apparent_field_deg: float | None
) -> float | None:
    """Return the field stop in mm at one setting, no wider than the barrel; None where no figure tells it."""
    cap_mm = widest_stop_mm(eyepiece.barrel_mm)
    if eyepiece.field_stop_mm is not None and not eyepiece.is_zoom:
        return min(eyepiece.field_stop_mm, cap_mm)
    if apparent_field_deg is None:
        return None
    return min(asked_stop_mm(focal_length_mm, apparent_field_deg), cap_mm)


def widest_stop_mm(barrel_mm: float) -> float:
    """Return the widest field stop in mm that a barrel leaves room for.

    >>> widest_stop_mm(31.75)
    27.0
    """
    return WIDEST_STOP_MM[barrel_mm]


def asked_stop_mm(focal_length_mm: float, apparent_field_deg: float) -> float:
    """Return the field stop in mm that a focal length and an apparent field ask for, without distortion.

    >>> round(asked_stop_mm(25, 52), 1)
    22.7
    """
    return focal_length_mm * math.radians(apparent_field_deg)


def widest_apparent_field_deg(barrel_mm: float, focal_length_mm: float) -> float:
    """Return the apparent field in degrees that a barrel leaves a focal length in mm, without distortion.

    >>> round(widest_apparent_field_deg(31.75, 32))
    48
    """
    return math.degrees(widest_stop_mm(barrel_mm) / focal_length_mm)


def shown_field(
    eyepiece: Eyepiece,
    *,
    eyepiece_focal_length_mm: float,
    apparent_field_deg: float | None,
    focal_length_mm: float,
) -> ShownField | None:
    """Return the field of an eyepiece behind a focal length in mm, Barlows and reducers included.

    The field stop is preferred, except of a zoom, whose stop changes as it is turned; else the apparent field
    at this setting over the power. None where neither is known.
    """
    cap_mm = widest_stop_mm(eyepiece.barrel_mm)
    if eyepiece.field_stop_mm is not None and not eyepiece.is_zoom:
        return ShownField(
            true_field_deg=true_field_deg(min(eyepiece.field_stop_mm, cap_mm), focal_length_mm),
            apparent_field_deg=apparent_field_deg,
            cut=eyepiece.field_stop_mm > cap_mm,
        )
    if apparent_field_deg is None:
        return None
    if asked_stop_mm(eyepiece_focal_length_mm, apparent_field_deg) > cap_mm * DISTORTION:
        return ShownField(
            true_field_deg=true_field_deg(cap_mm, focal_length_mm),
            apparent_field_deg=widest_apparent_field_deg(eyepiece.barrel_mm, eyepiece_focal_length_mm),
            cut=True,
        )
    magnified = power(focal_length_mm, eyepiece_focal_length_mm)
    return ShownField(
        true_field_deg=true_field_from_apparent_deg(apparent_field_deg, magnified),
        apparent_field_deg=apparent_field_deg,
        cut=False,
    )
