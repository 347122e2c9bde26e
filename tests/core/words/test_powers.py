"""A row in the table of powers: what is nearly the same, and its figures in a sentence."""

import pytest

from core.words.powers import details_words, same_as_words, same_words
from tests.core.drawing.examples import ladder

FIRST, SECOND, *_ = ladder().rungs


def test_what_gives_nearly_the_same_is_named_with_its_power() -> None:
    assert same_as_words(FIRST) == "Nearly the same as 25 mm."
    assert same_words([FIRST.combination, SECOND.combination]) == (
        "Nearly the same: 25 mm (48x), 25 mm + 2x (96x)."
    )


@pytest.mark.parametrize(
    ("moons", "drift", "words"),
    [
        (None, None, "48x with 25 mm: shows detail from 4.8″ up."),
        (None, "4.3 min", "48x with 25 mm: shows detail from 4.8″ up, drift 4.3 min."),
        (2.09, None, "48x with 25 mm: 2.1 Moon widths, shows detail from 4.8″ up."),
        (2.09, "4.3 min", "48x with 25 mm: 2.1 Moon widths, shows detail from 4.8″ up, drift 4.3 min."),
    ],
)
def test_only_figures_that_are_known_stand_in_the_sentence(
    moons: float | None, drift: str | None, words: str
) -> None:
    """232 over 48 is 4.83 (by hand)."""
    assert details_words(FIRST, detail_arcsec=4.83, moons=moons, drift=drift) == words
