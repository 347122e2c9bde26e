"""Letters that are measured before they are drawn."""

import pytest
from matplotlib.text import Text

from core.drawing.lettering import Lettering, families, fitted, font_of, legible, width_of, wrapped
from tests.core.drawing.examples import ODD_NAMES
from tests.core.drawing.looking import figure_of, pixels

PLAIN, BOLD = Lettering(9.0), Lettering(12.0, bold=True)


@pytest.mark.parametrize("lettering", [PLAIN, BOLD])
@pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("name", ODD_NAMES)
def test_words_are_drawn_no_wider_than_they_were_measured(
    name: str, scale: float, lettering: Lettering
) -> None:
    figure = figure_of(900, 100, scale)
    text = legible(name)
    drawn = Text(0, 0, text, fontproperties=font_of(text, lettering), parse_math=False, figure=figure)

    width_px = drawn.get_window_extent().width

    assert width_px <= width_of(text, lettering) * 100 * scale / 72 + 1.0
    assert width_px >= 0.85 * width_of(text, lettering) * 100 * scale / 72 - 1.0


@pytest.mark.parametrize("name", ODD_NAMES)
def test_no_name_makes_drawing_complain(name: str) -> None:
    # Warnings are errors here: a missing glyph would raise one.
    figure = figure_of(600, 60)
    text = legible(name)
    figure.text(0.02, 0.5, text, fontproperties=font_of(text, PLAIN), parse_math=False)

    assert pixels(figure)[:, :, 0].min() < 128


def test_marks_that_do_not_print_are_left_out() -> None:
    assert legible("roof\x07 \u202eridge\n north") == "roof ridge north"


def test_what_no_font_can_write_becomes_a_box() -> None:
    assert legible("a\U0010fffdb") in ("ab", "a□b")


def test_usual_letters_need_one_font_only() -> None:
    assert families("Jupiter 8″ f/5 × 2° – …") == ("DejaVu Sans",)


def test_a_short_text_is_left_alone() -> None:
    assert fitted("roof", PLAIN, 100.0) == "roof"


@pytest.mark.parametrize("width", [5.0, 20.0, 60.0, 120.0])
def test_a_long_text_is_cut_to_its_place(width: float) -> None:
    cut = fitted("the neighbour's very big old walnut tree", PLAIN, width)

    assert width_of(cut, PLAIN) <= width
    assert cut == "" or cut.endswith("…")


def test_lines_are_no_wider_than_asked_and_lose_no_word() -> None:
    words = "tonight's air (seeing) at 44°, assumed"
    lines = wrapped(words, PLAIN, 90.0)

    assert " ".join(lines) == words
    assert len(lines) > 1
    assert all(width_of(line, PLAIN) <= 90.0 for line in lines)
