"""The one sentence itself: when the planet is best, how far to climb, and what limits it."""

from datetime import datetime, timedelta
from enum import StrEnum
from typing import Final

from core.moments.best_minutes import SHORTEST_USEFUL, BestMinutes
from core.situation.situation import Situation
from core.sky.events import FAIR_DEG
from core.sky.night import Grade, Position, WhyNot
from core.tonight.answer import Answer
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect
from core.words.aim import aim_notices, no_ceiling_words
from core.words.better import better_sentence
from core.words.directions import where_text
from core.words.how_far import climb_words
from core.words.last_call import last_call_words
from core.words.names import capitalised, opening
from core.words.obstacles import then_words, warm_air_words
from core.words.pairs import pairs_in_hand
from core.words.site_clock import SiteClock, clock_of, minutes_between
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
        "{planet} is done for this evening: the sky has been too bright since {end}. "
        "Its best minutes were {best}."
    ),
}
_ONLY_BEFORE_SUNRISE: Final = (
    "On this evening {planet} has only the last minutes before sunrise, too close to the Sun's light."
)
_NEVER_DARK: Final = "On this evening the sky never gets dark enough for {planet}."
_NO_WINDOW: Final = "On this evening {planet} is {why_not}."
_BEST_LATER: Final = {
    None: "{planet} is best {span}. Look {where}.",
    Limiter.WARM_AIR: "{planet} is best {span}, though only through {air}. Look {where}.",
    Limiter.HEIGHT: "{planet} is best {span}, though low, in thick air. Look {where}.",
}
_BEST_LATER_THEN: Final = {
    None: "{planet} is best {span}, then {then}. Look {where}.",
    Limiter.WARM_AIR: "{planet} is best {span}, then {then}, though only through {air}. Look {where}.",
    Limiter.HEIGHT: "{planet} is best {span}, then {then}, though low, in thick air. Look {where}.",
}
_BEST_NOW: Final = {
    None: "{planet} is at its best now, until {end}. Look {where}.",
    Limiter.WARM_AIR: "{planet} is at its best now, until {end}, though only through {air}. Look {where}.",
    Limiter.HEIGHT: "{planet} is at its best now, until {end}, though low, in thick air. Look {where}.",
}
_BEST_NOW_THEN: Final = {
    None: "{planet} is at its best now, until {end}, then {then}. Look {where}.",
    Limiter.WARM_AIR: (
        "{planet} is at its best now, until {end}, then {then}, though only through {air}. Look {where}."
    ),
    Limiter.HEIGHT: (
        "{planet} is at its best now, until {end}, then {then}, though low, in thick air. Look {where}."
    ),
}
_SOON: Final = {
    None: "{planet} now: in {minutes} min {then}. Look {where}.",
    Limiter.WARM_AIR: "{planet} now, through {air}: in {minutes} min {then}. Look {where}.",
    Limiter.HEIGHT: "{planet} now, low, in thick air: in {minutes} min {then}. Look {where}.",
}
_PAST_BEST: Final = {
    None: "{planet} has been past its best since {since}, and is above 30° until {end}. Look {where}.",
    Limiter.WARM_AIR: (
        "{planet} has been past its best since {since}, and is now seen through {air}. Look {where}."
    ),
    Limiter.HEIGHT: "{planet} has been past its best since {since}, and is low, in thick air. Look {where}.",
}
_BETTER_LATER: Final = {
    None: "{planet} is up now, and better from {better}. Look {where}.",
    Limiter.WARM_AIR: "{planet} is seen through {air} now, and better from {better}. Look {where}.",
    Limiter.HEIGHT: "{planet} is low now, in thick air, and better from {better}. Look {where}.",
}
_MEANWHILE: Final = "Until then {planet} stands higher: {where}."


class _When(StrEnum):
    """How one comes to an hour that is not the owner's own."""

    STAY_UP = "stay_up"
    GET_UP = "get_up"
    EARLIER = "earlier"


# Where nothing else is good in the hours, and where something is.
_OUTSIDE_ALONE: Final = {
    _When.STAY_UP: "Nothing good in your hours, {hours}; {planet} {span} if you stay up. Look {where}.",
    _When.GET_UP: (
        "Nothing good in your hours, {hours}; {planet} before dawn, {span}, if you get up early. "
        "Look {where}."
    ),
    _When.EARLIER: (
        "Nothing good in your hours, {hours}; {planet} {span} if you go out earlier. Look {where}."
    ),
}
_OUTSIDE: Final = {
    _When.STAY_UP: "{planet} is good only outside your hours, {hours}: {span} if you stay up. Look {where}.",
    _When.GET_UP: (
        "{planet} is good only outside your hours, {hours}: before dawn, {span}, if you get up early. "
        "Look {where}."
    ),
    _When.EARLIER: (
        "{planet} is good only outside your hours, {hours}: {span} if you go out earlier. Look {where}."
    ),
}
_TOO_SHORT: Final = (
    "{planet} is up only outside your hours, {hours}, and for too short to stay up for: {span}."
)
_ELSEWHEN: Final = {
    _When.STAY_UP: "If you stay up, {planet} from {start}.",
    _When.GET_UP: "Before dawn, if you get up early, {planet} from {start}.",
    _When.EARLIER: "If you go out earlier, {planet} from {start}.",
}
# What ends the best minutes within this time is told in minutes.
_SOON_IS: Final = timedelta(minutes=15)

_NOTHING_OFFERED: Final = "{reason}."


def answer_words(situation: Situation) -> str:
    """Return the answer to a situation, and where it is poor, when it will be better."""
    return " ".join(filter(None, (answer_headline(situation), answer_detail(situation))))


