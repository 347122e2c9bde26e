"""From what is typed in a form to values, and back, in the owner's units."""

from collections.abc import Callable
from typing import Any, TypeVar

import attrs
from attrs import field, frozen

from core.checks import Within
from core.gear.figures import parse_temperature_c, parse_temperature_difference_c
from core.gear.numbers import DoubtfulFigureError, Unit, number_text, parse_length_mm, parse_number
from core.problems import ProblemsError
from core.record.observer import LengthUnit, Preferences, TemperatureUnit
from core.words.names import as_sentence
from core.words.quantities import converted_text, inches_text, millimetres_text, trimmed_text
from gui.widgets.field import Choice, Reading

V = TypeVar("V")

Read = Callable[[str], Reading[Any]]

_FAHRENHEIT_PER_CELSIUS = 1.8


def reads(parse: Callable[[str], V]) -> Callable[[str], Reading[V]]:
    """Return the reader for a function that returns a value or raises ProblemsError."""

    def read(text: str) -> Reading[V]:
        try:
            return Reading(parse(text))
        except DoubtfulFigureError as doubt:
            choices = tuple(Choice(candidate.text, candidate.text) for candidate in doubt.candidates)
            return Reading(problem=doubt.question, choices=choices)
        except ProblemsError as error:
            return Reading(problem=as_sentence(str(error.problems[0])))

    return read


def range_of(cls: type, name: str) -> Within:
    """Return the range that a value's own check allows for one of its fields."""
    validator = getattr(attrs.fields(cls), name).validator
    # An optional field wraps its check.
    check = getattr(validator, "validator", validator)
    assert isinstance(check, Within)
    return check


def reads_number(cls: type, name: str, label: str) -> Read:
    """Return the reader for a plain number, inside the range of a field."""
    allowed = range_of(cls, name)
    return reads(
        lambda text: parse_number(text, low=allowed.low, high=allowed.high, what=label, unit=allowed.unit)
    )


def reads_millimetres(cls: type, name: str, label: str, unit: Callable[[], Unit] = lambda: Unit.MM) -> Read:
    """Return the reader for a length, in ``unit`` where none is typed, inside the range of a field in mm."""
    allowed = range_of(cls, name)
    return reads(
        lambda text: parse_length_mm(text, low_mm=allowed.low, high_mm=allowed.high, what=label, unit=unit())
    )


def read_words(text: str) -> Reading[str]:
    """Read plain text; blanks around it do not count."""
    return Reading(text.strip())


def plain_text(value: str) -> str:
    """Write plain text."""
    return value


def figure(value: float) -> str:
    """Write a number with at most four decimals."""
    return trimmed_text(value, 4)


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
        return f"{self.length_text(value_mm)} {self.length}"

    def temperature_text(self, value_c: float) -> str:
        """Write a temperature in degrees Celsius in the owner's unit, without naming it."""
        value = value_c * _FAHRENHEIT_PER_CELSIUS + 32.0 if self.is_fahrenheit else value_c
        return converted_text(value, as_typed=2, converted=1)

    def parse_temperature_c(self, text: str) -> float:
        """Return a temperature in degrees Celsius, typed in the owner's unit or with its own."""
        return parse_temperature_c(text, fahrenheit=self.is_fahrenheit)

    def difference_text(self, value_c: float) -> str:
        """Write a difference of temperatures in degrees Celsius in the owner's unit."""
        value = value_c * (_FAHRENHEIT_PER_CELSIUS if self.is_fahrenheit else 1.0)
        return converted_text(value, as_typed=2, converted=1)

    def parse_difference_c(self, text: str, allowed: Within, label: str) -> float:
        """Return a difference of temperatures in degrees Celsius, inside a range."""
        value_c = parse_temperature_difference_c(text, fahrenheit=self.is_fahrenheit)
        return parse_number(
            number_text(value_c), low=allowed.low, high=allowed.high, what=label, unit=allowed.unit
        )
