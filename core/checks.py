"""Checks of single fields, shared by the values that a profile holds.

Each check is an attrs validator that raises ``ValueError`` with the end of a sentence
("must be from 20 to 2000 mm, not -3"); the reader of a file puts the place in front.
"""

import math
from collections.abc import Callable
from typing import Any

import attrs

Validator = Callable[[Any, "attrs.Attribute[Any]", Any], None]


def is_number(value: object) -> bool:
    """Tell whether a value is a finite number; booleans never are."""
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


@attrs.frozen
class Within:
    """A validator for a finite number from ``low`` to ``high``, both allowed; it can be asked for them."""

    low: float
    high: float
    unit: str = ""

    def __call__(self, _instance: object, _attribute: "attrs.Attribute[Any]", value: object) -> None:
        """Raise ValueError with the allowed range unless the value is inside."""
        allowed = f"from {self.low:g} to {self.high:g} {self.unit}".rstrip()
        if not is_number(value):
            raise ValueError(f"must be a number {allowed}, not {value!r}")
        assert isinstance(value, int | float)
        if not self.low <= value <= self.high:
            raise ValueError(f"must be {allowed}, not {value:g}")


def within(low: float, high: float, unit: str = "") -> Within:
    """Return a validator for a finite number from ``low`` to ``high``, both allowed."""
    return Within(low, high, unit)


def one_of(*choices: object) -> Validator:
    """Return a validator for one of a few values."""
    allowed = ", ".join(str(choice) for choice in choices)

    def check(_instance: object, _attribute: "attrs.Attribute[Any]", value: object) -> None:
        if isinstance(value, bool) or value not in choices:
            raise ValueError(f"must be one of {allowed}, not {value!r}")

    return check


def not_blank(_instance: object, _attribute: "attrs.Attribute[Any]", value: object) -> None:
    """Refuse a name of nothing but spaces."""
    if not isinstance(value, str) or not value.strip():
        raise ValueError("must have at least one visible character")
