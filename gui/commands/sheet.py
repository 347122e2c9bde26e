"""``stillair sheet``: one evening on paper, as a picture, in a calendar or as a table."""

from argparse import ArgumentParser, Namespace
from datetime import datetime
from pathlib import Path

from core.drawing.paper_sizes import PAPERS, Paper
from core.export.evening_file import check_ending, write_evening
from core.plain_text import printable
from core.problems import refuse
from core.words.commands import IS_THERE
from core.words.evening_sheet import SAVED
from gui.commands.asking import Asked, situation_of
from gui.commands.parsing import add_place_and_evening, add_profile, add_scope


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    add_scope(parser)
    add_place_and_evening(parser)
    parser.add_argument(
        "--paper", choices=PAPERS, default=PAPERS[0], help="size of the page; a4 when left out"
    )
    parser.add_argument("--with-place", action="store_true", help="put the site's coordinates on it as well")
    parser.add_argument("--replace", action="store_true", help="write over a file that is there already")
    parser.add_argument(
        "-o",
        dest="file",
        metavar="FILE",
        type=Path,
        required=True,
        help="where it goes; the name ends in .pdf, .png, .ics (a calendar) or .csv (a table)",
    )


def run(args: Namespace, now: datetime) -> str:
    """Write the file and return where it is."""
    check_ending(args.file)
    if args.file.exists() and not args.replace:
        raise refuse(IS_THERE.format(file=printable(args.file.name)), where="-o")
    situation = situation_of(args, now, needs=Asked.NIGHT)
    write_evening(args.file, situation, Paper(args.paper), with_place=args.with_place)
    return SAVED.format(path=printable(str(args.file)))
