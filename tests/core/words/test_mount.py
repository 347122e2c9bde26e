"""A mount that trembles in words: for how long where that was timed, else how to find out."""

import pytest

from core.gear.owned import Stand
from core.words.eye import usual_pupil_text
from core.words.mount import against_shaking_words, settling_words, shaking_words, untimed_words
from tests.core.gear.examples import telescope


def test_a_timed_mount_is_told_with_its_seconds() -> None:
    timed, untimed = telescope(settles_s=4.0, stands_on=Stand.GROUND), telescope(stands_on=Stand.DECK)

    assert settling_words(timed) == "let the mount settle for 4 s"
    assert settling_words(untimed) == "let the mount settle"
    assert "4 s" in shaking_words(timed)
    assert "4 s" in against_shaking_words(timed)
    assert untimed_words(timed) is None
    assert "Tap the tube" in (untimed_words(untimed) or "")


@pytest.mark.parametrize("stand", [Stand.DECK, Stand.BALCONY])
def test_of_a_deck_and_a_balcony_the_place_is_what_to_change(stand: Stand) -> None:
    """Both pass every step on (common practice)."""
    ground = telescope(settles_s=4.0, stands_on=Stand.GROUND)
    shaky, timed = telescope(stands_on=stand), telescope(settles_s=4.0, stands_on=stand)

    assert against_shaking_words(shaky) == against_shaking_words(timed) != against_shaking_words(ground)
    assert "None" not in shaking_words(shaky)
    assert "4 s" in shaking_words(timed)


def test_a_typical_pupil_is_said_to_be_typical_of_an_age() -> None:
    words = usual_pupil_text(52.0, 4.82)

    assert words.startswith("4.8 mm is typical at 52,")
    assert "not yours" in words
