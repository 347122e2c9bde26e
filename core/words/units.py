"""Lengths and temperatures written in the owner's units."""

from typing import Final

from attrs import field, frozen

from core.gear.fahrenheit import FAHRENHEIT_PER_CELSIUS, to_fahrenheit
from core.gear.numbers import Unit
from core.record.observer import LengthUnit, Preferences, TemperatureUnit
from core.words.quantities import converted_text, inches_text, millimetres_text

_WITH_UNIT: Final = "{figure} {unit}"


def _units_said(preferences: Preferences) -> tuple[object, ...]:
    """Return what of the preferences changes how a figure is written."""
    return (preferences.length, preferences.temperature, preferences.clock)


@frozen
class Units:
    """The units in which the owner reads and types."""

    preferences: Preferences = field(factory=Preferences, eq=_units_said)

    @property
    def clock(self) -> int:
        """How many hours the owner's clock has."""
        return self.preferences.clock

    @property
    def length(self) -> Unit:
        """The unit of apertures and telescopes' focal lengths."""
        return Unit.INCH if self.preferences.length is LengthUnit.INCH else Unit.MM

    @property
    def is_fahrenheit(self) -> bool:
        """Whether temperatures are in degrees Fahrenheit."""
        return self.preferences.temperature is TemperatureUnit.FAHRENHEIT

    @property
    def temperature(self) -> str:
        """The sign of the unit of temperature."""
        return "°F" if self.is_fahrenheit else "°C"

    def length_text(self, value_mm: float) -> str:
        """Write a length in mm in the owner's unit, without naming it."""
        if self.length is Unit.INCH:
            return inches_text(value_mm / Unit.INCH.mm)
        return millimetres_text(value_mm)

    def named_length_text(self, value_mm: float) -> str:
        """Write a length in mm in the owner's unit, with its name."""
        return _WITH_UNIT.format(figure=self.length_text(value_mm), unit=self.length)

    def temperature_text(self, value_c: float) -> str:
        """Write a temperature in degrees Celsius in the owner's unit, without naming it."""
        value = to_fahrenheit(value_c) if self.is_fahrenheit else value_c
        return converted_text(value, as_typed=2, converted=1)

    def difference_text(self, value_c: float) -> str:
        """Write a difference of temperatures in degrees Celsius in the owner's unit."""
        value = value_c * (FAHRENHEIT_PER_CELSIUS if self.is_fahrenheit else 1.0)
        return converted_text(value, as_typed=2, converted=1)


# Of an owner who has chosen none.
USUAL_UNITS: Final = Units()
