"""The second half of the answer: how far to climb, and what stops it."""

from typing import Final

from core.gear.owned import TelescopeKind
from core.ladder.first_steps import FirstSteps, first_steps
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
    "Stay near {start}: this evening the telescope never comes close to the air's temperature (an estimate)."
)
_NOT_READY: Final = "Stay near {start} until the telescope is usable at about {ready} (an estimate)."
_NOT_READY_THEN: Final = (
    "Stay near {start} until the telescope is usable at about {ready} (an estimate), then climb to {top}."
)
_Templates = tuple[str, str, str]

# Of three templates the first is for a climb that goes on after the second eyepiece, the second for one that
# ends there, the third for a start that is the top already.
_FREE: Final[_Templates] = (
    "{first} first, {start}; then {following}, {power}, and up to {top}.",
    "{first} first, {start}; then {following}, {power}.",
    "Stay with {first}, {start}.",
)
_STOPPED: Final[_Templates] = (
    "{first} first, {start}; then {following}, {power}, and up to {top}: {limit} can bear about {ceiling}.",
    "{first} first, {start}; then {following}, {power}: {limit} can bear about {ceiling}.",
    "Stay with {first}, {start}: {limit} can bear about {ceiling}.",
)
# The same where now is another moment, for the ladder shows what is borne now.
_STOPPED_AT_BEST: Final[_Templates] = (
    (
        "{first} first, {start}; then {following}, {power}, and up to {top}: with {planet} at its best, "
        "{limit} can bear about {ceiling}."
    ),
    (
        "{first} first, {start}; then {following}, {power}: with {planet} at its best, {limit} can bear "
        "about {ceiling}."
    ),
    "Stay with {first}, {start}: with {planet} at its best, {limit} can bear about {ceiling}.",
)
# The same of one that is still rising as the hours end.
_STOPPED_IN_HOURS: Final[_Templates] = (
    (
        "{first} first, {start}; then {following}, {power}, and up to {top}: with {planet} at its highest in "
        "your hours, {limit} can bear about {ceiling}."
    ),
    (
        "{first} first, {start}; then {following}, {power}: with {planet} at its highest in your hours, "
        "{limit} can bear about {ceiling}."
    ),
    (
        "Stay with {first}, {start}: with {planet} at its highest in your hours, {limit} can bear about "
        "{ceiling}."
    ),
)
_NOTHING_NEARER: Final[_Templates] = (
    (
        "{first} first, {start}; then {following}, {power}, and up to {top}: you own nothing between that "
        "and the ceiling of about {ceiling}."
    ),
    (
        "{first} first, {start}; then {following}, {power}: you own nothing between that and the ceiling of "
        "about {ceiling}."
    ),
    "Stay with {first}, {start}: you own nothing between that and the ceiling of about {ceiling}.",
)
_NOTHING_NEARER_BUT_OVER: Final[_Templates] = (
    (
        "{first} first, {start}; then {following}, {power}, and up to {top}: you own nothing between that "
        "and the ceiling of about {ceiling}, though {over} is worth a try."
    ),
    (
        "{first} first, {start}; then {following}, {power}: you own nothing between that and the ceiling of "
        "about {ceiling}, though {over} is worth a try."
    ),
    (
        "Stay with {first}, {start}: you own nothing between that and the ceiling of about {ceiling}, "
        "though {over} is worth a try."
    ),
)
# The same where that one is at the ceiling but for a few per cent, less than anybody knows it by.
_AT_THE_CEILING: Final[_Templates] = (
    (
        "{first} first, {start}; then {following}, {power}, and up to {top}; {over}, right at the ceiling, "
        "is worth a try."
    ),
    "{first} first, {start}; then {following}, {power}; {over}, right at the ceiling, is worth a try.",
    "Stay with {first}, {start}; {over}, right at the ceiling, is worth a try.",
)
_AT_IT: Final = 1.05
# Where the next is over the ceiling, and only worth a try.
_ONE_TRY: Final = "{first} first, {start}; {following}, {power}, is worth a try."
# For an instrument whose powers are built in, from the lowest to the highest.
_ALL_BUILT_IN: Final = (
    "Start at {start}, climb to {top}, all that this instrument has: tonight would bear about {ceiling}."
)
_BUILT_IN: Final[_Templates] = (
    _ALL_BUILT_IN,
    _ALL_BUILT_IN,
    "Stay at {start}, all that this instrument has: tonight would bear about {ceiling}.",
)
_CLIMB_BUILT_IN: Final = "Start at {start}, climb to {top}."
_BUILT_IN_FREE: Final[_Templates] = (_CLIMB_BUILT_IN, _CLIMB_BUILT_IN, "Stay at {start}.")
_CLIMB_BUILT_IN_STOPPED: Final = "Start at {start}, climb to {top}: {limit} can bear about {ceiling}."
_BUILT_IN_STOPPED: Final[_Templates] = (
    _CLIMB_BUILT_IN_STOPPED,
    _CLIMB_BUILT_IN_STOPPED,
    "Stay at {start}: {limit} can bear about {ceiling}.",
)
_ALL_OVER: Final = (
    "Even your lowest power, {lowest}, is over the {ceiling} that {limit} can bear: expect a soft view."
)
_ALL_OVER_AND_DIM: Final = (
    "Even your lowest power, {lowest}, is over the {ceiling} that {limit} can bear, with an exit pupil of "
    "only {exit_pupil}: expect a dim, soft view."
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
    steps = first_steps(ladder)
    if steps is None:
        return _all_over_words(ladder, limiter)
    over = [rung.power for rung in ladder.rungs if rung.standing is Standing.TRY]
    templates = _templates(ladder, limiter)
    if templates is _STOPPED and prospect.now is not None and not prospect.is_best_now:
        templates = _STOPPED_AT_BEST if prospect.rising_on is None else _STOPPED_IN_HOURS
    words = _filled(
        templates,
        steps,
        limit=what_sets_ceiling(ladder),
        ceiling=power_text(ladder.ceiling.power),
        planet=prospect.planet.label,
        over=power_text(over[0]) if over else "",
    )
    shaking = shaking_words(ladder.scope) if limiter is Limiter.SHAKES else None
    return _with_climb(" ".join(filter(None, (words, shaking))), prospect, clock)


def first_steps_words(ladder: Ladder) -> str:
    """Return which eyepiece goes in first, which next and how far up, nothing where no power is borne."""
    steps = first_steps(ladder)
    return "" if steps is None else _filled(_templates(ladder, Limiter.NOTHING), steps)


def _templates(ladder: Ladder, limiter: Limiter) -> _Templates:
    is_built_in = ladder.scope.kind is TelescopeKind.FIXED
    if limiter in _LIMITS_OF_POWER:
        return _BUILT_IN_STOPPED if is_built_in else _STOPPED
    if limiter is not Limiter.NO_RUNG_NEAR:
        return _BUILT_IN_FREE if is_built_in else _FREE
    if is_built_in:
        return _BUILT_IN
    # A rung just over the ceiling may still be tried in calm moments.
    over, ceiling = (
        [rung.power for rung in ladder.rungs if rung.standing is Standing.TRY],
        ladder.ceiling.power,
    )
    if not over or ceiling is None:
        return _NOTHING_NEARER
    return _AT_THE_CEILING if over[0] <= _AT_IT * ceiling else _NOTHING_NEARER_BUT_OVER


def _filled(templates: _Templates, steps: FirstSteps, **limits: str) -> str:
    if steps.is_a_try and steps.following is not None:
        return _ONE_TRY.format(
            first=steps.first.label,
            start=power_text(steps.first.power),
            following=steps.following.label,
            power=power_text(steps.following.power),
        )
    form = 2 if steps.following is None else 1 if steps.following is steps.top else 0
    return templates[form].format(
        first=steps.first.label,
        start=power_text(steps.first.power),
        following=None if steps.following is None else steps.following.label,
        power=None if steps.following is None else power_text(steps.following.power),
        top=power_text(steps.top.power),
        **limits,
    )


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
