"""Filters by the names that people write and say."""

import pytest

from core.looks.filter_names import filter_completions, wratten_number, wratten_typed


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("25", "25"),
        ("25A", "25"),
        ("25 a", "25"),
        ("#25A red", "25"),
        ("Wratten 80", "80A"),
        ("W80A", "80A"),
        ("No. 58", "58"),
        ("nr 82", "82A"),
        ("80A", "80A"),
        ("38", "38A"),
        ("23", "23A"),
        ("96-0.9", "96-0.9"),
        ("light blue", "82A"),
        ("Light-Blue", "82A"),
        ('1.25" orange', "21"),
        ("1.25 inch #8 light yellow", "8"),
        ("50 mm red", "25"),
        ("Dark blue", "38A"),
        ("yellow-green", "11"),
        ("Moon filter", "96-0.9"),
        ("moon filter 25 %", "96-0.9"),
        ("neutral density", "96-0.9"),
        ("my filter", None),
        ("80B", None),
        ("", None),
        ("infrared", None),
        ("minus violet", None),
    ],
)
def test_names(text: str, number: str | None) -> None:
    assert wratten_number(text) == number


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("25A", "25A"),
        ("#82A", "#82A"),
        ("light blue", "82A"),
        ("Moon filter", "96-0.9"),
        ("82A, pale blue", "82A"),
        ("light blue, 82A", "82A"),
        ("Moon filter, 96-0.9", "96-0.9"),
        ("  mine ", "mine"),
    ],
)
def test_what_is_typed_as_a_number(typed: str, kept: str) -> None:
    assert wratten_typed(typed) == kept


def test_each_completion_means_the_number_that_it_shows() -> None:
    for words in filter_completions():
        number = wratten_typed(words)
        assert number in words
        assert wratten_number(number) == number
