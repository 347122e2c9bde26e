"""``stillair compare``: two telescopes under the same sky."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.ladder import compare_json
from core.export.parts import to_json
from core.ladder.aim import aim_at, aim_overhead
from core.ladder.compare import compare
from core.record.choose import choose, choose_planet
from core.record.profile import read_profile
from core.report.ladder import compare_text
from core.words.site_clock import SiteClock
from gui.commands.ladder import ladder_of
from gui.commands.parsing import add_blur, add_evening, add_json, add_profile, add_site
from gui.commands.sky import choose_site, night_of


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    parser.add_argument("scope_a", metavar="SCOPE_A", help="name or id of a telescope")
    parser.add_argument("scope_b", metavar="SCOPE_B", help="name or id of another telescope")
    parser.add_argument(
        "--planet", metavar="P", help="a planet or the Moon, at its highest; overhead when left out"
    )
    add_site(parser)
    add_evening(parser)
    add_blur(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the comparison."""
    profile = read_profile(args.profile)
    scope_a = choose(profile.telescopes, args.scope_a, what="telescope", where="SCOPE_A")
    scope_b = choose(profile.telescopes, args.scope_b, what="telescope", where="SCOPE_B")
    aim, disc_arcsec, clock = aim_overhead(), None, None
    if args.planet is not None:
        planet = choose_planet(args.planet, where="--planet")
        night = night_of(choose_site(profile, args.site), args.evening, now)
        aim, disc_arcsec = aim_at(night, planet), night.of(planet).diameter_arcsec
        clock = SiteClock(zone=night.site.zone, hours=profile.preferences.clock)
    comparison = compare(
        ladder_of(profile, scope_a, aim, args),
        ladder_of(profile, scope_b, aim, args),
        disc_arcsec=disc_arcsec,
    )
    return to_json(compare_json(comparison)) if args.json else compare_text(comparison, clock=clock)
