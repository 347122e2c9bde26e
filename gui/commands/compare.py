"""``stillair compare``: two telescopes under the same sky."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.ladder import compare_json
from core.export.parts import to_json
from core.report.ladder import compare_text
from core.words.site_clock import clock_of
from core.words.units import Units
from gui.commands.asking import Asked, situation_of
from gui.commands.parsing import add_blur, add_json, add_place_and_evening, add_planet, add_profile
from gui.terminal import terminal_width


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    parser.add_argument("scope_a", metavar="SCOPE_A", help="name or id of a telescope")
    parser.add_argument("scope_b", metavar="SCOPE_B", help="name or id of another telescope")
    add_planet(parser, "a planet or the Moon, in its best moment; overhead when left out")
    add_place_and_evening(parser)
    add_blur(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the comparison."""
    situation = situation_of(args, now, needs=Asked.TWO_SCOPES)
    comparison = situation.comparison
    assert comparison is not None  # there are two telescopes
    to_buy = situation.compared_to_buy
    if args.json:
        return to_json(compare_json(comparison, to_buy=to_buy, units=Units(situation.preferences)))
    return compare_text(comparison, to_buy=to_buy, clock=clock_of(situation), width=terminal_width())
