"""The one sentence itself: when the planet is best, how far to climb, and what limits it."""

from datetime import datetime
from typing import Final

from core.moments.best_minutes import SHORTEST_USEFUL
from core.moments.targets import TargetTime
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.events import SUN_HORIZON_DEG
from core.sky.why_not import WhyNot
from core.tonight.answer import Answer
from core.tonight.limiter import Limiter
from core.tonight.prospect import Prospect
from core.words.aim import aim_notices, no_ceiling_words
from core.words.best_minutes import When, best_words, is_too_short, where_words
from core.words.better import better_sentence
from core.words.directions import altitude_text
from core.words.how_far import climb_words
from core.words.last_call import last_call_words
from core.words.names import capitalised, opening
from core.words.pairs import pairs_in_hand
from core.words.preparation import carry_out_wordings
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
        "{planet} is done for this evening: the sky has been too bright since {end}. "
        "Its best minutes were {best}."
    ),
}
_HOURS_OVER: Final = "Your hours, {hours}, are over."
_ONLY_BEFORE_SUNRISE: Final = (
    "On this evening {planet} has only the last minutes before sunrise, too close to the Sun's light."
)
_NEVER_DARK: Final = "On this evening the sky never gets dark enough for {planet}."
_SUN_STAYS_UP: Final = "On this evening the Sun stays up, and the sky never gets dark enough for {planet}."
_NO_WINDOW: Final = "On this evening {planet} is {why_not}."
_TURN: Final = "When you have seen enough of {in_hand}, {planet} is next, until {end}: {where}."
_FOLLOWING: Final = "Go over to {planet} at {start}."
_NEXT: Final = "Next comes {planet}, from {start}."
_FIRST: Final = "Begin with {planet} at {start}."
_NOTHING_BEFORE: Final = "No planet is worth a look before {start}."
_MEANWHILE: Final = "Until then {planet} stands higher: {where}."
_ELSEWHEN: Final = {
    When.STAY_UP: "If you stay up, {planet} from {start}.",
    When.GET_UP: "Before dawn, if you get up early, {planet} from {start}.",
    When.EARLIER: "If you go out earlier, {planet} from {start}.",
}

# The same body as was spoken of just before.
_ELSEWHEN_ITSELF: Final = {
    When.STAY_UP: "If you stay up, it stands better from {start}.",
    When.GET_UP: "Before dawn, if you get up early, it stands better from {start}.",
    When.EARLIER: "If you go out earlier, it stands better from {start}.",
}
# One of which there is something in the hours already.
_ELSEWHEN_BETTER: Final = {
    When.STAY_UP: "If you stay up, {planet} stands better from {start}.",
    When.GET_UP: "Before dawn, if you get up early, {planet} stands better from {start}.",
    When.EARLIER: "If you go out earlier, {planet} stands better from {start}.",
}
# Of one that is still rising as the hours end; first where it was spoken of just before.
_ELSEWHEN_HIGHER_ITSELF: Final = {
    When.STAY_UP: "If you stay up, it stands higher: {height} at {start}.",
    When.GET_UP: "Before dawn, if you get up early, it stands higher: {height} at {start}.",
}
_ELSEWHEN_HIGHER: Final = {
    When.STAY_UP: "If you stay up, {planet} stands higher: {height} at {start}.",
    When.GET_UP: "Before dawn, if you get up early, {planet} stands higher: {height} at {start}.",
}
_NOTHING_OFFERED: Final = "{reason}."


def answer_words(situation: Situation) -> str:
    """Return the answer to a situation, and where it is poor, when it will be better.

    While the telescope is still to be carried out, that comes before what to do at it.
    """
    told = (answer_headline(situation), *carry_out_told(situation)[:1], answer_detail(situation))
    return " ".join(filter(None, told))


def answer_headline(situation: Situation) -> str:
    """Return the first sentences of the answer: which planet, when, and where to look."""
    return headline(situation.answer, clock_of(situation))


