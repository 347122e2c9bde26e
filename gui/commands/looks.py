"""``stillair looks``: how one planet looks at a time, and what a telescope makes of it."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.looks import looks_json
from core.export.parts import to_json
from core.ladder.aim import aim_at
from core.looks.looks import find_happenings, find_looks
from core.record.choose import choose, choose_planet
from core.record.profile import read_profile
from core.report.looks import looks_text
from gui.commands.ladder import ladder_of
from gui.commands.parsing import add_blur, add_evening, add_json, add_profile, add_site
from gui.commands.sky import choose_site, night_around, night_of, read_time


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    parser.add_argument(
        "--planet",
        metavar="P",
        required=True,
        help="a planet or the Moon, in its best minutes unless --at is given",
    )
    parser.add_argument("--at", metavar="TIME", help="ISO 8601, with offset, or site time: 2026-12-05T21:30")
    parser.add_argument("--scope", metavar="S", help="name or id of a telescope; the first when left out")
    add_site(parser)
    add_evening(parser)
    add_blur(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the looks; a profile without a telescope gets the facts alone."""
    profile = read_profile(args.profile)
    site, planet = choose_site(profile, args.site), choose_planet(args.planet, where="--planet")
    moment = None if args.at is None else read_time(site, args.at)
    night = night_of(site, args.evening, now) if moment is None else night_around(site, args.evening, moment)
    ladder = None
    if profile.telescopes or args.scope is not None:
        scope = choose(profile.telescopes, args.scope, what="telescope", where="--scope")
        ladder = ladder_of(profile, scope, aim_at(night, planet, moment), args)
    happenings = find_happenings(night, planet, profile.red_spot)
    looks = find_looks(night, planet, at=moment, ladder=ladder, happenings=happenings)
    return to_json(looks_json(looks)) if args.json else looks_text(looks, clock=profile.preferences.clock)
