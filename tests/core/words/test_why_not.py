"""Why a body has no window: words that follow its name and an "is", and end no sentence."""

import pytest
from attrs import evolve

from core.sky.bodies import Body
from core.sky.why_not import NoWindow, WhyNot
from core.words.why_not import why_not_words

LOW = NoWindow(kind=WhyNot.TOO_LOW, highest_deg=7.2, sun_lowest_deg=-40.0, sun_below_deg=-4.0)
# Twilight all night, and a Sun that does not set: all of it counts as down from 0.833 degrees on.
LIGHT = evolve(LOW, kind=WhyNot.NO_DARK_SKY, sun_lowest_deg=-6.6, sun_below_deg=-12.0)
MIDNIGHT_SUN = evolve(LIGHT, sun_lowest_deg=-0.8)
BLOCKED = evolve(LOW, kind=WhyNot.BLOCKED, behind=("roof", "trees"))


@pytest.mark.parametrize(
    ("why_not", "words"),
    [
        (
            evolve(LOW, kind=WhyNot.NEVER_UP, highest_deg=-4.5),
            "never up, for it stays at least 4.5° below the horizon",
        ),
        (
            evolve(LOW, kind=WhyNot.SUN_UP),
            "up only while the Sun is up too or the sky is still too bright",
        ),
        (MIDNIGHT_SUN, "never up in a dark sky, for the Sun stays up"),
        (
            evolve(MIDNIGHT_SUN, is_always_up=True),
            "always up, but never in a dark sky, for the Sun stays up",
        ),
        (
            LIGHT,
            "never up in a dark sky, for the Sun gets 6.6° below the horizon at most, and Uranus needs 12°",
        ),
        (
            evolve(LIGHT, is_always_up=True, sun_below_deg=-0.833),
            (
                "always up, but never in a dark sky, for the Sun gets 6.6° below the horizon at most, and "
                "Uranus needs 0.833°"
            ),
        ),
        (BLOCKED, "behind blocked sky (roof and trees) whenever it is up in a dark sky"),
        (
            evolve(BLOCKED, is_always_up=True, behind=()),
            "always up, but behind blocked sky whenever it is up in a dark sky",
        ),
        (
            evolve(BLOCKED, is_high_enough=True),
            "behind blocked sky (roof and trees) whenever it is above 10° in a dark sky",
        ),
        (
            evolve(BLOCKED, is_high_enough=True, is_always_up=True),
            "always up, but behind blocked sky (roof and trees) whenever it is above 10° in a dark sky",
        ),
        (LOW, "never above 7° in a dark sky"),
        (evolve(LOW, is_always_up=True), "always up, but never above 7° in a dark sky"),
        # Up in it for a moment, and only in the haze of the horizon.
        (evolve(LOW, highest_deg=0.4), "never clear of the horizon in a dark sky"),
        (evolve(LOW, highest_deg=0.5), "never above 1° in a dark sky"),
        (
            evolve(LOW, highest_deg=0.4, is_always_up=True),
            "always up, but never above 0° in a dark sky",
        ),
    ],
)
def test_each_reason_follows_the_body_s_name(why_not: NoWindow, words: str) -> None:
    assert why_not_words(Body.URANUS, why_not) == words
