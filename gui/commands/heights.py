"""``stillair heights``: one evening, every body."""

from argparse import ArgumentParser, Namespace
from datetime import datetime

from core.export.heights import heights_json
from core.export.parts import to_json
from core.record.profile import read_profile
from core.report.heights import heights_text
from core.tonight.answer import answer
from core.year.better import better_evening
from gui.commands.parsing import add_evening, add_json, add_profile, add_site
from gui.commands.sky import choose_site, night_of


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    add_site(parser)
    add_evening(parser)
    add_json(parser)


def run(args: Namespace, now: datetime) -> str:
    """Return the evening, with the answer for the profile's first telescope."""
    profile = read_profile(args.profile)
    night = night_of(choose_site(profile, args.site), args.evening, now)
    clock = profile.preferences.clock
    told = answer(
        night,
        scope=profile.telescopes[0] if profile.telescopes else None,
        eyepieces=profile.eyepieces,
        barlows=profile.barlows,
        eye=profile.eye,
        now=now,
        clock=clock,
        better=better_evening,
    )
    return to_json(heights_json(night, told)) if args.json else heights_text(night, told, clock=clock)
