"""A tour of the first evening in five steps: what to look at on the screen, and what to do outside."""

from enum import StrEnum
from typing import Final

from attrs import frozen


class Place(StrEnum):
    """The view that a step of the tour is about."""

    GEAR = "gear"
    HEIGHT = "height"
    LADDER = "ladder"


@frozen(kw_only=True)
class TourStep:
    """One step: its heading, what it says, and the view it shows."""

    heading: str
    text: str
    place: Place


TOUR: Final = (
    TourStep(
        heading="The answer comes first",
        text=(
            "The large line on top says which planet, from when to when in the hours that you are out, "
            "and where to look. Under it: which eyepiece goes in first, which next, and what limits the "
            "view. Why tells what that rests on."
        ),
        place=Place.HEIGHT,
    ),
    TourStep(
        heading="Wait until it stands high",
        text=(
            "The chart shows how high each planet stands. Below 30° the air is thick; from 45° on it is "
            "best (common practice). Say beside the answer when you are out, and the evening goes by "
            "your hours."
        ),
        place=Place.HEIGHT,
    ),
    TourStep(
        heading="Get ready before dark",
        text=(
            "Align the finder by day on something far off, never near the Sun: sunlight through any "
            "optics blinds at once. Put the telescope out early on grass, away from roofs that are warm, "
            "and press “Say the telescope is outside”; until it has cooled, low power shows most."
        ),
        place=Place.HEIGHT,
    ),
    TourStep(
        heading="Start low, climb while it gains",
        text=(
            "On the ladder begin with the lowest power. Go up one rung at a time, refocus, watch a "
            "minute or two, and say what the step did: more detail, no change, less. From that it learns "
            "tonight's air and says when to stop."
        ),
        place=Place.LADDER,
    ),
    TourStep(
        heading="In the dark",
        text=(
            "F9 changes to the night palette, dim red, and Ctrl+F9 makes it dimmer still. What you say "
            "of each step is in the log by itself, with a line of your own if you like; F2 explains the "
            "words on the screen."
        ),
        place=Place.LADDER,
    ),
)
PROGRESS: Final = "{number} of {count}: {heading}"
LEFT: Final = "The tour waits under Help, where you left it."
DONE: Final = "That was the tour. It can be taken again under Help."
