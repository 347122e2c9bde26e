"""From the words of a command line to the situation that answers them."""

from argparse import Namespace
from datetime import date, datetime, timedelta
from enum import Enum, auto

from attrs import evolve

from core.air.blur import Blur
from core.gear.owned import Telescope
from core.ladder.contenders import Pick
from core.moments.hours import Dusks, Hour, Twilight, typed_hours
from core.problems import ProblemsError, refuse
from core.record.observer import Profile
from core.record.profile import read_profile
from core.situation.choices import Choices, EveningHours, EveningTemperatures
from core.situation.situation import Situation
from core.sky.night import compute_night
from core.sky.site import Site
from gui.commands.chosen import choose_scope, choose_site, evening_meant, read_time, scope_if_any
from gui.commands.parsing import placed
from gui.commands.warmth import temperatures_of

_HOUR = timedelta(hours=1)


class Asked(Enum):
    """What a command cannot do without: a night, a telescope, or two of them."""

    NIGHT = auto()
    SCOPE = auto()
    TWO_SCOPES = auto()


def situation_of(args: Namespace, now: datetime, *, needs: Asked) -> Situation:
    """Return the situation that a command's arguments ask for; ProblemsError names what cannot be had.

    Without a planet, a height or a need of a night it points straight overhead, wherever that is.
    """
    asked = vars(args)  # each command has only some of the options
    profile = read_profile(args.profile)
    scope, second = _telescopes(profile, args, needs)
    choices = Choices(
        profile=profile,
        scope_id="" if scope is None else scope.id,
        second=None if second is None else Pick(second.id),
        time_is_asked=True,
        planet=asked.get("planet"),
        altitude_deg=asked.get("altitude"),
        blur=asked.get("blur") or Blur.assumed(),
    )
    has_sky = choices.planet is not None or needs is Asked.NIGHT
    if has_sky:
        choices, now = _under_the_sky(choices, args, now)
    situation = Situation(choices, now, has_sky=has_sky)
    if situation.night_problem:
        raise refuse(situation.night_problem)
    return situation


def _telescopes(profile: Profile, args: Namespace, needs: Asked) -> tuple[Telescope | None, Telescope | None]:
    """Return the telescope in hand, and the other one of a comparison."""
    match needs:
        case Asked.TWO_SCOPES:
            first = choose_scope(profile, args.scope_a, where="SCOPE_A")
            return first, choose_scope(profile, args.scope_b, where="SCOPE_B")
        case Asked.SCOPE:
            return choose_scope(profile, args.scope), None
        case Asked.NIGHT:
            return scope_if_any(profile, args.scope), None


def _under_the_sky(choices: Choices, args: Namespace, now: datetime) -> tuple[Choices, datetime]:
    """Return the choices with site, evening and what was said of it, and the moment that counts as now."""
    asked, profile = vars(args), choices.profile
    site = choose_site(profile, args.site)
    if asked.get("now") is not None:
        now = read_time(site, args.now, where="--now")
    time = None if asked.get("at") is None else read_time(site, args.at)
    evening = evening_meant(site, args.evening, time, now)
    hours = _hours(profile, site, evening, args.out_from, args.out_until)
    temperatures = _temperatures(args, site, evening, now) if "indoor" in asked else None
    chosen = evolve(
        choices,
        site_id=site.id,
        evening=evening,
        time=time,
        hours=() if hours is None else (hours,),
        temperatures=() if temperatures is None else (temperatures,),
    )
    return chosen, now


def _hours(
    profile: Profile, site: Site, evening: date, start: Hour | None, end: Hour | None
) -> EveningHours | None:
    """Return the hours that were asked for, after looking whether they end after they start."""
    if start is None and end is None:
        return None
    usual = profile.preferences
    hours = EveningHours(
        evening=evening,
        start=start or usual.out_from_time or Twilight.DUSK,
        end=end or usual.out_until_time or Twilight.DAWN,
    )
    night = compute_night(site, evening, targets=())
    try:
        typed_hours(Dusks.of(night), start=hours.start, end=hours.end)
    except ProblemsError as error:
        raise placed(error, "--out-from" if end is None else "--out-until") from None
    return hours


def _temperatures(args: Namespace, site: Site, evening: date, now: datetime) -> EveningTemperatures | None:
    """Return the temperatures that were given.

    Those of now, on an evening that is not in progress, are taken to be those of an hour before sunset.
    """
    found = temperatures_of(args)
    if found is None:
        return None
    night = compute_night(site, evening, targets=())
    before_dusk = max((night.sun.set or night.start) - _HOUR, night.start)
    told_at = now if night.holds(now) else before_dusk
    return EveningTemperatures(evening=evening, site_id=site.id, told_at=told_at, temperatures=found)
