"""``stillair log``: what was written at the eyepiece, and the log of another machine taken in."""

from argparse import ArgumentParser, Namespace
from datetime import datetime
from pathlib import Path

from core.export.log import log_csv, log_json
from core.export.parts import to_json
from core.plain_text import printable, wrapped
from core.problems import refuse
from core.record.folders import data_folder
from core.record.log import Log
from core.record.log_file import read_log_file
from core.record.profile import read_profile
from core.report.log import log_text
from core.words.commands import WHOLE_FILE_IS_READ
from core.words.log import NOTHING_FOUND, NOTHING_YET, imported_text
from gui.commands.parsing import add_profile, checked, iso_date
from gui.terminal import terminal_width


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    parser.add_argument(
        "--since", metavar="D", type=checked(iso_date), help="first evening to show, YYYY-MM-DD"
    )
    parser.add_argument("--search", metavar="TEXT", default="", help="only lines with all of these words")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print one JSON object instead of text")
    form.add_argument("--csv", action="store_true", help="print CSV for a spreadsheet instead of text")
    form.add_argument(
        "--import",
        dest="import_from",
        metavar="FILE.json",
        type=Path,
        help="add the lines of a log that was written with --json; those known already are left out",
    )


def run(args: Namespace, now: datetime) -> str:  # noqa: ARG001 - every command is told the time
    """Return the lines of the log for the profile."""
    profile = read_profile(args.profile)
    taken = None
    if args.import_from is not None:
        if args.since is not None or args.search:
            raise refuse(WHOLE_FILE_IS_READ, where="--import")
        taken = read_log_file(args.import_from)
    log = Log.open(data_folder())
    try:
        if taken is not None:
            return imported_text(log.add_unknown(taken))
        entries = log.entries(profile.id, since=args.since, search=args.search) if profile.id else ()
    finally:
        log.close()
    if args.json:
        return to_json(log_json(entries))
    if args.csv:
        return log_csv(entries).rstrip("\r\n")
    if entries:
        return log_text(entries, clock=profile.preferences.clock, width=terminal_width())
    empty = NOTHING_FOUND if args.search or args.since else NOTHING_YET
    told = empty.format(observer=printable(profile.observer or args.profile.name))
    return "\n".join(wrapped(told, terminal_width()))
