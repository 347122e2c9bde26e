"""``stillair evening``: the evening in order."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.evening import evening_json
from core.export.parts import to_json
from core.report.evening import evening_text
from gui.commands.asking import Asked, situation_of
from gui.commands.parsing import add_json, add_place_and_evening, add_profile, add_scope
from gui.commands.warmth import add_temperatures
from gui.terminal import terminal_width


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    add_scope(parser)
    add_place_and_evening(parser)
    add_temperatures(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the steps of the evening for one telescope."""
    situation = situation_of(args, now, needs=Asked.NIGHT)
    return to_json(evening_json(situation)) if args.json else evening_text(situation, width=terminal_width())
