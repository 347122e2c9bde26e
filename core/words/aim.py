"""Where the telescope points, in words: why nothing can be offered there, and what must be known before."""

from collections.abc import Iterator
from typing import Final

from core.air.atmosphere import LOWEST_PATH_ALTITUDE_DEG
from core.ladder.aim import Aim, Refusal
from core.words.cautions import SUNRISE_IS_NEAR, daylight_caution, side_of_the_sun
from core.words.directions import altitude_text
from core.words.obstacles import sight_words
from core.words.quantities import angle_text, path_text
from core.words.site_clock import SiteClock
from core.words.why_not import why_not_words

_TOO_NEAR_THE_SUN: Final = "{body} stands {side}, which is up: nothing is offered so near it"
_NOT_BY_DAY: Final = "{body} is not to be seen by day: the Sun is up"
_SKY_TOO_BRIGHT: Final = "the sky is not dark enough for {body} then"
_NO_WINDOW: Final = "{body} is {why_not}"
_ONLY_BEFORE_SUNRISE: Final = "{body} has only the last minutes before sunrise, too close to the Sun's light"
_LOW: Final = "{subject} is seen {height} high: no air path is given below {lowest}"
_DOWN: Final = "{subject} is below the horizon: no air path is given below {lowest}"
_ANY_BODY: Final = "A body at this height"
_OVERHEAD: Final = "straight overhead"
_NOT_OFFERED: Final = "at no moment of this evening"
_AT: Final = "at {height}"
_FOR: Final = "for {body} at {height}"
_HEADING_OVERHEAD: Final = "Straight overhead"
_HEADING_NOTHING: Final = "{body}: nothing to offer this evening"
_HEADING_NOW: Final = "{body} now, {time}"
_HEADING_MOMENT: Final = "{body} at {time}"
_HEADING_BEST: Final = "{body} at its best, {time}"
_HEADING_HIGHEST: Final = "{body} at its highest in your hours, {time}"
_NOW: Final = "now, {time}"
_AT_MOMENT: Final = "at {time}"
_AT_BEST: Final = "at its best, {time}"
_AT_HIGHEST: Final = "at its highest in your hours, {time}"
_DETAIL_OVERHEAD: Final = "No site or planet yet, so the air is taken as it is straight overhead."
_DETAIL_DOWN: Final = "below the horizon"
_DETAIL_LOW: Final = "{height} high"
_DETAIL: Final = "{height} high, air path {path}"
_THEN: Final = "{body} is then {sight}."


def no_ceiling_words(aim: Aim) -> str | None:
    """Return why no ceiling is given there, as words without a full stop; None where one is given."""
    body = "" if aim.planet is None else aim.planet.heading
    match aim.refusal:
        case Refusal.TOO_NEAR_THE_SUN:
            assert aim.daylight is not None
            side = side_of_the_sun(aim.daylight.from_sun_deg, east=aim.daylight.east_of_sun)
            return _TOO_NEAR_THE_SUN.format(body=body, side=side)
        case Refusal.NOT_BY_DAY:
            return _NOT_BY_DAY.format(body=body)
        case Refusal.SKY_TOO_BRIGHT:
            return _SKY_TOO_BRIGHT.format(body=body)
        case Refusal.NO_WINDOW:
            assert aim.planet is not None
            assert aim.why_not is not None
            return _NO_WINDOW.format(body=body, why_not=why_not_words(aim.planet, aim.why_not))
        case Refusal.ONLY_BEFORE_SUNRISE:
            return _ONLY_BEFORE_SUNRISE.format(body=body)
    return None if aim.path is not None else _no_path_words(aim, body or _ANY_BODY)


def aim_notices(aim: Aim) -> tuple[str, ...]:
    """Return what must be known before looking there, as sentences; words of safety come first."""
    return tuple(filter(None, (*aim_cautions(aim), _sight_sentence(aim))))


def aim_cautions(aim: Aim) -> Iterator[str]:
    """Yield the words of safety alone."""
    if aim.daylight is not None:
        yield daylight_caution(aim.daylight)
    if aim.sunrise_is_near:
        yield SUNRISE_IS_NEAR


def _sight_sentence(aim: Aim) -> str:
    """Return what stands in the line of sight, as a sentence; nothing where all is clear."""
    sight = sight_words(behind=aim.behind, through=aim.through)
    return "" if aim.planet is None or sight is None else _THEN.format(body=aim.planet.heading, sight=sight)


def _no_path_words(aim: Aim, subject: str) -> str:
    apparent_deg = aim.apparent_altitude_deg
    assert apparent_deg is not None  # only where nothing is offered is there no height
    # With refraction, so that it may differ from the altitude told beside it.
    template = _LOW if apparent_deg >= 0.0 else _DOWN
    return template.format(
        subject=subject, height=angle_text(apparent_deg, 1), lowest=angle_text(LOWEST_PATH_ALTITUDE_DEG)
    )


def aim_words(aim: Aim) -> str:
    """Return where the scope points, as inside a sentence."""
    if aim.overhead:
        return _OVERHEAD
    if aim.altitude_deg is None:
        return _NOT_OFFERED
    height = altitude_text(aim.altitude_deg)
    return (
        _AT.format(height=height) if aim.planet is None else _FOR.format(body=aim.planet.label, height=height)
    )


def aim_heading(
    aim: Aim, clock: SiteClock | None, *, is_now: bool, is_moment: bool, rises_on: bool = False
) -> str:
    """Return what the scope points at and when: now, at the moment looked at, or at its best.

    That is but the best of the hours where it ``rises_on`` as they end.
    """
    if aim.planet is None or clock is None:
        return _HEADING_OVERHEAD
    body = aim.planet.heading
    if aim.at is None:
        return _HEADING_NOTHING.format(body=body)
    best = _HEADING_HIGHEST if rises_on else _HEADING_BEST
    template = _HEADING_NOW if is_now else _HEADING_MOMENT if is_moment else best
    return template.format(body=body, time=clock.time(aim.at))


def aim_when(
    aim: Aim, clock: SiteClock | None, *, is_now: bool, is_moment: bool, rises_on: bool = False
) -> str:
    """Return for when an aim holds, ``now, 21:30``; empty where it holds for no moment."""
    if aim.planet is None or aim.at is None or clock is None:
        return ""
    template = _NOW if is_now else _AT_MOMENT if is_moment else _AT_HIGHEST if rises_on else _AT_BEST
    return template.format(time=clock.time(aim.at))


def aim_detail(aim: Aim, *, with_sight: bool = True) -> str:
    """Return height and air path, and what stands in the line of sight unless that is told beside."""
    sight = _sight_sentence(aim) if with_sight else ""
    if aim.overhead:
        return _DETAIL_OVERHEAD
    if aim.altitude_deg is None:
        return sight
    if aim.altitude_deg < 0:
        where = _DETAIL_DOWN
    elif aim.path is None:
        where = _DETAIL_LOW.format(height=altitude_text(aim.altitude_deg))
    else:
        where = _DETAIL.format(height=altitude_text(aim.altitude_deg), path=path_text(aim.path))
    return ". ".join(filter(None, (where, sight)))
