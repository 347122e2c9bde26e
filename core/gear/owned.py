"""The things an observer owns, as frozen values that check themselves.

Ranges are those of ``ranges``, the others here too: outside them a figure is surely a slip of the pen
(common practice, no source).
"""

from datetime import date
from enum import StrEnum

from attrs import field, frozen
from attrs.validators import optional

from core.checks import not_blank, one_of, within
from core.gear.ranges import (
    APERTURE_MM,
    APPARENT_FIELD_DEG,
    BARLOW_FACTOR,
    EYEPIECE_MM,
    FOCAL_LENGTH_MM,
    OWN_POWER,
    REDUCER_FACTOR,
)

BARRELS_MM = (24.5, 31.75, 50.8)
USUAL_BARREL_MM = 31.75
_ANY_FACTOR = within(REDUCER_FACTOR.low, BARLOW_FACTOR.high, "x")


class TelescopeKind(StrEnum):
    """How a telescope forms its image; ``FIXED`` is an instrument whose power is built in."""

    REFRACTOR = "refractor"
    REFLECTOR = "reflector"
    CATADIOPTRIC = "catadioptric"
    FIXED = "fixed"


class Diagonal(StrEnum):
    """What stands between the tube and the eyepiece: nothing, a star diagonal (mirror-reversed), or erect."""

    NONE = "none"
    STAR = "star"
    ERECT = "erect"


class Stand(StrEnum):
    """What a telescope stands on; a deck or a balcony passes every step on to it."""

    GROUND = "ground"
    DECK = "deck"
    BALCONY = "balcony"


# Share of the aperture that the secondary mirror hides when the owner has not said (common practice).
ASSUMED_OBSTRUCTION = {
    TelescopeKind.REFRACTOR: 0.0,
    TelescopeKind.REFLECTOR: 0.25,
    TelescopeKind.CATADIOPTRIC: 0.33,
    TelescopeKind.FIXED: 0.0,
}


@frozen(kw_only=True)
class Telescope:
    """One telescope or fixed-power instrument.

    A telescope has ``focal_length_mm``; a fixed-power instrument has ``power``, or ``power_min`` and
    ``power_max``, and may state its ``true_field_deg``. The owner's own cooling time needs both
    ``cooling_minutes`` and ``cooling_from_c`` (how much warmer than the air the scope was). ``mask_mm`` is
    the opening of an off-axis mask in use, ``binoviewer_factor`` what a bino-viewer does to the power of
    its pairs of equal eyepieces, ``settles_s`` how long the view trembles after a tap.
    """

    id: str = ""
    name: str = field(validator=not_blank)
    kind: TelescopeKind
    aperture_mm: float = field(validator=APERTURE_MM)
    focal_length_mm: float | None = field(default=None, validator=optional(FOCAL_LENGTH_MM))
    power: float | None = field(default=None, validator=optional(OWN_POWER))
    power_min: float | None = field(default=None, validator=optional(OWN_POWER))
    power_max: float | None = field(default=None, validator=optional(OWN_POWER))
    true_field_deg: float | None = field(default=None, validator=optional(within(0.05, 20, "degrees")))
    obstruction_mm: float | None = field(default=None, validator=optional(within(0, 1500, "mm")))
    barrel_mm: float = field(default=USUAL_BARREL_MM, validator=one_of(*BARRELS_MM))
    diagonal: Diagonal = Diagonal.NONE
    closed_tube: bool | None = None
    fan: bool = False
    driven: bool = False
    stack_barlows: bool = False
    cooling_minutes: float | None = field(default=None, validator=optional(within(1, 1440, "minutes")))
    cooling_from_c: float | None = field(default=None, validator=optional(within(1.01, 60, "°C")))
    mirror_thickness_mm: float | None = field(default=None, validator=optional(within(3, 200, "mm")))
    mask_mm: float | None = field(default=None, validator=optional(APERTURE_MM))
    binoviewer_factor: float | None = field(default=None, validator=optional(within(1, 4, "x")))
    settles_s: float | None = field(default=None, validator=optional(within(0.1, 60, "seconds")))
    stands_on: Stand | None = None
    collimated_on: date | None = None
    notes: str = ""

    def __attrs_post_init__(self) -> None:
        if self.kind is TelescopeKind.FIXED:
            self._check_fixed_power()
        else:
            if self.focal_length_mm is None:
                raise ValueError("needs focal_length_mm, from 50 to 20000 mm")
            if not (self.power is self.power_min is self.power_max is None):
                raise ValueError('a power of its own belongs to kind "fixed" only')
        if self.obstruction_mm is not None and self.obstruction_mm >= self.aperture_mm:
            raise ValueError(f"obstruction_mm must be less than the aperture, {self.aperture_mm:g} mm")
        if self.mask_mm is not None and self.mask_mm >= self.aperture_mm:
            raise ValueError(f"mask_mm must be less than the aperture, {self.aperture_mm:g} mm")
        if (self.cooling_minutes is None) != (self.cooling_from_c is None):
            raise ValueError("cooling_minutes and cooling_from_c go together: give both or neither")

    def _check_fixed_power(self) -> None:
        if self.focal_length_mm is not None:
            raise ValueError('kind "fixed" has a power, not a focal length')
        if self.power is not None:
            if self.power_min is not None or self.power_max is not None:
                raise ValueError("give either power, or power_min and power_max")
        elif self.power_min is None or self.power_max is None:
            raise ValueError('kind "fixed" needs power, or power_min and power_max')
        elif self.power_min >= self.power_max:
            raise ValueError("power_min must be less than power_max")

    @property
    def has_lens(self) -> bool:
        """Whether a lens forms the image, and not a mirror."""
        return self.kind in (TelescopeKind.REFRACTOR, TelescopeKind.FIXED)

    @property
    def highest_own_power(self) -> float | None:
        """The highest power of an instrument whose power is built in, None for any other."""
        return self.power_max if self.power is None else self.power

    @property
    def focal_ratio(self) -> float | None:
        """Focal length over aperture, or None for a fixed-power instrument."""
        return None if self.focal_length_mm is None else self.focal_length_mm / self.aperture_mm

    @property
    def is_closed(self) -> bool:
        """Whether the tube is closed at the front; assumed true for a catadioptric, false for a reflector."""
        if self.closed_tube is not None:
            return self.closed_tube
        return self.kind is TelescopeKind.CATADIOPTRIC

    @property
    def obstruction_ratio(self) -> float:
        """Share of the aperture's diameter that is hidden; see ``obstruction_is_assumed``."""
        if self.obstruction_mm is None:
            return ASSUMED_OBSTRUCTION[self.kind]
        return self.obstruction_mm / self.aperture_mm

    @property
    def obstruction_is_assumed(self) -> bool:
        """Whether ``obstruction_ratio`` is a usual value and not the owner's."""
        return self.obstruction_mm is None and ASSUMED_OBSTRUCTION[self.kind] > 0