def carry_out_told(situation: Situation) -> tuple[str, ...]:
    """Return when to carry the telescope out, in few words and in ever fewer; nothing once it is out."""
    item, clock = situation.carry_out, clock_of(situation)
    return () if item is None or clock is None else carry_out_wordings(item, clock)


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

    What is told after the owner's hours is told as that. ``answer`` and ``clock`` are None without a site.
    """
    if answer is None or clock is None:
        return _NO_SITE
    prospect, limiter = answer.prospect, answer.limiter
    if answer.last_call is not None:
        return last_call_words(answer.last_call, clock)
    if prospect.over is None and prospect.best is None:
        return _no_window_words(prospect)
    words = (
        best_words(prospect, limiter, clock)
        if prospect.over is None
        else _over_words(prospect, limiter, clock)
    )
    hours = prospect.hours
    if hours is None or not prospect.hours_are_over or limiter is Limiter.OUTSIDE_HOURS:
        # What is outside the hours tells of them itself.
        return words
    return " ".join((_HOURS_OVER.format(hours=clock.span(hours.start, hours.end)), words))


def detail_sentences(answer: Answer | None, clock: SiteClock | None, *, later: str | None = None) -> str:
    """Return which eyepieces and what limits them, and what another hour would give; maybe nothing.

    ``later`` is a sentence about another date.
    """
    if answer is None or clock is None or answer.last_call is not None:
        return ""
    prospect, limiter = answer.prospect, answer.limiter
    is_short = limiter is Limiter.OUTSIDE_HOURS and is_too_short(prospect)
    climb = None if prospect.best is None or is_short else climb_words(prospect, limiter, clock)
    return " ".join(
        filter(
            None,
            (
                _meanwhile_words(prospect),
                climb,
                _turn_words(prospect, clock),
                later,
                _elsewhen_words(prospect, limiter, clock, has_better_date=later is not None),
            ),
        )
    )


def _elsewhen_words(
    prospect: Prospect, limiter: Limiter, clock: SiteClock, *, has_better_date: bool
) -> str | None:
    found = prospect.elsewhen
    if found is None or limiter is Limiter.OUTSIDE_HOURS:
        return None
    is_told = prospect.best is not None and found.start <= prospect.best.start
    if found.body is prospect.planet and (prospect.better_later is not None or is_told):
        return None
    when = When.EARLIER if found.is_earlier else When.GET_UP if found.is_before_dawn else When.STAY_UP
    templates = _ELSEWHEN
    is_known = found.body is (prospect.planet if has_better_date else _last_named(prospect))
    if found.higher is not None:
        templates = _ELSEWHEN_HIGHER_ITSELF if is_known else _ELSEWHEN_HIGHER
    elif is_known:
        templates = _ELSEWHEN_ITSELF
    elif found.body is prospect.planet or any(
        target.body is found.body and target.minutes.in_hours for target in prospect.targets
    ):
        templates = _ELSEWHEN_BETTER
    return templates[when].format(
        planet=found.body.label,
        start=clock.time(found.start),
        height="" if found.higher is None else altitude_text(found.higher.altitude_deg),
    )


def _last_named(prospect: Prospect) -> Body:
    """Return the body that is spoken of last where it is told what comes next."""
    by_now = None if prospect.now is None else prospect.turn or prospect.following
    named = by_now or prospect.first
    return prospect.planet if named is None else named.body


def _turn_words(prospect: Prospect, clock: SiteClock) -> str | None:
    """Return what comes next in the evening's order, and when: what is in hand alone is told as now."""
    turn, now, following = prospect.turn, prospect.now, prospect.following
    if turn is not None and now is not None:
        where = where_words(prospect.night.position(turn.body, now))
        return _TURN.format(
            in_hand=prospect.planet.label,
            planet=turn.body.label,
            end=clock.time(turn.minutes.end),
            where=where,
        )
    if following is not None and now is not None:
        return _told(_following_template(prospect, following, now), following, clock)
    if prospect.first is not None:
        return _told(_FIRST, prospect.first, clock)
    before = prospect.nothing_before
    return None if before is None else _NOTHING_BEFORE.format(start=clock.time(before))


def _following_template(prospect: Prospect, following: TargetTime, now: datetime) -> str:
    """Return how to tell what follows: by whether there is something in sight to go over from."""
    ended = [target.minutes.end for target in prospect.targets if target.minutes.start <= now]
    if any(window.holds(now) for window in prospect.body.windows):
        is_at_once = not ended or following.minutes.start - ended[-1] < SHORTEST_USEFUL
        return _FOLLOWING if is_at_once else _NEXT
    return _NEXT if ended else _FIRST


def _told(template: str, target: TargetTime, clock: SiteClock) -> str:
    return template.format(planet=target.body.label, start=clock.time(target.minutes.start))


def _meanwhile_words(prospect: Prospect) -> str | None:
    """Return what stands higher until the planet in hand is better."""
    body, now = prospect.meanwhile, prospect.now
    if body is None or now is None or prospect.later is not None:
        return None
    where = where_words(prospect.night.position(body, now))
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
        stays_up = prospect.night.sun.lowest_altitude_deg > SUN_HORIZON_DEG
        return (_SUN_STAYS_UP if stays_up else _NEVER_DARK).format(planet=label)
    return _NO_WINDOW.format(planet=label, why_not=why_not_words(prospect.planet, body.why_not))
