"""The reasons behind the answer: plain sentences, one thing each, never none."""

from collections.abc import Iterator
from datetime import timedelta
from typing import Final

from core.gear.aperture import working_aperture_mm
from core.gear.owned import TelescopeKind
from core.ladder.ladder import Ladder
from core.ladder.mount import shakes
from core.ladder.usual_powers import RARELY_MORE, USUAL_NIGHT_APERTURE_MM, usual_night_powers
from core.moments.best_minutes import offered_windows, stop_time
from core.sky.bodies import Body
from core.sky.events import BodyState
from core.sky.stars import BRIGHTEST_STAR_MAGNITUDE
from core.sky.sunlight import TOO_NEAR_THE_SUN_DEG
from core.sky.why_not import WhyNot
from core.sky.windows import Grade, Window
from core.tonight.answer import Answer
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect
from core.words.cautions import SUNLIGHT_BLINDS, beside_the_sun
from core.words.cooling import readiness_text, time_outside_text
from core.words.directions import altitude_text, compass_text
from core.words.limits import all_limits_sentence
from core.words.mount import against_shaking_words, shaking_words, untimed_words
from core.words.names import opening
from core.words.notices import ladder_notice_texts
from core.words.obstacles import blocked_words, warm_air_words
from core.words.quantities import path_text, power_text
from core.words.site_clock import SiteClock
from core.words.sun import sun_course_sentence
from core.words.units import USUAL_UNITS, Units
from core.words.why_not import why_not_words

_A_MINUTE: Final = timedelta(minutes=1)
_NO_SITE: Final = "When and how high a planet stands depends on the place, and no site is known yet."
_NEAR_THE_SUN: Final = (
    "{planet} stands only {where}: never search for it while any of the Sun is up. {blinds}"
)
_BY_DAY: Final = (
    "Do not search for {planet} while the Sun is up. {blinds} "
    "Whoever must look by day stands in the shadow of something solid."
)
_NEVER_UP: Final = "{planet} is never up here on this evening: it stays below the horizon all the time."
_ALWAYS_UP: Final = "{planet} is always up here on this evening: highest {time} at {height}."
_COURSE: Final = "{planet}: {events}."
_RISES: Final = "rises {time}"
_HIGHEST: Final = "highest {time} at {height}"
_SETS: Final = "sets {time}"
_NO_WINDOW: Final = "No window in a dark enough sky and above 10°: {why_not}."
_WINDOWS: Final = {
    Grade.BEST: "{span}: above 45°, best.",
    Grade.FAIR: "{span}: from 30° to 45°, fair.",
    Grade.LOW: "{span}: under 30°, low in thick air.",
}
_WINDOWS_THROUGH: Final = {
    Grade.BEST: "{span}: above 45°, best, through {air}.",
    Grade.FAIR: "{span}: from 30° to 45°, fair, through {air}.",
    Grade.LOW: "{span}: under 30°, low in thick air, through {air}.",
}
_BANDS: Final = "The heights of 30° and 45° are rules of thumb."
_STOP: Final = "Off the planet by {stop}, before sunrise, and cap the telescope."
_BLOCKED: Final = "{span}: {blocked}."
_HEIGHT: Final = "At {when} {planet} stands at {height}."
_HEIGHT_AND_PATH: Final = "At {when} {planet} stands at {height}, through {path} times the air overhead."
_NO_TELESCOPE: Final = "Without a telescope nothing can be said about power."
_RULE_OF_THUMB: Final = "A ceiling is a rule of thumb: still moments may allow more, a poor hour less."
# By whether the air decides rather than the aperture, and whether the ceiling comes first.
_USUAL: Final = {
    (False, False): (
        "With this aperture observers use {low} to {high} most on a usual night (common practice)."
    ),
    (False, True): (
        "With this aperture observers use {low} to {high} most on a usual night (common practice); here the "
        "ceiling of about {ceiling} comes first."
    ),
    (True, False): (
        "With so large an aperture the air decides: {low} to {high} is what observers use most on a usual "
        "night (common practice)."
    ),
    (True, True): (
        "With so large an aperture the air decides: {low} to {high} is what observers use most on a usual "
        "night (common practice); here the ceiling of about {ceiling} comes first."
    ),
}
_RARELY_MORE: Final = "{planet} rarely gains from more than {most} (common practice)."
_OUTSHINES: Final = "What outshines every star {span}, in the {where}, is {other} and not {planet}."
_BETTER_PLACED: Final = "On this evening {other} is better placed: {span}."


