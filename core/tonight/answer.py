"""One answer on top: one sentence, always true for the state in hand, and the reasons behind it."""

from collections.abc import Callable, Sequence
from datetime import date, datetime
from functools import partial

from attrs import frozen

from core.air.cooling import Readiness
from core.air.steadiness import USUAL_AIR_POWER, Blur
from core.gear.eye import Eye
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.aim import aim_at
from core.ladder.ladder import Ladder, build_ladder
from core.moments.best_minutes import BestMinutes, best_planet, find_best_minutes, highest_within
from core.sky.bodies import Body
from core.sky.night import Night, WhyNot
from core.sky.site import Site
from core.tonight.limiter import Limiter, Outlook, find_limiter
from core.words.answer import write_sentence
from core.words.reasons import give_reasons
from core.words.site_clock import SiteClock
from core.year.better import Better

__all__ = ["Answer", "Limiter", "answer", "best_planet"]

_USUAL_EYE = Eye()
# The kinds of reason for having no window, from the one that is furthest from a view to the nearest.
_NEARNESS = (WhyNot.NEVER_UP, WhyNot.SUN_UP, WhyNot.NO_DARK_SKY, WhyNot.TOO_LOW, WhyNot.BLOCKED)


@frozen(kw_only=True)
class Answer:
    """The answer for one evening and one planet.

    ``sentence`` is plain text that may hold the owner's words; ``reasons`` are sentences, at least one.
    ``best`` are the best minutes still to come and ``ladder`` the one that the powers are of; each is None
    where there is none, and so is ``planet`` when there is no site.
    """

    sentence: str
    limiter: Limiter
    reasons: tuple[str, ...]
    planet: Body | None
    best: BestMinutes | None
    ladder: Ladder | None


def answer(
    night: Night | None,
    *,
    planet: Body | None = None,
    scope: Telescope | None = None,
    eyepieces: Sequence[Eyepiece] = (),
    barlows: Sequence[Barlow] = (),
    eye: Eye = _USUAL_EYE,
    blur: Blur | None = None,
    usual_air: float = USUAL_AIR_POWER,
    readiness: Readiness | None = None,
    outside_since: datetime | None = None,
    now: datetime | None = None,
    clock: int = 24,
    better: Callable[[Site, Body, date], Better | None] | None = None,
) -> Answer:
    """Return the answer for an evening (None without a site) and what is known of kit and air.

    Without a ``planet`` it is about the one that the evening serves best, without a ``blur`` about fair air,
    marked assumed. ``now`` is the moment in hand; outside the evening it is ignored. The telescope counts as
    ready ``readiness.likely_minutes`` after ``outside_since``. ``clock`` is 12 or 24 hours.

    ``better`` is ``better_evening`` or stands in for it: it is asked only when the answer is poor, and says
    which evening is the next that is better. Without it nothing is said about that.
    """
    if night is None:
        return _without_site()
    body = night.of(planet or best_planet(night) or _nearest_miss(night))
    moment = now if now is not None and night.start <= now < night.end else None
    best = find_best_minutes(night, body.body, since=moment)
    position = None
    if best is not None:
        is_best_now = moment is not None and best.start <= moment < best.end
        position = (
            night.position(body.body, moment)
            if is_best_now and moment is not None
            else highest_within(night, body.body, best)
        )
    ladder = None
    if scope is not None and position is not None:
        ladder = build_ladder(
            scope=scope,
            eyepieces=eyepieces,
            barlows=barlows,
            eye=eye,
            aim=aim_at(night, body.body, position.time),
            blur=blur or Blur.assumed(),
            usual_air=usual_air,
        )
    outlook = Outlook(
        night=night,
        body=body,
        now=moment,
        best=best,
        over=None if best is not None else find_best_minutes(night, body.body),
        position=position,
        ladder=ladder,
        readiness=readiness,
        outside_since=outside_since,
        ready_at=None if readiness is None or outside_since is None else readiness.ready_at(outside_since),
    )
    limiter = find_limiter(outlook)
    site_clock = SiteClock(zone=night.site.zone, hours=clock)
    ask = None if better is None else partial(better, night.site, body.body, night.evening)
    return Answer(
        sentence=write_sentence(outlook, limiter, site_clock, owns_eyepieces=bool(eyepieces), better=ask),
        limiter=limiter,
        reasons=give_reasons(outlook, limiter, site_clock),
        planet=body.body,
        best=best,
        ladder=ladder,
    )


def _without_site() -> Answer:
    return Answer(
        sentence="Add a site in Gear, and the evening's best planet and its hours appear here.",
        limiter=Limiter.NOTHING,
        reasons=("When and how high a planet stands depends on the place, and no site is known yet.",),
        planet=None,
        best=None,
        ladder=None,
    )


def _nearest_miss(night: Night) -> Body:
    """Return the body that comes closest to a view on an evening with no window for any."""

    def closeness(body: Body) -> tuple[int, float]:
        missed = night.of(body)
        kind = missed.why_not_kind
        return -1 if kind is None else _NEARNESS.index(kind), missed.highest.altitude_deg

    return max((body.body for body in night.bodies), key=closeness)
