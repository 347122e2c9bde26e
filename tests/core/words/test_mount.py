"""A mount that trembles in words: for how long where that was timed, else how to find out."""

import pytest

from core.gear.owned import Stand
from core.words.eye import usual_pupil_text
from core.words.mount import against_shaking_words, settling_words, shaking_words, untimed_words
from tests.core.gear.examples import telescope

ON_THE_GROUND = "Let nobody walk while you judge the view, and try the telescope on the ground once."
FIRMER = "Keep the legs short and every screw tight, focus with a light hand, and wait 4 s before you judge."


@pytest.mark.parametrize(
    ("stand", "timed", "untimed", "trial"),
    [
        # Both pass every step on (common practice).
        (
            Stand.DECK,
            "The deck shakes: the view takes about 4 s to rest after a tap.",
            "A deck shakes with every step on it.",
            ON_THE_GROUND,
        ),
        (
            Stand.BALCONY,
            "The balcony shakes: the view takes about 4 s to rest after a tap.",
            "A balcony shakes with every step on it.",
            ON_THE_GROUND,
        ),
        (
            Stand.GROUND,
            "The mount trembles: the view takes about 4 s to rest after a tap.",
            "The mount trembles.",
            FIRMER,
        ),
        (
            None,
            "The mount trembles: the view takes about 4 s to rest after a tap.",
            "The mount trembles.",
            FIRMER,
        ),
    ],
)
def test_what_shakes_is_told_by_what_it_stands_on(
    stand: Stand | None, timed: str, untimed: str, trial: str
) -> None:
    with_time, without = telescope(settles_s=4.0, stands_on=stand), telescope(stands_on=stand)

    assert (shaking_words(with_time), shaking_words(without)) == (timed, untimed)
    assert against_shaking_words(with_time) == trial
    if trial is ON_THE_GROUND:
        assert against_shaking_words(without) == trial


def test_a_mount_that_nobody_timed_is_to_be_tapped() -> None:
    timed, untimed = telescope(settles_s=4.0), telescope()

    assert settling_words(timed) == "let the mount settle for 4 s"
    assert settling_words(untimed) == "let the mount settle"
    assert untimed_words(timed) is None
    assert untimed_words(untimed) == (
        "Tap the tube and count how long the view trembles; entered in Gear, it replaces this guess."
    )


def test_a_typical_pupil_is_said_to_be_typical_of_an_age() -> None:
    assert usual_pupil_text(52.0, 4.82) == (
        "4.8 mm is typical at 52, a table's figure and not yours: people differ by 1 mm and more."
    )
    assert usual_pupil_text(52.25, 4.82).startswith("4.8 mm is typical at 52.3,")
