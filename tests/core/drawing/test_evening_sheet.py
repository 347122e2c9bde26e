"""The sheet of an evening on paper: all there, nothing over another, nothing beyond the edge."""

import io
import re
from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest
from attrs import evolve
from matplotlib.image import imread
from pypdf import PdfReader

from core.drawing.evening_sheet import draw_evening_sheet
from core.drawing.marks import Drawing, Fill, Strokes
from core.drawing.paper import PaperMeasure, pdf_of_pages, png_of_pages
from core.drawing.paper_sizes import Paper
from core.record.observer import Preferences, Profile
from core.situation.choices import Choices, EveningSteps
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.site import Site
from core.tonight.steps import OwnStep
from core.words.answer import answer_words
from core.words.evening import item_title
from core.words.evening_cautions import evening_cautions
from core.words.names import opening
from tests.core.drawing.examples import FEW, PORTO, SIX_INCH, TROMSO
from tests.core.drawing.looking import faults

MEASURE = PaperMeasure()
LONG_AGO = datetime(2001, 1, 1, tzinfo=UTC)
SATURN_EVENING = date(2026, 12, 5)
# From here every planet had a window on this evening.
SANTIAGO = Site(name="Patio", latitude_deg=-33.4, longitude_deg=-70.7, time_zone="America/Santiago")
SEVEN_PLANETS = date(2026, 10, 7)
GREEK, JAPANESE, ARABIC = "Ἀκρόπολις", "望遠鏡の庭", "تلسكوب الجدة"
LONG = "the very long name of a terrace above the old harbour wall, where the neighbours never sleep"


def situation(
    site: Site = PORTO,
    evening: date = SATURN_EVENING,
    *,
    until: str = "23:30",
    name: str = "Noa",
    planet: Body | None = None,
    steps: EveningSteps | None = None,
    has_scope: bool = True,
) -> Situation:
    eyepieces, barlows = FEW
    profile = Profile(
        observer=name,
        sites=(evolve(site, id="here", name=site.name if name == "Noa" else name),),
        telescopes=(evolve(SIX_INCH, id="six", name=SIX_INCH.name if name == "Noa" else name),)
        if has_scope
        else (),
        eyepieces=eyepieces,
        barlows=barlows,
        preferences=Preferences(out_until=until),
    )
    choices = Choices(profile=profile, evening=evening, planet=planet)
    return Situation(choices if steps is None else choices.with_steps(steps), LONG_AGO)


def pages_of(which: Situation, paper: Paper = Paper.A4, *, with_place: bool = False) -> tuple[Drawing, ...]:
    return draw_evening_sheet(paper, MEASURE, which, with_place=with_place)


def told(drawings: tuple[Drawing, ...]) -> str:
    return " ".join(words.text for drawing in drawings for words in drawing.words)


def with_everything() -> Situation:
    """Return the fullest evening: seven planets, the Moon, and a step of the owner's own, with long names."""
    own = OwnStep(id="tea", text="Tea for the neighbours", at=datetime(2026, 10, 8, 2, tzinfo=UTC))
    steps = EveningSteps(evening=SEVEN_PLANETS, site_id="here", own=(own,))
    return situation(SANTIAGO, SEVEN_PLANETS, until="dawn", name=LONG, planet=Body.MOON, steps=steps)


@pytest.mark.parametrize("paper", Paper)
def test_a_usual_evening_is_one_page_and_one_of_outlines(paper: Paper) -> None:
    front, back = pages_of(situation(), paper)

    text = told((front,))
    for words in ("Evening of Sat 5 December 2026", "Terrace", "Six-inch", "Align the finder"):
        assert words in text
    for words in ("Powers for Saturn", "Safety", "Notes", "blinds", "Saturn at"):
        assert words in text
    assert "Outlines to draw in" in told((back,))
    assert (front.page.width, front.page.height) == (paper.width, paper.height)


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize(
    "which",
    [
        pytest.param(situation(), id="usual"),
        pytest.param(situation(until="18:30"), id="one target"),
        pytest.param(with_everything(), id="everything"),
        pytest.param(situation(name=LONG), id="long names"),
        pytest.param(situation(name=GREEK), id="Greek"),
        pytest.param(situation(name=JAPANESE), id="Japanese"),
        pytest.param(situation(name=ARABIC), id="Arabic"),
        pytest.param(situation(TROMSO, date(2026, 6, 21)), id="no night"),
        pytest.param(situation(has_scope=False), id="no telescope"),
    ],
)
def test_no_word_is_cut_off_or_lies_on_another(which: Situation, paper: Paper) -> None:
    assert [fault for page in pages_of(which, paper) for fault in faults(page)] == []


def test_eight_targets_are_all_told_and_all_outlined() -> None:
    which = with_everything()
    pages = pages_of(which)

    assert len(which.targets) == 8
    for target in which.targets:
        assert f"{opening(target.body)} at" in told(pages[-2:])
    assert "Tea for the neighbours" in told(pages)
    assert "Off the planet by" in told(pages)


def test_how_a_planet_is_told_from_the_stars_by_its_colour_stands_on_it() -> None:
    text = told(pages_of(situation()))

    # In the light of a red torch it is not seen in the drawing.
    assert "a steady, pale yellow star" in text
    assert "a star of a pale blue-green" in text
    # Inside a list only what has a name of its own begins with a capital letter.
    assert "Likely: the ring, as a shape" in text
    assert "Titan, the largest moon" in text


