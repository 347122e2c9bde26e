"""The reasons behind the answer: plain sentences, one thing each, never none."""

from collections.abc import Iterator

from core.air.steadiness import BlurSource
from core.gear.aperture import working_aperture_mm
from core.gear.optics import usual_night_powers
from core.gear.owned import TelescopeKind
from core.ladder.ladder import Ladder
from core.moments.best_minutes import find_best_minutes, offered_windows, stop_time
from core.moments.which_planet import best_planet
from core.sky.bodies import Body
from core.sky.events import SUN_HORIZON_DEG
from core.sky.night import BodyState, Grade, SunNight, WhyNot
from core.sky.sunlight import TOO_NEAR_THE_SUN_DEG
from core.tonight.answer import Answer
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect
from core.words.cautions import SUNLIGHT_BLINDS, beside_the_sun
from core.words.cooling import readiness_text, words_outside
from core.words.directions import altitude_text, compass_text
from core.words.names import opening
from core.words.notices import ladder_notice_texts
from core.words.obstacles import blocked_words, warm_air_words
from core.words.quantities import power_text
from core.words.site_clock import SiteClock
from core.words.why_not import why_not_words

# More power than this seldom shows more of these two (common practice, no source).
RARELY_MORE = {Body.JUPITER: 200.0, Body.SATURN: 250.0}

# Sirius; a planet that outshines it is taken for whichever planet somebody looks for.
BRIGHTEST_STAR_MAGNITUDE = -1.46

_GRADES = {
    Grade.BEST: "above 45°, best",
    Grade.FAIR: "from 30° to 45°, fair",
    Grade.LOW: "under 30°, low in thick air",
}


def answer_reasons(answer: Answer | None, clock: SiteClock | None) -> tuple[str, ...]:
    """Return what the answer rests on, in the order in which it is asked; None for both without a site."""
    if answer is None or clock is None:
        return ("When and how high a planet stands depends on the place, and no site is known yet.",)
    prospect, limiter = answer.prospect, answer.limiter
    return (
        *_sun_cautions(prospect),
        _course(prospect, clock),
        _sun_course(prospect.night.sun, clock),
        *_windows(prospect, clock),
        *_stop(prospect, clock),
        *_blocked(prospect, clock),
        *_readiness(prospect, clock),
        *_power(prospect, clock),
        *_bright_others(prospect, clock),
        *_another_planet(prospect, limiter, clock),
    )


def _sun_cautions(prospect: Prospect) -> Iterator[str]:
    """Yield the warning that belongs to anything looked for near the Sun or by day."""
    body, label = prospect.body, prospect.planet.label
    if body.elongation_deg < TOO_NEAR_THE_SUN_DEG:
        where = beside_the_sun(body.body, body.elongation_deg, body.highest.time)
        words = "never search for it while any of the Sun is up"
        yield f"{opening(prospect.planet)} stands only {where}: {words}. {SUNLIGHT_BLINDS}"
    elif body.why_not_kind is WhyNot.SUN_UP:
        yield (
            f"Do not search for {label} while the Sun is up. {SUNLIGHT_BLINDS} "
            "Whoever must look by day stands in the shadow of something solid."
        )


def _course(prospect: Prospect, clock: SiteClock) -> str:
    body = prospect.body
    name, highest = opening(body.body), altitude_text(body.highest.altitude_deg)
    if body.state is BodyState.NEVER_UP:
        return f"{name} is never up here on this evening: it stays below the horizon all the time."
    if body.state is BodyState.ALWAYS_UP:
        return (
            f"{name} is always up here on this evening: highest {clock.time(body.highest.time)} at {highest}."
        )
    steps = [f"rises {clock.time(time)}" for time in body.rises]
    steps += [f"highest {clock.time(body.highest.time)} at {highest}"]
    steps += [f"sets {clock.time(time)}" for time in body.sets]
    times = [*body.rises, body.highest.time, *body.sets]
    in_order = (step for _, step in sorted(zip(times, steps, strict=True)))
    return f"{name}: {', '.join(in_order)}."


def _sun_course(sun: SunNight, clock: SiteClock) -> str:
    if sun.lowest_altitude_deg > SUN_HORIZON_DEG:
        return "The Sun does not set on this evening."
    steps = []
    if sun.set is not None:
        steps.append(f"sets {clock.time(sun.set)}")
    if sun.rise is not None:
        steps.append(f"rises {clock.time(sun.rise)}")
    course = " and ".join(steps) or "does not rise on this evening"
    return f"The Sun {course}; it gets {-sun.lowest_altitude_deg:.0f}° below the horizon at most."


