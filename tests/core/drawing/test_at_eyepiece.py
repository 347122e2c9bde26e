"""The screen at the eyepiece: everything can be read, and from two metres what matters."""

from itertools import combinations, pairwise

import pytest
from attrs import evolve

from core.drawing.at_eyepiece import EyepieceScreen, draw_at_eyepiece
from core.drawing.palette import PALETTES, load_palette
from core.drawing.paper import paper
from core.record.log_entry import Verdict
from core.words.at_eyepiece import EyepieceWords
from tests.core.drawing.looking import faults, pixels, the_words, words_of

# Points; a screen 6.7 inches high is one of 640 pixels at 96 to the inch.
SIZES = {
    "least": (750.0, 480.0),
    "wide": (1200.0, 750.0),
    "tall": (480.0, 700.0),
    "large letters": (500.0, 320.0),
}
USUAL = EyepieceWords(
    subject="Saturn 46°",
    time="21:30",
    power="120x",
    part="25 mm + 2x, filter: Light blue",
    next_step="next 150x, 8 mm",
    change="behind roof ridge in 23 min",
    asked=(
        "120x after 48x: refocus, re-centre, let the mount settle, watch a minute or two. What did the step "
        "do to the detail?"
    ),
    verdicts=(
        (Verdict.MORE, "M more detail"),
        (Verdict.NO_CHANGE, "N no change"),
        (Verdict.LESS, "L less detail"),
        (Verdict.CANNOT_TELL, "C cannot tell"),
    ),
)
LONG = evolve(
    USUAL,
    subject="Neptune 23° at 11:59 pm",
    power="~1200x",
    part="10.7 mm of the neighbour's very big old zoom + 2.5x, filter: Light blue from the old box",
    next_step="back to 150x, 10.7 mm of the neighbour's very big old zoom + 2.5x",
    change="behind the neighbour's very big old walnut tree beside the garden wall in 1 h 23 min",
    notices=("The usual limit is lifted to 400x for tonight. Such nights are rare." * 3,) * 3,
)
REFUSED = EyepieceWords(
    subject="Mercury", time="21:30", refusal="Mercury is up only while the Sun is up. " * 4
)
WORDS = {"usual": USUAL, "long": LONG, "refused": REFUSED, "nothing to judge": evolve(USUAL, verdicts=())}


def draw(words: EyepieceWords, size: tuple[float, float], palette: str = "day") -> EyepieceScreen:
    return draw_at_eyepiece(paper(*size), words, palette=load_palette(palette))


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("words", WORDS.values(), ids=WORDS)
def test_every_word_can_be_read(words: EyepieceWords, size: tuple[float, float]) -> None:
    screen = draw(words, size)
    assert faults(screen.drawing) == []
    assert not any("…" in text for text in words_of(screen.drawing)) or words is LONG


def test_sentences_are_told_whole_or_not_at_all() -> None:
    notices = (
        "Saturn stands in warm air over the tiled roof: details may boil until it has moved on.",
        "Exit pupil 0.63 mm: floaters in the eye are a common complaint (a rule of thumb); less power helps.",
        "Not tonight: over the ceiling of about 169x.",
    )
    words = evolve(
        USUAL, part="8 mm + 2x, filter: No. 12, deep yellow (minus blue)", asked="", notices=notices * 2
    )
    told = words_of(draw(words, SIZES["least"]).drawing)
    assert not any("…" in text for text in told)
    whole = " ".join(told)
    assert words.part in whole
    assert notices[0] in whole
    # Of each sentence that is begun its last words are there too.
    assert [whole.count(each[:24]) for each in notices] == [whole.count(each[-24:]) for each in notices]


@pytest.mark.parametrize("size", [SIZES["least"], SIZES["wide"]], ids=str)
def test_what_matters_is_as_high_as_eyes_need_at_two_metres(size: tuple[float, float]) -> None:
    """Capitals are about 0.72 of the size of letters; 5 minutes of arc are the least that a good eye reads.

    At two metres these are 2.9 mm; twice that for eyes in the dark (common practice in print for the
    partially sighted, from memory).
    """
    drawing = draw(USUAL, size).drawing
    mm_per_point = 25.4 / 72
    for text in (USUAL.subject, USUAL.time, USUAL.power, USUAL.next_step, USUAL.change, "M more detail"):
        height_mm = 0.72 * the_words(drawing, text).lettering.size * mm_per_point
        assert height_mm > (5.8 if text != "M more detail" else 3.5), text


def test_places_to_touch_are_large_and_apart() -> None:
    screen = draw(USUAL, SIZES["least"])
    assert [verdict for verdict, _ in screen.verdicts] == list(Verdict)
    for verdict, box in screen.verdicts:
        # A gloved finger is about 20 mm wide (common practice, no source).
        assert min(box.width, box.height) * 25.4 / 72 > 20
        assert screen.verdict_at(*box.middle) is verdict
        assert not screen.is_next_at(*box.middle)
    assert not any(one.touches(other) for (_, one), (_, other) in combinations(screen.verdicts, 2))
    assert all(one[1].right < other[1].left for one, other in pairwise(screen.verdicts))
    assert screen.next_step is not None
    assert screen.is_next_at(*screen.next_step.middle)


def test_without_a_step_there_is_nothing_to_touch() -> None:
    screen = draw(evolve(USUAL, verdicts=(), next_step=""), SIZES["least"])
    assert screen.verdicts == ()
    assert screen.next_step is None


@pytest.mark.parametrize("palette", PALETTES)
def test_every_palette_shows_it_and_the_night_is_red_and_dim(palette: str) -> None:
    picture = pixels(draw(USUAL, SIZES["least"], palette).drawing)[..., :3]
    assert picture.max() - picture.min() > 100
    if palette == "night":
        assert picture[..., 1:].max() == 0
        assert picture[..., 0].max() <= 190
