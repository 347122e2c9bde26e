"""Lengths and temperatures in the owner's units."""

import pytest

from core.record.observer import LengthUnit, Preferences, TemperatureUnit
from core.words.units import Units

METRIC = Units()
INCHES = Units(Preferences(length=LengthUnit.INCH, temperature=TemperatureUnit.FAHRENHEIT, clock=12))


# mm, and the same in both units; an inch is 25.4 mm.
@pytest.mark.parametrize(("mm", "metric", "inches"), [(150, "150 mm", "5.91 in"), (254, "254 mm", "10 in")])
def test_lengths(mm: float, metric: str, inches: str) -> None:
    assert (METRIC.named_length_text(mm), INCHES.named_length_text(mm)) == (metric, inches)
    assert METRIC.length_text(mm) == metric.removesuffix(" mm")


# Water freezes at 32 and boils at 212 °F; -40 is the same in both.
@pytest.mark.parametrize(("celsius", "fahrenheit"), [(0, "32"), (10, "50"), (-40, "-40"), (100, "212")])
def test_temperatures(celsius: float, fahrenheit: str) -> None:
    assert METRIC.temperature_text(celsius) == f"{celsius:g}"
    assert INCHES.temperature_text(celsius) == fahrenheit


# 5 °C apart are 9 °F apart.
@pytest.mark.parametrize(("celsius", "fahrenheit"), [(0, "0"), (5, "9"), (-10, "-18")])
def test_differences_of_temperatures(celsius: float, fahrenheit: str) -> None:
    assert (METRIC.difference_text(celsius), INCHES.difference_text(celsius)) == (f"{celsius:g}", fahrenheit)


def test_what_was_converted_is_told_to_a_tenth_and_what_was_typed_as_it_was() -> None:
    """1.234 °C apart are 2.2212 °F apart; 21.37 °C are 70.466 °F."""
    assert (METRIC.difference_text(1.234), INCHES.difference_text(1.234)) == ("1.2", "2.2")
    assert (METRIC.temperature_text(21.37), INCHES.temperature_text(21.37)) == ("21.37", "70.5")


def test_signs_and_the_clock() -> None:
    assert (METRIC.temperature, METRIC.is_fahrenheit, METRIC.clock) == ("°C", False, 24)
    assert (INCHES.temperature, INCHES.is_fahrenheit, INCHES.clock) == ("°F", True, 12)
    assert Units(Preferences(out_from="20:00")) == METRIC
    assert INCHES != METRIC
