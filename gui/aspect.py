"""The parts of the window's state that can change."""

from enum import StrEnum


class Aspect(StrEnum):
    """A part of the state that a view may depend on.

    ``NOW`` is the clock's beat, each second; ``TIME`` the moment that is looked at, which moves with the
    clock once a minute while it is followed. ``SKY`` says that the sky tables have been read, ``TRIED`` that
    an eyepiece or a Barlow not owned is tried out, ``OUTSIDE`` since when the scope stands outside.
    """

    PROFILE = "profile"
    SITE = "site"
    EVENING = "evening"
    TIME = "time"
    NOW = "now"
    PLANET = "planet"
    SCOPE = "scope"
    AIR = "air"
    OUTSIDE = "outside"
    PALETTE = "palette"
    FILE = "file"
    SKY = "sky"
    TRIED = "tried"
