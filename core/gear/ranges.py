"""Ranges outside which a figure of gear, or of the air about it, is surely a slip of the pen.

Common practice, no source. Each is a validator that can be asked for its ends: ``APERTURE_MM.low``.
"""

from typing import Final

from core.checks import within

APERTURE_MM: Final = within(20, 2000, "mm")
FOCAL_LENGTH_MM: Final = within(50, 20_000, "mm")
# Of an eyepiece.
EYEPIECE_MM: Final = within(2, 60, "mm")
APPARENT_FIELD_DEG: Final = within(20, 120, "degrees")
# One that is built into an instrument.
OWN_POWER: Final = within(1, 500, "x")
# Of a lens before the eyepiece; between the two ranges it would change next to nothing.
REDUCER_FACTOR: Final = within(0.3, 0.95, "x")
BARLOW_FACTOR: Final = within(1.1, 5, "x")
# A temperature, or a difference of two.
TEMPERATURE_C: Final = within(-60, 60, "°C")
