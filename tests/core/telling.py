"""Situations of given nights, and their answers in words."""

from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime

from attrs import evolve, frozen

from core.air.blur import Blur
from core.air.readiness import Readiness
from core.air.usual_air import USUAL_AIR_POWER
from core.gear.eye import Eye
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.aim import Aim
from core.ladder.ladder import Ladder
from core.lazy import lazy
from core.looks.happenings import find_happenings
from core.looks.planet_appearance import PlanetAppearance, find_planet_appearance, seen_through
from core.moments.aiming import aim_at, aim_at_best
from core.moments.best_minutes import BestMinutes, find_best_minutes
from core.moments.details import Sharpness
from core.moments.hours import Dusks, HoursOut, Twilight, hours_out
from core.moments.targets import TargetTime, evening_targets
from core.moments.which_planet import best_planet, evening_worths
from core.record.observer import Preferences, Profile
from core.situation.choices import Choices, ScopeOutside
from core.situation.situation import Situation
from core.sky.bodies import Body
from core.sky.night import Night
from core.sky.site import Site
from core.tonight.limiter import Limiter
from core.words.answer import detail_sentences, headline
from core.words.better import better_sentence
from core.words.reasons import answer_reasons
from core.words.site_clock import clock_of
from core.year.better import Better

# Long before any evening that is looked at, so that now is no part of it.
LONG_AGO = datetime(2001, 1, 1, tzinfo=UTC)


@frozen(kw_only=True)
class Told:
    """An answer, in words and as facts."""

    sentence: str
    reasons: tuple[str, ...]
    limiter: Limiter
    planet: Body | None
    best: BestMinutes | None
    ladder: Ladder | None


def situation_of(
    night: Night | None,
    *,
    planet: Body | None = None,
    scope: Telescope | None = None,
    eyepieces: Sequence[Eyepiece] = (),
    barlows: Sequence[Barlow] = (),
    eye: Eye | None = None,
    blur: Blur | None = None,
    readiness: Readiness | None = None,
    outside_since: datetime | None = None,
    now: datetime | None = None,
    clock: int = 24,
    usual_air: float = USUAL_AIR_POWER,
    out_until: str = "dawn",
) -> Situation:
    """Return the situation of a night as it is given, whatever its site's own evening would be.

    The owner is outside all night unless told otherwise.
    """
    given_night, given_readiness = night, readiness

    class OfThisNight(Situation):
        @lazy
        def night(self) -> Night | None:
            return given_night

        @lazy
        def readiness(self) -> Readiness | None:
            return given_readiness

    sites = () if night is None else (evolve(night.site, id="here"),)
    profile = Profile(
        sites=sites,
        telescopes=() if scope is None else (scope,),
        eyepieces=tuple(eyepieces),
        barlows=tuple(barlows),
        eye=eye or Eye(),
        preferences=Preferences(clock=clock, out_until=out_until),
    )
    choices = Choices(
        profile=profile,
        evening=date(2001, 1, 1) if night is None else night.evening,
        planet=planet,
        blur=blur or Blur.assumed(),
        lifted_on=None if night is None or usual_air == USUAL_AIR_POWER else night.evening,
    )
    if outside_since is not None and night is not None:
        spot = (night.evening, "here", scope.id if scope is not None else "")
        note = ScopeOutside(evening=spot[0], site_id=spot[1], scope_id=spot[2], since=outside_since)
        choices = choices.with_outside(spot, note)
    return OfThisNight(choices, now or LONG_AGO)


def answer(
    night: Night | None, *, better: Callable[[Site, Body, date], Better | None] | None = None, **given: object
) -> Told:
    """Return the answer for a night; ``better`` stands in for the search of a better evening."""
    situation = situation_of(night, **given)  # type: ignore[arg-type]  # passed on as they are
    found, clock = situation.answer, clock_of(situation)
    sentence = " ".join(filter(None, (headline(found, clock), detail_sentences(found, clock))))
    if found is not None and night is not None and found.is_poor and better is not None:
        next_one = better(night.site, found.planet, night.evening)
        sentence = f"{sentence} {better_sentence(found.prospect, next_one)}"
    return Told(
        sentence=sentence,
        reasons=answer_reasons(found, clock),
        limiter=Limiter.NOTHING if found is None else found.limiter,
        planet=None if found is None else found.planet,
        best=None if found is None else found.best,
        ladder=None if found is None else found.ladder,
    )


def best_aim(night: Night, planet: Body, at: datetime | None = None) -> Aim:
    """Return the aim at a planet at a time, in its best moment without one."""
    if at is not None:
        return aim_at(night, planet, at)
    return aim_at_best(night, planet, find_best_minutes(night, planet))


def appearance_of(
    night: Night, planet: Body, *, at: datetime | None = None, ladder: Ladder | None = None
) -> PlanetAppearance:
    """Return how a planet looks where a ladder's telescope points, else at a time or in its best moment."""
    aim = best_aim(night, planet, at) if ladder is None else ladder.aim
    bare = find_planet_appearance(night, planet, aim=aim, happenings=find_happenings(night, planet))
    return bare if ladder is None else seen_through(ladder, bare)


def all_night(night: Night) -> HoursOut:
    """Return the hours of an owner who is outside from dusk to dawn."""
    return hours_out(Dusks.of(night), start=Twilight.DUSK, end=Twilight.DAWN)


def targets_of(night: Night, planet: Body | None = None) -> tuple[TargetTime, ...]:
    """Return the targets of a night for an owner who is outside all of it."""
    return evening_targets(night, hours=all_night(night), sharpness=Sharpness(), in_hand=planet, kept=planet)


def planet_of(night: Night, hours: HoursOut | None = None) -> Body | None:
    """Return the planet that a night serves best, for an owner who is outside all of it or in some hours."""
    return best_planet(evening_worths(night, hours=hours or all_night(night), sharpness=Sharpness()))
