"""Read the words of a command line; whatever is wrong with them is told as one plain sentence each."""

import re
from argparse import ArgumentParser, ArgumentTypeError
from collections.abc import Callable
from contextlib import suppress
from datetime import date
from functools import partial
from pathlib import Path
from typing import NoReturn, TypeVar

from core.air.blur import BLUR_ARCSEC, Blur
from core.gear.numbers import parse_number, parse_within, shown
from core.moments.hours import Twilight, read_hour
from core.plain_text import fitted, printable
from core.problems import Problem, ProblemsError, refuse
from core.record.choose import choose_planet
from core.words.commands import MUST_BE_DATE, MUST_BE_SIZE, SEE_HELP
from gui.terminal import terminal_width, write

T = TypeVar("T")

_ISO_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
_SIZE = re.compile(r"(\d{1,5})[xX×](\d{1,5})")


class Parser(ArgumentParser):
    """An argument parser that raises ProblemsError and takes no shortened option names."""

    def __init__(self, *, prog: str, description: str, epilog: str | None = None) -> None:
        super().__init__(prog=prog, description=description, epilog=epilog, allow_abbrev=False)

    def error(self, message: str) -> NoReturn:
        """Refuse the line; ``argument --blur: ...`` is told as ``--blur: ...``."""
        told = printable(message.removeprefix("argument "))
        raise refuse(SEE_HELP.format(problem=told, program=self.prog))

    def _print_message(self, message: str, file: object = None) -> None:
        """Print help or version; argparse itself would keep silent where the output takes no more."""
        width = terminal_width()
        write("\n".join(part for line in message.splitlines() for part in fitted(line, width)))


def add_profile(parser: ArgumentParser) -> None:
    """Declare the profile that a command reads."""
    parser.add_argument("profile", metavar="PROFILE", type=Path, help="a profile file (TOML)")


def add_planet(parser: ArgumentParser, told: str, *, required: bool = False) -> None:
    """Declare the planet that is meant; ``told`` says what may be, and at which moment."""
    parser.add_argument("--planet", metavar="P", type=checked(choose_planet), required=required, help=told)


def add_place_and_evening(parser: ArgumentParser) -> None:
    """Declare from where one looks, on which evening, and in which hours of it."""
    add_site(parser)
    add_evening(parser)
    add_hours(parser)


def add_site(parser: ArgumentParser) -> None:
    """Declare which of the profile's sites is meant."""
    parser.add_argument("--site", metavar="S", help="name or id of a site; the first one when left out")


def add_scope(parser: ArgumentParser) -> None:
    """Declare which of the profile's telescopes is meant."""
    parser.add_argument("--scope", metavar="S", help="name or id of a telescope; the first when left out")


def add_evening(parser: ArgumentParser) -> None:
    """Declare which evening is meant."""
    parser.add_argument(
        "--evening",
        metavar="D",
        type=checked(iso_date),
        help="date on which the evening begins, YYYY-MM-DD; tonight when left out",
    )


def add_hours(parser: ArgumentParser) -> None:
    """Declare the hours outside that count for this evening."""
    parser.add_argument(
        "--out-from",
        metavar="HH:MM|dusk",
        type=checked(partial(read_hour, twilight=Twilight.DUSK)),
        help="site time from which you are outside (before noon: of the next date); as usual when left out",
    )
    parser.add_argument(
        "--out-until",
        metavar="HH:MM|dawn",
        type=checked(partial(read_hour, twilight=Twilight.DAWN)),
        help="site time until which you are outside (before noon: of the next date); as usual when left out",
    )


def add_first_evening(parser: ArgumentParser) -> None:
    """Declare from which evening on is searched or told."""
    parser.add_argument(
        "--from",
        dest="first",
        metavar="D",
        type=checked(iso_date),
        help="date of the first evening, YYYY-MM-DD; tonight when left out",
    )


def add_blur(parser: ArgumentParser) -> None:
    """Declare tonight's blur."""
    parser.add_argument(
        "--blur",
        metavar="ARCSEC",
        type=checked(blur),
        default=Blur.assumed(),
        help="tonight's blur straight overhead, 0.2 to 8 arcsec; fair air is assumed when left out",
    )


def add_json(parser: ArgumentParser) -> None:
    """Declare the choice of JSON."""
    parser.add_argument("--json", action="store_true", help="print one JSON object instead of text")


def checked(read: Callable[[str], T]) -> Callable[[str], T]:
    """Return a reader of one word whose refusal argparse tells together with the word's place."""

    def read_or_refuse(text: str) -> T:
        try:
            return read(text)
        except ProblemsError as error:
            raise ArgumentTypeError(str(error).strip(" .")) from None

    return read_or_refuse


def placed(error: ProblemsError, where: str) -> ProblemsError:
    """Return an error with a place for those of its problems that have none."""
    return ProblemsError(*(Problem(problem.where or where, problem.what) for problem in error.problems))


def iso_date(text: str) -> date:
    """Return a date written as YYYY-MM-DD."""
    # Only the one form: date.fromisoformat takes others as well.
    with suppress(ValueError):
        if _ISO_DATE.fullmatch(text):
            return date.fromisoformat(text)
    raise refuse(MUST_BE_DATE.format(typed=shown(text)))


def blur(text: str) -> Blur:
    """Return a blur given in arcsec."""
    return Blur(overhead_arcsec=parse_within(text, BLUR_ARCSEC))


def altitude_deg(text: str) -> float:
    """Return a height above the horizon in degrees."""
    return parse_number(text, low=0, high=90, what="", unit="degrees")


def scale(text: str) -> float:
    """Return how many pixels of a picture stand for one of the window."""
    return parse_number(text, low=0.5, high=4, what="")


def size(text: str) -> tuple[int, int]:
    """Return the width and height of a picture in pixels, from 640x400 to 7680x4320."""
    match = _SIZE.fullmatch(text.strip())
    if match is not None:
        width, height = int(match[1]), int(match[2])
        if 640 <= width <= 7680 and 400 <= height <= 4320:
            return width, height
    raise refuse(MUST_BE_SIZE.format(typed=shown(text)))
