"""The page of two telescopes to keep or print: everything on it can be read, whatever the names."""

import pytest
from attrs import evolve

from core.drawing.comparison_sheet import SHEET_HEIGHT, SHEET_WIDTH, draw_comparison_sheet
from core.drawing.palette import load_palette
from core.drawing.paper import paper
from core.ladder.compare import Comparison, compare
from core.ladder.winner import Winner
from core.ladder.wishes import rungs_with
from core.looks.picture.eyepiece import Steps, compute_steps
from core.words.comparison import verdict_texts
from core.words.comparison_rows import FigureRow
from tests.core.drawing.examples import FEW, MANY, SIX_INCH, SMALL, TWELVE_INCH, eyepiece, ladder, sight
from tests.core.drawing.looking import faults, words_of

CONDITIONS = "Both for Saturn at 44° on 5 December 2026, with a blur of 1.2″ overhead (given)."
ROWS = [
    FigureRow(label="Aperture", a="150 mm", b="305 mm"),
    FigureRow(label="Light, against the other", a="0.24 times", b="4.2 times", winner=Winner.B),
    *(
        FigureRow(label=f"Figure number {number}", a="about this much", b="a little more")
        for number in range(9)
    ),
    FigureRow(
        label="Collimation",
        a="A rough check in daylight, a star test at high power once it is cool.",
        b="A rough check in daylight, a star test at high power once it is cool. "
        "At f/4.9 it must be about 4.3 times as exact as at f/8.",
    ),
]
PAIRS = {
    "few and many": (ladder(), ladder(TWELVE_INCH, MANY)),
    "small": (ladder(SMALL, FEW), ladder()),
    "long names": (
        ladder(
            evolve(SIX_INCH, name="The neighbour's six-inch that may be borrowed on Saturdays, $1 a night")
        ),
        ladder(
            evolve(TWELVE_INCH, name="Twelve-inch of the club, with the old wooden rocker box & <fan>"), MANY
        ),
    ),
}


def pictures_of(comparison: Comparison) -> Steps:
    seen = [sight(side.ladder) for side in (comparison.a, comparison.b)]
    return compute_steps([each for each in seen if each is not None])


@pytest.mark.parametrize("with_pictures", [False, True])
@pytest.mark.parametrize("pair", PAIRS)
def test_every_word_can_be_read(pair: str, with_pictures: bool) -> None:
    comparison = compare(*PAIRS[pair], disc_arcsec=18.0)

    drawing = draw_comparison_sheet(
        paper(SHEET_WIDTH, SHEET_HEIGHT),
        comparison,
        palette=load_palette("day"),
        conditions=CONDITIONS,
        rows=ROWS,
        wished=(rungs_with(comparison.a.ladder, *FEW, eyepiece(6)), ()),
        pictures=pictures_of(comparison) if with_pictures else None,
    )

    assert faults(drawing) == []
    page = " ".join(words_of(drawing))
    assert all(sentence.rsplit(" ", 1)[-1] in page for sentence in verdict_texts(comparison))
    assert {"4.2 times", "8 mm + 2x"} <= set(words_of(drawing))
    assert ("All at one scale" in page or "at the same scale" in page) == with_pictures


def test_the_better_figure_is_bold() -> None:
    comparison = compare(*PAIRS["few and many"], disc_arcsec=18.0)
    drawing = draw_comparison_sheet(
        paper(SHEET_WIDTH, SHEET_HEIGHT),
        comparison,
        palette=load_palette("day"),
        conditions=CONDITIONS,
        rows=ROWS,
    )

    is_bold = {words.text: words.lettering.bold for words in drawing.words}
    assert (is_bold["4.2 times"], is_bold["0.24 times"]) == (True, False)