def _windows(prospect: Prospect, clock: SiteClock) -> Iterator[str]:
    body = prospect.body
    if body.why_not is not None:
        yield f"No window in a dark enough sky and above 10°: {why_not_words(body.body, body.why_not)}."
    for window in offered_windows(prospect.night, body.body):
        through = "" if window.warm_air is None else f", through {warm_air_words(window.warm_air)}"
        yield f"{clock.span(window.start, window.end)}: {_GRADES[window.grade]}{through}."


def _stop(prospect: Prospect, clock: SiteClock) -> Iterator[str]:
    """Yield when to stop, for a planet that is looked at until dawn."""
    best, stop = prospect.best, stop_time(prospect.night)
    if best is not None and stop is not None and best.end == stop:
        yield f"Off the planet by {clock.time(stop)}, before sunrise, and cap the telescope."


def _blocked(prospect: Prospect, clock: SiteClock) -> Iterator[str]:
    for span in prospect.body.blocked:
        yield f"{clock.span(span.start, span.end)}: {blocked_words(span.what)}."


def _readiness(prospect: Prospect, clock: SiteClock) -> Iterator[str]:
    readiness, since = prospect.readiness, prospect.outside_since
    if readiness is not None:
        yield readiness_text(readiness) if since is None else words_outside(readiness, since, clock)


def _power(prospect: Prospect, clock: SiteClock) -> Iterator[str]:
    position, ladder = prospect.position, prospect.ladder
    if position is None:
        return
    path = "" if position.path is None else f", through {position.path:.1f} times the air overhead"
    when, height = clock.time(position.time), altitude_text(position.altitude_deg)
    yield f"At {when} {prospect.planet.label} stands at {height}{path}."
    if ladder is None:
        yield "Without a telescope nothing can be said about power."
        return
    yield _limits(ladder)
    yield "A ceiling is a rule of thumb: still moments may allow more, a poor hour less."
    yield from usual_powers(ladder)
    yield from ladder_notice_texts(ladder)


def usual_powers(ladder: Ladder) -> Iterator[str]:
    """Yield what observers use with such an aperture and on such a planet, where it lies under the limits."""
    planet, climb = ladder.aim.planet, ladder.climb_to
    usual = usual_night_powers(working_aperture_mm(ladder.scope))
    most = None if planet is None else RARELY_MORE.get(planet)
    if usual is not None and ladder.scope.kind is not TelescopeKind.FIXED:
        powers = f"{power_text(usual[0])} to {power_text(usual[1])}"
        ceiling = ladder.ceiling.power
        beyond = ", more than this ceiling" if ceiling is not None and ceiling < usual[0] else ""
        yield f"With this aperture observers use {powers} most on a usual night{beyond} (common practice)."
    if planet is not None and climb is not None and most is not None and climb > most:
        yield f"{opening(planet)} rarely gains from more than {power_text(most)} (common practice)."


def _limits(ladder: Ladder) -> str:
    limits = ladder.limits
    words = [
        f"aperture {power_text(limits.aperture)}",
        f"usual air {power_text(limits.usual_air)}",
    ]
    if limits.tonight_air is not None:
        source = {
            BlurSource.ASSUMED: ", assumed fair",
            BlurSource.GIVEN: ", as given",
            BlurSource.LOG: ", from your verdicts",
        }[ladder.blur.source]
        blur = f"blur {ladder.blur.overhead_arcsec:.3g}″ overhead{source}"
        words.append(f"tonight's air (seeing) {power_text(limits.tonight_air)} ({blur})")
    return f"Limits of power there: {', '.join(words)}; the lowest is the ceiling."


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
            yield (
                f"What outshines every star {clock.span(start, end)}, in the "
                f"{compass_text(middle.azimuth_deg)}, is {other.body.label} and not {planet.label}."
            )


def _another_planet(prospect: Prospect, limiter: Limiter, clock: SiteClock) -> Iterator[str]:
    """Yield a planet that fares better on an evening that serves this one poorly."""
    if limiter not in _SKY_LIMITERS or prospect.over is not None:
        return
    other = best_planet(prospect.night)
    if other is None or other in (prospect.planet, Body.MOON):
        return
    best = find_best_minutes(prospect.night, other, since=prospect.now)
    if best is not None and (prospect.best is None or best.worth > prospect.best.worth):
        yield f"On this evening {other.label} is better placed: {clock.span(best.start, best.end)}."


_SKY_LIMITERS = frozenset(
    {
        Limiter.NEVER_UP,
        Limiter.NO_DARK_SKY,
        Limiter.BLOCKED,
        Limiter.TOO_LOW,
        Limiter.WARM_AIR,
        Limiter.HEIGHT,
    }
)
