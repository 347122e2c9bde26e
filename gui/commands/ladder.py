"""``stillair ladder``: every power of one telescope, where it points and in what air."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.ladder import ladder_json
from core.export.parts import to_json
from core.gear.owned import Telescope
from core.ladder.aim import Aim, aim_altitude, aim_at, aim_overhead
from core.ladder.ladder import Ladder, build_ladder
from core.problems import refuse
from core.record.choose import choose, choose_planet
from core.record.observer import Profile
from core.record.profile import read_profile
from core.report.ladder import ladder_text
from core.sky.bodies import Body
from core.sky.site import Site
from core.words.site_clock import SiteClock
from gui.commands.parsing import (
    add_blur,
    add_evening,
    add_json,
    add_profile,
    add_site,
    altitude_deg,
    checked,
)
from gui.commands.sky import choose_site, night_around, night_of, read_time


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    parser.add_argument("--scope", metavar="S", help="name or id of a telescope; the first when left out")
    parser.add_argument(
        "--planet", metavar="P", help="a planet or the Moon, at its highest unless --at is given"
    )
    parser.add_argument(
        "--at", metavar="TIME", help="ISO 8601, with offset, or site time: 2026-12-05T21:30; with --planet"
    )
    parser.add_argument(
        "--altitude",
        metavar="DEG",
        type=checked(altitude_deg),
        help="a height in place of a planet, 0 to 90 degrees",
    )
    add_site(parser)
    add_evening(parser)
    add_blur(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the ladder."""
    if args.altitude is not None and args.planet is not None:
        raise refuse("goes without --planet: a planet has a height of its own", where="--altitude")
    if args.at is not None and args.planet is None:
        raise refuse("goes with --planet: without one a time means nothing", where="--at")
    profile = read_profile(args.profile)
    scope = choose(profile.telescopes, args.scope, what="telescope", where="--scope")
    aim, clock = aim_overhead(), None
    if args.altitude is not None:
        aim = aim_altitude(args.altitude)
    elif args.planet is not None:
        planet = choose_planet(args.planet, where="--planet")
        site = choose_site(profile, args.site)
        aim = _aim_at_planet(planet, site, args, now)
        clock = SiteClock(zone=site.zone, hours=profile.preferences.clock)
    ladder = ladder_of(profile, scope, aim, args)
    return to_json(ladder_json(ladder)) if args.json else ladder_text(ladder, clock=clock)


def ladder_of(profile: Profile, scope: Telescope, aim: Aim, args: Namespace) -> Ladder:
    """Return the ladder of a telescope with all that the profile's owner has."""
    return build_ladder(
        scope=scope,
        eyepieces=profile.eyepieces,
        barlows=profile.barlows,
        eye=profile.eye,
        aim=aim,
        blur=args.blur,
    )


def _aim_at_planet(planet: Body, site: Site, args: Namespace, now: datetime) -> Aim:
    if args.at is None:
        return aim_at(night_of(site, args.evening, now), planet)
    moment = read_time(site, args.at)
    return aim_at(night_around(site, args.evening, moment), planet, moment)
