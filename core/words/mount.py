"""What a mount that shakes asks for, in words."""

from typing import Final

from core.gear.owned import Stand, Telescope
from core.words.quantities import two_figures

# By what the telescope stands on; the first of two is for one whose owner has timed it.
_SHAKES: Final = {
    Stand.DECK: (
        "The deck shakes: the view takes about {settles} s to rest after a tap.",
        "A deck shakes with every step on it.",
    ),
    Stand.BALCONY: (
        "The balcony shakes: the view takes about {settles} s to rest after a tap.",
        "A balcony shakes with every step on it.",
    ),
    Stand.GROUND: (
        "The mount trembles: the view takes about {settles} s to rest after a tap.",
        "The mount trembles.",
    ),
}
_TRY_ELSEWHERE: Final = "Let nobody walk while you judge the view, and try the telescope on the ground once."
_TRY_FIRMER: Final = (
    "Keep the legs short and every screw tight, focus with a light hand, and wait {settles} s before you "
    "judge."
)
_LET_SETTLE: Final = "let the mount settle"
_LET_SETTLE_FOR: Final = "let the mount settle for {settles} s"
_UNTIMED: Final = (
    "Tap the tube and count how long the view trembles; entered in Gear, it replaces this guess."
)


def settling_words(scope: Telescope) -> str:
    """Return what to grant a mount after it was touched, as part of a sentence."""
    if scope.settles_s is None:
        return _LET_SETTLE
    return _LET_SETTLE_FOR.format(settles=two_figures(scope.settles_s))


def shaking_words(scope: Telescope) -> str:
    """Return that a telescope shakes, for how long where that was timed."""
    timed, untimed = _SHAKES[scope.stands_on or Stand.GROUND]
    return untimed if scope.settles_s is None else timed.format(settles=two_figures(scope.settles_s))


def against_shaking_words(scope: Telescope) -> str:
    """Return the one thing to try against it."""
    if scope.stands_on in (Stand.DECK, Stand.BALCONY):
        return _TRY_ELSEWHERE
    assert scope.settles_s is not None  # what stands on the ground shakes only where it was timed
    return _TRY_FIRMER.format(settles=two_figures(scope.settles_s))


def untimed_words(scope: Telescope) -> str | None:
    """Return how to find out whether it shakes, None for one whose owner has timed it."""
    return _UNTIMED if scope.settles_s is None else None
