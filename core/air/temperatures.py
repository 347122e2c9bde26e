"""What a person knows of an evening's temperatures and of its damp."""

from attrs import field, frozen
from attrs.validators import optional

from core.air.dew import DampAir
from core.air.mirror import AirCourse, air_course
from core.checks import within
from core.gear.ranges import TEMPERATURE_C


@frozen(kw_only=True)
class Temperatures:
    """Temperatures in °C and relative humidity in percent, None where not known.

    ``indoor_c`` is that of the room from which the telescope comes, ``now_c`` the air's when it is told,
    ``dusk_c`` at sunset, ``lowest_c`` the lowest of the night; ``humidity_pct`` belongs to ``now_c``, without
    it to ``dusk_c``. Calm unless a ``breeze`` is told.
    """

    indoor_c: float | None = field(default=None, validator=optional(TEMPERATURE_C))
    now_c: float | None = field(default=None, validator=optional(TEMPERATURE_C))
    dusk_c: float | None = field(default=None, validator=optional(TEMPERATURE_C))
    lowest_c: float | None = field(default=None, validator=optional(TEMPERATURE_C))
    humidity_pct: float | None = field(default=None, validator=optional(within(1, 100, "%")))
    breeze: bool = False

    @property
    def air_c(self) -> float | None:
        """The air's first known temperature: when it was told, else at dusk."""
        return self.dusk_c if self.now_c is None else self.now_c

    @property
    def lowest_is_too_warm(self) -> bool:
        """Whether the lowest of the night is above all that is known of the air before it."""
        before = [each for each in (self.now_c, self.dusk_c) if each is not None]
        return self.lowest_c is not None and bool(before) and self.lowest_c > max(before)

    @property
    def damp(self) -> DampAir | None:
        """The air as damp as it was told to be, None where its humidity is not known."""
        if self.humidity_pct is None or self.air_c is None:
            return None
        return DampAir(temperature_c=self.air_c, humidity_pct=self.humidity_pct, breeze=self.breeze)

    def course(self, *, dusk_minutes: float | None, sunrise_minutes: float | None) -> AirCourse | None:
        """Return how the air runs, in minutes from when it was told; None where it is not known."""
        if self.air_c is None:
            return None
        return air_course(
            now_c=self.air_c,
            dusk_minutes=dusk_minutes if self.now_c is not None else None,
            dusk_c=self.dusk_c,
            sunrise_minutes=sunrise_minutes,
            lowest_c=self.lowest_c,
        )