def answer_reasons(
    answer: Answer | None,
    clock: SiteClock | None,
    *,
    units: Units = USUAL_UNITS,
) -> tuple[str, ...]:
    """Return what the answer rests on, in the order in which it is asked; None for both without a site."""
    if answer is None or clock is None:
        return (_NO_SITE,)
    prospect, limiter = answer.prospect, answer.limiter
    return (
        *_sun_cautions(prospect),
        _course(prospect, clock),
        sun_course_sentence(prospect.night.sun, clock),
        *_windows(prospect, clock),
        *_stop(prospect, clock),
        *_readiness(prospect, clock, units),
        *_power(prospect, clock, units),
        *_mount(prospect),
        *_bright_others(prospect, clock),
        *_another_planet(prospect, limiter, clock),
    )


def _sun_cautions(prospect: Prospect) -> Iterator[str]:
    """Yield the warning that belongs to anything looked for near the Sun or by day."""
    body, label = prospect.body, prospect.planet.label
    if body.elongation_deg < TOO_NEAR_THE_SUN_DEG:
        where = beside_the_sun(body.body, body.elongation_deg, body.highest.time)
        yield _NEAR_THE_SUN.format(planet=opening(prospect.planet), where=where, blinds=SUNLIGHT_BLINDS)
    elif body.why_not_kind is WhyNot.SUN_UP:
        yield _BY_DAY.format(planet=label, blinds=SUNLIGHT_BLINDS)


def _course(prospect: Prospect, clock: SiteClock) -> str:
    body = prospect.body
    name, highest = opening(body.body), altitude_text(body.highest.altitude_deg)
    if body.state is BodyState.NEVER_UP:
        return _NEVER_UP.format(planet=name)
    if body.state is BodyState.ALWAYS_UP:
        return _ALWAYS_UP.format(planet=name, time=clock.time(body.highest.time), height=highest)
    events = [(time, _RISES.format(time=clock.time(time))) for time in body.rises]
    events.append((body.highest.time, _HIGHEST.format(time=clock.time(body.highest.time), height=highest)))
    events += [(time, _SETS.format(time=clock.time(time))) for time in body.sets]
    return _COURSE.format(planet=name, events=", ".join(words for _, words in sorted(events)))


def _windows(prospect: Prospect, clock: SiteClock) -> Iterator[str]:
    """Yield where it stands when, and what hides it while the sky is dark enough, by their times."""
    body = prospect.body
    if body.why_not is not None:
        yield _NO_WINDOW.format(why_not=why_not_words(body.body, body.why_not))
    windows = offered_windows(prospect.night, body.body)
    # One of a few seconds beside others is nothing to tell.
    shown = [window for window in windows if window.end - window.start >= _A_MINUTE] or windows
    told = [(window.start, _window_words(window, clock)) for window in shown]
    told += [
        (span.start, _BLOCKED.format(span=clock.span(span.start, span.end), blocked=blocked_words(span.what)))
        for span in body.blocked
        if prospect.night.is_ever_dark(prospect.planet, span.start, span.end)
    ]
    yield from (words for _, words in sorted(told))
    if windows:
        yield _BANDS


def _window_words(window: Window, clock: SiteClock) -> str:
    templates = _WINDOWS if window.warm_air is None else _WINDOWS_THROUGH
    return templates[window.grade].format(
        span=clock.span(window.start, window.end),
        air=None if window.warm_air is None else warm_air_words(window.warm_air),
    )


def _stop(prospect: Prospect, clock: SiteClock) -> Iterator[str]:
    """Yield when to stop, for a planet that is looked at until dawn."""
    best, stop = prospect.best, stop_time(prospect.night)
    if best is not None and stop is not None and best.end == stop:
        yield _STOP.format(stop=clock.time(stop))