def test_steps_too_many_for_one_page_are_said_to_go_on() -> None:
    usual, full = pages_of(situation()), pages_of(with_everything())

    assert "The evening goes on overleaf." in told(full[:1])
    assert "The evening in order, continued" in told(full[1:2])
    assert "overleaf" not in told(usual)
    # On the last page of the steps nothing follows but the outlines.
    assert sum("overleaf" in told((page,)) for page in full) == sum(
        "The evening in order, continued" in told((page,)) for page in full[1:]
    )


def test_coordinates_stand_on_it_only_when_asked() -> None:
    # 41.15 and -8.61 degrees.
    assert "41°09′" not in told(pages_of(situation()))
    assert "8°36′36″ W" in told(pages_of(situation(), with_place=True))


def test_what_stands_close_together_is_told_once() -> None:
    # Venus passed Jupiter at 1.6 degrees on 9 June 2026 (almanacs, from memory).
    close = "Venus and Jupiter stand 1.6° apart"

    for planet in (Body.JUPITER, Body.MERCURY):
        text = told(pages_of(situation(PORTO, date(2026, 6, 9), planet=planet)))
        assert text.count(close) == 1, planet


def test_paper_does_not_speak_of_now() -> None:
    # Saturn is at its best at this moment.
    which = Situation(situation().choices, datetime(2026, 12, 5, 19, 30, tzinfo=UTC))
    text = told(pages_of(which))

    assert "at its best now" in answer_words(which)
    assert "Saturn is best 18:41–21:16" in text
    assert " now" not in text.replace("now that", "")


def test_a_letter_that_no_font_has_is_explained() -> None:
    # Letters of Linear A, which hardly any machine can write.
    text = told(pages_of(situation(name="𐘀𐘁")))

    assert "□□" in text
    assert "□ stands for a letter that no font on this computer can write." in text
    assert "□" not in told(pages_of(situation(name=GREEK)))
    assert GREEK in told(pages_of(situation(name=GREEK)))


def test_a_step_that_is_done_is_ticked() -> None:
    done = EveningSteps(evening=SATURN_EVENING, site_id="here", done=frozenset({"kit"}))
    plain, ticked = (
        sum(len(mark.lines) for mark in pages_of(which)[0].marks if isinstance(mark, Strokes))
        for which in (situation(), situation(steps=done))
    )

    assert ticked == plain + 1


def test_every_step_is_headed_by_its_time_and_its_name() -> None:
    which = situation()
    bold = {words.text for words in pages_of(which)[0].words if words.lettering.bold}

    # Porto keeps UTC in winter.
    saturn, *_ = which.targets
    start, end = saturn.minutes.start, saturn.minutes.end
    nearest = timedelta(seconds=30)
    assert f"{start + nearest:%H:%M}–{end + nearest:%H:%M} Saturn" in bold
    for name in map(item_title, which.evening_steps):
        assert any(re.fullmatch(rf"\d\d:\d\d(–\d\d:\d\d)? {name}", head) for head in bold), name


@pytest.mark.parametrize(
    ("site", "evening"),
    [
        pytest.param(PORTO, SATURN_EVENING, id="finder by day"),
        pytest.param(evolve(TROMSO, latitude_deg=65.0), date(2026, 8, 5), id="summer at 65 north"),
        pytest.param(TROMSO, date(2026, 12, 21), id="polar night"),
        pytest.param(PORTO, date(2026, 8, 1), id="Mercury at dawn"),
    ],
)
def test_all_words_of_safety_stand_on_it(site: Site, evening: date) -> None:
    which = situation(site, evening, until="dawn")
    text = " ".join(told(pages_of(which)).split())

    for caution in evening_cautions(which):
        assert caution in text


def test_every_step_has_a_box_before_it() -> None:
    which = situation()
    front = pages_of(which)[0]

    boxes = [mark.box for mark in front.marks if isinstance(mark, Fill) and mark.edge == "#000000"]
    small = [box for box in boxes if box.width < 12.0 and box.width == pytest.approx(box.height)]
    assert len(small) == len(which.evening_steps)


def test_nothing_on_it_has_a_colour() -> None:
    picture = imread(io.BytesIO(png_of_pages(pages_of(situation()))))[..., :3]

    assert np.ptp(picture, axis=2).max() == 0.0


def test_as_a_pdf_it_has_the_size_of_the_paper_and_words_that_can_be_searched() -> None:
    for paper, size in ((Paper.A4, (210.0, 297.0)), (Paper.LETTER, (215.9, 279.4))):
        read = PdfReader(io.BytesIO(pdf_of_pages(pages_of(situation(name=GREEK), paper))))
        assert len(read.pages) == 2
        box = read.pages[0].mediabox
        assert (float(box.width) / 72 * 25.4, float(box.height) / 72 * 25.4) == pytest.approx(size, abs=0.1)
        text = read.pages[0].extract_text()
        assert "Evening of Sat 5 December 2026" in text
        assert GREEK in text


def test_as_a_picture_the_pages_lie_side_by_side() -> None:
    height, width, _ = imread(io.BytesIO(png_of_pages(pages_of(situation())))).shape

    assert width / height == pytest.approx(2 * 210 / 297, abs=0.01)


def test_the_same_evening_gives_the_same_file() -> None:
    assert pdf_of_pages(pages_of(situation())) == pdf_of_pages(pages_of(situation()))


def test_nothing_to_see_is_one_page_with_the_reason() -> None:
    pages = pages_of(situation(TROMSO, date(2026, 6, 21)))

    assert len(pages) == 1
    assert "Outlines" not in told(pages)
