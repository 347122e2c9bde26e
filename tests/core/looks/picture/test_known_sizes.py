"""Sizes in words, against the Moon that everybody knows."""

import pytest

from core.looks.picture.known_sizes import against_moon, angle_text


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
    ("arcmin", "text"), [(0.5, "30″"), (6.4, "6.4′"), (47.2, "47′"), (99.6, "1.7°"), (240.0, "4.0°")]
)
def test_an_angle_is_rounded_honestly(arcmin: float, text: str) -> None:
    assert angle_text(arcmin) == text
