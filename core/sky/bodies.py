"""The bodies that Stillair follows, and the few constants that belong to each."""

from enum import StrEnum

from attrs import frozen


class Body(StrEnum):
    """A body of the solar system, by the word used in files and output."""

    SUN = "sun"
    MERCURY = "mercury"
    VENUS = "venus"
    MARS = "mars"
    JUPITER = "jupiter"
    SATURN = "saturn"
    URANUS = "uranus"
    NEPTUNE = "neptune"
    MOON = "moon"

    @property
    def label(self) -> str:
        """The name as shown to a person."""
        return "the Moon" if self is Body.MOON else self.value.capitalize()

    @property
    def heading(self) -> str:
        """The name on a label or at the start of a sentence."""
        return self.value.capitalize()


PLANETS = (Body.MERCURY, Body.VENUS, Body.MARS, Body.JUPITER, Body.SATURN, Body.URANUS, Body.NEPTUNE)
# What is looked at, in the order of every list shown.
TARGETS = (*PLANETS, Body.MOON)


@frozen
class BodyFacts:
    """Constants of one body.

    ``equatorial_radius_km`` and ``polar_radius_km`` are of WGCCRE 2015 (Archinal et al. 2018), the Sun's of
    IAU 2015 resolution B3; ``dark_enough_sun_altitude_deg`` is the height under which the Sun must
    stand for the body to be worth a look (common practice, no source).
    """

    equatorial_radius_km: float
    polar_radius_km: float
    dark_enough_sun_altitude_deg: float


FACTS = {
    Body.SUN: BodyFacts(695_700.0, 695_700.0, 90.0),
    Body.MERCURY: BodyFacts(2440.53, 2438.26, -4.0),
    Body.VENUS: BodyFacts(6051.8, 6051.8, -0.833),
    Body.MARS: BodyFacts(3396.19, 3376.20, -4.0),
    Body.JUPITER: BodyFacts(71_492.0, 66_854.0, -0.833),
    Body.SATURN: BodyFacts(60_268.0, 54_364.0, -4.0),
    Body.URANUS: BodyFacts(25_559.0, 24_973.0, -12.0),
    Body.NEPTUNE: BodyFacts(24_764.0, 24_341.0, -12.0),
    Body.MOON: BodyFacts(1737.4, 1737.4, -0.833),
}
