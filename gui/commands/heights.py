"""``stillair heights``: one evening, every body."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.heights import heights_json
from core.export.parts import to_json
from core.report.heights import heights_text
from gui.commands.asking import Asked, situation_of
from gui.commands.parsing import add_blur, add_json, add_place_and_evening, add_profile, add_scope
from gui.terminal import terminal_width


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    add_scope(parser)
    add_place_and_evening(parser)
    add_blur(parser)
    parser.add_argument("--now", metavar="TIME", help="the present moment, instead of the clock's")
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the evening, with the answer for one telescope."""
    situation = situation_of(args, now, needs=Asked.NIGHT)
    return to_json(heights_json(situation)) if args.json else heights_text(situation, width=terminal_width())
