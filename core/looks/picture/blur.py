"""What the telescope, the air and the eye do to a picture: one transfer function each, multiplied.

The telescope: the diffraction of a round aperture with a round obstruction in its middle (O'Neill 1956,
J. Opt. Soc. Am. 46, 285). The air: short exposures through Kolmogorov turbulence, in which part of the
image's motion is followed (Fried 1966, J. Opt. Soc. Am. 56, 1372), told by the full width at half maximum
that a long exposure would give a star. The eye: a bell curve, told likewise.
"""

from functools import lru_cache
from typing import Final

import numpy as np
from attrs import field, frozen

from core.arrays import Floats, Values
from core.checks import within
from core.gear.optics import ARCSEC_PER_RADIAN
from core.gear.ranges import APERTURE_MM

WAVELENGTH_NM: Final = 550.0
# Full width at half maximum of Kolmogorov's long exposure, in wavelengths over r0, Fried's length.
_WIDTH_PER_R0: Final = 0.9759
# With more of Fried's lengths across an aperture its motion is a small part of the blur. From there on as
# much is taken as followed as here, so that a wider aperture is never the softer one (ours).
_WIDEST_FOLLOWED: Final = 3.8
_RADII: Final = 2048
# Less than this hides nothing that could be told.
_LEAST_OBSTRUCTION: Final = 1e-3


@frozen(kw_only=True)
class Blurring:
    """What spreads a point of light.

    ``air_arcsec`` is the air's full width at half maximum at the height looked at, in a long exposure;
    ``motion_followed`` is the part, 0 to 1, of the image's motion (as variance) that does no harm.
    ``eye_arcsec`` is the eye's on the sky: its own at the eyepiece over the power. ``spread_arcsec`` is how
    far apart the air pulls the colours, along ``spread_direction``, right and up in the picture; within it
    every colour counts the same.
    """

    aperture_mm: float = field(validator=APERTURE_MM)
    obstruction_ratio: float = field(default=0.0, validator=within(0, 0.95))
    air_arcsec: float = field(default=0.0, validator=within(0, 60, "arcsec"))
    motion_followed: float = field(default=0.0, validator=within(0, 1))
    eye_arcsec: float = field(default=0.0, validator=within(0, 1200, "arcsec"))
    spread_arcsec: float = field(default=0.0, validator=within(0, 60, "arcsec"))
    spread_direction: tuple[float, float] = (0.0, 1.0)


def aperture_transfer(frequency: Floats, *, aperture_mm: float, obstruction_ratio: float = 0.0) -> Floats:
    """Return how much of the contrast an aperture passes, 1 to 0, at frequencies per arcsec, any shape."""
    highest = aperture_mm * 1e6 / WAVELENGTH_NM / ARCSEC_PER_RADIAN
    reduced = np.clip(np.abs(frequency) / highest, 0.0, 1.0)
    passed = _overlap(reduced)
    obstruction = obstruction_ratio
    if obstruction > _LEAST_OBSTRUCTION:
        passed = (
            passed
            + obstruction**2 * _overlap(np.clip(reduced / obstruction, 0.0, 1.0))
            - _shared(reduced, obstruction)
        )
    return np.asarray(passed / (1.0 - obstruction**2))


def _overlap(shift: Floats) -> Floats:
    """Return the common share of two equal circles whose centres are ``shift`` diameters apart."""
    return np.asarray(2.0 / np.pi * (np.arccos(shift) - shift * np.sqrt(1.0 - shift**2)))


def _shared(shift: Floats, small: float) -> Floats:
    """Return twice the common area of a unit circle and a smaller one, as a share of the unit circle.

    ``shift`` is the distance of their centres in diameters of the unit circle.
    """
    distance = np.clip(2.0 * shift, 1.0 - small, 1.0 + small)
    # Half the angle that the common chord spans at each centre, and the kite between the centres.
    at_large = np.arccos(np.clip((distance**2 + 1.0 - small**2) / (2.0 * distance), -1.0, 1.0))
    at_small = np.arccos(np.clip((distance**2 + small**2 - 1.0) / (2.0 * distance * small), -1.0, 1.0))
    common = at_large + small**2 * at_small - distance * np.sin(at_large)
    return np.asarray(2.0 / np.pi * common)


def air_transfer(
    frequency: Floats, air_arcsec: float, *, aperture_mm: float = np.inf, motion_followed: float = 0.0
) -> Floats:
    """Return how much of the contrast the air passes at frequencies per arcsec, any shape.

    ``motion_followed`` is the part of the image's motion, as variance, that does no harm: 0 is a long
    exposure, 1 a short one whose motion is taken out whole. How much there is of it depends on the aperture.
    """
    in_lengths = np.abs(frequency) * air_arcsec / _WIDTH_PER_R0  # the frequency in Fried's lengths
    highest = aperture_mm * 1e6 / WAVELENGTH_NM / ARCSEC_PER_RADIAN
    # The frequency as a share of the highest one of the aperture, or of the widest that is followed.
    share = np.clip(np.maximum(np.abs(frequency) / highest, in_lengths / _WIDEST_FOLLOWED), 0.0, 1.0)
    followed = motion_followed * np.cbrt(share)
    return np.asarray(np.exp(-3.44 * in_lengths ** (5.0 / 3.0) * (1.0 - followed)))


def eye_transfer(frequency: Floats, eye_arcsec: float) -> Floats:
    """Return how much of the contrast the eye passes at frequencies per arcsec, any shape."""
    return np.asarray(np.exp(-((np.pi * frequency * eye_arcsec) ** 2) / (4.0 * np.log(2.0))))


@lru_cache(maxsize=16)
def _transfer(blurring: Blurring, size: int, pixel_arcsec: float) -> Values:
    """Return the transfer function of a square picture's half spectrum, shape (size, size // 2 + 1)."""
    upward = -np.fft.fftfreq(size, pixel_arcsec)[:, None]
    rightward = np.fft.rfftfreq(size, pixel_arcsec)[None, :]
    frequency = np.hypot(upward, rightward)
    radii = np.linspace(0.0, float(frequency.max()), _RADII)
    radial = aperture_transfer(
        radii, aperture_mm=blurring.aperture_mm, obstruction_ratio=blurring.obstruction_ratio
    )
    radial *= air_transfer(
        radii,
        blurring.air_arcsec,
        aperture_mm=blurring.aperture_mm,
        motion_followed=blurring.motion_followed,
    )
    radial *= eye_transfer(radii, blurring.eye_arcsec)
    passed = np.interp(frequency, radii, radial)
    if blurring.spread_arcsec > 0.0:
        right, up = blurring.spread_direction
        passed *= np.sinc((right * rightward + up * upward) * blurring.spread_arcsec)
    return np.asarray(passed, dtype=np.float32)


def blurred(picture: Values, pixel_arcsec: float, blurring: Blurring) -> Values:
    """Return a square picture (N, N) as spread by telescope and air; its sum is kept.

    Light that leaves at one edge comes in at the other: leave a dark margin.
    """
    size = picture.shape[0]
    spectrum = np.fft.rfft2(picture) * _transfer(blurring, size, pixel_arcsec)
    return np.asarray(np.fft.irfft2(spectrum, s=(size, size)), dtype=np.float32)
