"""The glossary: two sentences a term, found by the words that stand on screen."""

import re

import pytest

from core.words.glossary import GLOSSARY, Term, terms_in, terms_in_all


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


def test_terms_of_a_whole_screen_come_in_the_order_of_the_glossary() -> None:
    assert [term.name for term in terms_in_all(["Drift", "Blur 1.45", "drift 4 min"])] == ["blur", "drift"]


def test_the_first_sentence_stands_alone() -> None:
    (term,) = terms_in("Barlow")
    assert term.in_short == "A lens before the eyepiece that multiplies the power by its factor."
