"""A profile's file is called after its observer, on any system and in any script."""

import pytest

from core.record.file_names import profile_stem


@pytest.mark.parametrize(
    ("observer", "stem"),
    [
        ("Marta", "marta"),
        ("Anne-Marie O'Neil", "anne_marie_o_neil"),
        ("  Ines  Silva ", "ines_silva"),
        ("Ελένη", "ελένη"),
        ("हिन्दी", "हिन्दी"),
        ("../../etc/passwd", "etc_passwd"),
        ('a\\b:c*?"<>|\x00\n', "a_b_c"),
        ("Nul", "nul_profile"),
        ("", "profile"),
        ("★ ♄", "profile"),
        ("x" * 300, "x" * 60),
    ],
)
def test_the_stem_is_the_name_without_what_a_system_refuses(observer: str, stem: str) -> None:
    assert profile_stem(observer) == stem
