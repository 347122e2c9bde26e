"""``stillair ladder``: every power of one telescope, where it points and in what air."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.ladder import ladder_json
from core.export.parts import to_json
from core.problems import refuse
from core.report.ladder import ladder_text
from core.words.answer import better_words
from core.words.commands import GOES_WITH_PLANET, GOES_WITHOUT_PLANET
from core.words.site_clock import clock_of
from core.words.units import Units
from gui.commands.asking import Asked, situation_of
from gui.commands.parsing import (
    add_blur,
    add_json,
    add_place_and_evening,
    add_planet,
    add_profile,
    add_scope,
    altitude_deg,
    checked,
)
from gui.terminal import terminal_width


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    add_scope(parser)
    add_planet(parser, "a planet or the Moon, in its best moment unless --at is given")
    parser.add_argument(
        "--at", metavar="TIME", help="ISO 8601, with offset, or site time: 2026-12-05T21:30; with --planet"
    )
    parser.add_argument(
        "--altitude",
        metavar="DEG",
        type=checked(altitude_deg),
        help="a height instead of a planet, 0 to 90 degrees",
    )
    add_place_and_evening(parser)
    add_blur(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the ladder."""
    if args.altitude is not None and args.planet is not None:
        raise refuse(GOES_WITHOUT_PLANET, where="--altitude")
    if args.at is not None and args.planet is None:
        raise refuse(GOES_WITH_PLANET, where="--at")
    situation = situation_of(args, now, needs=Asked.SCOPE)
    ladder = situation.ladder
    assert ladder is not None  # there is a telescope
    to_buy, units = situation.to_buy, Units(situation.preferences)
    if args.json:
        return to_json(ladder_json(ladder, to_buy=to_buy, units=units))
    # When it will be better is sought only for a planet that has no moment this evening.
    later = None if ladder.aim.overhead or ladder.aim.is_offered else better_words(situation)
    return ladder_text(
        ladder, to_buy=to_buy, clock=clock_of(situation), later=later, units=units, width=terminal_width()
    )
