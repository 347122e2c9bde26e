"""Drawings on paper: a file of each kind, the same bytes each time, its lines and words kept as such."""

from datetime import date

import pytest

from core.drawing.eyepiece import draw_pair
from core.drawing.height import draw_height
from core.drawing.ladder import draw_ladder
from core.drawing.marks import Drawing
from core.drawing.palette import load_palette
from core.drawing.paper import FORMATS, file_content, paper
from core.looks.picture.eyepiece import compute_steps
from core.sky.bodies import Body
from tests.core.drawing.examples import PORTO, ladder, night_at, sight

DAY = load_palette("day")
BEGINNINGS = {"pdf": b"%PDF-", "png": b"\x89PNG", "svg": b"<?xml"}


def chart() -> Drawing:
    night = night_at(PORTO, date(2026, 12, 5))
    return draw_height(paper(700.0, 400.0), night, palette=DAY, planet=Body.SATURN).drawing


@pytest.mark.parametrize("file_format", FORMATS)
def test_the_same_drawing_gives_the_same_file(file_format: str) -> None:
    first, second = (file_content(chart(), file_format) for _ in range(2))

    assert first == second
    assert first.startswith(BEGINNINGS[file_format])


def test_on_paper_lines_stay_lines_and_words_stay_words() -> None:
    text = file_content(draw_ladder(paper(700.0, 400.0), ladder(), palette=DAY).drawing, "svg").decode()

    assert "<path" in text
    assert "top tonight" in text
    assert "<image" not in text


@pytest.mark.parametrize("file_format", FORMATS)
def test_pictures_are_drawn_on_paper_too(file_format: str) -> None:
    seen = sight(ladder(), 120.0)
    assert seen is not None
    names = ["$six$"]
    with_picture = draw_pair(paper(300.0, 300.0), compute_steps([seen]), names, palette=DAY).drawing

    assert len(file_content(with_picture, file_format)) > 2000
