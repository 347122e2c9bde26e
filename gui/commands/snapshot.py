"""``stillair snapshot``: pictures of the three views."""

import os
from argparse import ArgumentParser, Namespace
from datetime import datetime
from pathlib import Path

from core.drawing.palette import PALETTES
from core.plain_text import printable
from core.problems import refuse
from core.record.profile import read_profile
from core.words.commands import NEEDS_A_SITE, NO_FOLDER
from gui.commands.chosen import choose_site, evening_meant, read_time
from gui.commands.parsing import add_evening, add_profile, checked, scale, size
from gui.display import check_qt


def add_arguments(parser: ArgumentParser) -> None:
    """Declare what the command takes."""
    add_profile(parser)
    add_evening(parser)
    parser.add_argument("--at", metavar="TIME", help="the moment shown: ISO 8601, with offset, or site time")
    parser.add_argument("--palette", choices=PALETTES, default="day", help="colours; day when left out")
    parser.add_argument(
        "--size",
        metavar="WxH",
        type=checked(size),
        default=(1000, 640),
        help="size of the window in pixels; 1000x640 when left out",
    )
    parser.add_argument(
        "--scale",
        metavar="N",
        type=checked(scale),
        default=1.0,
        help="pixels of the picture for one of the window, 0.5 to 4; 1 when left out",
    )
    parser.add_argument("-o", dest="folder", metavar="FOLDER", type=Path, required=True, help="where they go")


def run(args: Namespace, now: datetime) -> str:
    """Take the pictures and return their paths, one a line."""
    profile = read_profile(args.profile)
    evening, moment = args.evening, None
    if profile.sites:
        site = choose_site(profile, None)
        moment = None if args.at is None else read_time(site, args.at)
        meant = evening_meant(site, args.evening, moment, now)
        # Left open it is tonight's, which the window follows.
        evening = args.evening if moment is None else meant
    elif args.at is not None:
        raise refuse(NEEDS_A_SITE, where="--at")
    if args.folder.exists() and not args.folder.is_dir():
        raise refuse(NO_FOLDER.format(file=printable(args.folder.name)), where="-o")
    # Pictures are taken the same way with and without a display.
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    check_qt()
    from gui.window.snapshot import take_snapshots

    pictures = take_snapshots(
        args.profile,
        evening=evening,
        at=moment,
        palette=args.palette,
        size=args.size,
        scale=args.scale,
        folder=args.folder,
    )
    return "\n".join(printable(str(picture)) for picture in pictures)
