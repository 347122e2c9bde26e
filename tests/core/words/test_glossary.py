"""The glossary: two sentences a term, found by the words that stand on screen."""

import re
from datetime import timedelta

import pytest

from core.air.atmosphere import air_path
from core.air.first_look import FIRST_LOOK_BLUR_ARCSEC, FirstLook
from core.air.usual_air import LIFTED_AIR_POWER, USUAL_AIR_POWER
from core.gear.eye import GLASSES_RELIEF_MM
from core.gear.optics import NAKED_EYE_MOON_ARCMIN, dawes_arcsec
from core.gear.owned import BARRELS_MM
from core.ladder.ladder import ONE_RUNG_RATIO
from core.ladder.notices import FLOATERS_BEGIN_MM
from core.moments.hours import STOP_BEFORE_SUNRISE
from core.words.glossary import GLOSSARY, Sketch, Term, terms_in, terms_in_all


@pytest.mark.parametrize("term", GLOSSARY, ids=lambda term: term.name)
def test_each_term_is_explained_in_about_two_sentences(term: Term) -> None:
    sentences = re.split(r"(?<=[.!?]) (?=[A-Z0-9])", term.meaning)

    assert 1 <= len(sentences) <= 2
    assert term.meaning.endswith(".")
    assert len(term.meaning) < 260


def test_terms_stand_in_the_order_of_the_alphabet_and_are_not_told_twice() -> None:
    names = [term.name.casefold() for term in GLOSSARY]
    assert names == sorted(names)
    words = [word.casefold() for term in GLOSSARY for word in (term.name, *term.also)]
    assert len(words) == len(set(words))


def test_words_on_screen_are_found_whole_and_the_longer_one_first() -> None:
    names = [term.name for term in terms_in("Exit pupil 1.2 mm, ceiling 169x by tonight's air; a pathway")]

    assert names == ["exit pupil", "ceiling", "air (seeing)"]


def test_a_term_that_begins_with_another_is_not_taken_for_it() -> None:
    assert [term.name for term in terms_in("Field stop 27 mm")] == ["field stop"]
    assert [term.name for term in terms_in("Field 1.1°, stop at 07:30")] == ["true field", "stop line"]


def test_terms_of_a_whole_screen_come_in_the_order_of_the_glossary() -> None:
    assert [term.name for term in terms_in_all(["Drift", "Blur 1.45", "drift 4 min"])] == ["blur", "drift"]


def test_the_first_sentence_stands_alone() -> None:
    (term,) = terms_in("Barlow")
    assert term.in_short == "A lens before the eyepiece that multiplies the power by its factor."


# What the program itself counts with, as the glossary must tell it.
FIGURES = [
    (
        "air path",
        f"At 30° high it is {float(air_path(30.0)):.0f}, at 15° nearly {float(air_path(15.0)):.0f},",
    ),
    ("arcsecond", "a degree has 3,600 of them"),
    ("barrel", f"{BARRELS_MM[0]:g}, {BARRELS_MM[1]:g} or {BARRELS_MM[2]:g} mm wide"),
    ("blur", f"at {FIRST_LOOK_BLUR_ARCSEC[FirstLook.BOILING]:g}″ it boils"),
    ("exit pupil", f"Under {FLOATERS_BEGIN_MM:g} mm the view gets dim and floaters in the eye begin to show"),
    ("eye relief", f"about {GLASSES_RELIEF_MM:g} mm or more"),
    ("resolution", f"{dawes_arcsec(1.0):.0f} divided by its millimetres"),
    ("rung", f"Powers within {ONE_RUNG_RATIO - 1.0:.0%} of each other".replace("%", " %")),
    ("stop line", "Ten minutes before sunrise" if timedelta(minutes=10) == STOP_BEFORE_SUNRISE else "?"),
    ("usual air limit", f"no more than about {USUAL_AIR_POWER:.0f}x"),
    ("usual air limit", f"lift it to {LIFTED_AIR_POWER:.0f}x"),
    ("true field", "The Moon is half a degree wide." if 29 < NAKED_EYE_MOON_ARCMIN < 33 else "?"),
]


@pytest.mark.parametrize(("name", "told"), FIGURES)
def test_the_figures_of_the_glossary_are_those_that_the_program_counts_with(name: str, told: str) -> None:
    (term,) = [term for term in GLOSSARY if term.name == name]

    assert told in term.meaning


@pytest.mark.parametrize("name", ["finder", "stop line", "Wratten"])
def test_where_the_sun_comes_in_the_glossary_warns_of_it(name: str) -> None:
    (term,) = [term for term in GLOSSARY if term.name == name]
    warnings = (
        "never near the Sun.",
        "The Sun through any optics blinds at once.",
        "makes the Sun safe to look at.",
    )

    assert term.meaning.endswith(warnings)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("air (seeing)", ("seeing", "tonight's air")),
        ("air path", ("path",)),
        ("altitude", ("height",)),
        ("arcsecond", ("arcsec", "arcseconds")),
        ("Barlow", ("Barlows",)),
        ("bear", ("bears", "borne")),
        ("begin here", ("top tonight", "for finding")),
        ("ceiling", ("worth a try",)),
        ("collimation", ("collimated",)),
        ("dew point", ("dew",)),
        ("exit pupil", ("pupil",)),
        ("Moon widths", ("Moon width",)),
        ("power", ("magnification",)),
        ("resolution", ("Dawes",)),
        ("rung", ("rungs", "ladder")),
        ("settled", ("usable",)),
        ("stop line", ("stop",)),
        ("true field", ("field",)),
        ("usual air limit", ("usual air", "usual limit")),
        ("UT", ("universal time",)),
        ("verdict", ("verdicts",)),
        ("Wratten", ("filter", "filters")),
    ],
)
def test_a_term_is_found_by_the_other_words_that_stand_on_screen(name: str, words: tuple[str, ...]) -> None:
    assert [[term.name for term in terms_in(word)] for word in (name, *words)] == [[name]] * (len(words) + 1)


def test_the_terms_that_have_a_drawing() -> None:
    assert {term.name: term.sketch for term in GLOSSARY if term.sketch is not None} == {
        "air path": Sketch.AIR_PATH,
        "apparent field": Sketch.FIELDS,
        "collimation": Sketch.COLLIMATION,
        "exit pupil": Sketch.EXIT_PUPIL,
        "eye relief": Sketch.EYE_RELIEF,
        "obstruction": Sketch.OBSTRUCTION,
        "true field": Sketch.FIELDS,
    }
