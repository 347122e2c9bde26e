"""Text for a terminal commands nothing and keeps its columns."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.plain_text import columns, cut, printable, width_of, wrapped


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Six-inch reflector", "Six-inch reflector"),
        ("\x1b[31mred\x1b[0m", "�[31mred�[0m"),
        ("two\nlines\tand tab", "two lines and tab"),
        ("non\N{NO-BREAK SPACE}breaking", "non breaking"),
        ("\N{RIGHT-TO-LEFT OVERRIDE}txt.exe", "�txt.exe"),
        ("bell\a", "bell�"),
        ("C1 \x9b2J", "C1 �2J"),
        ("家の庭", "家の庭"),
        ("می‌خواهم", "می‌خواهم"),
        ('10" f/4.7 <b>dob</b> & $x$', '10" f/4.7 <b>dob</b> & $x$'),
    ],
)
def test_printable_keeps_words_and_drops_commands(text: str, shown: str) -> None:
    assert printable(text) == shown


@given(st.text())
def test_printable_text_prints(text: str) -> None:
    shown = printable(text)

    assert all(c.isprintable() or c in "\N{ZERO WIDTH JOINER}\N{ZERO WIDTH NON-JOINER}" for c in shown)
    assert printable(shown) == shown
    assert len(shown) == len(text)


def test_wide_characters_take_two_columns_and_marks_none() -> None:
    assert width_of("abc") == 3
    assert width_of("家の庭") == 6
    assert width_of("e\N{COMBINING ACUTE ACCENT}") == 1


@pytest.mark.parametrize("text", ["a name that is far too long", "家の庭の望遠鏡の名前", "short"])
@pytest.mark.parametrize("width", [6, 9, 10])
def test_cut_text_fits_and_tells_that_it_was_cut(text: str, width: int) -> None:
    shown = cut(text, width)

    assert width_of(shown) <= width
    assert shown == text or shown.endswith("…")


def test_columns_line_up_whatever_the_script() -> None:
    lines = columns([("名前", "48x"), ("name", "120x")], right=(1,))

    assert lines == ["名前   48x", "name  120x"]


@given(st.text(st.characters(categories=["Lu", "Ll", "Lo", "Zs"]), max_size=300), st.integers(20, 80))
def test_a_wrapped_paragraph_fits(text: str, width: int) -> None:
    assert all(width_of(line) <= width for line in wrapped(text, width, indent="  "))


def test_wide_signs_fill_the_line_like_others() -> None:
    text = "The 屈折望遠鏡八十ミリ bears about 120x tonight, and 小さな庭 is a good place for it, as ever."
    lines = wrapped(text, 40)

    assert all(width_of(line) <= 40 for line in lines)
    # As many words as there is room for: the next one would not have gone in.
    words = [line.split()[0] for line in lines[1:]]
    assert all(width_of(f"{line} {word}") > 40 for line, word in zip(lines, words, strict=False))
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(width_of(line) <= 41 for line in wrapped("望" * 50, 41))
