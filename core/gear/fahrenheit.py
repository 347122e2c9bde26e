"""Degrees Celsius and Fahrenheit."""

from typing import Final

FAHRENHEIT_PER_CELSIUS: Final = 1.8
_FREEZING_F: Final = 32.0


def to_fahrenheit(value_c: float) -> float:
    """Return a temperature in °F."""
    return value_c * FAHRENHEIT_PER_CELSIUS + _FREEZING_F


def to_celsius(value_f: float) -> float:
    """Return a temperature in °C."""
    return (value_f - _FREEZING_F) / FAHRENHEIT_PER_CELSIUS
