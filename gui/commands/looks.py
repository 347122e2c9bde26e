"""``stillair looks``: how one planet looks at a time, and what a telescope makes of it."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.looks import looks_json
from core.export.parts import to_json
from core.report.looks import looks_text
from core.words.finding import ways_to_find
from gui.commands.asking import Asked, situation_of
from gui.commands.parsing import (
    add_blur,
    add_json,
    add_place_and_evening,
    add_planet,
    add_profile,
    add_scope,
)
from gui.terminal import terminal_width


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    add_planet(parser, "a planet or the Moon, in its best moment unless --at is given", required=True)
    parser.add_argument("--at", metavar="TIME", help="ISO 8601, with offset, or site time: 2026-12-05T21:30")
    add_scope(parser)
    add_place_and_evening(parser)
    add_blur(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return what is told; a profile without a telescope gets the facts alone."""
    situation = situation_of(args, now, needs=Asked.NIGHT)
    appearance = situation.appearance
    assert appearance is not None  # there are a night and a planet
    filters = situation.best_filter_offers
    if args.json:
        return to_json(looks_json(appearance, filters=filters, finding=situation.finding))
    return looks_text(
        appearance,
        filters=filters,
        ways=ways_to_find(situation),
        clock=situation.preferences.clock,
        width=terminal_width(),
    )
