"""Checks of single fields, shared by the values that a profile holds.

Each check is an attrs validator that raises ``ValueError`` with the end of a sentence
("must be from 20 to 2000 mm, not -3"); the reader of a file puts the place in front.
"""

import math
import re
import uuid
from collections.abc import Callable
from typing import Any

import attrs

_CLOCK_TIME = re.compile(r"(?:[01][0-9]|2[0-3]):[0-5][0-9]")
_EXAMPLE_UUID = "3f0c1f6e-8a54-4d0b-9d3c-5e2f7a61b0d4"

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
        if not is_number(value):
            raise ValueError(f"must be a number {self._allowed}, not {value!r}")
        assert isinstance(value, int | float)
        if not self.holds(value):
            raise ValueError(f"must be {self._allowed}, not {value:g}")

    @property
    def _allowed(self) -> str:
        return f"from {self.low:g} to {self.high:g} {self.unit}".rstrip()

    def holds(self, value: float) -> bool:
        """Tell whether a number lies inside, both ends included."""
        return self.low <= value <= self.high

    def nearest(self, value: float) -> float:
        """Return a number that lies inside, else the end next to it."""
        return min(max(value, self.low), self.high)


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


def is_clock_time(text: str) -> bool:
    """Tell whether a text is a time of day such as ``19:30``."""
    return _CLOCK_TIME.fullmatch(text) is not None


def clock_time_or(word: str) -> Validator:
    """Return a validator for a time of day such as ``"19:30"``, or the one word that stands for another."""

    def check(_instance: object, _attribute: "attrs.Attribute[Any]", value: object) -> None:
        if value != word and not (isinstance(value, str) and is_clock_time(value)):
            raise ValueError(f'must be "{word}" or a time from "00:00" to "23:59", not {value!r}')

    return check


def uuid_or_nothing(_instance: object, _attribute: "attrs.Attribute[Any]", value: object) -> None:
    """Refuse an id that is neither empty nor a UUID in its usual form."""
    try:
        known = isinstance(value, str) and (not value or str(uuid.UUID(value)) == value.lower())
    except ValueError:
        known = False
    if not known:
        raise ValueError(
            f'must be a UUID such as "{_EXAMPLE_UUID}", not {value!r}; left out, it is made at the next save'
        )
