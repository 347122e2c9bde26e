"""From what is typed to values: readers of one line, and how plain values are written back."""

from collections.abc import Callable
from typing import Any, TypeVar

import attrs

from core.checks import Within
from core.gear.figures import parse_temperature_c, parse_temperature_difference_c
from core.gear.numbers import DoubtfulFigureError, Unit, number_text, parse_length_mm, parse_within
from core.problems import ProblemsError
from core.words.names import as_sentence
from core.words.quantities import trimmed_text
from core.words.units import Units
from gui.widgets.field import Choice, Reading

V = TypeVar("V")

Read = Callable[[str], Reading[Any]]


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
    return reads(lambda text: parse_within(text, allowed, what=label))


def reads_millimetres(cls: type, name: str, label: str, unit: Callable[[], Unit] = lambda: Unit.MM) -> Read:
    """Return the reader for a length, in ``unit`` where none is typed, inside the range of a field in mm."""
    allowed = range_of(cls, name)
    return reads(
        lambda text: parse_length_mm(text, low_mm=allowed.low, high_mm=allowed.high, what=label, unit=unit())
    )


def reads_temperature(units: Callable[[], Units]) -> Read:
    """Return the reader for a temperature in °C, typed in the owner's unit or with its own."""
    return reads(lambda text: parse_temperature_c(text, fahrenheit=units().is_fahrenheit))


def reads_difference(cls: type, name: str, label: str, units: Callable[[], Units]) -> Read:
    """Return the reader for a difference of temperatures in °C, inside the range of a field."""
    allowed = range_of(cls, name)

    def parse(text: str) -> float:
        value_c = parse_temperature_difference_c(text, fahrenheit=units().is_fahrenheit)
        return parse_within(number_text(value_c), allowed, what=label)

    return reads(parse)


def read_words(text: str) -> Reading[str]:
    """Read plain text; blanks around it do not count."""
    return Reading(text.strip())


def plain_text(value: str) -> str:
    """Write plain text."""
    return value


def figure(value: float) -> str:
    """Write a number with at most four decimals."""
    return trimmed_text(value, 4)
