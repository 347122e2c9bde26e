"""Sizes in words, against the Moon that everybody knows."""

import pytest

from core.words.sizes import against_moon, apparent_size_text, arcsec_text, disc_size_text, moons_text

MOON_ARCMIN = 31.07  # the mean apparent diameter


@pytest.mark.parametrize(
    ("apparent_arcmin", "words"),
    [
        (1.0, "a small fraction of the width of the Moon to the naked eye"),
        (6.4, "a fifth as wide as the Moon to the naked eye"),
        (15.4, "half as wide as the Moon to the naked eye"),
        (31.0, "as wide as the Moon to the naked eye"),
        (45.0, "about one and a half times as wide as the Moon to the naked eye"),
        (78.0, "about 2½ times as wide as the Moon to the naked eye"),
        (120.0, "about 4 times as wide as the Moon to the naked eye"),
        (1452.0, "about 47 times as wide as the Moon to the naked eye"),
    ],
)
def test_a_size_is_told_against_the_moon(apparent_arcmin: float, words: str) -> None:
    assert against_moon(apparent_arcmin) == words


@pytest.mark.parametrize(
    ("times", "words"),
    [
        (0.079, "a small fraction of the width of"),
        (0.081, "a tenth as wide as"),
        (0.149, "a tenth as wide as"),
        (0.151, "a fifth as wide as"),
        (0.23, "a quarter as wide as"),
        (0.3, "a third as wide as"),
        (0.37, "two fifths as wide as"),
        (0.46, "half as wide as"),
        (0.59, "two thirds as wide as"),
        (0.71, "three quarters as wide as"),
        (0.849, "three quarters as wide as"),
        (0.851, "as wide as"),
        (1.149, "as wide as"),
        (1.151, "about one and a half times as wide as"),
        (1.749, "about one and a half times as wide as"),
        (1.751, "about 2 times as wide as"),
        (2.2499, "about 2 times as wide as"),
        (2.2501, "about 2½ times as wide as"),
        (9.99, "about 10 times as wide as"),
        (10.6, "about 11 times as wide as"),
        (99.4, "about 99 times as wide as"),
        (100.1, "about 100 times as wide as"),
        (125.1, "about 130 times as wide as"),
    ],
)
def test_each_step_of_a_size_begins_where_it_should(times: float, words: str) -> None:
    assert against_moon(times * MOON_ARCMIN) == f"{words} the Moon to the naked eye"


@pytest.mark.parametrize(
    ("times", "text"), [(0.051, "0.05"), (0.094, "0.09"), (0.096, "0.1"), (9.94, "9.9"), (9.96, "10")]
)
def test_a_size_in_moons_for_a_table(times: float, text: str) -> None:
    assert moons_text(times * MOON_ARCMIN) == text


@pytest.mark.parametrize(
    ("arcsec", "text"), [(0.345, "0.35″"), (1.994, "1.99″"), (2.0, "2.0″"), (2.25, "2.3″")]
)
def test_a_small_angle_is_told_to_a_hundredth_below_two_seconds(arcsec: float, text: str) -> None:
    assert arcsec_text(arcsec) == text


@pytest.mark.parametrize(
    ("arcmin", "text"),
    [
        (0.5, "30″"),
        (0.99, "59″"),
        (1.0, "1′"),
        (6.4, "6.4′"),
        (9.96, "10′"),
        (10.6, "11′"),
        (47.2, "47′"),
        (99.4, "99′"),
        (99.6, "1.7°"),
        (240.0, "4.0°"),
        (596.0, "9.9°"),
        (598.0, "10°"),
    ],
)
def test_an_angle_is_rounded_honestly(arcmin: float, text: str) -> None:
    assert apparent_size_text(arcmin) == text


@pytest.mark.parametrize(
    ("arcsec", "text"),
    [
        (3.54, "3.5″"),
        (19.86, "19.9″"),
        (20.0, "20″"),
        (24.4, "24″"),
        (119.9, "120″"),
        (120.0, "2.0′"),
        (1884.0, "31.4′"),
    ],
)
def test_a_disc_is_told_to_a_tenth_below_twenty_and_in_minutes_from_two(arcsec: float, text: str) -> None:
    assert disc_size_text(arcsec) == text
