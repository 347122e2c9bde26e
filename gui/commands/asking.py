"""From the words of a command line to the situation that answers them."""

from argparse import Namespace
from datetime import date, datetime, timedelta
from enum import Enum, auto

from core.air.steadiness import Blur
from core.ladder.contenders import Pick
from core.moments.hours import Dusks, Hour, Twilight, typed_hours
from core.problems import ProblemsError, refuse
from core.record.choose import choose
from core.record.observer import Profile
from core.record.profile import read_profile
from core.situation.choices import Choices, EveningHours, EveningTemperatures
from core.situation.situation import Situation
from core.sky.civil import evening_span, tonight
from core.sky.ephemeris import check_date
from core.sky.night import compute_night
from core.sky.site import Site
from gui.commands.parsing import placed
from gui.commands.sky import choose_site, night_around, read_time
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
    asked = vars(args)
    profile = read_profile(args.profile)
    scope = first = second = None
    if needs is Asked.TWO_SCOPES:
        first = choose(profile.telescopes, args.scope_a, what="telescope", where="SCOPE_A")
        second = choose(profile.telescopes, args.scope_b, what="telescope", where="SCOPE_B")
    elif needs is Asked.SCOPE or profile.telescopes or asked["scope"] is not None:
        scope = choose(profile.telescopes, asked["scope"], what="telescope", where="--scope")
    planet = evening = time = site = hours = temperatures = None
    if asked.get("planet") is not None:
        planet = args.planet
    if planet is not None or needs is Asked.NIGHT:
        site = choose_site(profile, args.site)
        if asked.get("now") is not None:
            now = read_time(site, args.now, where="--now")
        time = None if asked.get("at") is None else read_time(site, args.at)
        evening = _evening(site, args.evening, time, now)
        hours = _hours(profile, site, evening, asked.get("out_from"), asked.get("out_until"))
        if "indoor" in asked:
            temperatures = _temperatures(args, site, evening, now)
    chosen = first or scope
    situation = Situation(
        Choices(
            profile=profile,
            site_id="" if site is None else site.id,
            scope_id="" if chosen is None else chosen.id,
            evening=evening,
            time=time,
            time_is_asked=True,
            hours=() if hours is None else (hours,),
            temperatures=() if temperatures is None else (temperatures,),
            planet=planet,
            altitude_deg=asked.get("altitude"),
            blur=asked.get("blur") or Blur.assumed(),
            second=None if second is None else Pick(second.id),
        ),
        now,
        has_sky=site is not None,
    )
    if situation.night_problem:
        raise refuse(situation.night_problem)
    return situation


def _evening(site: Site, evening: date | None, time: datetime | None, now: datetime) -> date:
    """Return the evening that is meant, after looking whether it can be had."""
    if time is not None:
        return night_around(site, evening, time).evening
    try:
        evening = tonight(site, now) if evening is None else evening
        check_date(evening)
        evening_span(site, evening)
    except ProblemsError as error:
        raise placed(error, "--evening") from None
    return evening


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
    told_at = now if night.start <= now < night.end else before_dusk
    return EveningTemperatures(evening=evening, site_id=site.id, told_at=told_at, temperatures=found)
