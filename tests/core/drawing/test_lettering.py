"""Letters that are measured before they are drawn."""

import pytest
from matplotlib.text import Text

from core.drawing.lettering import Lettering, one_line
from core.drawing.marks import Sheet
from core.drawing.palette import load_palette
from core.drawing.paper import PaperMeasure, families, figure_of, paper
from tests.core.drawing.examples import ODD_NAMES
from tests.core.drawing.looking import pixels

PLAIN, BOLD = Lettering(9.0), Lettering(12.0, bold=True)
MEASURE = PaperMeasure()


def written(name: str, lettering: Lettering) -> Sheet:
    sheet = Sheet(paper(700.0, 60.0), load_palette("day"))
    sheet.write(name, 5.0, 30.0, lettering, sheet.palette.ink, align="left")
    return sheet


@pytest.mark.parametrize("lettering", [PLAIN, BOLD])
@pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("name", ODD_NAMES)
def test_words_are_drawn_no_wider_than_they_were_measured(
    name: str, scale: float, lettering: Lettering
) -> None:
    figure = figure_of(written(name, lettering).drawing, dots_per_inch=100 * scale)
    (drawn,) = figure.findobj(Text)

    width_px = drawn.get_window_extent().width

    measured = MEASURE.width(MEASURE.legible(name), lettering) * 100 * scale / 72
    assert width_px <= measured + 1.0
    assert width_px >= 0.85 * measured - 1.0


@pytest.mark.parametrize("name", ODD_NAMES)
def test_no_name_makes_drawing_complain(name: str) -> None:
    # Warnings are errors here: a missing glyph would raise one.
    assert pixels(written(name, PLAIN).drawing)[:, :, 0].min() < 128


def test_marks_that_do_not_print_are_left_out() -> None:
    assert one_line("roof\x07 \u202eridge\n north") == "roof ridge north"
    assert MEASURE.legible("roof\x07 \u202eridge\n north") == "roof ridge north"


def test_what_no_font_can_write_becomes_a_box() -> None:
    assert MEASURE.legible("a\U0010fffdb") in ("ab", "a□b")


def test_usual_letters_need_one_font_only() -> None:
    assert families("Jupiter 8″ f/5 × 2° – …") == ("DejaVu Sans",)


def test_a_short_text_is_left_alone() -> None:
    assert MEASURE.fitted("roof", PLAIN, 100.0) == "roof"


@pytest.mark.parametrize("width", [5.0, 20.0, 60.0, 120.0])
def test_a_long_text_is_cut_to_its_place(width: float) -> None:
    cut = MEASURE.fitted("the neighbour's very big old walnut tree", PLAIN, width)

    assert MEASURE.width(cut, PLAIN) <= width
    assert cut == "" or cut.endswith("…")


def test_lines_are_no_wider_than_asked_and_lose_no_word() -> None:
    words = "tonight's air (seeing) at 44°, assumed"
    lines = MEASURE.wrapped(words, PLAIN, 90.0)

    assert " ".join(lines) == words
    assert len(lines) > 1
    assert all(MEASURE.width(line, PLAIN) <= 90.0 for line in lines)
