"""The first sentence of the answer where a planet has best minutes: when they are, and where to look."""

from datetime import datetime, timedelta
from enum import StrEnum
from typing import Final

from core.moments.best_minutes import SHORTEST_USEFUL, BestMinutes
from core.sky.events import FAIR_DEG
from core.sky.track import Position
from core.sky.windows import Grade
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect, Standing
from core.words.directions import where_text
from core.words.names import opening
from core.words.obstacles import then_words, warm_air_words
from core.words.site_clock import SiteClock, minutes_between

_BEST_LATER: Final = {
    None: "{planet} is best {span}. Look {where}.",
    Limiter.WARM_AIR: "{planet} is best {span}, though only through {air}. Look {where}.",
    Limiter.HEIGHT: "{planet} is best {span}, though low, in thick air. Look {where}.",
}
_BEST_LATER_THEN: Final = {
    None: "{planet} is best {span}, then {then}. Look {where}.",
    Limiter.WARM_AIR: "{planet} is best {span}, though only through {air}, then {then}. Look {where}.",
    Limiter.HEIGHT: "{planet} is best {span}, though low, in thick air, then {then}. Look {where}.",
}
# The same where the hours end while it is still rising: then they have but the best of them.
_BEST_OF_HOURS: Final = {
    None: "In your hours {name} is best {span}, still rising. Look {where}.",
    Limiter.WARM_AIR: (
        "In your hours {name} is best {span}, still rising, though only through {air}. Look {where}."
    ),
    Limiter.HEIGHT: (
        "In your hours {name} is best {span}, still rising, though low, in thick air. Look {where}."
    ),
}
_BEST_NOW: Final = {
    None: "{planet} is at its best now, until {end}. Look {where}.",
    Limiter.WARM_AIR: "{planet} is at its best now, until {end}, though only through {air}. Look {where}.",
    Limiter.HEIGHT: "{planet} is at its best now, until {end}, though low, in thick air. Look {where}.",
}
# The same well before or after it is highest in them.
_RISING: Final = {
    None: "{planet} stands well now, and is still rising. Look {where}.",
    Limiter.WARM_AIR: "{planet} is seen through {air} now, and is still rising. Look {where}.",
    Limiter.HEIGHT: "{planet} is low now, in thick air, but rising. Look {where}.",
}
_SINKING: Final = _BEST_NOW | {
    None: "{planet} still stands well now, until {end}. Look {where}.",
    Limiter.HEIGHT: "{planet} is low now, in thick air, and sinking, in sight until {end}. Look {where}.",
}
_BEST_NOW_THEN: Final = {
    None: "{planet} is at its best now, until {end}, then {then}. Look {where}.",
    Limiter.WARM_AIR: (
        "{planet} is at its best now, until {end}, though only through {air}, then {then}. Look {where}."
    ),
    Limiter.HEIGHT: (
        "{planet} is at its best now, until {end}, though low, in thick air, then {then}. Look {where}."
    ),
}
_RISING_THEN: Final = {
    None: "{planet} stands well now, still rising, until {end}, then {then}. Look {where}.",
    Limiter.WARM_AIR: (
        "{planet} is seen through {air} now, still rising, until {end}, then {then}. Look {where}."
    ),
    Limiter.HEIGHT: "{planet} is low now, in thick air, but rising, until {end}, then {then}. Look {where}.",
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
# Of a target whose turn comes only then.
_STILL_GOOD: Final = _PAST_BEST | {None: "{planet} still stands well, above 30° until {end}. Look {where}."}
_BY_STANDING: Final = {Standing.HIGH: _BEST_NOW, Standing.RISING: _RISING, Standing.SINKING: _SINKING}
# What is looked at until the evening's best has its time.
_BEST_NOW_AND_LATER: Final = {
    None: (
        "{planet} is at its best now, until {end}; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
    Limiter.WARM_AIR: (
        "{planet} is at its best now, until {end}, though only through {air}; better still is {later}, "
        "{later_span}. Look for {planet} {where}."
    ),
    Limiter.HEIGHT: (
        "{planet} is at its best now, until {end}, though low, in thick air; better still is {later}, "
        "{later_span}. Look for {planet} {where}."
    ),
}
_RISING_AND_LATER: Final = {
    None: (
        "{planet} stands well now, and is still rising; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
    Limiter.WARM_AIR: (
        "{planet} is seen through {air} now, and is still rising; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
    Limiter.HEIGHT: (
        "{planet} is low now, in thick air, but rising; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
}
_SINKING_AND_LATER: Final = _BEST_NOW_AND_LATER | {
    None: (
        "{planet} still stands well now, until {end}; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
    Limiter.HEIGHT: (
        "{planet} is low now, in thick air, and sinking, in sight until {end}; better still is {later}, "
        "{later_span}. Look for {planet} {where}."
    ),
}
_BY_STANDING_AND_LATER: Final = {
    Standing.HIGH: _BEST_NOW_AND_LATER,
    Standing.RISING: _RISING_AND_LATER,
    Standing.SINKING: _SINKING_AND_LATER,
}
_BETTER_AND_LATER: Final = {
    None: (
        "{planet} is up now, and better {better}; best of all is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
    Limiter.WARM_AIR: (
        "{planet} is seen through {air} now, and better {better}; best of all is {later}, "
        "{later_span}. Look for {planet} {where}."
    ),
    Limiter.HEIGHT: (
        "{planet} is low now, in thick air, and better {better}; best of all is {later}, "
        "{later_span}. Look for {planet} {where}."
    ),
}
_PAST_BEST_AND_LATER: Final = {
    None: (
        "{planet} has been past its best since {since}; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
    Limiter.WARM_AIR: (
        "{planet} is past its best, seen through {air}; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
    Limiter.HEIGHT: (
        "{planet} is past its best and low, in thick air; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
}
_STILL_GOOD_AND_LATER: Final = _PAST_BEST_AND_LATER | {
    None: (
        "{planet} still stands well, above 30° until {end}; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
    Limiter.HEIGHT: (
        "{planet} is low now, in thick air, and sinking; better still is {later}, {later_span}. "
        "Look for {planet} {where}."
    ),
}
_BETTER_LATER: Final = {
    None: "{planet} is up now, and better {better}. Look {where}.",
    Limiter.WARM_AIR: "{planet} is seen through {air} now, and better {better}. Look {where}.",
    Limiter.HEIGHT: "{planet} is low now, in thick air, and better {better}. Look {where}.",
}


# Once the hours are over.
_HOURS_OVER: Final = {
    False: "Your hours, {hours}, are over; {planet} {span} if you stay up. Look {where}.",
    True: "Your hours, {hours}, are over; {planet} before dawn, {span}, if you get up early. Look {where}.",
}


class When(StrEnum):
    """How one comes to an hour that is not the owner's own."""

    STAY_UP = "stay_up"
    GET_UP = "get_up"
    EARLIER = "earlier"


# From when a planet is better that is up already, None where the owner is still outside then.
_BETTER_FROM: Final = {
    None: "from {start}",
    When.STAY_UP: "from {start} if you stay up",
    When.GET_UP: "before dawn, from {start}, if you get up early",
}
# Where nothing else is good in the hours, and where something is.
_OUTSIDE_ALONE: Final = {
    When.STAY_UP: "Nothing good in your hours, {hours}; {planet} {span} if you stay up. Look {where}.",
    When.GET_UP: (
        "Nothing good in your hours, {hours}; {planet} before dawn, {span}, if you get up early. "
        "Look {where}."
    ),
    When.EARLIER: (
        "Nothing good in your hours, {hours}; {planet} {span} if you go out earlier. Look {where}."
    ),
}
# The same once the hours have begun, in which there may have been something.
_OUTSIDE_LEFT: Final = {
    When.STAY_UP: (
        "Nothing good is left in your hours, {hours}; {planet} {span} if you stay up. Look {where}."
    ),
    When.GET_UP: (
        "Nothing good is left in your hours, {hours}; {planet} before dawn, {span}, if you get up early. "
        "Look {where}."
    ),
}
_OUTSIDE: Final = {
    When.STAY_UP: "{planet} is good only outside your hours, {hours}: {span} if you stay up. Look {where}.",
    When.GET_UP: (
        "{planet} is good only outside your hours, {hours}: before dawn, {span}, if you get up early. "
        "Look {where}."
    ),
    When.EARLIER: (
        "{planet} is good only outside your hours, {hours}: {span} if you go out earlier. Look {where}."
    ),
}
_TOO_SHORT: Final = (
    "{planet} is up only outside your hours, {hours}, and for too short to stay up for: {span}."
)
# What ends the best minutes within this time is told in minutes.
_SOON_IS: Final = timedelta(minutes=15)


def best_words(prospect: Prospect, limiter: Limiter, clock: SiteClock) -> str:
    """Return when the best minutes are, what else there is to them, and where to look."""
    best, position, air = prospect.best, prospect.position, prospect.warm_air
    assert best is not None
    assert position is not None
    if limiter is Limiter.OUTSIDE_HOURS:
        return _outside_words(prospect, best, position, clock)
    then, later = then_words(best), prospect.later
    left = timedelta() if prospect.now is None else best.end - prospect.now
    better = prospect.better_later
    if prospect.is_best_now and then is not None and left <= _SOON_IS:
        templates = _SOON
    elif prospect.is_best_now and better is not None:
        templates = _BETTER_LATER if later is None else _BETTER_AND_LATER
    elif prospect.past_best_since is not None and prospect.is_best_now:
        templates = _past_best_templates(prospect)
    elif later is not None:
        templates = _BY_STANDING_AND_LATER[prospect.standing]
    elif prospect.is_best_now:
        rises = prospect.standing is Standing.RISING
        templates_then = _RISING_THEN if rises else _BEST_NOW_THEN
        templates = _BY_STANDING[prospect.standing] if then is None else templates_then
    elif prospect.rising_on is not None:
        templates = _BEST_OF_HOURS
    else:
        templates = _BEST_LATER if then is None else _BEST_LATER_THEN
    return templates[limiter if limiter in templates else None].format(
        planet=opening(prospect.planet),
        name=prospect.planet.label,
        span=clock.span(best.start, best.end),
        end=clock.time(best.end if prospect.past_best_since is None else _above_30_until(best)),
        better=None if better is None else _better_from(prospect, better, clock),
        since=None if prospect.past_best_since is None else clock.time(prospect.past_best_since),
        minutes=0 if prospect.now is None else max(minutes_between(prospect.now, best.end), 1),
        then=then,
        later=None if later is None else later.body.label,
        later_span=None if later is None else clock.span(later.best.start, later.best.end),
        air=None if air is None else warm_air_words(air),
        where=where_words(position),
    )


def _past_best_templates(prospect: Prospect) -> dict[Limiter | None, str]:
    if prospect.in_passing:
        return _STILL_GOOD if prospect.later is None else _STILL_GOOD_AND_LATER
    return _PAST_BEST if prospect.later is None else _PAST_BEST_AND_LATER


def _better_from(prospect: Prospect, better: BestMinutes, clock: SiteClock) -> str:
    hours, when, elsewhen = prospect.hours, None, prospect.elsewhen
    # After the hours it is said once of one who stays, and beside another's hour of that.
    is_told = prospect.hours_are_over and elsewhen is not None and elsewhen.body is not prospect.planet
    if hours is not None and better.start >= hours.end and not is_told:
        gets_up = hours.asks_to_get_up(better.start, prospect.night.site.zone, now=prospect.now)
        when = When.GET_UP if gets_up else When.STAY_UP
    return _BETTER_FROM[when].format(start=clock.time(better.start))


def _outside_words(prospect: Prospect, best: BestMinutes, position: Position, clock: SiteClock) -> str:
    hours, served = prospect.hours, prospect.served
    assert hours is not None
    is_alone = served is None or served.body is prospect.planet or not served.best.in_hours
    if is_too_short(prospect):
        return _TOO_SHORT.format(
            planet=opening(prospect.planet),
            hours=clock.span(hours.start, hours.end),
            span=clock.span(best.start, best.end),
        )
    gets_up = hours.asks_to_get_up(best.start, prospect.night.site.zone, now=prospect.now)
    figures = {
        "span": clock.span(best.start, best.end),
        "hours": clock.span(hours.start, hours.end),
        "where": where_words(position),
    }
    if prospect.hours_are_over:
        return _HOURS_OVER[gets_up].format(planet=prospect.planet.label, **figures)
    when = When.STAY_UP
    if best.start < hours.start:
        when = When.EARLIER
    elif gets_up:
        when = When.GET_UP
    has_begun = prospect.now is not None and hours.start <= prospect.now
    alone = _OUTSIDE_LEFT if has_begun and when is not When.EARLIER else _OUTSIDE_ALONE
    return (alone if is_alone else _OUTSIDE)[when].format(
        planet=prospect.planet.label if is_alone else opening(prospect.planet), **figures
    )


def is_too_short(prospect: Prospect) -> bool:
    """Tell whether minutes after the hours are too few to stay up for."""
    best, hours = prospect.best, prospect.hours
    return (
        best is not None and hours is not None and best.start >= hours.end and best.duration < SHORTEST_USEFUL
    )


def _above_30_until(best: BestMinutes) -> datetime:
    """Return when a body that is above 30 degrees sinks under it, or its minutes end."""
    return next((window.start for window in best.windows if window.grade is Grade.LOW), best.end)


def where_words(position: Position) -> str:
    """Return where a body stands, no fair height told of one that is low."""
    return where_text(position.altitude_deg, position.azimuth_deg, under_deg=FAIR_DEG)
