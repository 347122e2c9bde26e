"""The one sentence itself: when the planet is best, how far to climb, and what limits it."""

from typing import Final

from core.situation.situation import Situation
from core.sky.events import FAIR_DEG
from core.sky.night import WhyNot
from core.tonight.answer import Answer
from core.tonight.limiter import POOR, Limiter
from core.tonight.prospect import Prospect
from core.words.aim import aim_notices, no_ceiling_words
from core.words.better import better_sentence
from core.words.directions import altitude_text
from core.words.how_far import climb_words
from core.words.names import capitalised, opening
from core.words.obstacles import then_words, warm_air_words
from core.words.site_clock import SiteClock, clock_of
from core.words.why_not import why_not_words

_NO_SITE: Final = "Add a site in Gear, and the evening's best planet and its hours appear here."
_OVER: Final = {
    Limiter.BLOCKED: (
        "{planet} is done for this evening: behind blocked sky since {end}. Its best minutes were {best}."
    ),
    Limiter.TOO_LOW: (
        "{planet} is done for this evening: under 10° since {end}. Its best minutes were {best}."
    ),
    Limiter.NO_DARK_SKY: (
        "{planet} is done for this evening: the sky is too bright since {end}. Its best minutes were {best}."
    ),
}
_ONLY_BEFORE_SUNRISE: Final = (
    "On this evening {planet} has only the last minutes before sunrise, too close to the Sun's light."
)
_NEVER_DARK: Final = "On this evening the sky never gets dark enough for {planet}."
_NO_WINDOW: Final = "On this evening {planet} is {why_not}."
_BEST_LATER: Final = {
    None: "{planet} is best {span}.",
    Limiter.WARM_AIR: "{planet} is best {span}, though only through {air}.",
    Limiter.HEIGHT: "{planet} is best {span}, though low, {height} at most, in thick air.",
}
_BEST_LATER_THEN: Final = {
    None: "{planet} is best {span}, then {then}.",
    Limiter.WARM_AIR: "{planet} is best {span}, then {then}, though only through {air}.",
    Limiter.HEIGHT: "{planet} is best {span}, then {then}, though low, {height} at most, in thick air.",
}
_BEST_NOW: Final = {
    None: "{planet} is at its best now, until {end}.",
    Limiter.WARM_AIR: "{planet} is at its best now, until {end}, though only through {air}.",
    Limiter.HEIGHT: "{planet} is at its best now, until {end}, though low, at {height}, in thick air.",
}
_BEST_NOW_THEN: Final = {
    None: "{planet} is at its best now, until {end}, then {then}.",
    Limiter.WARM_AIR: "{planet} is at its best now, until {end}, then {then}, though only through {air}.",
    Limiter.HEIGHT: (
        "{planet} is at its best now, until {end}, then {then}, though low, at {height}, in thick air."
    ),
}

_NOTHING_OFFERED: Final = "{reason}."


def answer_words(situation: Situation) -> str:
    """Return the answer to a situation, and where it is poor, when it will be better."""
    sentences = answer_sentence(situation.answer, clock_of(situation)), better_words(situation)
    return " ".join(filter(None, sentences))


def nothing_offered_words(situation: Situation) -> str:
    """Return why nothing is offered where the scope points, when there will be more, and the cautions."""
    aim = situation.aim
    reason = no_ceiling_words(aim)
    nothing = None if reason is None else _NOTHING_OFFERED.format(reason=capitalised(reason))
    later = better_words(situation) if aim.at is None else None
    return " ".join(filter(None, (nothing, later, *aim_notices(aim))))


def better_words(situation: Situation) -> str | None:
    """Return when the planet in hand will be better, as a sentence; None where the answer is not poor."""
    answer = situation.answer
    if answer is None or answer.limiter not in POOR or answer.prospect.over is not None:
        return None
    return better_sentence(answer.prospect, situation.better)


def answer_sentence(answer: Answer | None, clock: SiteClock | None) -> str:
    """Return the one sentence, or two; ``answer`` and ``clock`` are None without a site."""
    if answer is None or clock is None:
        return _NO_SITE
    prospect, limiter = answer.prospect, answer.limiter
    if prospect.over is not None:
        return _over_words(prospect, limiter, clock)
    if prospect.best is None:
        return _no_window_words(prospect)
    return " ".join((_best_words(prospect, limiter, clock), climb_words(prospect, limiter, clock)))


def _over_words(prospect: Prospect, limiter: Limiter, clock: SiteClock) -> str:
    assert prospect.over is not None
    template = _OVER.get(limiter, _OVER[Limiter.NO_DARK_SKY])
    return template.format(
        planet=opening(prospect.planet),
        end=clock.time(prospect.body.windows[-1].end),
        best=clock.span(prospect.over.start, prospect.over.end),
    )


def _no_window_words(prospect: Prospect) -> str:
    """Return that there is nothing to see, and why, in words that tell the kinds apart."""
    body, label = prospect.body, prospect.planet.label
    if body.why_not is None:
        return _ONLY_BEFORE_SUNRISE.format(planet=label)
    if body.why_not_kind is WhyNot.NO_DARK_SKY:
        return _NEVER_DARK.format(planet=label)
    return _NO_WINDOW.format(planet=label, why_not=why_not_words(prospect.planet, body.why_not))


def _best_words(prospect: Prospect, limiter: Limiter, clock: SiteClock) -> str:
    best, position, air = prospect.best, prospect.position, prospect.warm_air
    assert best is not None
    assert position is not None
    then = then_words(best)
    if prospect.is_best_now:
        templates = _BEST_NOW if then is None else _BEST_NOW_THEN
    else:
        templates = _BEST_LATER if then is None else _BEST_LATER_THEN
    return templates[limiter if limiter in templates else None].format(
        planet=opening(prospect.planet),
        span=clock.span(best.start, best.end),
        end=clock.time(best.end),
        then=then,
        air=None if air is None else warm_air_words(air),
        height=altitude_text(position.altitude_deg, under_deg=FAIR_DEG),
    )
