"""The one sentence itself: when the planet is best, how far to climb, and what limits it."""

from datetime import date
from typing import Final

from core.air.finest_detail import LimitKind
from core.air.steadiness import BlurSource
from core.gear.owned import TelescopeKind
from core.ladder.ladder import Ladder, Standing
from core.situation.situation import Situation
from core.sky.ephemeris import usable_dates
from core.sky.events import FAIR_DEG, LOWEST_USEFUL_DEG
from core.sky.night import WhyNot
from core.tonight.answer import Answer
from core.tonight.limiter import POOR, Limiter
from core.tonight.prospect import Prospect
from core.words.dates import date_text
from core.words.directions import altitude_text
from core.words.ladder import no_ceiling_text
from core.words.names import opening
from core.words.obstacles import then_words, warm_air_words
from core.words.quantities import power_text, pupil_text
from core.words.site_clock import SiteClock, clock_of
from core.words.why_not import why_not_words
from core.year.better import LOOKED_AHEAD, Better

# A height that another evening betters by less than this is as good (ours).
_AS_HIGH_DEG = 1.0
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


def answer_words(situation: Situation) -> str:
    """Return the answer to a situation, and where it is poor, when it will be better."""
    words, better = answer_sentence(situation.answer, clock_of(situation)), better_words(situation)
    return words if better is None else f"{words} {better}"


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
    return f"{_best_words(prospect, limiter, clock)} {_climb_words(prospect, limiter, clock)}"


def what_sets_ceiling(ladder: Ladder) -> str:
    """Return what sets the ceiling: ``tonight's air (seeing, assumed fair)``."""
    if ladder.ceiling.set_by is LimitKind.TONIGHT_AIR:
        assumed = ", assumed fair" if ladder.blur.source is BlurSource.ASSUMED else ""
        return f"tonight's air (seeing{assumed})"
    if ladder.ceiling.set_by is LimitKind.USUAL_AIR:
        return "the air on most nights"
    if ladder.ceiling.set_by is LimitKind.HEIGHT:
        return "this height"
    return "this aperture"


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


def _climb_words(prospect: Prospect, limiter: Limiter, clock: SiteClock) -> str:
    ladder = prospect.ladder
    if ladder is None:
        return "Add a telescope in Gear to see how far you can climb."
    if not ladder.aim.is_offered:
        return f"{no_ceiling_text(ladder)}."
    if not ladder.rungs:
        if prospect.owns_eyepieces:
            return "None of your eyepieces fits this telescope."
        return "Add an eyepiece in Gear to see how far you can climb."
    start, climb = ladder.start, ladder.climb_to
    if limiter is Limiter.MIRROR_WARM:
        return _not_ready_words(prospect, ladder, clock)
    if ladder.ceiling.power is None:
        return f"{no_ceiling_text(ladder)}."
    if climb is None:
        return _over_the_ceiling_words(ladder, limiter)
    if start is None or start >= climb:
        words = f"Stay at {power_text(climb)}"
    else:
        words = f"Start at {power_text(start)}, climb to {power_text(climb)}"
    return f"{words}{_stop_words(ladder, limiter)}."


def _not_ready_words(prospect: Prospect, ladder: Ladder, clock: SiteClock) -> str:
    start = power_text(ladder.start if ladder.start is not None else ladder.rungs[0].power)
    if prospect.ready_at is None:
        return (
            f"Stay near {start}: this evening the telescope never comes within 1 °C of the air (an estimate)."
        )
    later = "" if ladder.climb_to is None else f", then climb to {power_text(ladder.climb_to)}"
    ready = clock.time(prospect.ready_at)
    return f"Stay near {start} until the telescope is ready at about {ready} (an estimate){later}."


def _stop_words(ladder: Ladder, limiter: Limiter) -> str:
    assert ladder.ceiling.power is not None
    if limiter in (Limiter.TONIGHT_AIR, Limiter.USUAL_AIR, Limiter.APERTURE):
        return f": {what_sets_ceiling(ladder)} bears about {power_text(ladder.ceiling.power)}"
    if limiter is Limiter.NO_RUNG_NEAR:
        ceiling = power_text(ladder.ceiling.power)
        if ladder.scope.kind is TelescopeKind.FIXED:
            return f": its power is built in, though the ceiling is about {ceiling}"
        return f": you own nothing between that and the ceiling of about {ceiling}{_just_over(ladder)}"
    return ""


def _just_over(ladder: Ladder) -> str:
    """Return the rung just over the ceiling that is worth a try in calm moments."""
    over = [rung.power for rung in ladder.rungs if rung.standing is Standing.TRY]
    return f", though {power_text(over[0])} is worth a try" if over else ""


def _over_the_ceiling_words(ladder: Ladder, limiter: Limiter) -> str:
    assert ladder.ceiling.power is not None
    lowest = ladder.rungs[0]
    words = (
        f"Even your lowest power, {power_text(lowest.power)}, is over the {power_text(ladder.ceiling.power)} "
        f"that {what_sets_ceiling(ladder)} bears"
    )
    if limiter is Limiter.EXIT_PUPIL:
        pupil = pupil_text(lowest.exit_pupil_mm)
        return f"{words}, with an exit pupil of only {pupil}: expect a dim, soft view."
    return f"{words}: expect a soft view."


def better_sentence(prospect: Prospect, better: Better | None) -> str:
    """Return when it is better, or that this is about as good as it gets; None where it never is."""
    sky = "in a dark sky, clear of what blocks the view," if prospect.night.site.blocked else "in a dark sky"
    within, throughout = _time_looked_ahead(prospect.night.evening)
    if better is None:
        return f"It does not get above {LOWEST_USEFUL_DEG:.0f}° {sky} {within}."
    day = date_text(better.day, beside=prospect.night.evening)
    if better.is_good:
        return f"It stands above {FAIR_DEG:.0f}° {sky} from {day}."
    if prospect.position is not None and prospect.position.altitude_deg >= better.altitude_deg - _AS_HIGH_DEG:
        return f"It hardly gets any higher {sky} {within}."
    height = altitude_text(better.altitude_deg, under_deg=FAIR_DEG)
    return (
        f"It stays under {FAIR_DEG:.0f}° {sky} {throughout}, and next nears its highest, {height}, on {day}."
    )


def _time_looked_ahead(evening: date) -> tuple[str, str]:
    """Return how far ahead a better evening is looked for: within it, and throughout it."""
    last = usable_dates()[1]
    if evening <= last - LOOKED_AHEAD:
        return "within two years", "for two years"
    tables_end = f"the planet tables end, on {date_text(last)}"
    return f"before {tables_end}", f"until {tables_end}"
