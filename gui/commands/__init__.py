"""The commands of the terminal: modules with ``add_arguments`` and ``run``, loaded when asked for.

None of them imports Qt but the one that takes pictures of the window, and that only when it runs.
"""

import importlib
from argparse import ArgumentParser, Namespace
from datetime import datetime
from typing import Protocol, cast

from attrs import frozen


class CommandModule(Protocol):
    """What a command's module offers."""

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Declare what the command takes."""

    def run(self, args: Namespace, now: datetime) -> str:
        """Return what the command tells; ProblemsError for input that it refuses."""


@frozen
class Command:
    """One command: its word, what it is about in a few words, and what it does with that."""

    name: str
    summary: str
    verb: str = "Show"

    def load(self) -> CommandModule:
        """Import the command's module."""
        return cast("CommandModule", importlib.import_module(f"{__name__}.{self.name}"))


COMMANDS = {
    command.name: command
    for command in (
        Command("heights", "when and how high each planet stands in one evening"),
        Command("ladder", "every power of a telescope and how far the air lets you climb"),
        Command("compare", "two telescopes side by side", verb="Compare"),
        Command("looks", "how a planet looks at a time, and what a telescope makes of it"),
        Command("evening", "the evening in order: what to prepare, what to look at, when to stop"),
        Command("year", "a planet's best weeks, and a year of evenings"),
        Command("dates", "the next evenings on which planets stand high enough"),
        Command("log", "what was written at the eyepiece: verdicts and notes"),
        Command("sheet", "one evening on paper, in a calendar or as a table", verb="Save"),
        Command("snapshot", "pictures of the three views, without a display", verb="Save"),
    )
}
