"""Figures as words: as many digits as they deserve, and plain ones."""

import pytest

from core.words.quantities import field_text, two_figures


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0.000_67, "0.00067"),
        (0.000_067, "0.000067"),
        (0.574, "0.57"),
        (1.0, "1"),
        (1.78, "1.8"),
        (99.4, "99"),
        (99.6, "100"),
        (232.0, "230"),
        (1536.0, "1500"),
    ],
)
def test_two_figures_are_written_without_an_exponent(value: float, text: str) -> None:
    assert two_figures(value) == text


def test_a_field_is_told_in_degrees_minutes_or_seconds_of_arc() -> None:
    told = [field_text(field_deg) for field_deg in (12.4, 1.26, 0.5, 1 / 60, 0.005)]

    assert told == ["12°", "1.3°", "30′", "1′", "18″"]