def _readiness(prospect: Prospect, clock: SiteClock, units: Units) -> Iterator[str]:
    readiness, since = prospect.readiness, prospect.outside_since
    unit = units.preferences.temperature
    if readiness is not None:
        words = readiness_text(readiness, unit=unit)
        yield words if since is None else time_outside_text(readiness, since, clock, unit=unit)


def _power(prospect: Prospect, clock: SiteClock, units: Units) -> Iterator[str]:
    position, ladder = prospect.position, prospect.ladder
    if position is None:
        return
    yield (_HEIGHT if position.path is None else _HEIGHT_AND_PATH).format(
        when=clock.time(position.time),
        planet=prospect.planet.label,
        height=altitude_text(position.altitude_deg),
        path=None if position.path is None else path_text(position.path),
    )
    if ladder is None:
        yield _NO_TELESCOPE
        return
    yield all_limits_sentence(ladder)
    yield _RULE_OF_THUMB
    yield from usual_powers(ladder)
    yield from ladder_notice_texts(ladder, units)


def _mount(prospect: Prospect) -> Iterator[str]:
    """Yield that the mount shakes, one thing to try, and how to find out where that is a guess."""
    if prospect.ladder is None or not shakes(prospect.ladder.scope):
        return
    scope = prospect.ladder.scope
    yield shaking_words(scope)
    yield against_shaking_words(scope)
    untimed = untimed_words(scope)
    if untimed is not None:
        yield untimed


def usual_powers(ladder: Ladder) -> Iterator[str]:
    """Yield what observers use with such an aperture and on such a planet."""
    planet, climb, ceiling = ladder.aim.planet, ladder.climb_to, ladder.ceiling.power
    most = None if planet is None else RARELY_MORE.get(planet)
    if ladder.scope.kind is not TelescopeKind.FIXED:
        aperture_mm = working_aperture_mm(ladder.scope)
        low, high = usual_night_powers(aperture_mm)
        is_cut = ceiling is not None and ceiling < high
        yield _USUAL[aperture_mm > USUAL_NIGHT_APERTURE_MM, is_cut].format(
            low=power_text(low),
            high=power_text(high),
            ceiling="" if ceiling is None else power_text(ceiling),
        )
    if planet is not None and climb is not None and most is not None and climb > most:
        yield _RARELY_MORE.format(planet=opening(planet), most=power_text(most))


def _bright_others(prospect: Prospect, clock: SiteClock) -> Iterator[str]:
    """Yield what shines in the sky when the planet looked for is not there: it is easily taken for it."""
    night, planet = prospect.night, prospect.planet
    if prospect.best is not None or prospect.over is not None or planet is Body.MOON:
        return
    for other in night.bodies:
        if other.body in (planet, Body.MOON) or other.magnitude > BRIGHTEST_STAR_MAGNITUDE:
            continue
        shown = [window for window in other.windows if prospect.now is None or window.end > prospect.now]
        if shown:
            start, end = shown[0].start, shown[-1].end
            middle = night.position(other.body, start + (end - start) / 2)
            yield _OUTSHINES.format(
                span=clock.span(start, end),
                where=compass_text(middle.azimuth_deg),
                other=other.body.label,
                planet=planet.label,
            )


def _another_planet(prospect: Prospect, limiter: Limiter, clock: SiteClock) -> Iterator[str]:
    """Yield a planet that fares better on an evening that serves this one poorly."""
    if limiter not in _SKY_LIMITERS or prospect.over is not None:
        return
    served = prospect.served
    if served is None or served.body in (prospect.planet, Body.MOON):
        return
    if prospect.best is None or served.best.rank > prospect.best.rank or not prospect.best.in_hours:
        yield _BETTER_PLACED.format(
            other=served.body.label, span=clock.span(served.best.start, served.best.end)
        )


_SKY_LIMITERS = frozenset(
    {
        Limiter.NEVER_UP,
        Limiter.NO_DARK_SKY,
        Limiter.BLOCKED,
        Limiter.TOO_LOW,
        Limiter.OUTSIDE_HOURS,
        Limiter.WARM_AIR,
        Limiter.HEIGHT,
    }
)
