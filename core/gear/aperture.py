"""The aperture in use: the whole one with its obstruction, or what an off-axis mask leaves of it."""

import math

from core.gear.owned import Telescope


def working_aperture_mm(scope: Telescope) -> float:
    """Return the aperture in mm that light comes through, that of the mask where one is in use."""
    return scope.aperture_mm if scope.mask_mm is None else scope.mask_mm


def working_obstruction_ratio(scope: Telescope) -> float:
    """Return the obstruction as a share of the working aperture's diameter; none with an off-axis mask."""
    return scope.obstruction_ratio if scope.mask_mm is None else 0.0


def clear_area_mm2(scope: Telescope) -> float:
    """Return the area in mm² that light comes through."""
    obstruction = working_obstruction_ratio(scope)
    return math.pi / 4.0 * working_aperture_mm(scope) ** 2 * (1.0 - obstruction**2)
