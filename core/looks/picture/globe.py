"""A globe's light: where each point of the picture lies on it, and how bright that place looks.

Lengths are in equatorial radii. On the sky x runs west along the equator, y along the axis northwards,
and z towards the eye.
"""

from typing import Final

import numpy as np
from attrs import frozen

from core.arrays import Truths, Values
from core.looks.picture.markings import brightness
from core.looks.picture.mars_ground import through_haze
from core.looks.picture.moon_ground import sunlight
from core.looks.picture.subject import Subject
from core.sky.bodies import FACTS, Body
from core.sky.moon_phase import MoonPhase

# Minnaert's exponent of limb darkening, about right for visual light (ours): 1 is a matt ball, less is
# flatter. Bare dust and rock follow Lommel and Seeliger instead, whose full disc is even.
_MINNAERT: Final = {
    Body.VENUS: 1.0,
    Body.MARS: 0.75,
    Body.JUPITER: 0.95,
    Body.SATURN: 0.9,
    Body.URANUS: 0.85,
    Body.NEPTUNE: 0.85,
}
_LEAST_SLANT: Final = 0.05
# From this cosine of the slant on, the slopes of the Moon are shaded in full (ours).
_SLOPES_FROM: Final = 0.45


@frozen
class Globe:
    """A flattened globe as it stands on the sky: unit vectors of its pole and of the Sun, (3,)."""

    flatness: float
    pole: Values
    to_sun: Values

    @classmethod
    def of(cls, subject: Subject) -> "Globe":
        """Return the globe of a subject."""
        disc = subject.disc
        facts = FACTS[disc.body]
        tilt = np.radians(disc.sub_earth_latitude_planetocentric_deg)
        phase = np.radians(disc.phase_angle_deg)
        limb = np.radians(disc.bright_limb_angle_deg - disc.pole_angle_deg)
        towards = [-np.sin(phase) * np.sin(limb), np.sin(phase) * np.cos(limb), np.cos(phase)]
        return cls(
            flatness=facts.polar_radius_km / facts.equatorial_radius_km,
            pole=np.array([0.0, np.cos(tilt), np.sin(tilt)], dtype=np.float32),
            to_sun=np.array(towards, dtype=np.float32),
        )

    @property
    def outline(self) -> float:
        """Half the apparent height over half the width."""
        return float(np.hypot(self.pole[2], self.flatness * self.pole[1]))

    def coverage(self, x: Values, y: Values, pixel: float) -> Values:
        """Return which share of each pixel the globe's outline covers, from pixel middles."""
        inward = y / self.outline
        reach = np.hypot(x, inward)
        steepness = np.hypot(x, inward / self.outline) / np.maximum(reach, 1e-6)
        return np.asarray(np.clip(0.5 + (1.0 - reach) / np.maximum(steepness, 1e-6) / pixel, 0.0, 1.0))

    def depth(self, x: Values, y: Values) -> Values:
        """Return z of the visible surface; beyond the outline, that of its edge."""
        stretch = 1.0 / self.flatness**2 - 1.0
        along, toward = float(self.pole[1]), float(self.pole[2])
        a = 1.0 + stretch * toward**2
        half_b = stretch * along * toward * y
        c = x**2 + (1.0 + stretch * along**2) * y**2 - 1.0
        return np.asarray((-half_b + np.sqrt(np.maximum(half_b**2 - a * c, 0.0))) / a)

    def hides_sun(self, x: Values, y: Values, z: Values) -> Truths:
        """Tell which points outside the globe lie in its shadow."""
        place = np.stack([x, y, z], axis=-1)
        place = place + (place @ self.pole)[..., None] * self.pole * (1.0 / self.flatness - 1.0)
        beam = self.to_sun + float(self.to_sun @ self.pole) * self.pole * (1.0 / self.flatness - 1.0)
        along = place @ beam
        clearance = along**2 - float(beam @ beam) * (np.einsum("...k,...k->...", place, place) - 1.0)
        return np.asarray((along < 0.0) & (clearance > 0.0))


def globe_light(globe: Globe, subject: Subject, x: Values, y: Values, z: Values) -> Values:
    """Return how bright the surface looks at points (N,) of it, against a matt white ball under the Sun."""
    stretch = 1.0 / globe.flatness**2 - 1.0
    axial = y * globe.pole[1] + z * globe.pole[2]
    normal_y, normal_z = y + stretch * axial * globe.pole[1], z + stretch * axial * globe.pole[2]
    length = np.sqrt(x**2 + normal_y**2 + normal_z**2)
    towards_eye = np.maximum(normal_z / length, _LEAST_SLANT)
    towards_sun = np.maximum(
        (x * globe.to_sun[0] + normal_y * globe.to_sun[1] + normal_z * globe.to_sun[2]) / length, 0.0
    )
    sine_latitude = (normal_y * globe.pole[1] + normal_z * globe.pole[2]) / length
    latitude_deg = np.degrees(np.arcsin(np.clip(sine_latitude, -1.0, 1.0)))
    west_deg = np.degrees(np.arctan2(x, z * globe.pole[1] - y * globe.pole[2]))
    ground = brightness(subject, latitude_deg, west_deg)
    if subject.disc.body is Body.MARS:
        ground = through_haze(ground, towards_eye)
    if subject.disc.body is Body.MOON and subject.phase is not None:
        on_slopes = _on_slopes(subject, subject.phase, latitude_deg, west_deg)
        # Seen aslant at the limb, slopes hide one another: there the ground counts as level.
        towards_sun += np.minimum(towards_eye / _SLOPES_FROM, 1.0) * (on_slopes - towards_sun)
    exponent = _MINNAERT.get(subject.disc.body)
    if exponent is None:
        shade = 2.0 * towards_sun / (towards_sun + towards_eye)
    else:
        shade = towards_sun**exponent * towards_eye ** (exponent - 1.0)
    return np.asarray(ground * shade, dtype=np.float32)


def _on_slopes(subject: Subject, phase: MoonPhase, latitude_deg: Values, west_deg: Values) -> Values:
    """Return how squarely the Sun falls on the Moon's slopes; west on the sky is east on the Moon."""
    return sunlight(
        latitude_deg,
        west_deg + phase.libration_longitude_deg,
        sun_latitude_deg=subject.disc.sub_solar_latitude_planetographic_deg,
        sun_longitude_deg=phase.sunrise_longitude_deg + 90.0,
    )
