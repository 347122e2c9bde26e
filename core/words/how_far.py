"""The second half of the answer: how far to climb, and what stops it."""

from typing import Final

from core.gear.owned import TelescopeKind
from core.ladder.ladder import Ladder, Standing
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect
from core.words.cooling import mirror_climb_later_text
from core.words.ladder import no_ceiling_text
from core.words.limits import what_sets_ceiling
from core.words.mount import shaking_words
from core.words.quantities import power_text, pupil_text
from core.words.site_clock import SiteClock

_NO_TELESCOPE: Final = "Add a telescope in Gear to see how far you can climb."
_NO_EYEPIECE: Final = "Add an eyepiece in Gear to see how far you can climb."
_NOTHING_FITS: Final = "None of your eyepieces fits this telescope."
_NO_CEILING: Final = "{reason}."
_NEVER_READY: Final = (
    "Stay near {start}: this evening the telescope never comes within 1 °C of the air (an estimate)."
)
_NOT_READY: Final = "Stay near {start} until the telescope is ready at about {ready} (an estimate)."
_NOT_READY_THEN: Final = (
    "Stay near {start} until the telescope is ready at about {ready} (an estimate), then climb to {top}."
)
# Of two templates the first is for a climb, the second for a start that is the top already.
_FREE: Final = ("Start at {start}, climb to {top}.", "Stay at {top}.")
_STOPPED: Final = (
    "Start at {start}, climb to {top}: {limit} bears about {ceiling}.",
    "Stay at {top}: {limit} bears about {ceiling}.",
)
_SHAKES: Final = (
    "Start at {start}, climb to {top}. {shaking}",
    "Stay at {top}. {shaking}",
)
_BUILT_IN: Final = (
    "Start at {start}, climb to {top}: its power is built in, though the ceiling is about {ceiling}.",
    "Stay at {top}: its power is built in, though the ceiling is about {ceiling}.",
)
_NOTHING_NEARER: Final = (
    "Start at {start}, climb to {top}: you own nothing between that and the ceiling of about {ceiling}.",
    "Stay at {top}: you own nothing between that and the ceiling of about {ceiling}.",
)
_NOTHING_NEARER_BUT_OVER: Final = (
    (
        "Start at {start}, climb to {top}: you own nothing between that and the ceiling of about {ceiling}, "
        "though {over} is worth a try."
    ),
    (
        "Stay at {top}: you own nothing between that and the ceiling of about {ceiling}, "
        "though {over} is worth a try."
    ),
)
_ALL_OVER: Final = (
    "Even your lowest power, {lowest}, is over the {ceiling} that {limit} bears: expect a soft view."
)
_ALL_OVER_AND_DIM: Final = (
    "Even your lowest power, {lowest}, is over the {ceiling} that {limit} bears, with an exit pupil of only "
    "{exit_pupil}: expect a dim, soft view."
)


# What bears a power, and is named with it.
_LIMITS_OF_POWER: Final = frozenset(
    {Limiter.TONIGHT_AIR, Limiter.MIRROR_LAGS, Limiter.USUAL_AIR, Limiter.APERTURE}
)


def climb_words(prospect: Prospect, limiter: Limiter, clock: SiteClock) -> str:
    """Return how far to climb in the best minutes and what stops it, or what is lacking to say so."""
    ladder = prospect.ladder
    if ladder is None:
        return _NO_TELESCOPE
    if not ladder.aim.is_offered:
        return _NO_CEILING.format(reason=no_ceiling_text(ladder))
    if not ladder.rungs:
        return _NOTHING_FITS if prospect.owns_eyepieces else _NO_EYEPIECE
    if limiter is Limiter.MIRROR_WARM:
        return _not_ready_words(prospect, ladder, clock)
    if ladder.ceiling.power is None:
        return _NO_CEILING.format(reason=no_ceiling_text(ladder))
    if ladder.climb_to is None:
        return _all_over_words(ladder, limiter)
    over = [rung.power for rung in ladder.rungs if rung.standing is Standing.TRY]
    start = ladder.start
    stays = start is None or start >= ladder.climb_to
    words = _templates(ladder, limiter)[stays].format(
        start="" if start is None else power_text(start),
        top=power_text(ladder.climb_to),
        limit=what_sets_ceiling(ladder),
        ceiling=power_text(ladder.ceiling.power),
        over=power_text(over[0]) if over else "",
        shaking=shaking_words(ladder.scope) if limiter is Limiter.SHAKES else "",
    )
    return _with_climb(words, prospect, clock)


def _templates(ladder: Ladder, limiter: Limiter) -> tuple[str, str]:
    if limiter in _LIMITS_OF_POWER:
        return _STOPPED
    if limiter is Limiter.SHAKES:
        return _SHAKES
    if limiter is not Limiter.NO_RUNG_NEAR:
        return _FREE
    if ladder.scope.kind is TelescopeKind.FIXED:
        return _BUILT_IN
    # A rung just over the ceiling may still be tried in calm moments.
    is_tried = any(rung.standing is Standing.TRY for rung in ladder.rungs)
    return _NOTHING_NEARER_BUT_OVER if is_tried else _NOTHING_NEARER


def _not_ready_words(prospect: Prospect, ladder: Ladder, clock: SiteClock) -> str:
    start = power_text(ladder.start if ladder.start is not None else ladder.rungs[0].power)
    if prospect.ready_at is None:
        return _NEVER_READY.format(start=start)
    ready = clock.time(prospect.ready_at)
    if ladder.climb_to is None:
        return _NOT_READY.format(start=start, ready=ready)
    words = _NOT_READY_THEN.format(start=start, ready=ready, top=power_text(ladder.climb_to))
    return _with_climb(words, prospect, clock)


def _with_climb(words: str, prospect: Prospect, clock: SiteClock) -> str:
    """Return words with how the ceiling climbs as the mirror cools, where it does."""
    climb = prospect.mirror_climb
    return words if climb is None else " ".join((words, mirror_climb_later_text(climb, clock)))


def _all_over_words(ladder: Ladder, limiter: Limiter) -> str:
    assert ladder.ceiling.power is not None
    lowest = ladder.rungs[0]
    template = _ALL_OVER_AND_DIM if limiter is Limiter.EXIT_PUPIL else _ALL_OVER
    return template.format(
        lowest=power_text(lowest.power),
        ceiling=power_text(ladder.ceiling.power),
        limit=what_sets_ceiling(ladder),
        exit_pupil=pupil_text(lowest.exit_pupil_mm),
    )