def answer_headline(situation: Situation) -> str:
    """Return the first sentences of the answer: which planet, when, and where to look."""
    return headline(situation.answer, clock_of(situation))


def answer_detail(situation: Situation) -> str:
    """Return the rest: which eyepieces, what limits them, and when there would be more; nothing of none."""
    words = detail_sentences(situation.answer, clock_of(situation), later=better_words(situation))
    is_over = situation.answer is None or situation.answer.last_call is not None
    return " ".join(filter(None, (words, *(() if is_over else pairs_in_hand(situation)))))


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
    if answer is None or not answer.is_poor:
        return None
    return better_sentence(answer.prospect, situation.better)


def headline(answer: Answer | None, clock: SiteClock | None) -> str:
    """Return which planet, when, and where to look; in the last minutes before sunrise only to stop.

    ``answer`` and ``clock`` are None without a site.
    """
    if answer is None or clock is None:
        return _NO_SITE
    prospect, limiter = answer.prospect, answer.limiter
    if answer.last_call is not None:
        return last_call_words(answer.last_call, clock)
    if prospect.over is not None:
        return _over_words(prospect, limiter, clock)
    if prospect.best is None:
        return _no_window_words(prospect)
    return _best_words(prospect, limiter, clock)


def detail_sentences(answer: Answer | None, clock: SiteClock | None, *, later: str | None = None) -> str:
    """Return which eyepieces and what limits them, and what another hour would give; maybe nothing.

    ``later`` is a sentence about another date.
    """
    if answer is None or clock is None or answer.last_call is not None:
        return ""
    prospect, limiter = answer.prospect, answer.limiter
    is_too_short = limiter is Limiter.OUTSIDE_HOURS and _is_too_short(prospect)
    climb = None if prospect.best is None or is_too_short else climb_words(prospect, limiter, clock)
    return " ".join(
        filter(None, (_meanwhile_words(prospect), climb, later, _elsewhen_words(prospect, limiter, clock)))
    )


def _elsewhen_words(prospect: Prospect, limiter: Limiter, clock: SiteClock) -> str | None:
    found = prospect.elsewhen
    if found is None or limiter is Limiter.OUTSIDE_HOURS:
        return None
    if prospect.better_later is not None and found.body is prospect.planet:
        return None
    when = _When.EARLIER if found.is_earlier else _When.GET_UP if found.is_before_dawn else _When.STAY_UP
    return _ELSEWHEN[when].format(planet=found.body.label, start=clock.time(found.start))


def _meanwhile_words(prospect: Prospect) -> str | None:
    """Return what stands higher until the planet in hand is better."""
    body, now = prospect.meanwhile, prospect.now
    if body is None or now is None:
        return None
    where = _where_words(prospect.night.position(body, now))
    return _MEANWHILE.format(planet=body.label, where=where)


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
    if limiter is Limiter.OUTSIDE_HOURS:
        return _outside_words(prospect, best, position, clock)
    then = then_words(best)
    left = timedelta() if prospect.now is None else best.end - prospect.now
    better = prospect.better_later
    if prospect.is_best_now and then is not None and left <= _SOON_IS:
        templates = _SOON
    elif prospect.is_best_now and better is not None:
        templates = _BETTER_LATER
    elif prospect.past_best_since is not None and prospect.is_best_now:
        templates = _PAST_BEST
    elif prospect.is_best_now:
        templates = _BEST_NOW if then is None else _BEST_NOW_THEN
    else:
        templates = _BEST_LATER if then is None else _BEST_LATER_THEN
    return templates[limiter if limiter in templates else None].format(
        planet=opening(prospect.planet),
        span=clock.span(best.start, best.end),
        end=clock.time(best.end if prospect.past_best_since is None else _above_30_until(best)),
        better=None if better is None else clock.time(better.start),
        since=None if prospect.past_best_since is None else clock.time(prospect.past_best_since),
        minutes=0 if prospect.now is None else max(minutes_between(prospect.now, best.end), 1),
        then=then,
        air=None if air is None else warm_air_words(air),
        where=_where_words(position),
    )


def _outside_words(prospect: Prospect, best: BestMinutes, position: Position, clock: SiteClock) -> str:
    hours, served = prospect.hours, prospect.served
    assert hours is not None
    is_alone = served is None or served.body is prospect.planet or not served.best.in_hours
    if _is_too_short(prospect):
        return _TOO_SHORT.format(
            planet=opening(prospect.planet),
            hours=clock.span(hours.start, hours.end),
            span=clock.span(best.start, best.end),
        )
    when = _When.STAY_UP
    if best.start < hours.start:
        when = _When.EARLIER
    elif hours.asks_to_get_up(best.start, prospect.night.site.zone, now=prospect.now):
        when = _When.GET_UP
    return (_OUTSIDE_ALONE if is_alone else _OUTSIDE)[when].format(
        planet=prospect.planet.label if is_alone else opening(prospect.planet),
        span=clock.span(best.start, best.end),
        hours=clock.span(hours.start, hours.end),
        where=_where_words(position),
    )


def _is_too_short(prospect: Prospect) -> bool:
    """Tell whether minutes after the hours are too few to stay up for."""
    best, hours = prospect.best, prospect.hours
    return (
        best is not None and hours is not None and best.start >= hours.end and best.duration < SHORTEST_USEFUL
    )


def _above_30_until(best: BestMinutes) -> datetime:
    """Return when a body that is above 30 degrees sinks under it, or its minutes end."""
    return next((window.start for window in best.windows if window.grade is Grade.LOW), best.end)


def _where_words(position: Position) -> str:
    return where_text(position.altitude_deg, position.azimuth_deg, under_deg=FAIR_DEG)