@frozen(kw_only=True)
class Eyepiece:
    """One eyepiece: a fixed focal length, or a zoom with the figures of both its ends."""

    id: str = ""
    name: str = field(validator=not_blank)
    focal_length_mm: float | None = field(default=None, validator=optional(EYEPIECE_MM))
    focal_length_min_mm: float | None = field(default=None, validator=optional(EYEPIECE_MM))
    focal_length_max_mm: float | None = field(default=None, validator=optional(EYEPIECE_MM))
    apparent_field_deg: float | None = field(default=None, validator=optional(APPARENT_FIELD_DEG))
    apparent_field_at_min_deg: float | None = field(default=None, validator=optional(APPARENT_FIELD_DEG))
    apparent_field_at_max_deg: float | None = field(default=None, validator=optional(APPARENT_FIELD_DEG))
    field_stop_mm: float | None = field(default=None, validator=optional(within(0.5, 50.8, "mm")))
    barrel_mm: float = field(default=USUAL_BARREL_MM, validator=one_of(*BARRELS_MM))
    eye_relief_mm: float | None = field(default=None, validator=optional(within(0.5, 50, "mm")))

    def __attrs_post_init__(self) -> None:
        ends = (self.focal_length_min_mm, self.focal_length_max_mm)
        if self.focal_length_mm is not None:
            if ends != (None, None):
                raise ValueError("give either focal_length_mm, or both ends of a zoom")
            if not (self.apparent_field_at_min_deg is self.apparent_field_at_max_deg is None):
                raise ValueError("apparent_field_at_min_deg and _at_max_deg belong to a zoom")
        elif self.focal_length_min_mm is None or self.focal_length_max_mm is None:
            raise ValueError("needs focal_length_mm, or focal_length_min_mm and focal_length_max_mm")
        elif self.focal_length_min_mm >= self.focal_length_max_mm:
            raise ValueError("focal_length_min_mm must be less than focal_length_max_mm")
        elif self.apparent_field_deg is not None:
            raise ValueError("a zoom has apparent_field_at_min_deg and apparent_field_at_max_deg instead")
        if self.field_stop_mm is not None and self.field_stop_mm > self.barrel_mm:
            raise ValueError(f"field_stop_mm cannot be wider than the barrel, {self.barrel_mm:g} mm")

    @property
    def is_zoom(self) -> bool:
        """Whether the focal length can be turned."""
        return self.focal_length_mm is None


@frozen(kw_only=True)
class Barlow:
    """A Barlow lens (factor 1.1 to 5) or a focal reducer (0.3 to 0.95)."""

    id: str = ""
    name: str = field(validator=not_blank)
    factor: float = field(validator=_ANY_FACTOR)
    measured_factor: float | None = field(default=None, validator=optional(_ANY_FACTOR))
    barrel_mm: float = field(default=USUAL_BARREL_MM, validator=one_of(*BARRELS_MM))

    def __attrs_post_init__(self) -> None:
        for name, factor in (("factor", self.factor), ("measured_factor", self.measured_factor)):
            if factor is not None and REDUCER_FACTOR.high < factor < BARLOW_FACTOR.low:
                raise ValueError(
                    f"{name} must be from {REDUCER_FACTOR.low:g} to {REDUCER_FACTOR.high:g} (reducer) or from"
                    f" {BARLOW_FACTOR.low:g} to {BARLOW_FACTOR.high:g} (Barlow), not {factor:g}"
                )
        if self.measured_factor is not None and (self.measured_factor < 1) != (self.factor < 1):
            raise ValueError("measured_factor and factor must both be of a Barlow or both of a reducer")

    @property
    def working_factor(self) -> float:
        """The owner's measured factor where there is one, else the marked one."""
        return self.factor if self.measured_factor is None else self.measured_factor

    @property
    def is_reducer(self) -> bool:
        """Whether it shortens the focal length."""
        return self.factor < 1


@frozen(kw_only=True)
class Filter:
    """A colour or neutral filter: a Wratten number, or its luminous transmittance (0 to 1)."""

    id: str = ""
    name: str = field(validator=not_blank)
    wratten: str | None = None
    transmittance: float | None = field(default=None, validator=optional(within(0.0001, 1)))

    def __attrs_post_init__(self) -> None:
        if (self.wratten is None) == (self.transmittance is None):
            raise ValueError("needs either wratten or transmittance")
