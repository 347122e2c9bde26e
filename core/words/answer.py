"""The one sentence itself: when the planet is best, how far to climb, and what limits it."""

from collections.abc import Callable
from datetime import date

from core.air.steadiness import BlurSource, LimitKind
from core.gear.owned import TelescopeKind
from core.ladder.ladder import Ladder
from core.sky.ephemeris import usable_dates
from core.sky.events import FAIR_DEG, LOWEST_USEFUL_DEG
from core.sky.night import WhyNot
from core.sky.windows import warm_air_words
from core.tonight.limiter import Limiter, Outlook
from core.words.dates import date_text
from core.words.directions import altitude_text
from core.words.ladder import no_ceiling_text
from core.words.names import opening
from core.words.quantities import power_text, pupil_text
from core.words.site_clock import SiteClock
from core.year.better import LOOKED_AHEAD, Better

# So little past the ceiling a rung may still be tried (ours).
_JUST_OVER_RATIO = 1.1
# A height that another evening betters by less than this is as good (ours).
_AS_HIGH_DEG = 1.0
# The answers that another date may better.
POOR = frozenset({Limiter.NEVER_UP, Limiter.NO_DARK_SKY, Limiter.BLOCKED, Limiter.TOO_LOW, Limiter.HEIGHT})


def write_sentence(
    outlook: Outlook,
    limiter: Limiter,
    clock: SiteClock,
    *,
    owns_eyepieces: bool,
    better: Callable[[], Better | None] | None,
) -> str:
    """Return the sentence; ``better`` is called only when the answer is poor."""
    if outlook.over is not None:
        return _over_words(outlook, limiter, clock)
    if outlook.best is None:
        words = [_no_window_words(outlook)]
    else:
        words = [
            _best_words(outlook, limiter, clock),
            _climb_words(outlook, limiter, clock, owns_eyepieces=owns_eyepieces),
        ]
    if limiter in POOR and better is not None:
        words.append(_better_words(outlook, better()))
    return " ".join(words)


def what_sets_ceiling(ladder: Ladder) -> str:
    """Return what sets the ceiling: ``tonight's air (seeing, assumed fair)``."""
    if ladder.ceiling.set_by is LimitKind.TONIGHT_AIR:
        assumed = ", assumed fair" if ladder.blur.source is BlurSource.ASSUMED else ""
        return f"tonight's air (seeing{assumed})"
    if ladder.ceiling.set_by is LimitKind.USUAL_AIR:
        return "the air on most nights"
    return "this aperture"


def _over_words(outlook: Outlook, limiter: Limiter, clock: SiteClock) -> str:
    assert outlook.over is not None
    last = outlook.body.windows[-1].end
    why = {
        Limiter.BLOCKED: f"behind blocked sky since {clock.time(last)}",
        Limiter.TOO_LOW: f"under 10° since {clock.time(last)}",
    }.get(limiter, f"the sky is too bright since {clock.time(last)}")
    best = clock.span(outlook.over.start, outlook.over.end)
    return f"{opening(outlook.planet)} is done for this evening: {why}. Its best minutes were {best}."


def _no_window_words(outlook: Outlook) -> str:
    """Return that there is nothing to see, and why, in words that tell the kinds apart."""
    body, label = outlook.body, outlook.planet.label
    if body.why_not is None:
        return (
            f"On this evening {label} has only the last minutes before sunrise, too close to the Sun's light."
        )
    if body.why_not_kind is WhyNot.NO_DARK_SKY:
        return f"On this evening the sky never gets dark enough for {label}."
    return f"On this evening {label} is {body.why_not}."


def _best_words(outlook: Outlook, limiter: Limiter, clock: SiteClock) -> str:
    best, position = outlook.best, outlook.position
    assert best is not None
    assert position is not None
    name = opening(outlook.planet)
    if outlook.is_best_now:
        words = f"{name} is at its best now, until {clock.time(best.end)}"
    else:
        words = f"{name} is best {clock.span(best.start, best.end)}"
    if best.then is not None:
        words += f", then {best.then}"
    if limiter is Limiter.WARM_AIR and outlook.warm_air is not None:
        words += f", though only through {warm_air_words(outlook.warm_air)}"
    elif limiter is Limiter.HEIGHT:
        height = altitude_text(position.altitude_deg, under_deg=FAIR_DEG)
        words += (
            f", though low, {f'at {height}' if outlook.is_best_now else f'{height} at most'}, in thick air"
        )
    return f"{words}."


def _climb_words(outlook: Outlook, limiter: Limiter, clock: SiteClock, *, owns_eyepieces: bool) -> str:
    ladder = outlook.ladder
    if ladder is None:
        return "Add a telescope in Gear to see how far you can climb."
    if not ladder.rungs:
        if owns_eyepieces:
            return "None of your eyepieces fits this telescope."
        return "Add an eyepiece in Gear to see how far you can climb."
    start, climb = ladder.start, ladder.climb_to
    if limiter is Limiter.MIRROR_WARM:
        return _not_ready_words(outlook, ladder, clock)
    if ladder.ceiling.power is None:
        return f"{no_ceiling_text(ladder)}."
    if climb is None:
        return _over_the_ceiling_words(ladder, limiter)
    if start is None or start >= climb:
        words = f"Stay at {power_text(climb)}"
    else:
        words = f"Start at {power_text(start)}, climb to {power_text(climb)}"
    return f"{words}{_stop_words(ladder, limiter)}."


def _not_ready_words(outlook: Outlook, ladder: Ladder, clock: SiteClock) -> str:
    start = power_text(ladder.start if ladder.start is not None else ladder.rungs[0].power)
    if outlook.ready_at is None:
        return (
            f"Stay near {start}: this evening the telescope never comes within 1 °C of the air (an estimate)."
        )
    later = "" if ladder.climb_to is None else f", then climb to {power_text(ladder.climb_to)}"
    ready = clock.time(outlook.ready_at)
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
    """Return the rung that misses the ceiling by a hair: a rule of thumb is no better than that."""
    ceiling = ladder.ceiling.power
    assert ceiling is not None
    over = [rung.power for rung in ladder.rungs if ceiling < rung.power <= ceiling * _JUST_OVER_RATIO]
    return f", though {power_text(over[0])} is near enough to try" if over else ""


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


def _better_words(outlook: Outlook, better: Better | None) -> str:
    """Return when it is better, or that this is about as good as it gets."""
    sky = "in a dark sky, clear of what blocks the view," if outlook.night.site.blocked else "in a dark sky"
    within, throughout = _time_looked_ahead(outlook.night.evening)
    if better is None:
        return f"It does not get above {LOWEST_USEFUL_DEG:.0f}° {sky} {within}."
    day = date_text(better.day, beside=outlook.night.evening)
    if better.is_good:
        return f"It stands above {FAIR_DEG:.0f}° {sky} from {day}."
    if outlook.position is not None and outlook.position.altitude_deg >= better.altitude_deg - _AS_HIGH_DEG:
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
