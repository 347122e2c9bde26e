"""``stillair year``: a year of evenings for one planet."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.air.usual_air import USUAL_BLUR_ARCSEC
from core.export.parts import to_json
from core.export.year import year_json
from core.gear.combinations import combinations
from core.gear.numbers import parse_within
from core.moments.details import Sharpness
from core.problems import ProblemsError, refuse
from core.record.profile import read_profile
from core.report.year import year_text
from core.sky.bodies import Body
from core.sky.civil import tonight
from core.words.commands import GOES_WITH_MARS
from core.year.mars_faces import MARS_LONGITUDE_DEG
from core.year.year import compute_year
from gui.commands.chosen import choose_site, scope_if_any
from gui.commands.parsing import (
    add_first_evening,
    add_json,
    add_planet,
    add_profile,
    add_scope,
    add_site,
    blur,
    checked,
    placed,
)
from gui.terminal import terminal_width


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    add_planet(parser, "a planet or the Moon", required=True)
    add_site(parser)
    add_scope(parser)
    parser.add_argument(
        "--blur",
        metavar="ARCSEC",
        type=checked(blur),
        help="usual blur straight overhead, 0.2 to 8 arcsec; 1.6 when left out",
    )
    add_first_evening(parser)
    parser.add_argument(
        "--longitude",
        metavar="DEG",
        type=checked(_mars_longitude_deg),
        help="a longitude on Mars, west, 0 to 360 degrees: on which evenings it faces us; with --planet mars",
    )
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the year."""
    profile = read_profile(args.profile)
    site, planet = choose_site(profile, args.site), args.planet
    if args.longitude is not None and planet is not Body.MARS:
        raise refuse(GOES_WITH_MARS, where="--longitude")
    scope = scope_if_any(profile, args.scope)
    first = tonight(site, now) if args.first is None else args.first
    try:
        year = compute_year(
            site,
            planet,
            first,
            sharpness=Sharpness.through(
                scope, USUAL_BLUR_ARCSEC if args.blur is None else args.blur.overhead_arcsec
            ),
            dark_below_deg=profile.dark.sun_altitude_deg_of(planet),
            mars_longitude_deg=args.longitude,
        )
    except ProblemsError as error:
        raise placed(error, "--from") from None
    kit = () if scope is None else combinations(scope, profile.eyepieces, profile.barlows)
    if args.json:
        return to_json(year_json(year, kit=kit))
    return year_text(year, kit=kit, clock=profile.preferences.clock, width=terminal_width())


def _mars_longitude_deg(text: str) -> float:
    """Return a longitude on Mars, west, in degrees."""
    return parse_within(text, MARS_LONGITUDE_DEG)
